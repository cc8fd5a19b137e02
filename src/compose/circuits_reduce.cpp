// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Reduce: less pressure for those who must not have what the others need.
#include <fmt/format.h>

#include <algorithm>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

/// A check that lets oil back past a relieving valve.
void put_return(Making& making, const std::string& reduced, const std::string& main,
                const std::string& names) {
  const std::string check = making.add("check", fmt::format("lets the oil of {} back", names),
                                       {{"rated_flow", text(making.rated_flow(making.wanted.flow))},
                                        {"rated_pressure", text(making.rated_pressure())}});
  making.join({reduced, check + ".A"});
  making.join({main, check + ".B"});
  making.because(check, "reduce",
                 fmt::format("{} lets the oil of {} back past the reducing valve, which shuts against it",
                             check, names));
}

/// A valve that only shuts cannot let off what leaks past it or gets warm.
void put_its_relief(Making& making, const std::string& reduced, const std::string& names, double most) {
  constexpr double below = 0.9;
  const std::string relief = making.add("relief", fmt::format("guards {}", names),
                                        {{"setting", text(making.say(below * most, Quantity::pressure, -1))},
                                         {"rated_flow", text(making.rated_flow(0.1 * making.wanted.flow))},
                                         {"rated_pressure", text(making.rated_pressure())}});
  making.join({reduced, relief + ".P"});
  making.to_tank(relief + ".T");
  making.because(
      relief, "relieve",
      fmt::format("{} lets off what leaks past the reducing valve or gets warm behind it: {} must not "
                  "come to the main pressure",
                  relief, names));
}

void put_reducing(Making& making, Branch& branch, const std::vector<End>& weak, bool relieving) {
  std::vector<int> members;
  std::vector<std::string> ports;
  for (const End& end : weak) {
    members.insert(members.end(), end.members.begin(), end.members.end());
    ports.push_back(end.port);
  }
  const std::string names = making.wanted.names(members);
  const auto tightest = std::ranges::min_element(members, {}, [&](int m) { return making.actuator(m).most; });
  const Actuator& a = making.actuator(*tightest);
  const std::string valve = making.add(relieving ? "reducing" : "reducing_non_relieving",
                                       fmt::format("set with nothing flowing; for {}", names),
                                       {{"setting", to_find},
                                        {"rated_flow", text(making.rated_flow(making.wanted.flow))},
                                        {"rated_pressure", text(making.rated_pressure())}});
  ports.push_back(valve + ".A");
  making.join(ports);
  making.to_tank(valve + ".T");
  making.because(valve, "reduce",
                 fmt::format("{} keeps {} below {}, as \"{}\" asks; the others on the line need {}", valve,
                             names, making.wanted.show(a.most, Quantity::pressure), a.most_for,
                             making.wanted.show(making.wanted.pressure, Quantity::pressure)));
  making.gauge_at(ports.front(), fmt::format("at {}", names),
                  fmt::format("shows the reduced pressure of {}, by which its valve is set", names), "gauge",
                  a.most);
  if (relieving) {
    put_return(making, ports.front(), valve + ".P", names);
  } else {
    put_its_relief(making, ports.front(), names, a.most);
  }
  branch.ends.push_back({members, valve + ".P"});
}

}  // namespace

void block_reduce(Making& making, int way) {
  for (Branch& branch : making.branches) {
    for (const auto& stage : branch.stages) {
      std::vector<End> weak;
      for (const End& end : branch.ends) {
        const int m = end.members.front();
        if (is_in(stage, m) && is_in(branch.group->weaker, m)) weak.push_back(end);
      }
      if (weak.empty()) continue;
      std::erase_if(branch.ends, [&](const End& end) {
        return is_in(stage, end.members.front()) && is_in(branch.group->weaker, end.members.front());
      });
      put_reducing(making, branch, weak, way == 0);
    }
  }
}

}  // namespace poise::compose
