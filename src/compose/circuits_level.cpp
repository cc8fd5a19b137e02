// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Level: what gives several cylinders the same oil, whatever each of them carries.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

constexpr std::string_view outlets = "ABCD";

std::string asked_for(const Making& making, const Branch& branch) {
  return fmt::format("\"{}\" asks that {} stay level, whatever each of them carries", branch.group->level_for,
                     making.wanted.names(branch.members()));
}

/// Displacement of a section that turns at some 800 1/min, cm3/rev, from a usual row.
double section_size(double flow) {
  constexpr std::array<double, 9> sizes{0.25, 0.5, 1, 2, 4, 8, 16, 32, 63};
  const double wants = flow / (800.0 / 60.0) / si::cm3;
  const auto found = std::ranges::find_if(sizes, [&](double size) { return size >= 0.8 * wants; });
  return found == sizes.end() ? sizes.back() : *found;
}

void put_divider(Making& making, Branch& branch) {
  const double each = making.wanted.flow / static_cast<double>(branch.ends.size());
  const job::Written section{job::Written::List{text(fmt::format("{:g} cm3/rev", section_size(each))),
                                                text(making.say(0.01 * each, Quantity::flow))}};
  const std::string divider = making.add(
      "gear_flow_divider", fmt::format("gives {} the same oil", making.wanted.names(branch.members())),
      {{"sections", {job::Written::List(branch.ends.size(), section)}},
       {"rated_flow", text(making.rated_flow(making.wanted.flow))},
       {"rated_pressure", text(making.rated_pressure())}});
  for (std::size_t i = 0; i < branch.ends.size(); ++i)
    making.join({divider + "." + outlets[i], branch.ends[i].port});
  branch.ends = {{branch.members(), divider + ".P"}};
  making.because(divider, "level",
                 fmt::format("{} gives each cylinder the same oil: {}", divider, asked_for(making, branch)));
}

double lowering_flow(const Making& making, const Branch& branch) {
  double flow = 0.0;
  double slowest = 1e3;
  for (const int m : branch.members()) {
    if (const Actuator& a = making.actuator(m); a.in_limit > 0.0 || a.quick_in > 0.0)
      slowest = std::min(slowest, lowering_speed(a));
  }
  for (const int m : branch.members())
    flow += making.actuator(m).area_a * std::min(slowest, lowering_speed(making.actuator(m)));
  return flow;
}

/// One throttle for what all points give back, or for so many times that.
void meter_together(Making& making, Branch& branch, double times) {
  if (!branch.group->lifts) return;
  double load = 0.0;
  for (const int m : branch.members())
    load = std::max(load, std::abs(making.actuator(m).weight) / making.actuator(m).area_a);
  branch.ends[0].port = meter_at(making, branch.ends[0].port, Metered::coming_back,
                                 times * lowering_flow(making, branch), std::max(load, 5 * si::bar),
                                 fmt::format("{} come down by their load, together, through one throttle",
                                             making.wanted.names(branch.members())));
}

std::string put_flow_control(Making& making, const std::string& end, bool back, double flow, std::string note,
                             std::string sentence) {
  const std::string valve = making.add("compensated_flow_control", note,
                                       {{"flow", text(making.say(flow, Quantity::flow, -1))},
                                        {"reverse_check", text("yes")},
                                        {"rated_flow", text(making.rated_flow(making.wanted.flow))},
                                        {"rated_pressure", text(making.rated_pressure())}});
  making.join({end, valve + (back ? ".A" : ".B")});
  making.because(valve, "level", fmt::format("{} {}", valve, sentence));
  return valve + (back ? ".B" : ".A");
}

void put_flow_controls(Making& making, Branch& branch) {
  const auto points = static_cast<double>(branch.ends.size());
  const double down = lowering_flow(making, branch) / points, up = making.wanted.flow / points;
  std::vector<std::string> ports;
  for (End& end : branch.ends) {
    const std::string& tag = making.actuator(end.members.front()).tag;
    if (branch.group->lifts)
      end.port = put_flow_control(
          making, end.port, true, down, fmt::format("{} down", tag),
          fmt::format("lets {} down as fast as the others: {}", tag, asked_for(making, branch)));
    end.port = put_flow_control(
        making, end.port, false, up, fmt::format("{} up", tag),
        fmt::format("gives {} as much oil as the others: {}", tag, asked_for(making, branch)));
    ports.push_back(end.port);
  }
  making.join(ports);
  branch.ends = {{branch.members(), ports.front()}};
  // Each compensator stands open at rest: without a throttle behind them all points jump as they are let go.
  constexpr double room = 1.2;
  meter_together(making, branch, room);
}

}  // namespace

void block_level(Making& making, int way) {
  for (Branch& branch : making.branches) {
    if (branch.group->level_for.empty() || branch.ends.size() < 2) continue;
    if (way == 0 && branch.ends.size() <= outlets.size()) {
      put_divider(making, branch);
      meter_together(making, branch, 1.0);
    } else {
      put_flow_controls(making, branch);
    }
  }
}

}  // namespace poise::compose
