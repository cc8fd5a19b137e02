// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Level: what gives several cylinders the same oil, whatever each of them carries.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

constexpr std::string_view outlets = "ABCD";

/// Takes the ends of those that stay level out of a branch.
std::vector<End> ends_taken(Branch& branch, const Levelled& levelled) {
  const auto taken = std::stable_partition(branch.ends.begin(), branch.ends.end(), [&](const End& end) {
    return !is_in(levelled.members, end.members.front());
  });
  std::vector<End> ends(taken, branch.ends.end());
  branch.ends.erase(taken, branch.ends.end());
  return ends;
}

std::string asked_for(const Making& making, const Levelled& levelled) {
  return fmt::format("\"{}\" asks that {} stay level, whatever each of them carries", levelled.asked_for,
                     making.wanted.names(levelled.members));
}

/// Displacement of a section that turns at some 800 1/min, cm3/rev, from a usual row.
double section_size(double flow) {
  constexpr std::array<double, 9> sizes{0.25, 0.5, 1, 2, 4, 8, 16, 32, 63};
  const double wants = flow / (800.0 / 60.0) / si::cm3;
  const auto found = std::ranges::find_if(sizes, [&](double size) { return size >= 0.8 * wants; });
  return found == sizes.end() ? sizes.back() : *found;
}

End put_divider(Making& making, const std::vector<End>& ends, const Levelled& levelled) {
  const double each = making.wanted.flow / static_cast<double>(ends.size());
  const job::Written section{job::Written::List{text(fmt::format("{:g} cm3/rev", section_size(each))),
                                                text(making.say(0.01 * each, Quantity::flow))}};
  const std::string divider = making.add(
      "gear_flow_divider", fmt::format("gives {} the same oil", making.wanted.names(levelled.members)),
      {{"sections", {job::Written::List(ends.size(), section)}},
       {"rated_flow", text(making.rated_flow(making.wanted.flow))},
       {"rated_pressure", text(making.rated_pressure())}});
  for (std::size_t i = 0; i < ends.size(); ++i) making.join({divider + "." + outlets[i], ends[i].port});
  making.because(
      divider, "level",
      fmt::format("{} gives each cylinder the same oil: {}", divider, asked_for(making, levelled)));
  return {levelled.members, divider + ".P"};
}

double lowering_flow(const Making& making, const std::vector<int>& members) {
  double flow = 0.0;
  double slowest = 1e3;
  for (const int m : members) {
    if (const Actuator& a = making.actuator(m); a.in_limit > 0.0 || a.quick_in > 0.0)
      slowest = std::min(slowest, lowering_speed(a));
  }
  for (const int m : members)
    flow += making.actuator(m).area_a * std::min(slowest, lowering_speed(making.actuator(m)));
  return flow;
}

/// One throttle for what all members of an end give back, or for so many times that.
void meter_together(Making& making, End& end, double times) {
  double load = 0.0;
  for (const int m : end.members)
    load = std::max(load, std::abs(making.actuator(m).weight) / making.actuator(m).area_a);
  const std::string names = making.wanted.names(end.members);
  end.port = meter_at(
      making, end.port, Metered::coming_back, times * lowering_flow(making, end.members),
      std::max(load, 5 * si::bar),
      end.members.size() > 1
          ? fmt::format("{} come down by their load, together, through one throttle", names)
          : fmt::format("{} comes down by its load, and not through what keeps others level", names));
}

std::string put_flow_control(Making& making, const std::string& end, bool back, double flow,
                             const std::string& note, std::string sentence) {
  const std::string valve = making.add("compensated_flow_control", note,
                                       {{"flow", text(making.say(flow, Quantity::flow, -1))},
                                        {"reverse_check", text("yes")},
                                        {"rated_flow", text(making.rated_flow(making.wanted.flow))},
                                        {"rated_pressure", text(making.rated_pressure())}});
  making.join({end, valve + (back ? ".A" : ".B")});
  making.because(valve, "level", fmt::format("{} {}", valve, sentence));
  return valve + (back ? ".B" : ".A");
}

End put_flow_controls(Making& making, std::vector<End> ends, const Levelled& levelled, bool lifts) {
  const auto points = static_cast<double>(ends.size());
  const double down = lowering_flow(making, levelled.members) / points, up = making.wanted.flow / points;
  std::vector<std::string> ports;
  for (End& end : ends) {
    const std::string& tag = making.actuator(end.members.front()).tag;
    if (lifts)
      end.port = put_flow_control(
          making, end.port, true, down, fmt::format("{} down", tag),
          fmt::format("lets {} down as fast as the others: {}", tag, asked_for(making, levelled)));
    end.port = put_flow_control(
        making, end.port, false, up, fmt::format("{} up", tag),
        fmt::format("gives {} as much oil as the others: {}", tag, asked_for(making, levelled)));
    ports.push_back(end.port);
  }
  making.join(ports);
  return {levelled.members, ports.front()};
}

/// Members that need not stay level with others come down by themselves.
void meter_others(Making& making, Branch& branch) {
  const bool by_counterbalance = making.way_of("hold") == static_cast<int>(Hold::counterbalance);
  for (End& end : branch.ends) {
    if (!by_counterbalance || !making.actuator(end.members.front()).both) meter_together(making, end, 1.0);
  }
}

}  // namespace

void block_level(Making& making, int way) {
  // Each compensator stands open at rest: without a throttle behind them all points jump as they are let go.
  constexpr double room = 1.2;
  for (Branch& branch : making.branches) {
    if (branch.group->levelled.empty()) continue;
    const bool divides = way == 0 && branch.group->members.size() <= outlets.size();
    std::vector<End> together;
    for (const Levelled& levelled : branch.group->levelled) {
      std::vector<End> ends = ends_taken(branch, levelled);
      if (ends.size() < 2) {  // one end already feeds them all
        branch.ends.insert(branch.ends.end(), ends.begin(), ends.end());
        continue;
      }
      End end = divides ? put_divider(making, ends, levelled)
                        : put_flow_controls(making, std::move(ends), levelled, branch.group->lifts);
      if (branch.group->lifts) meter_together(making, end, divides ? 1.0 : room);
      together.push_back(std::move(end));
    }
    if (branch.group->lifts) meter_others(making, branch);
    branch.ends.insert(branch.ends.end(), together.begin(), together.end());
  }
}

}  // namespace poise::compose
