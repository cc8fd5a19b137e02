// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Lock: a nut that carries a raised load while people work at it.
#include <fmt/format.h>

#include <algorithm>

#include "circuit/join.hpp"
#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

constexpr std::string_view nut_time = "6 s";  // a hand takes five

bool has_nut(const Wanted& wanted, const Actuator& a) {
  const Groups joined = join(wanted.job.plan);
  return std::ranges::any_of(joined.members, [&](const std::vector<PortOf>& members) {
    bool own = false, nut = false;
    for (const PortOf& at : members) {
      own = own || at.part == a.part;
      nut = nut || wanted.job.plan.parts[at.part].kind->about.kind == "lock_nut";
    }
    return own && nut;
  });
}

std::string free_name(const Making& making, const std::string& name) {
  for (int number = 1;; ++number) {
    const std::string tried = number == 1 ? name : fmt::format("{} {}", name, number);
    const bool taken =
        std::ranges::find(making.wanted.job.steps, tried, &Step::name) != making.wanted.job.steps.end() ||
        std::ranges::find(making.steps, tried, &RunStep::name) != making.steps.end();
    if (!taken) return tried;
  }
}

RunStep turning(const Making& making, const std::string& name, const std::vector<std::string>& nuts,
                std::string_view to) {
  RunStep step{.name = free_name(making, name), .lasts = std::string(nut_time)};
  for (const std::string& nut : nuts) step.set.emplace_back(nut, to);
  return step;
}

/// The nuts are down while the load is held: a step before to run them down, one behind to run them up.
void turn_nuts(Making& making, std::size_t branch, const std::vector<std::string>& nuts) {
  const auto goes = [&](std::size_t i) { return making.branches[branch].goes[i]; };
  for (std::size_t i = 0; i < making.steps.size(); ++i) {
    if (goes(i) != Goes::hold) continue;
    making.put_step(i, turning(making, "nut down", nuts, "on"), i);
    while (i < making.steps.size() && goes(i) == Goes::hold) ++i;
    if (i == making.steps.size()) return;
    making.put_step(i, turning(making, "nut up", nuts, "off"), i - 1);
  }
}

}  // namespace

void block_lock(Making& making, int) {
  for (std::size_t b = 0; b < making.branches.size(); ++b) {
    const Branch& branch = making.branches[b];
    if (!branch.group->lifts || !branch.group->held_in) continue;
    std::vector<std::string> nuts;
    for (const int m : branch.members()) {
      const Actuator& a = making.actuator(m);
      if (has_nut(making.wanted, a)) continue;
      if (a.weight <= 0.0 || a.pulls) {
        making.because(
            a.tag, "lock",
            fmt::format(
                "the load at {} pulls its rod out, and a nut carries only what presses a rod in: build a "
                "catch that carries it before anyone comes near",
                a.tag));
        continue;
      }
      const std::string nut = making.add("lock_nut", fmt::format("carries what {} holds up", a.tag),
                                         {{"clearance", text("0.5 mm")}});
      making.join({a.tag + ".rod", nut + ".rod"});
      making.because(nut, "lock",
                     fmt::format("{} carries {} at {} in \"{}\": oil alone never holds a load for people",
                                 nut, making.wanted.show(std::abs(a.weight), Quantity::force), a.tag,
                                 making.wanted.step(*branch.group->held_in).name));
      nuts.push_back(nut);
    }
    if (!nuts.empty()) turn_nuts(making, b, nuts);
  }
}

}  // namespace poise::compose
