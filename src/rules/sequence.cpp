// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Sequence valves: what moves first, and what follows at which pressure.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/chapters.hpp"
#include "rules/pressed.hpp"
#include "rules/sequence_order.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> kinds{"sequence"};
/// What a sequence valve has to stand above a need: 10 % and 10 bar, with its tolerance.
double right_above(double need) {
  return std::max(1.1 * need, need + 10.0 * si::bar) / (1.0 - setting_tolerance);
}

/// The pressure from which on a work support holds anything, Pa.
double lock_pressure(const Values& v) {
  const auto curve = v.points("capacity_curve");
  if (curve.size() < 2) return v["lock_pressure"];
  const double slope = (curve[1].y - curve[0].y) / (curve[1].x - curve[0].x);
  return slope > 0.0 ? std::max(curve[0].x - curve[0].y / slope, 0.0) : curve[0].x;
}

/// What the first group needs at the least, where the setting is too close to it.
struct Need {
  double pressure = 0.0;
  int part = -1;
  bool to_lock = false;
  double time = 0.0;
};
Need close_need(const Sight& sight, const Order& order) {
  Need need;
  const double setting = setting_of(sight, order.valve);
  for (const Driven& driven : order.first) {
    if (sight.is(driven.part(), "work_support")) {
      const double lock = lock_pressure(sight.values(driven.part()));
      if (right_above(lock) > 1.001 * setting && lock > need.pressure) need = {lock, driven.part(), true};
    }
    const Course speed = sight.speed(driven.part(), driven.motion);
    if (!speed || driven.pace <= 0.0) continue;
    const auto moves = [&](std::size_t row) {
      return order.pilot.time()[row] <= order.opens && right_above(order.pilot.value()[row]) > setting &&
             driven.forward(speed.value()[row]) > driven.moves();
    };
    const Peak peak = lasting_while(order.pilot, 0.1, 0.0, moves);
    if (peak.value > need.pressure) need = {peak.value, driven.part(), false, peak.time};
  }
  return need;
}

void look_above_first(const Sight& sight, Report& report) {
  for (const Order& order : orders_of(sight)) {
    const Need need = close_need(sight, order);
    if (need.part < 0) continue;
    const double right = right_above(need.pressure);
    const std::string why =
        need.to_lock ? fmt::format("{} holds nothing below {}", sight.tag(need.part),
                                   sight.say(need.pressure, Quantity::pressure))
                     : fmt::format("{} takes {} to move {}", sight.tag(need.part),
                                   sight.say(need.pressure, Quantity::pressure), sight.when(need.time));
    report.add(
        order.valve,
        fmt::format("{} opens at {}, and {}: with 10 % and 10 bar to spare, and 3 % for its own "
                    "tolerance, {} would be right",
                    sight.tag(order.valve), sight.say(setting_of(sight, order.valve), Quantity::pressure),
                    why, sight.say(right, Quantity::pressure)),
        fmt::format("Set {} to {} or more", sight.tag(order.valve), sight.say(right, Quantity::pressure)));
  }
}

/// Share of the relief's cracking pressure that a sequence valve is fully open below.
constexpr double below_the_relief = 0.9;

void look_below_relief(const Sight& sight, Report& report) {
  for (int valve : sight.all({"sequence"})) {
    const auto limits = guards_of(sight, pilot_of(sight, valve));
    if (limits.empty()) continue;
    const double share = 1.0 + setting_tolerance + sight.values(valve)["override"];
    const double setting = setting_of(sight, valve), open = setting * share,
                 most = below_the_relief * limits.front().cracking;
    if (open <= 1.001 * most) continue;
    report.add(
        valve,
        fmt::format("{}, set to {}, may be fully open only at {}, and {} cracks at {}: {} is the most",
                    sight.tag(valve), sight.say(setting, Quantity::pressure),
                    sight.say(open, Quantity::pressure), sight.tag(limits.front().part),
                    sight.say(limits.front().cracking, Quantity::pressure),
                    sight.say(most, Quantity::pressure)),
        fmt::format("Set {} to {} or less, or let {} crack at {} or more if all that sees it stands that",
                    sight.tag(valve), sight.say(most / share, Quantity::pressure),
                    sight.tag(limits.front().part), sight.say(open / below_the_relief, Quantity::pressure)));
  }
}

/// What two valves on one line must be apart, Pa: twice the tolerance and the band, and 10 % (35 bar at 350).
double stage(const Sight& sight, int lower) {
  return setting_of(sight, lower) * std::max(0.10, 2.0 * setting_tolerance + sight.values(lower)["override"]);
}

void look_at_stages(const Sight& sight, Report& report) {
  std::vector<int> valves = sight.all({"sequence"});
  std::ranges::stable_sort(valves, {}, [&](int valve) { return setting_of(sight, valve); });
  for (std::size_t i = 0; i < valves.size(); ++i) {
    const int low = valves[i];
    const std::set<int> line = sight.reach(pilot_of(sight, low), through_restrictions);
    for (std::size_t k = i + 1; k < valves.size(); ++k) {
      const int high = valves[k];
      if (!sight.touches(line, pilot_of(sight, high))) continue;
      const double apart = setting_of(sight, high) - setting_of(sight, low), least = stage(sight, low);
      // Two that are set alike are meant to open together.
      if (apart < 0.005 * setting_of(sight, low)) continue;
      if (apart < 0.999 * least) {
        report.add(high,
                   fmt::format("{} opens at {} and {} at {} on one line: {} apart, where {} is the least",
                               sight.tag(low), sight.say(setting_of(sight, low), Quantity::pressure),
                               sight.tag(high), sight.say(setting_of(sight, high), Quantity::pressure),
                               sight.say(apart, Quantity::pressure), sight.say(least, Quantity::pressure)),
                   fmt::format("Set {} to {} or more", sight.tag(high),
                               sight.say(setting_of(sight, low) + least, Quantity::pressure)));
      }
      break;
    }
  }
}

/// Where a rod meets the first spring that it pushes against: from there on it presses, and gives no more
/// than that does.
double meets(const Sight& sight, int part) {
  double first = no_limit;
  const PortOf rod{part, sight.part(part).kind->oil_ports};
  for (int other : sight.on_rod(rod)) {
    if (sight.is(other, "spring")) first = std::min(first, sight.values(other)["free_travel"]);
  }
  return first;
}

/// How far a motion still goes in the step after the valve opened, m, and how far it comes in all.
struct Rest {
  double here = 0.0, there = 0.0, missing = 0.0, travel = 0.0;
};
Rest rest_of(const Sight& sight, const Order& order, const Driven& driven) {
  // A support is there as its plunger touches, not as the piston below it has pressed its spring.
  const int motion = sight.is(driven.part(), "work_support") ? 0 : driven.motion;
  const Course position = sight.position(driven.part(), motion);
  if (!position) return {};
  const StepSpan rest{.name = "", .begin = order.opens, .end = order.ends};
  const bool grows = driven.swept > 0.0;
  const double here = position.at(order.opens), begin = position.value().front();
  const double there =
      grows ? std::min(position.highest(rest).value, std::max(meets(sight, driven.part()), here))
            : position.lowest(rest).value;
  return {here, there, grows ? there - here : here - there, std::abs(there - begin)};
}

void look_at_first_there(const Sight& sight, Report& report) {
  for (const Order& order : orders_of(sight)) {
    if (order.second.empty() || !ever_opens(sight, order)) continue;
    std::vector<int> late;
    Rest worst;
    for (const Driven& driven : order.first) {
      const Rest rest = rest_of(sight, order, driven);
      if (rest.missing <= std::max(0.5 * si::mm, 0.02 * rest.travel)) continue;
      const bool is_worst = rest.missing > worst.missing;
      late.insert(is_worst ? late.begin() : late.end(), driven.part());
      if (is_worst) worst = rest;
    }
    if (late.empty()) continue;
    const int first = late.front();
    late.erase(late.begin());
    report.add(
        order.valve,
        fmt::format("{} opens {} while {} stands at {} of the {} where it ends{}", sight.tag(order.valve),
                    sight.when(order.opens), sight.tag(first), sight.say(worst.here, Quantity::length),
                    sight.say(worst.there, Quantity::length), likewise(sight, late)),
        fmt::format("Let the second group wait for the position too (a step, or a valve that {} works at "
                    "the end of its way), or set {} above the {} that it opens at",
                    sight.tag(first), sight.tag(order.valve),
                    sight.say(setting_of(sight, order.valve), Quantity::pressure)),
        order.opens);
    report.also(late);
  }
}

/// Share of the setting that a clamp or a cylinder of the first group keeps.
constexpr double keeps = 0.8;

void look_at_first_held(const Sight& sight, Report& report) {
  for (const Order& order : orders_of(sight)) {
    if (order.second.empty() || !ever_opens(sight, order)) continue;
    for (const Driven& driven : order.first) {
      const Course own = sight.pressure(driven.port);
      const bool support = sight.is(driven.part(), "work_support");
      const double floor =
          support ? lock_pressure(sight.values(driven.part())) : keeps * setting_of(sight, order.valve);
      const StepSpan rest{.name = "", .begin = order.opens, .end = order.ends};
      if (!own || own.at(order.opens) < floor || own.lowest(rest).value >= floor) continue;
      const auto sags = [&](std::size_t row) {
        return own.time()[row] > order.opens && own.time()[row] <= order.ends && own.value()[row] < floor &&
               order.opening.value()[row] > sequence_open_from;
      };
      if (time_while(own, sags) < 0.02) continue;
      const Peak lowest = own.lowest(rest);
      report.add(
          order.valve,
          fmt::format("{} falls to {} {} while the second group moves: {} is the least {}",
                      sight.tag(driven.part()), sight.say(lowest.value, Quantity::pressure),
                      sight.when(lowest.time), sight.say(floor, Quantity::pressure),
                      support ? "that locks it" : "for the first group, 0.8 times the setting"),
          fmt::format("Put a check before {}, so that it keeps the {} at which {} opens",
                      sight.tag(driven.part()), sight.say(setting_of(sight, order.valve), Quantity::pressure),
                      sight.tag(order.valve)),
          lowest.time);
      break;
    }
  }
}

void look_at_free_return(const Sight& sight, Report& report) {
  for (int valve : sight.all({"sequence"})) {
    if (sight.values(valve).word("reverse_check") == 1) continue;
    const std::set<int> behind = sight.reach(PortOf{valve, 1}, through_restrictions);
    const auto driven = driven_in(sight, behind);
    if (driven.empty() || leads_back(sight, behind, valve)) continue;
    report.add(
        valve,
        fmt::format("{}, set to {}, has no reverse check, and {} can send its oil back by no other way",
                    sight.tag(valve), sight.say(setting_of(sight, valve), Quantity::pressure),
                    sight.tag(driven.front().part())),
        fmt::format("Take {} with its reverse check, or put a check from {} to {} for the return that "
                    "hangs below {}",
                    sight.tag(valve), sight.name({valve, 1}), sight.name({valve, 0}),
                    sight.say(setting_of(sight, valve), Quantity::pressure)));
  }
}

constexpr std::array rules{
    TradeRule{.name = "sequence above the first group",
              .harm = Harm::hurts,
              .holds =
                  "A sequence valve opens above all that the first group needs to move and to be firm, with "
                  "10 % and 10 bar to spare and 3 % for its own tolerance.",
              .otherwise = "The second group starts before the first one is there.",
              .remedy = "Raise the setting, or lower what the first group takes.",
              .source = "training text on sequence valves; margins common practice",
              .kinds = kinds,
              .look = look_above_first},
    TradeRule{.name = "sequence below the relief",
              .harm = Harm::works_badly,
              .holds =
                  "A sequence valve with its tolerance of 3 % and its band is fully open at no more than "
                  "0.9 times the pressure at which the relief valve cracks.",
              .otherwise = "The second group is slow, and never at pressure.",
              .remedy = "Lower the sequence valve, or raise the relief valve within the ratings.",
              .kinds = kinds,
              .look = look_below_relief},
    TradeRule{.name = "sequence stages apart",
              .harm = Harm::works_badly,
              .holds =
                  "Sequence valves on one line that are not set alike are at least 10 % apart (35 bar at "
                  "350 bar), and no less than twice the tolerance of 3 % and the band.",
              .otherwise = "The order changes from fixture to fixture and from day to day.",
              .remedy = "Set them farther apart.",
              .kinds = kinds,
              .look = look_at_stages},
    TradeRule{.name = "first group there before the second",
              .harm = Harm::hurts,
              .holds =
                  "As a sequence valve opens, what moves first is where it ends, to 0.5 mm and 2 % of its "
                  "way.",
              .otherwise = "A clamp closes on air, a tool crashes: pressure is no proof of position.",
              .remedy = "Raise the setting, or prove the position as well.",
              .kinds = kinds,
              .look = look_at_first_there},
    TradeRule{.name = "first group keeps its pressure",
              .harm = Harm::hurts,
              .holds =
                  "While the second group moves the first one keeps 0.8 times the setting of the sequence "
                  "valve, and a work support the pressure that locks it.",
              .otherwise = "The supports let go for a moment.",
              .remedy = "Put a check before the first group.",
              .source = "training text on sequence valves; figure common practice",
              .kinds = kinds,
              .look = look_at_first_held},
    TradeRule{.name = "free return past the sequence valve",
              .harm = Harm::works_badly,
              .holds = "What a sequence valve feeds returns past it by a reverse check, or by another way.",
              .otherwise = "The return hangs: a clamp or a support does not come back.",
              .remedy = "Take the valve with a reverse check.",
              .source = "NAVEDTRA 14105 Fluid Power, ch. 6; training text on sequence valves",
              .kinds = kinds,
              .look = look_at_free_return},
};

}  // namespace

std::span<const TradeRule> sequence_rules() { return rules; }

}  // namespace poise::rules
