// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What a pump's work comes to: two stages, hand, air, oil that is pressed together.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "parts/laws.hpp"
#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/kinds.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> two_stage{"two_stage_pump"};
constexpr std::array<std::string_view, 1> hand{"hand_pump"};
constexpr std::array<std::string_view, 1> air{"air_driven_pump"};

/// Share of an actuator's way out that may be made by the high-pressure stage alone, and for how long before
/// anyone minds, s.
constexpr double share_above_change_over = 0.5, time_that_matters = 2.0;

/// What an actuator's way out is made of: all of it, and what is made above a pressure.
struct WayOut {
  double all = 0.0, above = 0.0, time_above = 0.0, highest = 0.0;
};

WayOut way_out(const Course& position, const Course& pressure, double threshold) {
  WayOut way;
  for (std::size_t row = 1; row < position.time().size(); ++row) {
    const double moved = position.value()[row] - position.value()[row - 1];
    if (moved <= 0.0) continue;
    way.all += moved;
    const double here = pressure.value()[row];
    if (here <= threshold) continue;
    way.above += moved;
    // What creeps as oil and steel are pressed together is no motion.
    const double time = position.time()[row] - position.time()[row - 1];
    if (moved > 1e-5 * time) way.time_above += time;
    way.highest = std::max(way.highest, here);
  }
  return way;
}

void look_at_second_stage(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int pump : sight.all({"two_stage_pump"})) {
    const Values& v = sight.values(pump);
    const Course pressure = sight.pressure({pump, 1});
    if (!pressure || v.given("delivery_curve")) continue;
    const double change_over = v["unloading_pressure"] * (1.0 + 0.5 * v["unloading_band"]);
    Alike<double> worst;
    for (int actuator : sight.all(Role::actuator)) {
      const Course position = sight.position(actuator);
      if (!position || sight.is(actuator, "hydraulic_motor")) continue;
      const WayOut way = way_out(position, pressure, change_over);
      if (way.above > share_above_change_over * way.all && way.time_above >= time_that_matters)
        worst.add(way.time_above, actuator, way.time_above);
    }
    if (!worst) continue;
    const WayOut way = way_out(sight.position(worst.part()), pressure, change_over);
    report.add(
        pump,
        fmt::format("{} makes {} of its {} out while {} is above its change-over at {}: that takes {} "
                    "with {} instead of {}{}",
                    sight.tag(worst.part()), sight.say(way.above, Quantity::length),
                    sight.say(way.all, Quantity::length), sight.tag(pump),
                    sight.say(change_over, Quantity::pressure), sight.say(way.time_above, Quantity::time),
                    sight.say(v["high_pressure_flow"], Quantity::flow),
                    sight.say(v["low_pressure_flow"], Quantity::flow), worst.others(sight)),
        fmt::format("Reckon its time with {}, or take a larger bore or a pump that changes over above "
                    "{}",
                    sight.say(v["high_pressure_flow"], Quantity::flow),
                    sight.say(way.highest, Quantity::pressure)));
    report.also(worst.rest());
  }
}

/// More strokes than this in one cycle are not made with a good will.
constexpr double many_strokes = 100.0;

/// Oil that the cylinders take for all of their strokes, as far as their areas are stated, m3.
double full_strokes(const Sight& sight) {
  double sum = 0.0;
  for (int p : all_cylinders(sight)) {
    const Values& v = sight.values(p);
    sum += circle(v["bore"]) * v["stroke"];
  }
  for (int p : sight.all({"swing_clamp"})) {
    const Values& v = sight.values(p);
    sum += v["clamp_area"] * (v["swing_stroke"] + v["clamp_stroke"]);
  }
  return sum;
}

void look_at_strokes(const Sight& sight, Report& report) {
  const std::vector<int> pumps = sight.all({"hand_pump"});
  for (int pump : pumps) {
    const double volume = sight.values(pump)["stroke_volume"];
    const Course delivery = sight.output(pump, "delivery");
    const double oil =
        delivery ? delivery.positive_integral() : full_strokes(sight) / static_cast<double>(pumps.size());
    const double strokes = oil / volume;
    if (strokes <= 1.01 * many_strokes) continue;
    report.add(pump,
               fmt::format("{} needs {:.0f} strokes of {} for the {} of {}", sight.tag(pump), strokes,
                           sight.say(volume, Quantity::stroke_volume), sight.say(oil, Quantity::volume),
                           delivery ? "one cycle" : "all strokes"),
               fmt::format("Take a two-stage hand pump or one of {} and more, or a driven pump",
                           sight.say(oil / many_strokes, Quantity::stroke_volume)));
  }
}

/// What a hand should have to press at most, N.
constexpr double most_effort = 450.0;

void look_at_effort(const Sight& sight, Report& report) {
  for (int pump : sight.all({"hand_pump"})) {
    const Values& v = sight.values(pump);
    const double per_pressure = v["stroke_volume"] / (v["handle_travel"] * v["handle_efficiency"]);
    double effort = 0.0;
    std::optional<double> time;
    if (const Course force = sight.output(pump, "handle_force")) {
      effort = force.highest().value;
      time = force.highest().time;
    } else if (const auto top = sight.limited_at({pump, 1}, 0.0)) {
      effort = *top * per_pressure;
    }
    if (effort <= 1.01 * most_effort) continue;
    report.add(
        pump,
        fmt::format("The handle of {} takes {} at {}; {} is the most to ask of a hand", sight.tag(pump),
                    sight.say(effort, Quantity::force), sight.say(effort / per_pressure, Quantity::pressure),
                    sight.say(most_effort, Quantity::force)),
        fmt::format("Take a pump with {} or less, or work at no more than {}; never lengthen the handle, "
                    "and stand beside it",
                    sight.say(v["stroke_volume"] * most_effort / effort, Quantity::stroke_volume),
                    sight.say(most_effort / per_pressure, Quantity::pressure)),
        time);
  }
}

/// Stall over what is needed, at least.
constexpr double stall_reserve = 1.15;

/// The highest air pressure that the job gives the pump, Pa.
double air_at(const Sight& sight, int pump) {
  return std::ranges::max(values_taken(sight, pump, "air_pressure"));
}

/// A pressure that the pump has to reach, and what asks for it.
struct Need {
  double pressure = 0.0;
  std::string what;
};

/// What steps and switches wait for on the way of the pump's oil.
Need waited_for(const Sight& sight, int pump) {
  // An intensifier behind the pump makes more pressure than the pump has to.
  if (!sight.all({"intensifier", "cycling_intensifier"}).empty()) return {};
  const std::set<int> fed = sight.reach(PortOf{pump, 1}, through_all);
  Need need;
  for (const Step& step : sight.steps) {
    for (const Condition& until : step.until) {
      const Signal& signal = until.signal;
      if (signal.what != Signal::What::pressure || !until.above || until.threshold <= need.pressure) continue;
      if (sight.touches(fed, {signal.part, signal.index}))
        need = {until.threshold, fmt::format("\"{}\" waits for", step.name)};
    }
  }
  for (int contact : sight.all({"pressure_switch"})) {
    const double setting = sight.values(contact)["setting"];
    if (setting > need.pressure && sight.touches(fed, {contact, 0}))
      need = {setting, fmt::format("{} is made at", sight.tag(contact))};
  }
  return need;
}

/// Share of an actuator's own greatest speed from which on it counts as moving.
constexpr double moving = 0.1;

/// The highest pressure at the pump with which an actuator still moves along.
Need moved_with(const Sight& sight, int pump) {
  Need need;
  const Course pressure = sight.pressure({pump, 1});
  if (!pressure) return need;
  for (int actuator : sight.all(Role::actuator)) {
    const Course speed = sight.speed(actuator);
    const double least = moving * speed.highest().value;
    if (least < 1e-5) continue;
    for (std::size_t row = 0; row < speed.time().size(); ++row) {
      if (speed.value()[row] > least && pressure.value()[row] > need.pressure)
        need = {pressure.value()[row], fmt::format("{} moves at", sight.tag(actuator))};
    }
  }
  return need;
}

void look_at_stall(const Sight& sight, Report& report) {
  for (int pump : sight.all({"air_driven_pump"})) {
    const Values& v = sight.values(pump);
    const double reaches = air_at(sight, pump) - v["air_line_drop"], stall = v["ratio"] * reaches;
    if (stall <= 0.0) continue;
    const Need waited = waited_for(sight, pump), moved = moved_with(sight, pump);
    const Need& need = waited.pressure >= moved.pressure ? waited : moved;
    if (stall >= 0.995 * stall_reserve * need.pressure) continue;
    report.add(pump,
               fmt::format("{} stalls at {} with {} of air, {:.2f} times the {} that {}: near stall it "
                           "delivers next to nothing, and {} less air is {} less oil pressure",
                           sight.tag(pump), sight.say(stall, Quantity::pressure),
                           sight.say(reaches, Quantity::pressure), stall / need.pressure,
                           sight.say(need.pressure, Quantity::pressure), need.what,
                           sight.say(0.5 * si::bar, Quantity::pressure),
                           sight.say(0.5 * si::bar * v["ratio"], Quantity::pressure)),
               fmt::format(
                   "Take a ratio of {:.0f} or more, or air of {} at the pump, for {:.2f} times what is "
                   "needed",
                   std::ceil(stall_reserve * need.pressure / reaches),
                   sight.say(stall_reserve * need.pressure / v["ratio"], Quantity::pressure), stall_reserve));
  }
}

/// Share by which pressed oil is smaller than drawn oil from which on strokes and times show it.
constexpr double noticeable = 0.03;

void look_at_pressed_oil(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  int most = -1;
  Peak highest;
  for (int pump : sight.all(Role::source)) {
    const Course pressure = sight.pressure({pump, 1});
    if (most >= 0 && pressure.highest().value <= highest.value) continue;
    most = pump;
    highest = pressure.highest();
  }
  if (most < 0 || highest.value <= 0.0) return;
  const double smaller = 1.0 - sight.oil.density_at_zero() / sight.oil.density(highest.value).value;
  if (smaller <= noticeable) return;
  const double strokes = full_strokes(sight);
  report.add(
      most,
      fmt::format("What {} draws is {} smaller at its {}: strokes that end there take that much longer "
                  "than area times stroke over flow",
                  sight.tag(most), sight.say(smaller, Quantity::share),
                  sight.say(highest.value, Quantity::pressure)),
      strokes > 0.0 ? fmt::format("Reckon {} of drawn oil for the {} of all strokes, hoses and leakage apart",
                                  sight.say(strokes / (1.0 - smaller), Quantity::volume),
                                  sight.say(strokes, Quantity::volume))
                    : fmt::format("Reckon {} more drawn oil than the volume that is moved",
                                  sight.say(smaller / (1.0 - smaller), Quantity::share)),
      highest.time);
}

constexpr std::array rules{
    TradeRule{.name = "work needs only what both stages give",
              .harm = Harm::works_badly,
              .holds = "With a two-stage pump no actuator makes more than half of its way out above the "
                       "change-over, for 2 s or longer.",
              .otherwise = "That part goes five to ten times slower than the pump's great flow promises.",
              .remedy = "Reckon its time with the high-pressure stage alone, or lower the pressure that the "
                        "motion needs.",
              .source = "hand-pump stroke calculation note; common practice",
              .kinds = two_stage,
              .look = look_at_second_stage},
    TradeRule{.name = "strokes at the hand pump",
              .harm = Harm::works_badly,
              .holds =
                  "A hand pump needs no more than 100 strokes for a cycle: the oil that is moved, pressed "
                  "together and taken by hoses, over the volume of a stroke.",
              .otherwise = "An unhappy operator, who stops before the pressure is there.",
              .remedy = "A two-stage or larger hand pump, or a driven one.",
              .source = "hand-pump stroke calculation note; 100 strokes common practice",
              .kinds = hand,
              .look = look_at_strokes},
    TradeRule{.name = "effort at the pump's handle",
              .harm = Harm::hurts,
              .holds = "The handle of a hand pump takes no more than 450 N (better 350 N) at the highest "
                       "pressure.",
              .otherwise = "Handles are lengthened, slip or kick back.",
              .remedy = "A smaller piston, or less pressure; no longer handle, and nobody in its way.",
              .source = "lifting-tool safety pages; figures from memory",
              .kinds = hand,
              .look = look_at_effort},
    TradeRule{.name = "air-driven pump far from its stall",
              .harm = Harm::works_badly,
              .holds = "Ratio times the air pressure at the pump is at least 1.15 times the pressure that "
                       "moves the work, that a step waits for or that a switch is set to.",
              .otherwise = "Near stall it delivers almost nothing: it never gets there, least of all when "
                           "others use the air.",
              .remedy = "A higher ratio, more air pressure, a wider air line.",
              .source = "trade magazine's e-book on fluid-power circuits (ratio); common practice",
              .kinds = air,
              .look = look_at_stall},
    TradeRule{.name = "pressed oil is smaller than drawn oil",
              .harm = Harm::worth_knowing,
              .holds =
                  "Below 3 % (some 500 bar with mineral oil) the oil that is pressed together may be left "
                  "out of a reckoning by hand.",
              .otherwise = "Strokes, times and oil demand come out short.",
              .remedy = "Reckon with the drawn volume.",
              .source = "compression of the oil (Murnaghan)",
              .kinds = all_pumps,
              .look = look_at_pressed_oil},
};

}  // namespace

std::span<const TradeRule> pump_work_rules() { return rules; }

}  // namespace poise::rules
