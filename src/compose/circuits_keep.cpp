// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Keep: how clamps and presses keep their pressure; isolate: checks ahead of valves; let off: before a valve
// lets pressed oil go at one blow.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

std::string asked_by(const Making& making, const Branch& branch) {
  const std::string names = making.wanted.names(branch.members());
  if (!branch.group->held_in) return fmt::format("from step to step nothing lets go of {}", names);
  return fmt::format("step \"{}\" asks {} to stay pressed", making.wanted.step(*branch.group->held_in).name,
                     names);
}

/// The port of the strongest of the last stage, where a switch or an accumulator sees what clamps have.
std::string last_port(const Making& making, const Branch& branch) {
  const auto& stage = branch.stages.back();
  const auto strongest = std::ranges::max_element(stage, {}, [&](int m) {
    return making.actuator(m).most == no_limit ? no_limit : making.actuator(m).needs;
  });
  return making.actuator(*strongest).tag + ".A";
}

/// A hand opens it, when nothing is to be pressed any more.
void put_bleed(Making& making, const std::string& port, const std::string& names) {
  const std::string needle =
      making.needle_to_tank(port, fmt::format("lets off by hand what is shut in at {}", names));
  making.because(needle, "relieve",
                 fmt::format("{} lets off what is shut in at {}, without cracking a fitting", needle, names));
}

void keep_by_pilot_check(Making& making, Branch& branch) {
  const std::string names = making.wanted.names(branch.members());
  const std::string line = branch.ends.front().port;
  const std::string valve = making.add("pilot_operated_check", fmt::format("holds {}", names),
                                       {{"ratio", {4.0}},
                                        {"rated_flow", text(making.rated_flow(2.0 * making.wanted.flow))},
                                        {"rated_pressure", text(making.rated_pressure())}});
  making.join({line, valve + ".B"});
  branch.ends = {{branch.members(), valve + ".A"}};
  branch.backs.push_back(valve + ".X");
  branch.valve_kind = Branch::Valve::holds_in_centre;
  if (making.branches.size() > 1) making.pump = Making::Pump::stops;
  making.because(valve, "hold",
                 fmt::format("{} shuts in what is pressed, so that the pump may idle: {}", valve,
                             asked_by(making, branch)));
  making.guard(line, fmt::format("for the oil that {} shuts in", valve),
               fmt::format("guards what {} shuts in: the pump's relief valve sees nothing of it", valve));
  put_bleed(making, line, names);
}

/// What stops the pump and what would start it: above what is needed, below what a requirement or the ratings
/// let come.
struct Band {
  double made, broken;
};
Band band_of(const Making& making, const Branch& branch) {
  constexpr double usual = 1.14, share_of_room = 0.35, half = 0.45;
  double most = 0.85 * making.wanted.rating;
  for (const int m : branch.members()) {
    const auto& weaker = branch.group->weaker;
    if (std::ranges::find(weaker, m) == weaker.end()) most = std::min(most, making.actuator(m).most);
  }
  const double needs = making.wanted.pressure, room = std::max(most / needs - 1.0, 0.06);
  const double above = std::min(usual - 1.0, share_of_room * room);
  return {needs * (1.0 + above), needs * (1.0 + half * above)};
}

void put_switch(Making& making, const Branch& branch) {
  const auto [made, broken] = band_of(making, branch);
  const std::string names = making.wanted.names(branch.stages.back());
  const std::string contact = making.add("pressure_switch", "pressed: stops the pump",
                                         {{"setting", text(making.say(made, Quantity::pressure))},
                                          {"reset", text(making.say(broken, Quantity::pressure, -1))},
                                          {"rated_pressure", text(making.rated_pressure())}});
  making.join({last_port(making, branch), contact + ".M"});
  making.because(
      contact, "keep",
      fmt::format("{} stops the pump when {} {} pressure enough, {} and some to spare; it sits behind "
                  "the last valve, where the pressure counts",
                  contact, names, branch.stages.back().size() > 1 ? "have" : "has",
                  making.wanted.show(making.wanted.needs_of(branch.members()), Quantity::pressure)));
  making.control(contact + " on", "", "off");
}

void put_accumulator(Making& making, const Branch& branch) {
  constexpr double of_the_strokes = 0.3, precharged = 0.9;
  double volume = 0.0;
  for (const int m : branch.members()) volume += making.actuator(m).area_a * making.actuator(m).way;
  double lowest = 0.0;
  for (const int m : branch.members()) lowest = std::max(lowest, making.actuator(m).keeps);
  const std::string store = making.add(
      "accumulator", "keeps the pressure up when oil leaks or cools",
      {{"gas_volume", text(making.say(std::max(of_the_strokes * volume, 50 * si::cm3), Quantity::volume))},
       {"precharge", text(making.say(precharged * lowest, Quantity::pressure, -1))},
       {"rated_pressure", text(making.rated_pressure())}});
  making.join({last_port(making, branch), store + ".A"});
  making.because(store, "keep",
                 fmt::format("{} makes up for leaks and for oil that cools while the pump stands: {}", store,
                             asked_by(making, branch)));
  put_bleed(making, last_port(making, branch), store);
}

/// Whether all of a branch are clamps and supports, which may press without current; a ram must not come out.
bool only_clamps(const Making& making, const Branch& branch) {
  return std::ranges::all_of(branch.members(), [&](int m) {
    const std::string_view kind = making.wanted.job.plan.parts[making.actuator(m).part].kind->about.kind;
    return kind == "swing_clamp" || kind == "work_support";
  });
}

/// Opens so far that pressed oil takes about a second.
double letting_off_bore(const Making& making, const Branch& branch) {
  constexpr double time = 0.8, opening = 0.5;
  double volume = 0.0;
  for (const int m : branch.members()) {
    const Actuator& a = making.actuator(m);
    volume += a.area_a * a.way * a.needs / oil_modulus;
    for (const PlannedPart& part : making.wanted.job.plan.parts) {
      const auto p = static_cast<int>(&part - making.wanted.job.plan.parts.data());
      const auto on = actuators_of(making.wanted, p);
      if (part.kind->about.kind != "spring" || std::ranges::find(on, m) == on.end()) continue;
      volume += a.area_a * std::max(0.0, a.way - part.values["free_travel"]);
    }
  }
  const double half = 0.5 * making.wanted.needs_of(branch.members());
  return making.bore_passing(volume / time, half, opening);
}

void put_letting_off(Making& making, Branch& branch) {
  const std::string names = making.wanted.names(branch.members());
  const std::string valve = making.add(
      "directional_2_2", fmt::format("lets the pressed oil of {} off; shut without current", names),
      {{"rated_flow", text(making.rated_flow(making.wanted.flow))},
       {"rated_pressure", text(making.rated_pressure())}});
  const std::string needle =
      making.add("needle", "takes the blow out of letting off",
                 {{"bore", text(making.say(letting_off_bore(making, branch), Quantity::length))},
                  {"turns", text("4 turns")},
                  {"rated_pressure", text(making.rated_pressure())}});
  making.join({making.actuator(branch.stages.front().front()).tag + ".A", valve + ".P"});
  making.join({valve + ".A", needle + ".A"});
  making.to_tank(needle + ".B");
  branch.let_off = valve;
  if (branch.valve_kind == Branch::Valve::two_positions) branch.valve_kind = Branch::Valve::holds_pressed;
  making.because(
      valve, "let off",
      fmt::format("{} lets off what {} presses together, through {}, before the valve shifts: or it goes "
                  "with a bang that breaks seals and pipes",
                  valve, names, needle));
}

void put_letting_off_steps(Making& making, std::size_t b) {
  for (std::size_t i = 1; i < making.steps.size(); ++i) {
    const Branch& branch = making.branches[b];
    if (branch.goes[i] != Goes::in || branch.goes[i - 1] == Goes::in) continue;
    std::string name = "let off";
    for (int number = 2;
         std::ranges::find(making.steps, name, &RunStep::name) != making.steps.end() ||
         std::ranges::find(making.wanted.job.steps, name, &Step::name) != making.wanted.job.steps.end();
         ++number)
      name = fmt::format("let off {}", number);
    making.put_step(i, {.name = name, .lasts = "3 s", .lets_off = static_cast<int>(b)}, i - 1);
    making.branches[b].goes[i] = Goes::hold;
    making.steps[i].set.emplace_back(making.branches[b].let_off, "open");
    making.steps[i + 1].set.emplace_back(making.branches[b].let_off, "shut");
    ++i;
  }
}

}  // namespace

void block_keep(Making& making, int) {
  if (!any_presses(making.wanted)) return;
  const Keep keep = keep_of(making);
  if (keep == Keep::pump) making.pump = Making::Pump::holds_pressure;
  if (keep == Keep::check || keep == Keep::accumulator) making.pump = Making::Pump::stops;
  Branch* last = nullptr;
  for (Branch& branch : making.branches) {
    if (branch.group->lifts) continue;
    if (!only_clamps(making, branch)) branch.valve_kind = Branch::Valve::holds_pressed;
    if (keep == Keep::pilot_check) keep_by_pilot_check(making, branch);
    if (keep == Keep::check || keep == Keep::accumulator) branch.is_checked = true;
    if (!last || making.wanted.needs_of(branch.members()) >= making.wanted.needs_of(last->members()))
      last = &branch;
  }
  if (keep == Keep::accumulator) put_accumulator(making, *last);
  if (keep == Keep::check || keep == Keep::accumulator) put_switch(making, *last);
  // Where stages have valves of their own, the earlier ones keep their pressure while the next one moves.
  for (std::size_t b = 0; b + 1 < making.branches.size(); ++b) {
    const bool goes_on = making.branches[b].group == making.branches[b + 1].group;
    if (goes_on && keep != Keep::pilot_check) making.branches[b].is_checked = true;
  }
}

void block_let_off(Making& making, int) {
  for (std::size_t b = 0; b < making.branches.size(); ++b) {
    Branch& branch = making.branches[b];
    if (must_be_let_off(making.wanted, *branch.group)) {
      put_letting_off(making, branch);
      put_letting_off_steps(making, b);
    }
    // Without current its valve shuts it in.
    if (branch.valve_kind == Branch::Valve::holds_pressed)
      put_bleed(making, branch.ends.front().port, making.wanted.names(branch.members()));
  }
}

void block_isolate(Making& making, int) {
  for (Branch& branch : making.branches) {
    if (!branch.is_checked) continue;
    const std::string names = making.wanted.names(branch.members());
    const std::string check = making.add("check", fmt::format("keeps {} pressed", names),
                                         {{"rated_flow", text(making.rated_flow(making.wanted.flow))},
                                          {"rated_pressure", text(making.rated_pressure())}});
    making.join({check + ".B", branch.supply});
    making.because(check, "isolate",
                   fmt::format("{} keeps {} pressed when the pump stands or others take its oil: {}", check,
                               names, asked_by(making, branch)));
    making.guard(branch.supply, fmt::format("for the oil that {} shuts in", check),
                 fmt::format("guards what {} shuts in: the pump's relief valve sees nothing of it", check));
    put_bleed(making, branch.supply, check);
    branch.supply = check + ".A";
  }
}

}  // namespace poise::compose
