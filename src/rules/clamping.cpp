// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Swing clamps: swing, arm, stroke, speed, return.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> clamps{"swing_clamp"};
constexpr std::array<std::string_view, 3> metered_clamps{"swing_clamp", "one_way_flow_control",
                                                         "compensated_flow_control"};

bool by_oil(const Sight& sight, int clamp) { return sight.values(clamp).word("return") == 1; }

/// Way down behind the swing before the arm touches.
double gap_of(const Sight& sight, int clamp) {
  return sight.given(clamp, "gap").value_or(0.5 * sight.values(clamp)["clamp_stroke"]);
}

/// Gap behind the swing that every part's tolerance takes, m.
constexpr double least_gap = 1.0 * si::mm;

void look_at_swing(const Sight& sight, Report& report) {
  for (int k : sight.all({"swing_clamp"})) {
    const double swing = sight.values(k)["swing_stroke"];
    if (gap_of(sight, k) < least_gap) {
      report.add(
          k,
          fmt::format("{} touches the workpiece {} behind its swing: a part that is a little higher meets "
                      "the arm while it still turns",
                      sight.tag(k), sight.say(gap_of(sight, k), Quantity::length)),
          fmt::format("Set the arm so that it touches {} behind the swing, in the middle of its {} straight "
                      "down",
                      sight.say(0.5 * sight.values(k)["clamp_stroke"], Quantity::length),
                      sight.say(sight.values(k)["clamp_stroke"], Quantity::length)));
      continue;
    }
    for (int p : sight.on_rod(*sight.port(k, "arm"))) {
      if (!sight.is(p, "spring") || sight.values(p)["free_travel"] >= swing) continue;
      report.add(
          k,
          fmt::format("{} meets {} after {}, and swings until {}: force bends the cam that turns it",
                      sight.tag(k), sight.tag(p), sight.say(sight.values(p)["free_travel"], Quantity::length),
                      sight.say(swing, Quantity::length)),
          fmt::format("Keep everything out of the arm's way for the first {} of its stroke",
                      sight.say(swing, Quantity::length)));
    }
  }
}

void look_at_stroke(const Sight& sight, Report& report) {
  for (int k : sight.all({"swing_clamp"})) {
    const double stroke = sight.values(k)["clamp_stroke"], gap = gap_of(sight, k), share = gap / stroke;
    if (gap < least_gap || (share > 0.199 && share < 0.801)) continue;
    report.add(
        k,
        fmt::format("{} touches after {} of its {} straight down, {}: 20 to 80 % leaves room for the "
                    "part's tolerance{}",
                    sight.tag(k), sight.say(gap, Quantity::length), sight.say(stroke, Quantity::length),
                    sight.say(share, Quantity::share),
                    gap >= stroke ? "; so it stops on its own end and presses on nothing" : ""),
        fmt::format("Set the arm so that it touches after {} to {}",
                    sight.say(0.2 * stroke, Quantity::length), sight.say(0.8 * stroke, Quantity::length)));
  }
}

/// The quickest swing of a run, from 2 to 98 %, scaled to the whole of it.
struct Swing {
  double lasts = 0.0, end = 0.0;
  bool down = true;
};

std::optional<Swing> quickest_swing(const Course& swung) {
  std::optional<Swing> quickest;
  double left_up = -1.0, left_down = -1.0;
  const auto time = swung.time();
  for (std::size_t row = 0; row < time.size(); ++row) {
    const double share = swung.value()[row];
    if (share <= 0.02) {
      if (left_down >= 0.0 && (!quickest || time[row] - left_down < quickest->lasts))
        quickest = Swing{time[row] - left_down, time[row], false};
      left_up = time[row];
      left_down = -1.0;
    } else if (share >= 0.98) {
      if (left_up >= 0.0 && (!quickest || time[row] - left_up < quickest->lasts))
        quickest = Swing{time[row] - left_up, time[row], true};
      left_down = time[row];
      left_up = -1.0;
    }
  }
  if (quickest) quickest->lasts /= 0.96;
  return quickest;
}

/// Time that a swing takes at least where no greatest flow is stated, s.
constexpr double swing_time = 0.5;

/// Where a swing is slowed: at the inlet, but for one that a spring brings back.
std::string throttled_at(const Sight& sight, int clamp, bool down) {
  if (!down && !by_oil(sight, clamp)) return fmt::format("out of {}.A", sight.tag(clamp));
  return fmt::format("into {}.{}", sight.tag(clamp), down ? "A" : "B");
}

void look_at_swing_speed(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  struct Place {
    Swing swing;
    double share = 1.0, least = 0.0;  ///< s, the least that it may take, and which share of that it takes
  };
  Alike<Place> quick;
  for (int k : sight.all({"swing_clamp"})) {
    const Course swung = sight.output(k, "swung");
    const auto swing = quickest_swing(swung);
    if (!swing || swing->lasts <= 0.0) continue;
    const double area = sight.values(k)[swing->down || !by_oil(sight, k) ? "clamp_area" : "unclamp_area"];
    const auto most = sight.given(k, "greatest_flow");
    const double least = most ? area * sight.values(k)["swing_stroke"] / *most : swing_time;
    if (swing->lasts > 0.95 * least) continue;
    const double share = swing->lasts / least;
    quick.add({*swing, share, least}, k, -share);
  }
  if (!quick) return;
  const int k = quick.part();
  const auto& [swing, share, least] = quick.worst();
  const auto most = sight.given(k, "greatest_flow");
  report.add(k,
             fmt::format("{} swings {} in {} {}, and {} is the least {}{}", sight.tag(k),
                         swing.down ? "down" : "back", sight.say(swing.lasts, Quantity::time),
                         sight.when(swing.end), sight.say(least, Quantity::time),
                         most ? fmt::format("at its greatest flow of {}", sight.say(*most, Quantity::flow))
                              : std::string("for a usual arm"),
                         quick.others(sight)),
             fmt::format("Throttle what flows {} to {} of the flow{}", throttled_at(sight, k, swing.down),
                         sight.say(share, Quantity::share),
                         most ? "" : ", or state greatest_flow from its datasheet for this arm"),
             swing.end);
  report.also(quick.rest());
}

void look_at_arm(const Sight& sight, Report& report) {
  for (int k : sight.all({"swing_clamp"})) {
    const auto points = sight.values(k).points("arm_curve");
    const auto length = sight.given(k, "arm_length");
    const Course force = sight.ran() ? sight.output(k, "clamp_force") : Course();
    if (points.empty() || !length) continue;
    if (*length > points.back().x * 1.001) {
      report.add(
          k,
          fmt::format("The arm of {} is {} long, and its table ends at {}: how far it bends is not known",
                      sight.tag(k), sight.say(*length, Quantity::length),
                      sight.say(points.back().x, Quantity::length)),
          fmt::format("Take an arm of {} or less, or a larger clamp",
                      sight.say(points.back().x, Quantity::length)));
      continue;
    }
    double most = 0.0;
    for (const CurvePoint& point : points) most = std::max(most, point.x * point.y);
    const Peak peak = force ? force.highest() : Peak{};
    if (most <= 0.0 || peak.value * *length <= 1.03 * most) continue;
    report.add(k,
               fmt::format("{} presses {} with an arm of {} {}: {}, and its table goes to {}", sight.tag(k),
                           sight.say(peak.value, Quantity::force), sight.say(*length, Quantity::length),
                           sight.when(peak.time), sight.say(peak.value * *length, Quantity::torque),
                           sight.say(most, Quantity::torque)),
               fmt::format("Shorten the arm to {}, or press with {} at most",
                           sight.say(most / peak.value, Quantity::length),
                           sight.say(most / *length, Quantity::force)),
               peak.time);
  }
}

/// The port at which a throttle takes in what it meters, or none.
std::optional<PortOf> metered_inlet(const Sight& sight, int p) {
  if (sight.is(p, "one_way_flow_control")) return sight.port(p, "B");
  return sight.port(p, "A");
}

/// The first port of a double-acting clamp in these lines, or none.
std::optional<PortOf> clamp_port_in(const Sight& sight, const std::set<int>& lines) {
  for (const PortOf& at : sight.ports_in(lines)) {
    if (sight.is(at.part, "swing_clamp") && by_oil(sight, at.part)) return at;
  }
  return std::nullopt;
}

void look_at_metering(const Sight& sight, Report& report) {
  for (int p : sight.all({"one_way_flow_control", "compensated_flow_control"})) {
    const auto out = clamp_port_in(sight, sight.reach(*metered_inlet(sight, p), through_lines));
    if (!out) continue;
    const bool at_a = sight.plan.port(*out).name == "A";
    const auto feed = feeding_pressure(sight, *sight.port(out->part, at_a ? "B" : "A"));
    if (!feed) continue;
    const Values& v = sight.values(out->part);
    const double ratio = v["unclamp_area"] / v["clamp_area"], held = *feed * (at_a ? ratio : 1.0 / ratio);
    report.add(
        out->part,
        fmt::format("{} throttles what leaves {} at {}: with {} on its other side the areas hold up to {} "
                    "there while the arm turns",
                    sight.tag(p), sight.tag(out->part), sight.name(*out),
                    sight.say(*feed, Quantity::pressure), sight.say(held, Quantity::pressure)),
        fmt::format("Turn {} round, so that it throttles what flows into {}, at no more than {}",
                    sight.tag(p), sight.name(*out), sight.say(*feed, Quantity::pressure)));
  }
}

/// Pressure that a return spring still moves oil out with at the end of its way back, Pa.
double spring_pressure(const Sight& sight, int p) {
  const Values& v = sight.values(p);
  const double area = v["clamp_area"];
  return (v["spring_preload"] - v["friction"]) / area;
}

/// Time that a sprung clamp may take to go back once its line is let off, s.
constexpr double return_time = 2.0;

std::string way_back(const Sight& sight, int p) {
  constexpr double usual = 2.0 * si::bar;
  const double brings = spring_pressure(sight, p);
  if (brings < 0.5 * si::bar)
    return fmt::format(
        "Take a spring of {} or more against its {} of friction, which brings {}, or oil return",
        sight.say(sight.values(p)["friction"] + usual * sight.values(p)["clamp_area"], Quantity::force),
        sight.say(sight.values(p)["friction"], Quantity::force), sight.say(usual, Quantity::pressure));
  return fmt::format(
      "Bring the way back to the reservoir below {} (wider line, no check with a spring, a return "
      "line of its own), or take oil return",
      sight.say(0.5 * brings, Quantity::pressure));
}

/// How long a clamp stays out once its line is let off.
struct Stays {
  double lasts = 0.0, begin = 0.0;
};

Stays stays_out(const Course& pressure, const Course& position) {
  const double far = position.highest().value, loaded = 0.5 * pressure.highest().value;
  Stays longest;
  if (far < 1.0 * si::mm) return longest;
  bool was_loaded = false;
  double held = 0.0;
  const auto time = pressure.time();
  for (std::size_t row = 1; row < time.size(); ++row) {
    const double here = pressure.value()[row];
    was_loaded = was_loaded || here >= loaded;
    const bool let_off = was_loaded && here < std::min(loaded, 10.0 * si::bar);
    held = let_off && position.value()[row] > 0.1 * far ? held + time[row] - time[row - 1] : 0.0;
    if (held > longest.lasts) longest = {held, time[row] - held};
  }
  return longest;
}

void look_at_return(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  Alike<Stays> slow;
  for (int k : sight.all({"swing_clamp"})) {
    if (by_oil(sight, k)) continue;
    const Course pressure = sight.pressure(*sight.port(k, "A")), position = sight.position(k);
    if (!pressure || !position) continue;
    const Stays stays = stays_out(pressure, position);
    if (stays.lasts >= return_time) slow.add(stays, k, stays.lasts);
  }
  if (!slow) return;
  const int worst = slow.part();
  const Stays& longest = slow.worst();
  const double end = longest.begin + longest.lasts;
  const Course position = sight.position(worst);
  report.add(
      worst,
      fmt::format("{} is let off {} and is still {} of its way out {} later: its spring brings {} at the "
                  "end of its way, and {} stand at it{}",
                  sight.tag(worst), sight.when(longest.begin),
                  sight.say(position.at(end) / position.highest().value, Quantity::share),
                  sight.say(longest.lasts, Quantity::time),
                  sight.say(std::max(0.0, spring_pressure(sight, worst)), Quantity::pressure),
                  sight.say(sight.pressure(*sight.port(worst, "A")).at(end), Quantity::pressure),
                  slow.others(sight)),
      way_back(sight, worst), longest.begin);
  report.also(slow.rest());
}

void look_at_cutting_force(const Sight& sight, Report& report) {
  for (int k : sight.all({"swing_clamp"})) {
    const double lifts = forces_against(sight, *sight.port(k, "arm")).greatest;
    if (lifts <= 0.0) continue;
    const auto feed = feeding_pressure(sight, *sight.port(k, "A"));
    if (!feed) continue;
    const double presses = *feed * sight.values(k)["clamp_area"];
    if (presses >= 2.0 * lifts) continue;
    report.add(
        k,
        fmt::format("{} pushes against the arm of {}, which presses {} at {}: {:.2f} times, where 2 times "
                    "is the least for what only holds",
                    sight.say(lifts, Quantity::force), sight.tag(k), sight.say(presses, Quantity::force),
                    sight.say(*feed, Quantity::pressure), presses / lifts),
        fmt::format("Let a fixed stop take the {}, or press with {} or more",
                    sight.say(lifts, Quantity::force), sight.say(2.0 * lifts, Quantity::force)));
  }
}

constexpr std::array rules{
    TradeRule{.name = "no force on a turning arm",
              .harm = Harm::damages,
              .holds = "A swing clamp turns free of everything and touches 1 mm (0.04 in) or more behind its "
                       "swing.",
              .otherwise = "The cam inside that turns the arm breaks.",
              .remedy = "Set the arm lower or higher, and clear its way.",
              .source = "swing-clamp instructions; 1 mm common practice",
              .kinds = clamps,
              .look = look_at_swing},
    TradeRule{.name = "clamp touches in mid stroke",
              .harm = Harm::hurts,
              .holds = "A clamp touches the workpiece at 20 to 80 % of its straight stroke.",
              .otherwise = "A part at the end of its tolerance is not held, though the gauge reads right.",
              .remedy = "Set the arm, shim it, or take a clamp with another stroke.",
              .source = "workholding design page (not at full stroke); shares common practice",
              .kinds = clamps,
              .look = look_at_stroke},
    TradeRule{.name = "swing takes its time",
              .harm = Harm::damages,
              .holds =
                  "The flow into a swing clamp stays below its greatest flow for this arm; where that is "
                  "not stated a swing takes 0.5 s or more.",
              .otherwise = "The arm's inertia breaks the cam that turns it.",
              .remedy = "Throttle what flows in; a longer arm needs longer.",
              .source = "swing-clamp instructions; time from memory",
              .kinds = clamps,
              .look = look_at_swing_speed},
    TradeRule{.name = "arm within its table",
              .harm = Harm::hurts,
              .holds = "The arm is no longer than its table of force against length goes, and force times "
                       "length stays within the greatest in the table (3 % allowed).",
              .otherwise = "The rod bends, and the part is held by less than is reckoned.",
              .remedy = "A shorter arm, less pressure, or a larger clamp.",
              .source = "table of force against arm length, fit of our own",
              .kinds = clamps,
              .look = look_at_arm},
    TradeRule{
        .name = "clamp does not take the cut",
        .harm = Harm::hurts,
        .holds = "A force that pushes a clamp's arm up is at most half of what the clamp presses; "
                 "cutting forces go against fixed stops.",
        .otherwise = "The part slips and is thrown.",
        .remedy = "Fixed stops for the cutting force; the clamp only holds, with a factor of 2 or more.",
        .source = "two fixture notes",
        .kinds = clamps,
        .look = look_at_cutting_force},
    TradeRule{.name = "swing clamp is throttled at its inlet",
              .harm = Harm::works_badly,
              .holds = "A double-acting swing clamp is slowed by what flows in, not by what flows out.",
              .otherwise =
                  "Throttled outflow lifts the other side by the ratio of areas: it turns under load "
                  "and upsets what else is on the line.",
              .remedy = "Turn the one-way flow control round.",
              .source = "swing-clamp advice on speed",
              .kinds = metered_clamps,
              .look = look_at_metering},
    TradeRule{.name = "spring brings the clamp back",
              .harm = Harm::works_badly,
              .holds = "Once let off (below 10 bar, 145 psi), a clamp with a spring is back within "
                       "2 s: the way to the reservoir takes less than its spring brings, often 2 to 3.5 bar.",
              .otherwise = "It comes back slowly or not at all, and the next part runs into it.",
              .remedy = "A wider way back without springs in it, or clamps with oil return.",
              .source = "workholding design page; 2 s common practice",
              .kinds = clamps,
              .look = look_at_return},
};

}  // namespace

std::span<const TradeRule> clamping_rules() { return rules; }

}  // namespace poise::rules
