// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Meter: throttles that set a speed.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

constexpr double drop_of_a_feed = 60 * si::bar;  // what a pump leaves over a throttle in its line, about

/// A bore whose needle passes the flow some three turns of eight open.
double needle_bore(const Making& making, double flow, double drop) {
  constexpr double smallest = 0.3 * si::mm, opening = 0.4;
  return std::max(smallest, making.bore_passing(flow, drop, opening));
}

std::string bore_text(const Making& making, double bore) { return making.say(bore, Quantity::length, 1); }

std::string why_lowered(const Making& making, const Actuator& a) {
  if (a.in_limit_for.empty())
    return fmt::format("{} comes down by its weight, and nothing else limits how fast", a.tag);
  return fmt::format("\"{}\" asks that {} comes back no faster than {}", a.in_limit_for, a.tag,
                     making.wanted.show(a.in_limit, Quantity::speed));
}

std::string why_let_out(const Making& making, const Actuator& a) {
  if (a.out_limit_for.empty())
    return fmt::format("{} is pulled out by its load, and nothing else limits how fast", a.tag);
  return fmt::format("\"{}\" asks that {} comes no faster than {}, and its load pulls it out",
                     a.out_limit_for, a.tag, making.wanted.show(a.out_limit, Quantity::speed));
}

/// The speed at which a load that hangs is let out: below what is allowed; else as fast as the pump drives
/// it.
double letting_out_speed(const Making& making, const Branch& branch, const Actuator& a) {
  constexpr double below_limit = 0.7;
  if (a.out_limit > 0.0) return below_limit * a.out_limit;
  double area = 0.0;
  for (const int m : branch.members()) area += making.actuator(m).area_a;
  return making.wanted.flow / area;
}

/// A load that hangs comes down as the rod goes out: the oil that carries it leaves at B.
void meter_hanging(Making& making, Branch& branch, const Actuator& a) {
  const auto back = std::ranges::find(branch.backs, a.tag + ".B");
  const double load = std::max(std::abs(a.weight) / a.area_b, 5 * si::bar);
  *back = meter_at(making, *back, Metered::coming_back, a.area_b * letting_out_speed(making, branch, a), load,
                   why_let_out(making, a));
}

void meter_lift(Making& making, Branch& branch) {
  const bool by_counterbalance = making.way_of("hold") == static_cast<int>(Hold::counterbalance);
  const bool lowers = making.way_of("hold") == static_cast<int>(Hold::check_and_lowering);
  for (End& end : branch.ends) {
    const Actuator& a = making.actuator(end.members.front());
    // A counterbalance valve keeps a cylinder that is driven down to the pump's flow; a valve that lowers has
    // its throttle behind it.
    if (lowers || (by_counterbalance && a.both)) continue;
    if (a.weight < 0.0 && a.both) {
      meter_hanging(making, branch, a);
      continue;
    }
    const double load = std::max(std::abs(a.weight) / a.area_a, 5 * si::bar);
    end.port = meter_at(making, end.port, Metered::coming_back, a.area_a * lowering_speed(a), load,
                        why_lowered(making, a));
  }
}

/// Swing clamps of one stage have one throttle; others that must not come too fast one each.
void meter_press(Making& making, Branch& branch) {
  std::vector<End> ends;
  for (const auto& stage : branch.stages) {
    End swinging;
    double flow = 0.0;
    std::vector<std::string> ports;
    for (const End& end : branch.ends) {
      const Actuator& a = making.actuator(end.members.front());
      if (std::ranges::find(stage, end.members.front()) == stage.end()) continue;
      if (!a.swings) {
        ends.push_back(end);
        if (a.out_limit > 0.0)
          ends.back().port =
              meter_at(making, end.port, Metered::going_out, a.area_a * 0.8 * a.out_limit, drop_of_a_feed,
                       fmt::format("\"{}\" asks that {} comes no faster than {}", a.out_limit_for, a.tag,
                                   making.wanted.show(a.out_limit, Quantity::speed)));
        continue;
      }
      constexpr double swing = 0.8;  // s, more than a usual arm needs
      flow += a.area_a * making.wanted.job.plan.parts[a.part].values["swing_stroke"] / swing;
      ports.push_back(end.port);
      swinging.members.push_back(end.members.front());
    }
    if (ports.empty()) continue;
    if (ports.size() > 1) making.join(ports);
    swinging.port =
        meter_at(making, ports.front(), Metered::going_out, flow, drop_of_a_feed,
                 fmt::format("it slows what flows into {}: an arm must not strike while it swings",
                             making.wanted.names(swinging.members)));
    ends.push_back(std::move(swinging));
  }
  branch.ends = std::move(ends);
}

/// What goes back by oil is slowed by what flows in behind it.
void meter_backs(Making& making, Branch& branch) {
  for (std::string& back : branch.backs) {
    for (const int m : branch.members()) {
      const Actuator& a = making.actuator(m);
      if (back != a.tag + ".B" || a.in_limit == 0.0) continue;
      back = meter_at(making, back, Metered::going_out, a.area_b * 0.8 * a.in_limit, drop_of_a_feed,
                      why_lowered(making, a));
    }
  }
}

}  // namespace

double lowering_speed(const Actuator& a) {
  constexpr double usual = 0.02, below_limit = 0.7, above_need = 1.2;  // m/s, shares
  if (a.in_limit == 0.0) return a.quick_in > 0.0 ? above_need * a.quick_in : usual;
  if (a.quick_in == 0.0 || a.quick_in > a.in_limit) return below_limit * a.in_limit;
  return 0.5 * (a.quick_in + a.in_limit);
}

std::string meter_at(Making& making, const std::string& end, Metered metered, double flow, double drop,
                     std::string sentence) {
  const bool back = metered == Metered::coming_back;
  const std::string note = back ? "sets the speed of what comes back; free the other way"
                                : "sets the speed of what goes out; free on the way back";
  const std::string rated_flow = making.rated_flow(std::max(making.wanted.flow, flow));
  const bool needle = making.way_of("meter") == 0;
  const std::string valve =
      needle ? making.add("one_way_flow_control", note,
                          {{"bore", text(bore_text(making, needle_bore(making, flow, drop)))},
                           {"turns", to_find},
                           {"rated_flow", text(rated_flow)},
                           {"rated_pressure", text(making.rated_pressure())}})
             : making.add("compensated_flow_control", note,
                          {{"flow", to_find},
                           {"reverse_check", text("yes")},
                           {"rated_flow", text(rated_flow)},
                           {"rated_pressure", text(making.rated_pressure())}});
  // The needle meters from B to A, the compensated control from A to B.
  const bool end_at_b = needle == back;
  making.join({end, valve + (end_at_b ? ".B" : ".A")});
  making.because(
      valve, "meter",
      fmt::format("{} meters: {}{}", valve, sentence, needle ? "" : "; it keeps its flow whatever the load"));
  return valve + (end_at_b ? ".A" : ".B");
}

void block_meter(Making& making, int) {
  for (Branch& branch : making.branches) {
    if (!branch.group->levelled.empty() && branch.group->lifts) continue;  // metered with what keeps it level
    if (branch.group->lifts) {
      meter_lift(making, branch);
    } else {
      meter_press(making, branch);
    }
    if (!branch.group->lifts || making.way_of("hold") == static_cast<int>(Hold::counterbalance))
      meter_backs(making, branch);
  }
}

}  // namespace poise::compose
