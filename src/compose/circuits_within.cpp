// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What requirements ask within a group: one after the other, level with one another, with less pressure.
#include <fmt/format.h>

#include <algorithm>

#include "compose/circuits_wanted.hpp"

namespace poise::compose {
namespace {

std::vector<int> members_of(const Wanted& wanted, const std::vector<Condition>& conditions,
                            const Group& group) {
  std::vector<int> found;
  for (const Condition& condition : conditions) {
    for (const int one : actuators_of(wanted, condition.signal.part)) {
      if (is_in(group.members, one) && !is_in(found, one)) found.push_back(one);
    }
  }
  return found;
}

/// The stages of a group: what an order names behind another comes one stage later.
void find_stages(const Wanted& wanted, Group& group) {
  std::vector<int> stage(wanted.actuators.size(), 0);
  const auto deepest = static_cast<int>(group.members.size());
  for (int round = 0; round < deepest; ++round) {
    for (const Requirement& requirement : wanted.job.requirements) {
      const auto* order = std::get_if<Order>(&requirement.what);
      if (!order) continue;
      for (const int before : members_of(wanted, order->first, group)) {
        for (const int after : members_of(wanted, order->then, group)) {
          if (before == after || stage[before] >= deepest - 1) continue;
          if (stage[after] <= stage[before]) group.order_for = requirement.name;
          stage[after] = std::max(stage[after], stage[before] + 1);
        }
      }
    }
  }
  for (const int member : group.members) {
    const auto at = static_cast<std::size_t>(stage[member]);
    if (group.stages.size() <= at) group.stages.resize(at + 1);
    group.stages[at].push_back(member);
  }
  std::erase_if(group.stages, [](const auto& each) { return each.empty(); });
}

/// Members of a group that a requirement asks to stay level.
std::vector<int> levelled(const Wanted& wanted, const Requirement& requirement, const Group& group) {
  std::vector<int> found;
  const auto* level = std::get_if<Level>(&requirement.what);
  if (!level) return found;
  for (const Signal& signal : level->signals) {
    const auto all = actuators_of(wanted, signal.part);
    const bool one = signal.what == Signal::What::position && all.size() == 1;
    if (one && is_in(group.members, all[0]) && !is_in(found, all[0])) found.push_back(all[0]);
  }
  return found;
}

/// Adds members to those that stay level, as one with all that they share a member with.
void add_levelled(Group& group, Levelled now) {
  std::erase_if(group.levelled, [&](const Levelled& other) {
    if (std::ranges::none_of(other.members, [&](int m) { return is_in(now.members, m); })) return false;
    for (const int m : other.members) {
      if (!is_in(now.members, m)) now.members.push_back(m);
    }
    return true;
  });
  group.levelled.push_back(std::move(now));
}

/// Finds what is to stay level; the reason why it cannot, or nothing.
std::string find_level(const Wanted& wanted, Group& group) {
  for (const Requirement& requirement : wanted.job.requirements) {
    auto members = levelled(wanted, requirement, group);
    if (members.size() < 2) continue;
    if (group.lifts && wanted.first(group).hangs())
      return fmt::format(
          "\"{}\" asks that {} stay level, but their load pulls them the way they are pressed; "
          "only loads that press against them are levelled",
          requirement.name, wanted.names(members));
    const auto stages = std::ranges::count_if(group.stages, [&](const std::vector<int>& stage) {
      return std::ranges::any_of(members, [&](int m) { return is_in(stage, m); });
    });
    if (stages > 1)
      return fmt::format("\"{}\" asks to stay level what \"{}\" asks to come one after the other",
                         requirement.name, group.order_for);
    add_levelled(group, {requirement.name, std::move(members)});
  }
  return {};
}

void find_weaker(const Wanted& wanted, Group& group) {
  constexpr double band = 1.1;
  const double highest = wanted.needs_of(group.members);
  for (const int m : group.members) {
    if (wanted.actuators[m].most < band * highest) group.weaker.push_back(m);
  }
}

}  // namespace

std::string ask_within(const Wanted& wanted, Group& group) {
  find_stages(wanted, group);
  find_weaker(wanted, group);
  return find_level(wanted, group);
}

}  // namespace poise::compose
