// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Gauges and test points.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "circuit/rating.hpp"
#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/lifting_point.hpp"
#include "rules/pressed.hpp"
#include "rules/trapped.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> gauges{"gauge"};
constexpr std::array<std::string_view, 2> gauge_and_snubber{"gauge", "snubber"};
constexpr std::array<std::string_view, 4> gauge_and_throttles{"gauge", "snubber", "capillary", "needle"};
constexpr std::array<std::string_view, 2> gauge_and_cock{"gauge", "shut_off"};
constexpr std::array<std::string_view, 3> gauge_and_checks{"gauge", "check", "pilot_operated_check"};

void look_past_the_scale(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  Alike<Peak> past;
  for (int g : sight.all({"gauge"})) {
    const Peak highest = sight.highest(PortOf{g, 0});
    if (highest.value > rating_from(sight.values(g)["range"]).alarm)
      past.add(highest, g, highest.value / sight.values(g)["range"]);
  }
  if (!past) return;
  const double range = sight.values(past.part())["range"];
  report.add(past.part(),
             fmt::format("{} sees {} {}, and its scale ends at {}{}", sight.tag(past.part()),
                         sight.say(past.worst().value, Quantity::pressure), sight.when(past.worst().time),
                         sight.say(range, Quantity::pressure), past.others(sight)),
             fmt::format("Take a gauge whose scale ends {}", fitting_scale(sight, past.worst().value)),
             past.worst().time);
  report.also(past.rest());
}

/// Shares of full scale between which a gauge's highest lasting reading lies.
constexpr double too_low = 0.30, too_high = 0.75;
constexpr double lasting = 1.0;  // s

void look_at_the_middle(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  // A scale of up to twice what the relief valves let come is chosen for that, not for this load.
  double greatest = 0.0;
  for (int valve : sight.all(Role::pressure_limit))
    greatest = std::max(greatest, sight.limit(valve).cracking);
  Alike<double> off;
  for (int g : sight.all({"gauge"})) {
    const Course reading = sight.pressure({g, 0});
    const double range = sight.values(g)["range"], share = sight.highest(PortOf{g, 0}).value / range;
    const bool high =
        share > too_high * 1.01 && share <= 1.0 && reading.time_above(too_high * 1.01 * range) > lasting;
    const bool low = share < too_low && share * range >= si::bar && greatest > 0.0 && range > 2.0 * greatest;
    if (high || low) off.add(share, g, high ? 10.0 : 1.0 - share);
  }
  if (!off) return;
  const int g = off.part();
  const double range = sight.values(g)["range"], reading = off.worst() * range;
  const std::string what =
      off.worst() < too_low
          ? fmt::format("{} never shows more than {}, {} of its scale to {}, where 50 to 75 % is usual",
                        sight.tag(g), sight.say(reading, Quantity::pressure),
                        sight.say(off.worst(), Quantity::share), sight.say(range, Quantity::pressure))
          : fmt::format("{} stands above 75 % of its scale to {} for {}, at up to {}", sight.tag(g),
                        sight.say(range, Quantity::pressure),
                        sight.say(sight.pressure({g, 0}).time_above(too_high * range), Quantity::time),
                        sight.say(reading, Quantity::pressure));
  report.add(g, what + off.others(sight),
             fmt::format("Take a gauge whose scale ends {}", fitting_scale(sight, reading)));
  report.also(off.rest());
}

void look_at_errors(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  struct Place {
    double error = 0.0, highest = 0.0;
    Sight::Weakest weakest{};
  };
  Alike<Place> coarse;
  for (int g : sight.all({"gauge"})) {
    const auto line = sight.reach(PortOf{g, 0}, through_lines);
    const auto weakest = sight.weakest(line, [&](int part) { return !sight.is(part, "gauge"); });
    const auto highest = sight.highest(line);
    if (weakest.part < 0 || !highest) continue;
    double highest_value = highest->peak.value, margin = weakest.rating - highest_value;
    const double error = sight.values(g)["accuracy"] * sight.values(g)["range"];
    if (error <= 0.5 * margin * 1.005) continue;
    // A gauge does not prove what is over before it can be read.
    highest_value = sight.pressure(highest->at).lasting(lasting);
    margin = weakest.rating - highest_value;
    // A margin that is no more than rounding is told by the rating itself.
    if (margin < 0.005 * weakest.rating || error <= 0.5 * margin * 1.005) continue;
    coarse.add({error, highest_value, weakest}, g, error / margin);
  }
  if (!coarse) return;
  const auto& [error, highest, weakest] = coarse.worst();
  const double margin = weakest.rating - highest;
  const int g = coarse.part();
  report.add(g,
             fmt::format("{} may be wrong by {} ({} of {}), and only {} lie between the {} of its line and "
                         "the {} of {}: the error is to be less than half of that{}",
                         sight.tag(g), sight.say(error, Quantity::pressure),
                         sight.say(sight.values(g)["accuracy"], Quantity::share),
                         sight.say(sight.values(g)["range"], Quantity::pressure),
                         sight.say(margin, Quantity::pressure), sight.say(highest, Quantity::pressure),
                         sight.say(weakest.rating, Quantity::pressure), sight.tag(weakest.part),
                         coarse.others(sight)),
             fmt::format("Take a gauge whose class times scale is {} at most, or work at {} or less",
                         sight.say(0.5 * margin, Quantity::pressure),
                         sight.say(weakest.rating - 2.0 * error, Quantity::pressure)));
  report.also(coarse.rest());
}

// ── Trapped lines ──

void look_behind_checks(const Sight& sight, Report& report) {
  // A rule of their own asks for a gauge at each lifting point.
  const std::set<int> lifting = lifting_jacks(sight);
  struct Place {
    double pressure = 0.0;
    int holds = -1;
  };
  Alike<Place> blind;
  for (const HeldLine& line : held_lines(sight)) {
    const bool lifts = std::ranges::any_of(line.actuators, [&](int p) { return lifting.contains(p); });
    if (line.has_accumulator || lifts || gauge_in(sight, line.zone) >= 0) continue;
    const auto highest = sight.highest(line.zone);
    const double pressure = highest ? highest->peak.value : 0.0;
    if (sight.ran() && pressure < goes_through_skin) continue;
    blind.add({pressure, line.actuators.front()}, line.check, pressure);
  }
  if (!blind) return;
  const auto& [pressure, holds] = blind.worst();
  const std::string &check = sight.tag(blind.part()), &held = sight.tag(holds);
  report.add(blind.part(),
             pressure > 0.0
                 ? fmt::format("Behind {} up to {} stay at {}, and no gauge stands there{}", check,
                               sight.say(pressure, Quantity::pressure), held, blind.others(sight))
                 : fmt::format("Behind {} pressure stays at {}, and none of the {} gauges stands there{}",
                               check, held, sight.all({"gauge"}).size(), blind.others(sight)),
             pressure > 0.0 ? fmt::format("Put a gauge or a test point between {} and {}, with a scale that "
                                          "ends {}",
                                          check, held, fitting_scale(sight, pressure))
                            : fmt::format("Put a gauge or a test point between {} and {}", check, held));
  report.also(blind.rest());
}

// ── Spikes, and gauges that do not follow ──

void look_at_blows(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  constexpr double near_the_end = 0.9, over_the_rest = 1.25, short_time = 0.1;
  struct Place {
    Peak peak;
    double lasts = 0.0;
  };
  Alike<Place> struck;
  for (int g : sight.all({"gauge"})) {
    const Course pressure = sight.pressure({g, 0});
    const Peak peak = sight.highest(PortOf{g, 0});
    if (peak.value <= near_the_end * sight.values(g)["range"]) continue;
    const double lasts = pressure.time_above(peak.value / over_the_rest);
    if (lasts < short_time) struck.add({peak, lasts}, g, peak.value / sight.values(g)["range"]);
  }
  if (!struck) return;
  const auto& [peak, lasts] = struck.worst();
  const int g = struck.part();
  report.add(
      g,
      fmt::format("{} is struck with {} {}, {} of its scale, and is above {} for {} only{}", sight.tag(g),
                  sight.say(peak.value, Quantity::pressure), sight.when(peak.time),
                  sight.say(peak.value / sight.values(g)["range"], Quantity::share),
                  sight.say(peak.value / over_the_rest, Quantity::pressure), sight.say(lasts, Quantity::time),
                  struck.others(sight)),
      fmt::format("Put a snubber of {} before {}", sight.say(0.3 * si::mm, Quantity::length), sight.tag(g)),
      peak.time);
  report.also(struck.rest());
}

constexpr std::array<std::string_view, 3> dampers{"snubber", "capillary", "needle"};
constexpr std::array<std::string_view, 1> cocks{"shut_off"};

struct Behind {
  BeforeGauge before;
  double shows = 0.0, there = 0.0, time = 0.0;
  double by() const { return std::abs(there - shows); }
};

/// Whether another gauge shows what a line has at a moment, within the class of both: it stands where that
/// pressure comes from, with nothing between that shuts but a directional valve.
bool another_shows(const Sight& sight, int gauge, PortOf line, double moment) {
  const auto error = [&](int g) { return sight.values(g)["accuracy"] * sight.values(g)["range"]; };
  const double there = sight.pressure(line).at(moment);
  return std::ranges::any_of(sight.all({"gauge"}), [&](int other) {
    return other != gauge && pressed_unchecked(sight, {other, 0}).contains(sight.group(line)) &&
           std::abs(sight.pressure({other, 0}).at(moment) - there) <= error(gauge) + error(other);
  });
}

/// The worst step's end at which a gauge shows something else than its line has, beyond its class.
Behind furthest_behind(const Sight& sight, int gauge, std::span<const std::string_view> kinds) {
  Behind worst{.before = before_gauge(sight, gauge, kinds)};
  if (worst.before.part < 0) return worst;
  const Course shows = sight.pressure({gauge, 0}), there = sight.pressure(worst.before.line);
  if (!shows || !there) return worst;
  const double error = sight.values(gauge)["accuracy"] * sight.values(gauge)["range"];
  // A cock that no step works is opened by hand when the gauge is wanted.
  const bool by_hand = sight.is(worst.before.part, "shut_off") && !sight.is_worked(worst.before.part);
  for (const StepSpan& span : sight.spans()) {
    const double a = shows.at(span.end), b = there.at(span.end);
    if (std::abs(b - a) > std::max(error, worst.by())) {
      if (by_hand && another_shows(sight, gauge, worst.before.line, span.end)) continue;
      worst.shows = a;
      worst.there = b;
      worst.time = span.end;
    }
  }
  return worst;
}

Alike<Behind> gauges_behind(const Sight& sight, std::span<const std::string_view> kinds) {
  Alike<Behind> all;
  for (int g : sight.all({"gauge"})) {
    const Behind behind = furthest_behind(sight, g, kinds);
    if (behind.by() > 0.0) all.add(behind, g, behind.by());
  }
  return all;
}

void look_for_lag(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  const auto late = gauges_behind(sight, dampers);
  if (!late) return;
  const Behind& worst = late.worst();
  report.add(
      late.part(),
      fmt::format("{} behind {} shows {} {}, and its line has {} by then{}", sight.tag(late.part()),
                  sight.tag(worst.before.part), sight.say(worst.shows, Quantity::pressure),
                  sight.when(worst.time), sight.say(worst.there, Quantity::pressure), late.others(sight)),
      fmt::format("Read {} later, when it has come to rest, or take a wider hole at {}",
                  sight.tag(late.part()), sight.tag(worst.before.part)),
      worst.time);
  report.also(late.rest());
}

void look_for_shut_cocks(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  const auto off = gauges_behind(sight, cocks);
  if (!off) return;
  const Behind& worst = off.worst();
  report.add(
      off.part(),
      fmt::format("{} behind {} shows {} {}, while its line has {}{}", sight.tag(off.part()),
                  sight.tag(worst.before.part), sight.say(worst.shows, Quantity::pressure),
                  sight.when(worst.time), sight.say(worst.there, Quantity::pressure), off.others(sight)),
      fmt::format("Open {} before {} is read, and put a plate there that says so",
                  sight.tag(worst.before.part), sight.tag(off.part())),
      worst.time);
  report.also(off.rest());
}

void look_at_classes(const Sight& sight, Report& report) {
  struct Place {
    double error = 0.0, allowed = 0.0;
  };
  Alike<Place> wrong;
  for (int g : sight.all({"gauge"})) {
    const Values& v = sight.values(g);
    const double at_zero = std::abs(v["zero_error"]), at_end = std::abs(v["zero_error"] + v["gain"] - 1.0);
    const double error = std::max(at_zero, at_end), allowed = v["accuracy"];
    if (error > allowed * 1.005) wrong.add({error * v["range"], allowed * v["range"]}, g, error / allowed);
  }
  if (!wrong) return;
  report.add(wrong.part(),
             fmt::format("{} is wrong by {}, and its class allows {}{}", sight.tag(wrong.part()),
                         sight.say(wrong.worst().error, Quantity::pressure),
                         sight.say(wrong.worst().allowed, Quantity::pressure), wrong.others(sight)),
             fmt::format("Replace {}, or have it set until it is right within {} of a master",
                         sight.tag(wrong.part()), sight.say(wrong.worst().allowed, Quantity::pressure)));
  report.also(wrong.rest());
}

constexpr std::array rules{
    TradeRule{.name = "gauge never past its scale",
              .harm = Harm::damages,
              .holds = "No pressure of the run, spikes included, is above a gauge's full scale.",
              .otherwise = "Its spring is bent: from then on it reads wrong, or it bursts.",
              .remedy = "Take a scale that ends at 1.3 to 2 times the highest pressure.",
              .source = "gauge guide on range",
              .kinds = gauges,
              .look = look_past_the_scale},
    TradeRule{
        .name = "gauge reads in the middle of its scale",
        .harm = Harm::works_badly,
        .holds =
            "A gauge's highest reading is 50 to 75 % of its scale. Said is what stands above 75 % for "
            "more than 1 s, and what sees 1 bar or more but stays below 30 % on a scale of more than twice "
            "the highest relief setting.",
        .otherwise = "It cannot be read well, or does not live long.",
        .remedy = "Take a scale that ends at 1.3 to 2 times the reading.",
        .source = "gauge guide on range; the 30 % is common practice",
        .kinds = gauges,
        .look = look_at_the_middle},
    TradeRule{.name = "gauge finer than the margin it proves",
              .harm = Harm::hurts,
              .holds = "A gauge's error, class times full scale, is less than half of what lies between the "
                       "highest pressure of its line and the lowest rating there.",
              .otherwise = "It shows that all is well while the rating is passed.",
              .remedy = "Take a better class or a shorter scale, or leave more room.",
              .source = "gauge guide on accuracy of full scale",
              .kinds = gauges,
              .look = look_at_errors},
    TradeRule{.name = "gauge behind each check",
              .harm = Harm::hurts,
              .holds =
                  "Each line with an actuator that a check keeps pressed has a gauge or test point of its "
                  "own (lifting points have a rule of their own).",
              .otherwise = "Zero on another gauge is taken for zero there.",
              .remedy = "Put a gauge between the check and what it holds.",
              .source = "fluid power safety alerts on stored energy",
              .kinds = gauge_and_checks,
              .look = look_behind_checks},
    TradeRule{.name = "snubber where gauges are struck",
              .harm = Harm::works_badly,
              .holds = "A gauge gets no blow that goes above 90 % of its scale, is a quarter above the rest, "
                       "and is over within 0.1 s.",
              .otherwise = "The needle and its spring break.",
              .remedy = "Put a snubber before it; 0.2 to 0.5 mm is usual.",
              .source = "gauge guide on range and failure modes; sizes common practice",
              .kinds = gauge_and_snubber,
              .look = look_at_blows},
    TradeRule{.name = "damped gauge read at rest",
              .harm = Harm::works_badly,
              .holds = "A gauge behind a snubber, capillary or needle shows at the end of each step what its "
                       "line has, within its class.",
              .otherwise = "It is read while it still moves, and settings follow a wrong number.",
              .remedy = "Wait longer, or take a wider hole.",
              .source = "gauge guides: range, error and failure modes",
              .kinds = gauge_and_throttles,
              .look = look_for_lag},
    TradeRule{.name = "gauge cock open when it counts",
              .harm = Harm::hurts,
              .holds =
                  "A gauge behind a shut-off shows at the end of each step what its line has, within its "
                  "class, unless no step works the cock and another gauge shows it.",
              .otherwise = "A false zero, or a false pressure that stays after the cock is shut.",
              .remedy = "Open the cock before the gauge is trusted, and say so on a plate.",
              .source = "common practice",
              .kinds = gauge_and_cock,
              .look = look_for_shut_cocks},
    TradeRule{.name = "gauge right within its class",
              .harm = Harm::works_badly,
              .holds = "Zero error and gain as stated make at most the error of the gauge's class, at either "
                       "end of its scale.",
              .otherwise = "Faults are looked for that are not there, and a relief valve is set too high.",
              .remedy = "Compare it with a master within the year; set or replace it.",
              .source = "gauge guide on failure modes and calibration",
              .kinds = gauges,
              .look = look_at_classes},
};

}  // namespace

std::span<const TradeRule> gauge_rules() { return rules; }

}  // namespace poise::rules
