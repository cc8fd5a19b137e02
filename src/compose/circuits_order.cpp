// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Order: what comes first, and how the rest is made to wait; and sequence valves, which are one way of it.
#include <fmt/format.h>

#include <algorithm>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

Goes pressing(const Actuator& a, Goes goes) {
  if (!a.pulls || goes == Goes::hold) return goes;
  return goes == Goes::out ? Goes::in : Goes::out;
}

Branch branch_of(const Making& making, const Group& group, std::vector<std::vector<int>> stages) {
  Branch branch{.group = &group, .stages = std::move(stages)};
  for (const int m : branch.members()) {
    const Actuator& a = making.actuator(m);
    branch.ends.push_back({{m}, a.tag + ".A"});
    if (a.both) branch.backs.push_back(a.tag + ".B");
  }
  const Actuator& first = making.wanted.first(group);
  for (const Goes goes : first.goes) branch.goes.push_back(pressing(first, goes));
  return branch;
}

/// The conditions by which a stage has done what the order asks for, with a little to spare.
std::vector<std::string> conditions_of(const Making& making, const std::vector<int>& stage) {
  constexpr double to_spare = 1.05;
  std::vector<std::string> found;
  for (const Requirement& requirement : making.wanted.job.requirements) {
    const auto* order = std::get_if<Order>(&requirement.what);
    if (!order) continue;
    for (const Condition& condition : order->first) {
      const auto about = actuators_of(making.wanted, condition.signal.part);
      if (!std::ranges::any_of(about, [&](int one) { return is_in(stage, one); })) continue;
      const Quantity quantity = condition.signal.quantity;
      const bool force = quantity == Quantity::force || quantity == Quantity::pressure;
      const double value = condition.threshold * (force && condition.above ? to_spare : 1.0);
      found.push_back(fmt::format("{} {} {:.4g} {}", condition.signal.name, condition.above ? '>' : '<',
                                  units::in_unit(value, quantity, making.wanted.job.world),
                                  making.wanted.job.world[quantity]));
    }
  }
  return found;
}

/// Lets a group's stages move one step after the other, each by a valve of its own.
void part_steps(Making& making, const Group& group, std::size_t first_branch) {
  const std::size_t stages = group.stages.size();
  for (std::size_t i = 0; i < making.steps.size(); ++i) {
    const Goes before = i == 0 ? Goes::in : making.branches[first_branch].goes[i - 1];
    if (!making.steps[i].is_own() || making.branches[first_branch].goes[i] != Goes::out ||
        before == Goes::out)
      continue;
    for (std::size_t k = 0; k + 1 < stages; ++k) {
      const std::string name = fmt::format("{}, first {}", making.wanted.step(making.steps[i].step).name,
                                           making.wanted.names(group.stages[k]));
      making.put_step(i, {.name = name, .until = conditions_of(making, group.stages[k])}, i);
      for (std::size_t later = k + 1; later < stages; ++later)
        making.branches[first_branch + later].goes[i] = before;
      ++i;
    }
  }
}

/// Joins the ends of a stage to one; empty where what feeds an earlier stage feeds it as well.
std::string joined(Making& making, std::vector<End>& ends, const std::vector<int>& stage) {
  std::vector<std::string> ports;
  for (const End& end : ends) {
    if (is_in(stage, end.members.front())) ports.push_back(end.port);
  }
  if (ports.size() > 1) making.join(ports);
  return ports.empty() ? std::string() : ports.front();
}

void put_sequence(Making& making, const Branch& branch, std::size_t stage, const std::string& before,
                  const std::string& behind) {
  const Wanted& wanted = making.wanted;
  const std::string names = wanted.names(branch.stages[stage]);
  const std::string earlier = wanted.names(branch.stages[stage - 1]);
  const std::string valve =
      making.add("sequence", fmt::format("lets {} come when {} has pressure", names, earlier),
                 {{"setting", to_find},
                  {"rated_flow", text(making.rated_flow(wanted.flow))},
                  {"rated_pressure", text(making.rated_pressure())}});
  making.join({behind, valve + ".B"});
  making.join({before, valve + ".A"});
  making.to_tank(valve + ".Y");
  making.because(
      valve, "sequence",
      fmt::format(
          "{} lets oil to {} only when there are {} or more at {}: \"{}\" asks for that order, and one "
          "valve works them all",
          valve, names, wanted.show(wanted.needs_of(branch.stages[stage - 1]), Quantity::pressure), earlier,
          branch.group->order_for));
}

}  // namespace

void block_order(Making& making, int way) {
  for (const Group& group : making.wanted.groups) {
    if (way == 0 || group.stages.size() < 2) {
      making.branches.push_back(branch_of(making, group, group.stages));
      continue;
    }
    const std::size_t first = making.branches.size();
    for (const auto& stage : group.stages) making.branches.push_back(branch_of(making, group, {stage}));
    part_steps(making, group, first);
  }
}

void block_sequence(Making& making, int) {
  for (Branch& branch : making.branches) {
    std::string behind;
    for (std::size_t k = branch.stages.size(); k-- > 0;) {
      const std::string line = joined(making, branch.ends, branch.stages[k]);
      if (line.empty()) continue;
      if (!branch.group->lifts) {
        const std::string names = making.wanted.names(branch.stages[k]);
        making.gauge_at(line, fmt::format("at {}", names),
                        fmt::format("shows what is pressed at {}, which no gauge at the pump does", names),
                        "gauge");
      }
      if (!behind.empty()) put_sequence(making, branch, k + 1, line, behind);
      behind = line;
    }
    branch.ends = {{branch.members(), behind}};
  }
}

}  // namespace poise::compose
