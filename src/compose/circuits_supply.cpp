// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Supply: pump, what guards it, reservoir, and when the pump runs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

const PlannedPart* given(const Making& making, const std::optional<int>& part) {
  return part ? &making.wanted.job.plan.parts[*part] : nullptr;
}

std::string put_tank(Making& making) {
  if (const PlannedPart* tank = given(making, making.wanted.reservoir)) return tank->tag;
  constexpr double to_spare = 2.0, minutes = 3.0;
  double volume = 0.0;
  for (const Actuator& a : making.wanted.actuators) volume += a.area_a * a.stroke;
  const double flow_a_minute = making.wanted.flow * 60.0;
  const double oil = std::max({to_spare * volume, minutes * flow_a_minute, 5 * si::litre});
  const std::string tank = making.add("reservoir", "", {{"usable_oil", text(making.say_litres(oil))}});
  making.because(tank, "supply",
                 fmt::format("{} holds the oil of all strokes twice, and what the pump gives in {:g} min",
                             tank, minutes));
  return tank;
}

double approach_pressure(const Making& making) {
  double highest = 20 * si::bar;
  for (const Actuator& a : making.wanted.actuators)
    highest = std::max(highest, 1.5 * (a.springs + std::max(a.weight, 0.0)) / a.area_a);
  return std::min(highest, 0.4 * making.main());
}

std::string put_pump(Making& making, bool two_stages) {
  const std::string rated = making.rated_pressure();
  if (making.pump == Making::Pump::holds_pressure) {
    const std::string pump =
        making.add("variable_pump", "gives only what is taken, and holds its pressure",
                   {{"flow", to_find}, {"setting", to_find}, {"rated_pressure", text(rated)}});
    making.to_tank(pump + ".L");
    making.because(
        pump, "supply",
        fmt::format("{} holds its own pressure, so that what is pressed stays so without oil going over "
                    "the relief valve",
                    pump));
    return pump;
  }
  if (two_stages) {
    const double approach = approach_pressure(making);
    const std::string pump =
        making.add("two_stage_pump", "much oil for the approach, little for pressing",
                   {{"low_pressure_flow", to_find},
                    {"high_pressure_flow", to_find},
                    {"unloading_pressure", text(making.say(1.2 * approach, Quantity::pressure, 1))},
                    {"rated_pressure", text(rated)}});
    making.because(
        pump, "supply",
        fmt::format("{} brings them up with both stages and presses with the small one: the way is long "
                    "and takes little pressure",
                    pump));
    return pump;
  }
  const std::string pump =
      making.add("pump", making.pump == Making::Pump::stops ? "runs only while something is moved" : "",
                 {{"flow", to_find}, {"rated_pressure", text(rated)}});
  making.because(pump, "supply",
                 fmt::format("{} gives some {} to keep the times asked for", pump,
                             making.wanted.show(making.wanted.flow, Quantity::flow)));
  return pump;
}

void put_relief(Making& making, const std::string& pump) {
  const std::string relief = making.add("relief", fmt::format("of {}", pump),
                                        {{"setting", to_find},
                                         {"rated_flow", text(making.rated_flow(making.wanted.flow))},
                                         {"rated_pressure", text(making.rated_pressure())}});
  making.join({pump + ".P", relief + ".P"});
  making.to_tank(relief + ".T");
  making.because(
      relief, "relieve",
      fmt::format("{} guards {} and all that it feeds: dead-headed, a pump raises the pressure until "
                  "something bursts",
                  relief, pump));
}

enum class Wish { nothing, on, off };

/// What a run step wishes of the pump.
Wish wish_of(const Making& making, std::size_t i) {
  bool moves = false, changes = false;
  for (const Branch& branch : making.branches) {
    const Goes before = i == 0 ? Goes::in : branch.goes[i - 1], now = branch.goes[i];
    const bool by_oil =
        now == Goes::out || (now == Goes::in && !branch.backs.empty() && !branch.valve.empty() &&
                             branch.valve_kind != Branch::Valve::lowers);
    changes = changes || now != before;
    moves = moves || (now != before && by_oil);
  }
  if (moves) return Wish::on;
  if (making.pump != Making::Pump::stops || !changes) return Wish::nothing;
  // Where a switch stops it, it goes on until that is made.
  const bool presses_on =
      !making.controls.empty() && std::ranges::any_of(making.branches, [&](const Branch& branch) {
        return branch.goes[i] == Goes::hold && branch.let_off.empty();
      });
  return presses_on ? Wish::nothing : Wish::off;
}

void command(Making& making, const std::string& pump) {
  bool runs = false;
  for (std::size_t i = 0; i < making.steps.size(); ++i) {
    const Wish wish = wish_of(making, i);
    const bool by_switch = !making.controls.empty() && wish == Wish::on;  // it may have stopped it
    if (wish == Wish::nothing || (runs == (wish == Wish::on) && !by_switch)) continue;
    runs = wish == Wish::on;
    making.steps[i].set.emplace_back(pump, runs ? "on" : "off");
  }
  for (Making::Control& control : making.controls) control.tag = pump;
}

}  // namespace

void block_supply(Making& making, int way) {
  const std::string tank = put_tank(making);
  making.tank = tank + ".T";
  const PlannedPart* ours = given(making, making.wanted.pump);
  const std::string pump = ours ? ours->tag : put_pump(making, way == 1);
  if (ours && ours->kind->about.kind == "variable_pump") making.to_tank(pump + ".L");
  making.to_tank(pump + ".S");
  std::vector<std::string> line{pump + ".P"};
  for (const Branch& branch : making.branches) line.push_back(branch.supply);
  making.join(line);
  put_relief(making, pump);
  making.gauge_at(pump + ".P", "at the pump",
                  fmt::format("shows the pressure of {}, by which its relief valve is set", pump), "gauge");
  command(making, pump);
  making.finish();
}

}  // namespace poise::compose
