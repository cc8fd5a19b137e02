// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Oil, filters, heat.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/chapters.hpp"
#include "rules/kinds.hpp"
#include "rules/pressed.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 2> filters{"filter", "cooler"};
constexpr std::array<std::string_view, 1> filter_only{"filter"};
constexpr std::array<std::string_view, 2> warm{"reservoir", "cooler"};
constexpr std::array<std::string_view, 6> throttles{"relief",   "pilot_operated_relief",
                                                    "needle",   "one_way_flow_control",
                                                    "reducing", "compensated_flow_control"};

constexpr double pulse = 0.1;

// ── Viscosity and temperature ──

constexpr double thinnest = 10.0 * si::mm2_per_s, thickest = 500.0 * si::mm2_per_s;
constexpr double best_thin = 16.0 * si::mm2_per_s, best_thick = 36.0 * si::mm2_per_s;

/// Temperature at which the job's oil has a viscosity, K.
double temperature_for(const Sight& sight, double viscosity) {
  const OilData& oil = sight.plan.oil;
  double low = si::zero_celsius - 60.0, high = si::zero_celsius + 200.0;
  for (int halving = 0; halving < 30; ++halving) {
    const double middle = 0.5 * (low + high);
    const bool thicker = walther_viscosity(oil.viscosity_40, oil.viscosity_100, middle) > viscosity;
    (thicker ? low : high) = middle;
  }
  return low;
}

void look_at_viscosity(const Sight& sight, Report& report) {
  const std::vector<int> driven = sight.all(Role::source);
  const double here = sight.oil.viscosity();
  const bool thin = here < 0.99 * thinnest;
  const bool thick = here > 1.01 * thickest;
  if (driven.empty() || !(thin || thick)) return;
  report.add(
      driven.front(),
      fmt::format("At {} the oil has {}; {} pumps well from {} to {}, and {}",
                  sight.say(sight.plan.oil.temperature, Quantity::temperature),
                  sight.say(here, Quantity::viscosity), sight.tag(driven.front()),
                  sight.say(best_thin, Quantity::viscosity), sight.say(best_thick, Quantity::viscosity),
                  thin ? fmt::format("wears below {}", sight.say(thinnest, Quantity::viscosity))
                       : fmt::format("cannot draw it above {}", sight.say(thickest, Quantity::viscosity))),
      fmt::format("Take a {} grade, or keep this oil between {} and {}{}", thin ? "thicker" : "thinner",
                  sight.say(temperature_for(sight, best_thick), Quantity::temperature),
                  sight.say(temperature_for(sight, best_thin), Quantity::temperature),
                  thin ? ""
                       : fmt::format("; start it no colder than {}",
                                     sight.say(temperature_for(sight, thickest), Quantity::temperature))));
}

constexpr double hot = si::zero_celsius + 65.0, softens_seals = si::zero_celsius + 80.0;

void look_at_temperature(const Sight& sight, Report& report) {
  const double here = sight.plan.oil.temperature;
  if (here <= hot + 0.2) return;
  report.add(-1,
             fmt::format("The oil is reckoned with {}, and {} is the most in a reservoir{}",
                         sight.say(here, Quantity::temperature), sight.say(hot, Quantity::temperature),
                         here > softens_seals ? fmt::format("; above {} seals soften",
                                                            sight.say(softens_seals, Quantity::temperature))
                                              : ""),
             fmt::format("Find where the heat comes from, or cool the oil down by {} with a cooler in the "
                         "return line",
                         sight.say(here - hot, Quantity::warming)));
}

// ── Heat of one pass ──

/// How much warmer oil may get in one pass, K, for how long, s, and what power does not matter, W.
constexpr double one_pass = 20.0, long_enough = 1.0, small_power = 100.0;

struct Pass {
  double warming = 0.0, power = 0.0, time = 0.0;
};

/// How long a part warms its oil by more than may be in one pass, and the most of it.
Pass hot_pass(const Sight& sight, int p) {
  const Course a = sight.pressure({p, 0}), b = sight.pressure({p, 1}), flow = sight.flow({p, 0});
  Pass pass;
  if (!a || !b || !flow) return pass;
  const double density = sight.oil.density_at_zero(),
               per_pressure = 1.0 / (density * sight.oil.heat_capacity());
  // Quickly left where no pressure in it is high enough.
  const double high_enough = one_pass / per_pressure;
  if (!a.first_above(high_enough) && !b.first_above(high_enough)) return pass;
  for (std::size_t row = 1; row < flow.time().size(); ++row) {
    const double drop = a.value()[row] - b.value()[row], power = drop * flow.value()[row];
    if (power < small_power || std::abs(drop) * per_pressure < one_pass) continue;
    const double warming = (sight.oil.enthalpy(std::max(a.value()[row], b.value()[row])) -
                            sight.oil.enthalpy(std::min(a.value()[row], b.value()[row]))) /
                           sight.oil.heat_capacity();
    if (warming <= one_pass) continue;
    pass.time += flow.time()[row] - flow.time()[row - 1];
    if (warming > pass.warming) {
      pass.warming = warming;
      pass.power = power;
    }
  }
  return pass;
}

void look_at_throttling(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int p : sight.all({"relief", "pilot_operated_relief", "externally_drained_relief", "needle",
                          "one_way_flow_control", "compensated_flow_control", "reducing"})) {
    const Pass pass = hot_pass(sight, p);
    if (pass.time < long_enough) continue;
    report.add(
        p,
        fmt::format("{} warms the oil that passes it by {} each time and makes {} of heat, for {} in the "
                    "cycle",
                    sight.tag(p), sight.say(pass.warming, Quantity::warming),
                    sight.say(pass.power, Quantity::power), sight.say(pass.time, Quantity::time)),
        fmt::format("Let less oil pass {} for less than {}, or let its outlet end apart from the suction, "
                    "below the oil",
                    sight.tag(p), sight.say(pass.time, Quantity::time)));
  }
}

// ── Filters ──

/// Drop that a return filter without a bypass may have where nothing is stated of its element, Pa.
constexpr double no_bypass_drop = 3.5 * si::bar;

void look_at_bypass(const Sight& sight, Report& report) {
  const std::vector<int> all = sight.all({"filter"});
  if (!sight.ran() || all.empty()) return;
  const std::set<int> tank = sight.tank_lines();
  for (int filter : all) {
    const Course drop = sight.output(filter, "drop");
    if (!drop) continue;
    const Values& v = sight.values(filter);
    const auto bypass = sight.given(filter, "bypass_pressure");
    const auto collapse = sight.given(filter, "collapse_pressure");
    const bool in_return = sight.touches(tank, {filter, 0}) || sight.touches(tank, {filter, 1});
    if (!bypass && !collapse && !in_return) continue;
    const double limit = bypass ? *bypass : collapse.value_or(no_bypass_drop);
    const double held = drop.held_beyond(1.01 * limit, pulse);
    if (held == 0.0) continue;
    const std::string_view then = bypass     ? "its bypass opens at"
                                  : collapse ? "its element gives way at"
                                             : "without a bypass the most is";
    const double rated = v.given("rated_flow") ? v["rated_flow"] : 0.0;
    report.add(
        filter,
        fmt::format("{} takes {} {} with oil of {}, and {} {}", sight.tag(filter),
                    sight.say(held, Quantity::pressure), sight.when(drop.highest().time),
                    sight.say(sight.oil.viscosity(), Quantity::viscosity), then,
                    sight.say(limit, Quantity::pressure)),
        fmt::format(
            "Take an element that is {:.1f} times as large{}, change a full one, and fit a "
            "clogging indicator",
            std::ceil(10.0 * held / limit) / 10.0,
            rated > 0.0 ? fmt::format(", for {}", sight.say(rated * held / limit, Quantity::flow)) : ""),
        drop.highest().time);
  }
}

void look_at_return_flow(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  const std::set<int> tank = sight.tank_lines();
  const bool uneven = !sight.all({"double_acting_cylinder"}).empty();
  const double pumped = flow_of_all_pumps(sight);
  for (int p : sight.all({"filter", "cooler"})) {
    const auto rated = sight.given(p, "rated_flow");
    const Course flow = sight.flow({p, 0});
    if (!rated || !flow || !(sight.touches(tank, {p, 0}) || sight.touches(tank, {p, 1}))) continue;
    const double held = flow.held_beyond(1.02 * *rated, pulse);
    if (held == 0.0) continue;
    // What a cap side gives back beyond the pumps' flow has a rule of its own: return parts take it.
    const double beyond = 1.05 * std::max(*rated, pumped);
    if (uneven && is_behind_a_valve(sight, p) && flow.time_above(beyond) >= pulse) continue;
    report.add(p,
               fmt::format("{} for {} gets {} {}, where the pumps give {}", sight.tag(p),
                           sight.say(*rated, Quantity::flow), sight.say(held, Quantity::flow),
                           sight.when(flow.greatest().time), sight.say(pumped, Quantity::flow)),
               fmt::format("Take {} for {} or more", sight.tag(p), sight.say(held, Quantity::flow)),
               flow.greatest().time);
  }
}

// ── What the oil is ──

/// Denser than this it may have water in it, as water glycol has, kg/m3; share of its rated pressure that a
/// pump keeps with it; warmest.
constexpr double watery = 1000.0, pump_share = 0.75, watery_hot = si::zero_celsius + 50.0;

void look_at_water(const Sight& sight, Report& report) {
  const OilData& oil = sight.plan.oil;
  if (oil.density_15 <= watery) return;
  for (int pump : sight.all(Role::source)) {
    const auto rated = sight.given(pump, "rated_pressure");
    if (!rated) continue;
    const Course pressure = sight.pressure({pump, 1});
    const double highest =
        std::max(pressure.highest().value, sight.limited_at({pump, 1}, sight.pump_flow(pump)).value_or(0.0));
    if (highest <= 1.01 * pump_share * *rated) continue;
    report.add(
        pump,
        fmt::format("The fluid of {} is as heavy as water glycol, and {} is rated {} with mineral oil: with "
                    "water in it {} are left of that, and it sees {}",
                    sight.say(oil.density_15, Quantity::density), sight.tag(pump),
                    sight.say(*rated, Quantity::pressure), sight.say(pump_share * *rated, Quantity::pressure),
                    sight.say(highest, Quantity::pressure)),
        fmt::format("Work below {}, or take a pump that is rated {} for this fluid; ask for its seals, "
                    "and no zinc",
                    sight.say(pump_share * *rated, Quantity::pressure),
                    sight.say(highest, Quantity::pressure)));
  }
  if (oil.temperature > watery_hot + 0.2) {
    report.add(
        -1,
        fmt::format("The fluid of {} is as heavy as water glycol and is reckoned with {}; above {} its water "
                    "dries out",
                    sight.say(oil.density_15, Quantity::density),
                    sight.say(oil.temperature, Quantity::temperature),
                    sight.say(watery_hot, Quantity::temperature)),
        fmt::format("Keep it below {} with a cooler", sight.say(watery_hot, Quantity::temperature)));
  }
}

/// Air beyond which oil is foam or badly bled.
constexpr double much_air = 0.01;

void look_at_air(const Sight& sight, Report& report) {
  OilData data = sight.plan.oil;
  if (data.air <= 1.01 * much_air) return;
  const double at = 50.0 * si::bar, here = sight.oil.effective_modulus(at);
  data.air = 0.005;
  const double usual = Oil(data).effective_modulus(at);
  report.add(-1,
             fmt::format("The oil is reckoned with {} of air: at {} it is {:.2f} times as stiff as with the "
                         "usual {}",
                         sight.say(sight.plan.oil.air, Quantity::share), sight.say(at, Quantity::pressure),
                         here / usual, sight.say(data.air, Quantity::share)),
             fmt::format("Bleed high points and dead ends, lead return lines in below the oil, let it settle "
                         "until less than {} are left",
                         sight.say(much_air, Quantity::share)));
}

constexpr std::array rules{
    TradeRule{.name = "viscosity for the pump",
              .harm = Harm::damages,
              .holds = "At the job's temperature the oil has between 10 and 500 mm²/s; a pump is at its best "
                       "from 16 to 36 mm²/s.",
              .otherwise = "Thinner it wears the pump and leaks, thicker it does not get in.",
              .remedy = "Another grade, a heater, a cooler. The pump's datasheet counts.",
              .source = "viscosity chart; figures from memory",
              .kinds = all_pumps,
              .look = look_at_viscosity},
    TradeRule{.name = "oil is not too hot",
              .harm = Harm::works_badly,
              .holds = "The job's oil is no warmer than 65 °C, better 60 °C at the pump; above 80 °C seals "
                       "soften.",
              .otherwise = "Leaks, thin oil, varnish.",
              .remedy = "Less heat, or a cooler.",
              .source = "university page on ISO 4413 (inlet at most 60 °C); overheating notes (150 °F)",
              .kinds = warm,
              .look = look_at_temperature},
    TradeRule{
        .name = "heat of one pass",
        .harm = Harm::worth_knowing,
        .holds = "No valve that throttles more than 100 W warms the oil by more than 20 K in one pass "
                 "(some 330 bar) for 1 s in all.",
        .otherwise = "The oil is burnt locally, and the valve with it, long before the reservoir is warm.",
        .remedy = "Less flow over it, for a shorter time.",
        .source = "closed form: enthalpy over heat capacity, about 0.06 K/bar",
        .kinds = throttles,
        .look = look_at_throttling},
    TradeRule{.name = "filter below its bypass",
              .harm = Harm::works_badly,
              .holds =
                  "The drop of a filter at the flows of the run stays below its bypass pressure, without "
                  "a bypass below the collapse pressure or, in a return line, 3.5 bar, for all but a pulse "
                  "of 0.1 s.",
              .otherwise = "The oil goes by unfiltered, or the element is pressed flat.",
              .remedy = "A larger element, changed in time, with a clogging indicator.",
              .source = "notes on filter bypass; 1.7 to 3.5 bar from memory",
              .kinds = filter_only,
              .look = look_at_bypass},
    TradeRule{.name = "filter for the whole return flow",
              .harm = Harm::works_badly,
              .holds =
                  "A filter or cooler in a return line is rated for the greatest flow of the run, for all "
                  "but a pulse of 0.1 s (what a cap side gives back beyond the pumps' flow has a rule of its "
                  "own).",
              .otherwise = "Back pressure, an open bypass, a crushed element.",
              .remedy = "Size it for the return flow of the cylinders, about twice the pump's.",
              .source = "notes on a collapsed return filter",
              .kinds = filters,
              .look = look_at_return_flow},
    TradeRule{.name = "fluid with water in it",
              .harm = Harm::damages,
              .holds = "With a fluid as heavy as water glycol, denser than 1000 kg/m³, a pump sees no more "
                       "than three quarters of its rated pressure, and the fluid stays below 50 °C (one "
                       "without water, a phosphate ester, goes by its own datasheet).",
              .otherwise = "Bearings fail early, the water evaporates, seals that do not suit it swell.",
              .remedy = "Less pressure, a pump rated for it, seals from the fluid's list, no zinc.",
              .source = "common practice; figures from memory",
              .kinds = all_pumps,
              .look = look_at_water},
    TradeRule{.name = "little air in the oil",
              .harm = Harm::works_badly,
              .holds = "The oil is reckoned with no more than 1 % of entrained air; 0.5 % is usual.",
              .otherwise = "Spongy, late, noisy: actuators creep and spring.",
              .remedy = "Bleed points at high ends, returns below the oil, a larger reservoir.",
              .source = "oil compressibility page (0.5 % of air)",
              .look = look_at_air},
};

}  // namespace

std::span<const TradeRule> oil_rules() { return rules; }

}  // namespace poise::rules
