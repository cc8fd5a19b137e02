// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Pumps and what drives them: power, start, suction, case, long work against the relief.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "rules/chapters.hpp"
#include "rules/kinds.hpp"
#include "rules/sight.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 4> with_a_motor{"pump", "two_stage_pump", "variable_pump",
                                                       "electric_motor"};
constexpr std::array<std::string_view, 2> fixed_with_motor{"pump", "two_stage_pump"};
constexpr std::array<std::string_view, 3> fixed{"pump", "two_stage_pump", "shaft_pump"};
constexpr std::array<std::string_view, 2> cased{"variable_pump", "hydraulic_motor"};

/// What a pump takes at its shaft at one duty.
struct Duty {
  double pressure = 0.0, flow = 0.0, power = 0.0;
};

/// Pressure that its relief lets a pump's flow rise to; without one, the highest of the run.
std::optional<double> top_pressure(const Sight& sight, int pump, double flow) {
  const PortOf outlet{pump, 1};
  if (const auto limited = sight.limited_at(outlet, flow)) return limited;
  if (const Course pressure = sight.pressure(outlet)) return pressure.highest().value;
  return std::nullopt;
}

Duty duty_at(double pressure, double flow, double efficiency) {
  return {pressure, flow, pressure * flow / efficiency};
}

/// The duties that count: of a two-stage pump just below unloading and at the top, of a compensated one the
/// corner.
std::vector<Duty> duties(const Sight& sight, int pump) {
  const Values& v = sight.values(pump);
  const double efficiency = v["mechanical_efficiency"];
  if (v.given("delivery_curve")) return {};
  std::vector<Duty> all;
  if (sight.is(pump, "variable_pump")) {
    all.push_back(duty_at(v["setting"] - v["band"], sight.pump_flow(pump), efficiency));
    if (v.given("power_limit")) all.back().power = std::min(all.back().power, v["power_limit"] / efficiency);
    return all;
  }
  const bool two_stages = sight.is(pump, "two_stage_pump");
  const double at_top = two_stages ? v["high_pressure_flow"] : sight.pump_flow(pump);
  if (const auto top = top_pressure(sight, pump, at_top)) {
    all.push_back(duty_at(*top, at_top, efficiency));
    if (two_stages) all.back().power += (v["low_pressure_flow"] - at_top) * v["idling_pressure"] / efficiency;
  }
  if (two_stages) {
    const double below = v["unloading_pressure"] * (1.0 - 0.5 * v["unloading_band"]);
    all.push_back(duty_at(below, v["low_pressure_flow"], efficiency));
  }
  return all;
}

void look_at_planned_power(const Sight& sight, int pump, Report& report) {
  const auto motor = sight.given(pump, "motor_power");
  const std::vector<Duty> all = duties(sight, pump);
  if (!motor || all.empty()) return;
  const Duty worst = *std::ranges::max_element(all, {}, &Duty::power);
  if (worst.power <= 1.005 * *motor) return;
  report.add(
      pump,
      fmt::format("{} takes {} at {} and {}, and its motor has {}", sight.tag(pump),
                  sight.say(worst.power, Quantity::power), sight.say(worst.pressure, Quantity::pressure),
                  sight.say(worst.flow, Quantity::flow), sight.say(*motor, Quantity::power)),
      fmt::format("Take a motor of {} or more, or let {} see no more than {} with this flow",
                  sight.say(worst.power, Quantity::power), sight.tag(pump),
                  sight.say(worst.pressure * *motor / worst.power, Quantity::pressure)));
}

/// Shorter than this a motor's overload does not count, s.
constexpr double overload_time = 1.0;

void look_at_power(const Sight& sight, Report& report) {
  for (int pump : sight.all({"pump", "two_stage_pump", "variable_pump"}))
    look_at_planned_power(sight, pump, report);
  for (int motor : sight.all({"electric_motor"})) {
    const Course load = sight.output(motor, "motor_load");
    if (!load) continue;
    const double held = load.held_beyond(1.005, overload_time);
    if (held == 0.0) continue;
    const double rated = sight.values(motor)["rated_power"];
    report.add(
        motor,
        fmt::format("{} gives {} of its {} for {} in all", sight.tag(motor), sight.say(held, Quantity::share),
                    sight.say(rated, Quantity::power), sight.say(load.time_beyond(1.0), Quantity::time)),
        fmt::format("Take a motor of {} or more, or less flow at that pressure",
                    sight.say(held * rated, Quantity::power)),
        load.highest().time);
  }
}

/// Moments at which steps turn a pump's motor on that was off.
std::vector<double> starts(const Sight& sight, int pump) {
  const Kind& kind = *sight.part(pump).kind;
  bool on = sight.values(pump)["running"] > 0.5;
  std::vector<double> found;
  for (const Step& step : sight.steps) {
    const auto span = std::ranges::find(sight.spans(), step.name, &StepSpan::name);
    for (const Command& command : step.commands) {
      if (command.part != pump || kind.parameters[kind.inputs[command.input]].name != "running") continue;
      const bool turned_on = command.target > 0.5 && !on;
      on = command.target > 0.5;
      if (turned_on && span != sight.spans().end()) found.push_back(span->begin);
    }
  }
  return found;
}

/// Share of its rated torque that a motor gives on its way up however it is started: star-delta leaves a
/// third of its starting torque, a single-phase motor has little more.
constexpr double torque_while_starting = 0.5;

void look_at_start(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int pump : sight.all({"pump", "two_stage_pump"})) {
    const auto motor = sight.given(pump, "motor_power");
    const Course pressure = sight.pressure({pump, 1});
    if (!motor || !pressure) continue;
    const Values& v = sight.values(pump);
    for (double begin : starts(sight, pump)) {
      const Peak peak = pressure.highest({"", begin, begin + v["start_time"]});
      const bool one_stage = sight.is(pump, "two_stage_pump") && !v.given("delivery_curve") &&
                             peak.value > v["unloading_pressure"];
      const double flow = one_stage ? v["high_pressure_flow"] : sight.pump_flow(pump);
      const double share = peak.value * flow / v["mechanical_efficiency"] / *motor;
      if (share <= 1.02 * torque_while_starting) continue;
      report.add(pump,
                 fmt::format(
                     "{} has {} on it {} while it starts: {} of the torque of its {} motor, where {} is what "
                     "that can be sure of until it is up to speed",
                     sight.tag(pump), sight.say(peak.value, Quantity::pressure), sight.when(peak.time),
                     sight.say(share, Quantity::share), sight.say(*motor, Quantity::power),
                     sight.say(torque_while_starting, Quantity::share)),
                 fmt::format("Let {} start against less than {}: an open centre, or a valve that lets it "
                             "idle until it is up to speed",
                             sight.tag(pump),
                             sight.say(peak.value * torque_while_starting / share, Quantity::pressure)),
                 peak.time);
      break;
    }
  }
}

constexpr double lowest_at_inlet = -0.2 * si::bar;
/// What is shorter than this is a pulse, not starvation, s.
constexpr double pulse = 0.05;

void look_at_inlet(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int pump : sight.all(Role::source)) {
    const auto suction = sight.port(pump, "S");
    const Course pressure = suction ? sight.pressure(*suction) : Course();
    if (!pressure || pressure.lowest().value >= 1.005 * lowest_at_inlet ||
        sight.duration() - pressure.time_above(1.005 * lowest_at_inlet) < pulse)
      continue;
    const Peak lowest = pressure.lowest();
    report.add(pump,
               fmt::format("{} sucks down to {} {} with oil of {}, and {} is the least for oil without foam",
                           sight.tag(pump), sight.say(lowest.value, Quantity::pressure),
                           sight.when(lowest.time), sight.say(sight.oil.viscosity(), Quantity::viscosity),
                           sight.say(lowest_at_inlet, Quantity::pressure)),
               fmt::format("Make the suction line of {} wider and shorter so that it takes no more than {}, "
                           "set the reservoir higher, or start with warmer oil",
                           sight.tag(pump), sight.say(-lowest_at_inlet, Quantity::pressure)),
               lowest.time);
  }
}

/// Most that a case and its shaft seal should see, Pa.
constexpr double most_in_case = 2.0 * si::bar;

void look_at_case(const Sight& sight, Report& report) {
  for (int p : sight.all({"variable_pump", "hydraulic_motor"})) {
    const auto drain = sight.port(p, "L");
    if (!drain) continue;
    const double rated = sight.values(p)["rated_pressure"];
    if (!sight.is_tank_line(*drain)) {
      report.add(
          p,
          fmt::format("The case of {} at {} has no way to the reservoir that is always open; what it "
                      "leaks at up to {} has to get out there",
                      sight.tag(p), sight.name(*drain), sight.say(rated, Quantity::pressure)),
          fmt::format("Lead {} to the reservoir by a line of its own without filter, check, coupling or "
                      "shut-off, so that the case stays below {}",
                      sight.name(*drain), sight.say(most_in_case, Quantity::pressure)));
      continue;
    }
    const Course pressure = sight.pressure(*drain);
    const double held = pressure.held_beyond(1.005 * most_in_case, pulse);
    if (!pressure || held == 0.0) continue;
    report.add(
        p,
        fmt::format("The case of {} stands at {}, and {} is what a shaft seal is made for", sight.tag(p),
                    sight.say(held, Quantity::pressure), sight.say(most_in_case, Quantity::pressure)),
        fmt::format("Lead {} to the reservoir apart from the other return lines, wide enough for less "
                    "than {}",
                    sight.name(*drain), sight.say(most_in_case, Quantity::pressure)),
        pressure.highest().time);
  }
}

/// How long a fixed pump may press all of its oil over a relief valve at a stretch, s.
constexpr double long_over_relief = 60.0;
constexpr double all_of_it = 0.9;

struct Stretch {
  double begin = 0.0, length = 0.0;
};

/// The longest time at a stretch in which a valve passes nearly all that a pump delivers.
Stretch longest_over(const Course& delivery, const Course& over) {
  Stretch longest;
  double begin = -1.0;
  for (std::size_t row = 0; row < delivery.time().size(); ++row) {
    const bool all = delivery.value()[row] > 0.0 && over.value()[row] >= all_of_it * delivery.value()[row];
    const double now = delivery.time()[row];
    if (all && begin < 0.0) begin = now;
    if (!all) begin = -1.0;
    if (all && now - begin > longest.length) longest = {begin, now - begin};
  }
  return longest;
}

void look_at_dead_head(const Sight& sight, Report& report) {
  if (!sight.ran() || sight.duration() <= long_over_relief) return;
  for (int pump : sight.all({"pump", "two_stage_pump", "shaft_pump"})) {
    const Course delivery = sight.output(pump, "delivery"), pressure = sight.pressure({pump, 1});
    for (const Limit& limit : sight.limits_of({pump, 1})) {
      const Course over = sight.flow({limit.part, 0});
      if (!delivery || !over || !pressure) continue;
      const Stretch stretch = longest_over(delivery, over);
      if (stretch.length <= long_over_relief) continue;
      const double end = stretch.begin + stretch.length, at = pressure.at(end);
      report.add(
          pump,
          fmt::format("{} presses all of its {} over {} at {} for {} at a stretch: {} become heat",
                      sight.tag(pump), sight.say(delivery.at(end), Quantity::flow), sight.tag(limit.part),
                      sight.say(at, Quantity::pressure), sight.say(stretch.length, Quantity::time),
                      sight.say(at * delivery.at(end), Quantity::power)),
          fmt::format("Let {} idle or stop within {}: a centre that joins pump and tank, a check with a "
                      "pressure switch, or a pump that adjusts its delivery",
                      sight.tag(pump), sight.say(long_over_relief, Quantity::time)),
          stretch.begin);
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "motor carries the pump",
              .harm = Harm::works_badly,
              .holds =
                  "Where the power of the motor is stated it carries pressure times flow over efficiency "
                  "at every duty: with the whole flow over the relief, for a two-stage pump just below "
                  "unloading with both stages too, for a compensated one at its corner; an electric "
                  "motor on a shaft is above its rated power for no more than 1 s.",
              .otherwise = "It trips just when the load comes on.",
              .remedy = "A stronger motor, a smaller pump or a lower relief setting.",
              .source = "power of a flow (closed form); common practice",
              .kinds = with_a_motor,
              .look = look_at_power},
    TradeRule{.name = "pump starts without load",
              .harm = Harm::works_badly,
              .holds = "Where the power of its motor is stated, a fixed pump sees no pressure that asks for "
                       "more than half the motor's torque until it is up to speed.",
              .otherwise = "The motor trips or hums, and the line gets a blow.",
              .remedy = "Start with an open centre, or with a valve that unloads the pump while it starts.",
              .kinds = fixed_with_motor,
              .look = look_at_start},
    TradeRule{.name = "suction pressure at the pump",
              .harm = Harm::damages,
              .holds = "At a pump's suction port the pressure does not fall below −0.2 bar, with the coldest "
                       "oil that it starts with.",
              .otherwise = "Air comes out of the oil, the pump howls and is eaten away.",
              .remedy = "A wider and shorter suction line without fine filter, the reservoir above the pump, "
                        "thinner or warmer oil.",
              .source = "common practice; figure from memory (−0.17 to −0.2 bar, 5 inHg)",
              .kinds = all_pumps,
              .look = look_at_inlet},
    TradeRule{.name = "case drains freely",
              .harm = Harm::damages,
              .holds =
                  "The case of a compensated pump or an oil motor has a line of its own to the reservoir "
                  "without filter, check, coupling or shut-off, and stays below 2 bar.",
              .otherwise = "The shaft seal is pushed out or the housing cracks.",
              .remedy = "A drain line of its own, wide, ending in the reservoir.",
              .source = "articles of a lubrication magazine on case drains; figure from memory",
              .kinds = cased,
              .look = look_at_case},
    TradeRule{.name = "fixed pump not long against its relief",
              .harm = Harm::damages,
              .holds =
                  "A fixed pump does not press nearly all (90 %) of its oil over a relief valve for more "
                  "than 60 s at a stretch.",
              .otherwise = "All its power heats the little oil around it; pump, valve and seals are burnt.",
              .remedy = "Let the pump idle or stop while pressure is held.",
              .kinds = fixed,
              .look = look_at_dead_head},
};

}  // namespace

std::span<const TradeRule> pump_rules() { return rules; }

}  // namespace poise::rules
