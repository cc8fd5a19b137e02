// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Accumulators.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "parts/accumulator.hpp"
#include "rules/chapters.hpp"
#include "rules/gas.hpp"
#include "rules/trapped.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> accumulators{"accumulator"};
constexpr std::array<std::string_view, 2> accumulator_and_gauge{"accumulator", "gauge"};
constexpr std::array<std::string_view, 3> accumulator_and_cock{"accumulator", "shut_off", "needle"};

bool is_bladder(const Sight& sight, int p) { return sight.values(p).word("separator") == 0; }

Cushion gas_of(const Sight& sight, int p) { return Accumulator(sight.values(p), sight.oil).gas; }

/// Precharge at working temperature, Pa, gauge.
double precharge_at_work(const Sight& sight, int p) { return gas_of(sight, p).absolute - si::atmosphere; }

/// The highest pressure at an accumulator, Pa: of the run, else what the relief valve of its line lets come.
double highest_at(const Sight& sight, int p) {
  if (sight.ran()) return sight.highest(PortOf{p, 0}).value;
  return sight.limited_at({p, 0}, 0.0).value_or(0.0);
}

// ── Precharge ──

/// A pressure and what says so: "S1 starts the pump again at 145 bar".
struct Lowest {
  double pressure = no_limit;
  std::string why;
};

/// What pressure switches and unloading valves of its line let it fall to.
Lowest lowest_by_switches(const Sight& sight, int accumulator) {
  Lowest lowest;
  for (const PortOf& at : sight.ports_in(sight.reach(PortOf{accumulator, 0}, through_lines))) {
    const Values& v = sight.values(at.part);
    double pressure = no_limit;
    if (sight.is(at.part, "pressure_switch"))
      pressure = v["reset"];
    else if (sight.is(at.part, "unloading_valve") && sight.plan.port(at).name == "X")
      pressure = v["setting"] * (1.0 - v["differential"]);
    if (pressure >= lowest.pressure || pressure <= 0.0) continue;
    lowest = {pressure, fmt::format("{} lets it fall to {}", sight.tag(at.part),
                                    sight.say(pressure, Quantity::pressure))};
  }
  return lowest;
}

/// What the run lets it fall to once it is charged; a step that ends with it let off does not count.
Lowest lowest_in_the_run(const Sight& sight, int accumulator, double precharge) {
  Lowest lowest;
  const Course pressure = sight.pressure({accumulator, 0});
  const auto charged = pressure.first_above(0.9 * sight.highest(PortOf{accumulator, 0}).value);
  if (!charged) return lowest;
  for (StepSpan span : sight.spans()) {
    if (span.end <= *charged || pressure.at(span.end) < 0.5 * precharge) continue;
    span.begin = std::max(span.begin, *charged);
    const Peak here = pressure.lowest(span);
    if (here.value >= lowest.pressure) continue;
    lowest = {here.value, fmt::format("the run lets it fall to {} {}",
                                      sight.say(here.value, Quantity::pressure), sight.when(here.time))};
  }
  return lowest;
}

constexpr double below_for_piston = 7e5;

/// The precharge that suits a lowest working pressure: 0.9 of it, or 7 bar (100 psi) below it for a piston.
double right_precharge(const Sight& sight, int p, double lowest) {
  return is_bladder(sight, p) ? 0.9 * lowest : lowest - below_for_piston;
}

/// Gas pressure in the shop at which it has this one at work.
double as_charged(const Sight& sight, int p, double at_work) {
  const auto charged_at = sight.given(p, "precharge_temperature");
  const double colder = charged_at ? *charged_at / sight.oil.temperature() : 1.0;
  return (at_work + si::atmosphere) * colder - si::atmosphere;
}

void look_at_precharge(const Sight& sight, Report& report) {
  for (int p : sight.all({"accumulator"})) {
    const double precharge = precharge_at_work(sight, p), highest = highest_at(sight, p);
    if (precharge < 1e5) continue;
    Lowest lowest = lowest_by_switches(sight, p);
    if (sight.ran() && highest > precharge) {
      const Lowest seen = lowest_in_the_run(sight, p, precharge);
      if (seen.pressure < lowest.pressure) lowest = seen;
    }
    if (highest > 0.5 * precharge && highest <= precharge)
      lowest = {highest, fmt::format("its line comes to {} at most", sight.say(highest, Quantity::pressure))};
    if (lowest.pressure == no_limit) continue;
    // As near as it can be charged and kept.
    const double ceiling = is_bladder(sight, p) ? 0.95 * lowest.pressure : lowest.pressure - 5e5;
    const bool high = precharge > ceiling, low = precharge < 0.5 * lowest.pressure;
    if (!high && !low) continue;
    const double right = std::max(right_precharge(sight, p, lowest.pressure), 0.0);
    const std::string how = is_bladder(sight, p)
                                ? fmt::format("{} of that, where 90 % is usual",
                                              sight.say(precharge / lowest.pressure, Quantity::share))
                                : fmt::format("{} of that, where {} below it is usual for a piston",
                                              sight.say(precharge / lowest.pressure, Quantity::share),
                                              sight.say(below_for_piston, Quantity::pressure));
    report.add(
        p,
        fmt::format("The gas of {} has {} at {} without oil, and {}: it is too {}, {}", sight.tag(p),
                    sight.say(precharge, Quantity::pressure),
                    sight.say(sight.oil.temperature(), Quantity::temperature), lowest.why,
                    high ? "high" : "low", how),
        fmt::format("Charge {} to {}{}", sight.tag(p),
                    sight.say(as_charged(sight, p, right), Quantity::pressure),
                    sight.given(p, "precharge_temperature")
                        ? " at " + sight.say(sight.values(p)["precharge_temperature"], Quantity::temperature)
                        : std::string()));
  }
}

void look_at_ratio(const Sight& sight, Report& report) {
  constexpr double most = 4.0;
  for (int p : sight.all({"accumulator"})) {
    const double precharge = precharge_at_work(sight, p), highest = highest_at(sight, p);
    if (!is_bladder(sight, p) || highest <= most * 1.01 * std::max(precharge, 1e5)) continue;
    report.add(
        p,
        fmt::format("{} is pressed to {} with a precharge of {}: {:.1f} times, where a bladder bears 4",
                    sight.tag(p), sight.say(highest, Quantity::pressure),
                    sight.say(precharge, Quantity::pressure), highest / std::max(precharge, 1e5)),
        fmt::format("Charge {} to {} or more, or keep its line below {}", sight.tag(p),
                    sight.say(as_charged(sight, p, highest / most), Quantity::pressure),
                    sight.say(most * std::max(precharge, 1e5), Quantity::pressure)));
  }
}

// ── Shut down ──

/// Energy in the gas at the highest pressure, J.
double energy_at(const Sight& sight, int p, double highest) {
  const Cushion gas = gas_of(sight, p);
  return gas.stored(gas.volume * filled_share(gas, highest));
}

/// "1.00 L at 170 bar, 12.3 kJ"
std::string content(const Sight& sight, int p) {
  const double highest = std::max(highest_at(sight, p), precharge_at_work(sight, p));
  const std::string text =
      fmt::format("{} of gas at {}", sight.say(sight.values(p)["gas_volume"], Quantity::volume),
                  sight.say(highest, Quantity::pressure));
  const double energy = energy_at(sight, p, highest);
  return energy > 0.0 ? text + ", " + sight.say(energy, Quantity::energy) : text;
}

/// Whether a shut-off cuts the accumulator off from all that it feeds.
bool can_be_cut_off(const Sight& sight, int p) {
  const auto line = sight.reach(PortOf{p, 0}, through_lines);
  return std::ranges::all_of(sight.ports_in(line), [&](const PortOf& at) {
    return through_lines(sight.part(at.part)) || sight.plan.port(at).pilot ||
           sight.role(at.part) == Role::pressure_limit ||
           sight.is_one_of(at.part, {"accumulator", "shut_off", "gauge", "pressure_switch", "needle"});
  });
}

void look_at_letting_off(const Sight& sight, Report& report) {
  for (int p : sight.all({"accumulator"})) {
    if (can_be_let_off(sight, sight.group({p, 0}), LetOff::in_one_position) || can_be_cut_off(sight, p))
      continue;
    report.add(p,
               fmt::format("{} stays armed when the machine is shut off ({}): nothing empties it to tank or "
                           "cuts it off",
                           sight.tag(p), content(sight, p)),
               fmt::format(
                   "Put a shut-off rated {} or more between {} and tank, opened before work on it, "
                   "with a plate",
                   sight.say(std::max(highest_at(sight, p), precharge_at_work(sight, p)), Quantity::pressure),
                   sight.tag(p)));
  }
}

void look_at_its_gauge(const Sight& sight, Report& report) {
  for (int p : sight.all({"accumulator"})) {
    if (gauge_beside(sight, {p, 0}) >= 0) continue;
    const double highest = std::max(highest_at(sight, p), precharge_at_work(sight, p));
    report.add(
        p,
        fmt::format("No gauge stands beside {} ({}): its pressure outlives the pump, and a loss of gas "
                    "is not seen",
                    sight.tag(p), content(sight, p)),
        fmt::format("Put a gauge beside {} with a scale that ends {}; at the start it "
                    "jumps to {} and then climbs",
                    sight.tag(p), fitting_scale(sight, highest),
                    sight.say(precharge_at_work(sight, p), Quantity::pressure)));
  }
}

// ── The run ──

void look_at_necks(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  constexpr double blink = 0.02;  // s
  for (int p : sight.all({"accumulator"})) {
    const auto rated = sight.given(p, "rated_flow");
    const Course flow = sight.flow({p, 0});
    if (!rated || !flow) continue;
    const Peak most = flow.lowest();
    double lasts = 0.0;
    for (std::size_t row = 1; row < flow.time().size(); ++row) {
      if (flow.value()[row] < -*rated * 1.02) lasts += flow.time()[row] - flow.time()[row - 1];
    }
    if (lasts < blink) continue;
    report.add(p,
               fmt::format("{} gives {} {}, and its neck is made for {}", sight.tag(p),
                           sight.say(-most.value, Quantity::flow), sight.when(most.time),
                           sight.say(*rated, Quantity::flow)),
               fmt::format("Put a throttle between {} and what it feeds that passes {} at most", sight.tag(p),
                           sight.say(*rated, Quantity::flow)),
               most.time);
  }
}

constexpr std::array rules{
    TradeRule{
        .name = "precharge suits the lowest pressure",
        .harm = Harm::damages,
        .holds = "At working temperature the precharge is about 0.9 of the lowest working pressure for "
                 "a bladder, 7 bar (100 psi) below it for a piston; above 0.95 or less than 5 bar below, "
                 "and below half, is said.",
        .otherwise = "Too high: it is slammed empty, the bladder gets into its poppet, a piston knocks. "
                     "Too low: the bladder is crushed and nothing is in reserve.",
        .remedy = "Charge it for the lowest working pressure, at the temperature it works at.",
        .source = "figures from memory; accumulator article, charging instruction",
        .kinds = accumulators,
        .look = look_at_precharge},
    TradeRule{.name = "bladder pressed four times at most",
              .harm = Harm::damages,
              .holds = "The highest pressure at a bladder is at most 4 times its precharge at working "
                       "temperature.",
              .otherwise = "It folds and cracks.",
              .remedy = "Raise the precharge, lower the highest pressure, or take a piston.",
              .source = "selection guide for accumulators",
              .kinds = accumulators,
              .look = look_at_ratio},
    TradeRule{.name = "accumulator can be emptied or cut off",
              .harm = Harm::hurts,
              .holds =
                  "From an accumulator something leads to tank that is open or can be opened by hand, or "
                  "a shut-off cuts it off from all that it feeds.",
              .otherwise = "It stays armed when the machine is shut off.",
              .remedy = "Put a shut-off to tank beside it, and a plate.",
              .source = "ISO 4413, as paraphrased by a university page",
              .kinds = accumulator_and_cock,
              .look = look_at_letting_off},
    TradeRule{
        .name = "gauge beside each accumulator",
        .harm = Harm::hurts,
        .holds = "A gauge stands on the accumulator's line, with no check or valve between but its own cock.",
        .otherwise = "Pressure that outlives the pump is not seen, nor a loss of gas at the start.",
        .remedy = "Put a gauge beside it.",
        .source = "common practice; quick check of the precharge: maintenance note",
        .kinds = accumulator_and_gauge,
        .look = look_at_its_gauge},
    TradeRule{.name = "accumulator within its neck's flow",
              .harm = Harm::damages,
              .holds = "What an accumulator gives is at most the flow that its datasheet states.",
              .otherwise = "What it feeds is slammed, clamps hurt their cams, the bladder is drawn into the "
                           "neck.",
              .remedy = "Put a throttle behind it.",
              .source = "common practice",
              .kinds = accumulators,
              .look = look_at_necks},
};

}  // namespace

std::span<const TradeRule> energy_rules() { return rules; }

}  // namespace poise::rules
