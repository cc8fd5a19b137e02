// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Hold: what keeps a load up, at the cylinder's port.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

/// One cylinder that carries a load: the port whose oil carries it, and the line of its other side.
struct Carried {
  const Actuator& a;
  std::string port;
  std::string& line;  ///< what stands between the port and the valve, so far
  std::string pilot;  ///< the port that lets it go; empty: only the valve's other side
  bool is_levelled = false;
};

std::string asked_by(const Making& making, const Branch& branch, const Actuator& a) {
  if (!branch.group->held_in)
    return fmt::format("a load of {} rests on {}", making.wanted.show(std::abs(a.weight), Quantity::force),
                       a.tag);
  return fmt::format("step \"{}\" asks it to stay and nothing else does",
                     making.wanted.step(*branch.group->held_in).name);
}

/// Where a valve that holds stands: in the port itself, or behind what stands between.
std::string place_of(const Carried& carried) {
  if (carried.line == carried.port) return "screwed into its port";
  return fmt::format("behind {}", carried.line.substr(0, carried.line.find('.')));
}

/// The line of the port at B of an actuator, among those of its branch; what meters may stand there already.
std::string& back_of(const Making& making, Branch& branch, int member) {
  std::size_t place = 0;
  for (const int m : branch.members()) {
    if (m == member) break;
    if (making.actuator(m).both) ++place;
  }
  return branch.backs[place];
}

void joined_pilot(Making& making, Branch& branch, const Carried& carried, const std::string& pilot) {
  if (carried.pilot.empty()) {
    branch.backs.push_back(pilot);
  } else {
    making.join({carried.pilot, pilot});
  }
}

/// A needle to tank that a hand opens, with the load on its nut or on blocks.
void put_hand_lowering(Making& making, const std::string& port, const Actuator& a) {
  const std::string needle =
      making.needle_to_tank(port, fmt::format("lets {} down by hand; locked shut", a.tag));
  making.because(
      needle, "relieve",
      fmt::format("{} lets {} down by hand: what is shut in must not be let off by cracking a fitting",
                  needle, a.tag));
}

void hold_by_pilot_check(Making& making, Branch& branch, Carried carried) {
  const double ratio = carried.a.area_b > 0.0 && carried.pilot == carried.a.tag + ".A"
                           ? std::max(4.0, std::ceil(carried.a.area_a / carried.a.area_b) + 2.0)
                           : 4.0;
  PartValues values{{"ratio", {ratio}}};
  if (carried.is_levelled) values.emplace_back("drain", text("external"));
  values.emplace_back("rated_flow", text(making.rated_flow(making.wanted.flow)));
  values.emplace_back("rated_pressure", text(making.rated_pressure()));
  const std::string valve =
      making.add("pilot_operated_check", fmt::format("holds {}, {}", carried.a.tag, place_of(carried)),
                 std::move(values));
  making.join({carried.line, valve + ".B"});
  carried.line = valve + ".A";
  joined_pilot(making, branch, carried, valve + ".X");
  if (carried.is_levelled) making.to_tank(valve + ".Y");
  making.because(valve, "hold",
                 fmt::format("{} holds {}: {}", valve, carried.a.tag, asked_by(making, branch, carried.a)));
}

void hold_by_counterbalance(Making& making, Branch& branch, Carried carried) {
  PartValues values{{"setting", to_find}, {"ratio", {3.0}}};
  if (carried.is_levelled) values.emplace_back("spring_chamber", text("vented"));
  values.emplace_back("rated_flow", text(making.rated_flow(making.wanted.flow)));
  values.emplace_back("rated_pressure", text(making.rated_pressure()));
  const std::string valve = making.add(
      "counterbalance", fmt::format("holds {}, {}", carried.a.tag, place_of(carried)), std::move(values));
  making.join({carried.line, valve + ".A"});
  carried.line = valve + ".B";
  joined_pilot(making, branch, carried, valve + ".X");
  if (carried.is_levelled) making.to_tank(valve + ".Y");
  making.because(valve, "hold",
                 fmt::format("{} holds {} and lets it down no faster than it is driven: {}", valve,
                             carried.a.tag, asked_by(making, branch, carried.a)));
}

void hold_by_check(Making& making, Branch& branch, Carried carried) {
  constexpr double above_lowering = 1.6;
  const double lowering = carried.a.area_a * lowering_speed(carried.a);
  const std::string valve = making.add(
      "hose_burst_valve", fmt::format("holds {} when its hose bursts, {}", carried.a.tag, place_of(carried)),
      {{"trip_flow", text(making.say(above_lowering * lowering, Quantity::flow, 1))},
       {"rated_flow", text(making.rated_flow(making.wanted.flow))},
       {"rated_pressure", text(making.rated_pressure())}});
  making.join({carried.line, valve + ".B"});
  carried.line = valve + ".A";
  branch.valve_kind = Branch::Valve::lowers;
  making.pump = Making::Pump::stops;
  making.because(valve, "hold",
                 fmt::format("{} shuts as soon as the hose bursts: what holds {} stands behind that hose",
                             valve, carried.a.tag));
}

}  // namespace

void block_hold(Making& making, int way) {
  for (Branch& branch : making.branches) {
    if (!branch.group->lifts) continue;
    branch.valve_kind = Branch::Valve::holds_in_centre;
    if (making.branches.size() > 1) making.pump = Making::Pump::stops;
    for (End& end : branch.ends) {
      const Actuator& a = making.actuator(end.members.front());
      const bool hangs = a.weight < 0.0 && a.both;
      const std::string port = a.tag + (hangs ? ".B" : ".A");
      std::string& line = hangs ? back_of(making, branch, end.members.front()) : end.port;
      Carried carried{.a = a,
                      .port = port,
                      .line = line,
                      .pilot = hangs ? a.tag + ".A" : (a.both ? a.tag + ".B" : std::string()),
                      .is_levelled = !branch.group->levelled.empty()};
      making.gauge_at(
          port, fmt::format("what {} carries", a.tag),
          fmt::format("shows what {} carries, between it and what holds it, or nobody knows", a.tag),
          "gauge");
      making.guard(
          port, fmt::format("guards {}", a.tag),
          fmt::format("guards what is shut in at {}: the pump's relief valve sees nothing of it", a.tag));
      put_hand_lowering(making, port, a);
      if (way == static_cast<int>(Hold::pilot_check)) hold_by_pilot_check(making, branch, carried);
      if (way == static_cast<int>(Hold::counterbalance)) hold_by_counterbalance(making, branch, carried);
      if (way == static_cast<int>(Hold::check_and_lowering)) hold_by_check(making, branch, carried);
    }
  }
}

}  // namespace poise::compose
