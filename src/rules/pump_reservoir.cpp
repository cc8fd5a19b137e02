// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Reservoirs: oil for the strokes, room for what comes back, heat, and what stands in the suction line.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "parts/filter.hpp"
#include "parts/laws.hpp"
#include "rules/chapters.hpp"
#include "rules/pressed.hpp"
#include "rules/reservoir.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> reservoirs{"reservoir"};
constexpr std::array<std::string_view, 2> coolers{"reservoir", "cooler"};
constexpr std::array<std::string_view, 1> filters{"filter"};

/// A volume of oil: a reservoir's in litres or gallons, that of a stroke as the job says volumes.
std::string litres(const Sight& sight, double volume) {
  return volume < si::litre ? sight.say(volume, Quantity::volume)
                            : sight.say_in(volume, Quantity::volume, "L", "gal");
}

/// Net oil that a part holds more than with its rod in, m3 per metre of way out.
double oil_per_way(const Sight& sight, int p) {
  if (sight.is(p, "double_acting_cylinder")) return area_behind(sight, p) - area_around_rod(sight, p);
  return sight.is(p, "single_acting_cylinder") && !pulls(sight, p) ? area_behind(sight, p) : 0.0;
}

/// Oil that all strokes take out of the reservoir at once, from where the job begins, m3.
double oil_out(const Sight& sight) {
  double sum = 0.0;
  for (int p : sight.all(Role::actuator)) {
    const Values& v = sight.values(p);
    if (const auto start = sight.given(p, "start_position"))
      sum += oil_per_way(sight, p) * std::max(v["stroke"] - *start, 0.0);
    if (sight.is(p, "swing_clamp")) {
      const double back = v.word("return") == 1 && v.given("unclamp_area") ? v["unclamp_area"] : 0.0;
      sum += std::max(v["clamp_area"] - back, 0.0) * (v["swing_stroke"] + v["clamp_stroke"]);
    }
    if (sight.is(p, "work_support")) sum += v["lift_area"] * v["stroke"];
  }
  for (int p : sight.all({"accumulator"})) sum += sight.output(p, "oil_volume").highest().value;
  for (int p : sight.all({"hose"})) {
    if (const Course pressure = sight.pressure({p, 0}))
      sum += give_of_hose(sight, p) * std::max(pressure.highest().value, 0.0);
  }
  return sum;
}

/// Oil that comes back when everything that is out at the beginning comes home, m3.
double oil_back(const Sight& sight) {
  double sum = 0.0;
  for (int p : sight.all(Role::actuator)) {
    if (const auto start = sight.given(p, "start_position")) sum += oil_per_way(sight, p) * *start;
  }
  return sum;
}

/// Pressure above which power units are small and work by the stroke, Pa.
constexpr double stroke_units = 400.0 * si::bar;

void look_at_flow(const Sight& sight, Report& report) {
  const auto reservoir = only_reservoir(sight);
  if (!reservoir) return;
  double flow = 0.0;
  for (int pump : sight.all(Role::source)) {
    const bool by_strokes = sight.is_one_of(pump, {"hand_pump", "air_driven_pump"}) ||
                            sight.given(pump, "rated_pressure").value_or(0.0) > stroke_units;
    if (!by_strokes) flow += sight.pump_flow(pump);
  }
  const double usable = sight.values(*reservoir)["usable_oil"], minute = flow * 60.0;
  if (usable >= 0.995 * minute) return;
  report.add(*reservoir,
             fmt::format("{} has {} for pumps of {}: the oil is back after {}, and gets rid neither of its "
                         "air nor of its heat",
                         sight.tag(*reservoir), litres(sight, usable), sight.say(flow, Quantity::flow),
                         sight.say(usable / flow, Quantity::time)),
             fmt::format("Take {} to {}, three to five minutes of flow; never less than {}",
                         litres(sight, 3.0 * minute), litres(sight, 5.0 * minute), litres(sight, minute)));
}

constexpr double cover = 75.0 * si::mm;

void look_at_cover(const Sight& sight, Report& report) {
  const auto reservoir = only_reservoir(sight);
  if (!reservoir) return;
  const auto over = sight.given(*reservoir, "oil_over_suction");
  if (!over) return;
  const double usable = sight.values(*reservoir)["usable_oil"], out = oil_out(sight);
  const double left = *over * (1.0 - out / usable);
  if (left >= 0.995 * cover) return;
  report.add(
      *reservoir,
      fmt::format("With everything out {} is short of {}, and of the {} over its suction {} are left; "
                  "{} keep air out",
                  sight.tag(*reservoir), litres(sight, out), sight.say(*over, Quantity::length),
                  sight.say(std::max(left, 0.0), Quantity::length), sight.say(cover, Quantity::length)),
      fmt::format("Fill so that {} stand over the suction with everything in, set the strainer lower, or "
                  "take a wider reservoir",
                  sight.say(*over + cover - left, Quantity::length)));
}

constexpr double air_share = 0.1;

void look_at_air(const Sight& sight, Report& report) {
  const auto reservoir = only_reservoir(sight);
  if (!reservoir) return;
  const auto room = sight.given(*reservoir, "air_space");
  if (!room) return;
  const double usable = sight.values(*reservoir)["usable_oil"], back = oil_back(sight);
  const double needed = air_share * usable + back;
  if (*room >= 0.995 * needed) return;
  report.add(
      *reservoir,
      fmt::format("{} has {} of air over its oil, and {} come back when everything is in; a tenth of "
                  "its {} should stay air besides",
                  sight.tag(*reservoir), litres(sight, *room), litres(sight, back), litres(sight, usable)),
      fmt::format("Leave {} of air as the job begins: fill with everything in, or take a larger reservoir",
                  litres(sight, needed)));
}

/// Hottest that the oil in a reservoir should get, K.
constexpr double hottest = si::zero_celsius + 65.0;
/// However short a cycle is, nobody minds when it can be begun only so often, s; nor a pause of twice its
/// length.
constexpr double often_enough = 600.0, cycle_with_pause = 3.0;

/// What reservoirs and coolers give off with oil of a temperature, W; 0 where nothing does.
double given_off(const Sight& sight, double temperature) {
  double sum = 0.0;
  for (const PlannedPart& part : sight.plan.parts) {
    const HeatPath path = part.kind->heat_path(part.values);
    sum += path.conductance * (temperature - path.surroundings);
  }
  return sum;
}

void look_at_heat(const Sight& sight, Report& report) {
  const std::vector<int> all = sight.all(Role::reservoir);
  if (!sight.ran() || sight.duration() <= 0.0 || all.empty()) return;
  const Books& books = sight.trace().books;
  const double heat = books.flow_heat + books.friction_heat, off = given_off(sight, hottest);
  if (off <= 0.0 || heat / off <= std::max(often_enough, cycle_with_pause * sight.duration())) return;
  report.add(
      all.front(),
      fmt::format("A cycle of {} makes {} of heat, {} on average, and with oil of {} {} gives off {}",
                  sight.say(sight.duration(), Quantity::time), sight.say(heat, Quantity::energy),
                  sight.say(heat / sight.duration(), Quantity::power),
                  sight.say(hottest, Quantity::temperature), sight.tag(all.front()),
                  sight.say(off, Quantity::power)),
      fmt::format("Begin a cycle only every {}, take the heat away by a cooler of {:.0f} W/K to air of "
                  "{}, or lose less: let the pump idle or stop where nothing moves",
                  sight.say(heat / off, Quantity::time),
                  std::max(heat / sight.duration() - off, 0.0) / (hottest - si::zero_celsius - 20.0),
                  sight.say(si::zero_celsius + 20.0, Quantity::temperature)));
}

/// Drop that a suction filter may have when most of its face is full, Pa, and how much that raises the drop.
constexpr double suction_drop = 0.2 * si::bar, nearly_full = 5.0;

void look_at_suction_filter(const Sight& sight, Report& report) {
  const std::vector<int> all = sight.all({"filter"});
  if (all.empty()) return;
  for (int pump : sight.all(Role::source)) {
    const auto suction = sight.port(pump, "S");
    const double flow = sight.pump_flow(pump);
    if (!suction || flow <= 0.0) continue;
    const std::set<int> line = sight.reach(*suction, through_return);
    for (int filter : all) {
      // Its clean side hangs on the pump without the reservoir between: a return filter ends in the
      // reservoir.
      const int clean = sight.group({filter, 1});
      if (!line.contains(clean) || sight.has_reservoir({clean})) continue;
      const Values& v = sight.values(filter);
      const Restriction face = Filter::clean_in(v, sight.oil);
      const double drop = face.a * flow * flow + nearly_full * face.b * flow;
      if (drop <= 1.01 * suction_drop || (v.given("bypass_pressure") && v["bypass_pressure"] <= suction_drop))
        continue;
      report.add(
          filter,
          fmt::format("{} stands in the suction line of {}: with {} of its face full it takes {} at {}, "
                      "and {} is all that a pump can suck",
                      sight.tag(filter), sight.tag(pump), sight.say(1.0 - 1.0 / nearly_full, Quantity::share),
                      sight.say(drop, Quantity::pressure), sight.say(flow, Quantity::flow),
                      sight.say(suction_drop, Quantity::pressure)),
          fmt::format("Move {} into the return line; in the suction line leave a coarse screen with "
                      "{} or less when clean, and a vacuum gauge behind it",
                      sight.tag(filter), sight.say(suction_drop / nearly_full, Quantity::pressure)));
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "reservoir for the pumps' flow",
              .harm = Harm::works_badly,
              .holds =
                  "The usable oil is at least one minute of the pumps' flow, three to five for continuous "
                  "work; units above 400 bar, hand and air-driven pumps go by their strokes.",
              .otherwise = "Oil that is hot and full of foam.",
              .remedy = "A larger reservoir or a smaller pump.",
              .source = "reservoir sizing guides (3 to 5 times the flow; 1 time in mobile machines)",
              .kinds = reservoirs,
              .look = look_at_flow},
    TradeRule{.name = "oil over the suction",
              .harm = Harm::damages,
              .holds =
                  "With all cylinders out at least 75 mm of oil stand over the suction opening, where its "
                  "depth is stated.",
              .otherwise = "A vortex draws air into the pump.",
              .remedy = "More oil, a lower strainer, or a wider reservoir.",
              .source = "troubleshooting steps (3 in)",
              .kinds = reservoirs,
              .look = look_at_cover},
    TradeRule{.name = "air over the oil",
              .harm = Harm::damages,
              .holds = "Where the room over the oil is stated, it is a tenth of the usable oil and all that "
                       "comes back when everything is in.",
              .otherwise = "It overflows through the breather, or the reservoir bulges.",
              .remedy = "Fill with cylinders in, or take a larger reservoir.",
              .source = "common practice; lifting-tool safety page",
              .kinds = reservoirs,
              .look = look_at_air},
    TradeRule{.name = "reservoir gives the heat off",
              .harm = Harm::works_badly,
              .holds = "With oil of 65 °C reservoir and coolers give off the heat of a cycle within 10 min, "
                       "or within thrice its time, so that a pause of twice its length is enough.",
              .otherwise = "The oil gets thin and ages, seals harden, settings drift.",
              .remedy = "Let the pump idle or stop, begin cycles less often, or fit a cooler.",
              .source = "thermal formulas (2 BTU/(h·ft²·°F)) and overheating notes (150 °F); 10 min common "
                        "practice",
              .kinds = coolers,
              .look = look_at_heat},
    TradeRule{.name = "no fine filter in the suction line",
              .harm = Harm::damages,
              .holds =
                  "A filter in a suction line takes no more than 0.2 bar at the pump's flow when 80 % of "
                  "its face is full, or has a bypass that opens there.",
              .otherwise = "Full or cold it starves the pump, which is eaten away.",
              .remedy = "A coarse screen at most with a vacuum gauge; filter the return.",
              .source = "pump mounting and suction strainer article of a lubrication magazine",
              .kinds = filters,
              .look = look_at_suction_filter},
};

}  // namespace

std::span<const TradeRule> reservoir_rules() { return rules; }

}  // namespace poise::rules
