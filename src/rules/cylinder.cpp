// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Cylinders: capacity, stroke, stops, rods, seals.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "circuit/rating.hpp"
#include "parts/buckling.hpp"
#include "parts/common.hpp"
#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/lifting_point.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> single{"single_acting_cylinder"};
constexpr std::array<std::string_view, 1> twofold{"double_acting_cylinder"};
constexpr std::array<std::string_view, 2> cylinders{"single_acting_cylinder", "double_acting_cylinder"};
constexpr std::array<std::string_view, 3> lifting{"single_acting_cylinder", "double_acting_cylinder",
                                                  "rigid_load"};

/// Shares that a load and a stroke may take.
constexpr double four_fifths = 0.80;
/// Of a stroke: a hand or a switch does not stop it nearer.
constexpr double stroke_rounding = 0.02;
constexpr double rounding = 1.005;

// ── Capacity ──

/// What a point carries: over a run its greatest share that lasts, else its share at rest, N.
double carried(const Sight& sight, const LiftingPoint& point) {
  constexpr double lasts = 0.5;  // s: a shorter blow is for the rating of the parts
  if (point.number == 0 || !sight.ran()) return point.weight;
  const Course force = sight.output(point.load, fmt::format("force_{}", point.number));
  return force ? force.lasting(lasts) : point.weight;
}

void look_at_capacity(const Sight& sight, Report& report) {
  struct Place {
    LiftingPoint point;
    double load = 0.0, capacity = 0.0;
  };
  Alike<Place> over;
  for (const LiftingPoint& point : lifting_points(sight)) {
    const auto rating = sight.given(point.jack, "rated_pressure");
    if (!rating) continue;
    const Place place{point, carried(sight, point), point.area * *rating};
    if (place.load > four_fifths * rounding * place.capacity)
      over.add(place, point.jack, place.load / place.capacity);
  }
  if (!over) return;
  const auto& [point, load, capacity] = over.worst();
  report.add(point.jack,
             fmt::format("{} carries {} of {}, {} of the {} that it bears at its {}, where 80 % is usual{}",
                         sight.tag(point.jack), sight.say(load, Quantity::force), sight.tag(point.load),
                         sight.say(load / capacity, Quantity::share), sight.say(capacity, Quantity::force),
                         sight.say(sight.values(point.jack)["rated_pressure"], Quantity::pressure),
                         over.others(sight)),
             fmt::format("Take for {} a cylinder that bears {} or more, or lift less than {} on it",
                         sight.tag(point.jack), sight.say(load / four_fifths, Quantity::force),
                         sight.say(four_fifths * capacity, Quantity::force)));
  report.also(over.rest());
}

// ── Stroke ──

void look_at_stroke(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  Alike<Peak> over;
  for (const LiftingPoint& point : lifting_points(sight)) {
    const double stroke = sight.values(point.jack)["stroke"];
    const Course position = sight.position(point.jack);
    const double out = position.highest().value;
    if (point.hangs || out <= (four_fifths + stroke_rounding) * stroke) continue;
    over.add({out, position.first_above(four_fifths * stroke).value_or(0.0)}, point.jack, out / stroke);
  }
  if (!over) return;
  const int jack = over.part();
  const auto& [out, passed] = over.worst();
  const double stroke = sight.values(jack)["stroke"];
  report.add(
      jack,
      fmt::format("{} comes out by {} of its {} under load: {}, where 80 % is usual, passed {}{}",
                  sight.tag(jack), sight.say(out, Quantity::length), sight.say(stroke, Quantity::length),
                  sight.say(out / stroke, Quantity::share), sight.when(passed), over.others(sight)),
      fmt::format("Stop it at {}, set blocks under the load and lift again, or take a stroke of {}",
                  sight.say(four_fifths * stroke, Quantity::length),
                  sight.say(out / four_fifths, Quantity::length)),
      passed);
  report.also(over.rest());
}

/// Share of a cylinder's capacity that its stop may take without a word.
constexpr double light_on_its_stop = 0.2;

void look_at_stops(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  struct Place {
    double force = 0.0, capacity = 0.0, from = 0.0;
  };
  Alike<Place> hard;
  for (int p : sight.all({"single_acting_cylinder"})) {
    const Values& v = sight.values(p);
    const auto rating = sight.given(p, "rated_pressure");
    if (!rating || v.word("acts") == 1) continue;
    const Course position = sight.position(p);
    const double force = (position.highest().value - v["stroke"]) * v["stop_stiffness"];
    const double capacity = area_behind(sight, p) * *rating, light = light_on_its_stop * capacity;
    if (force <= light) continue;
    const auto from = position.first_above(v["stroke"] + light / v["stop_stiffness"]);
    hard.add({force, capacity, from.value_or(0.0)}, p, force / capacity);
  }
  if (!hard) return;
  const auto& [force, capacity, from] = hard.worst();
  report.add(
      hard.part(),
      fmt::format("{} is pressed onto its stop ring from {} on, with up to {}, {} of what it can "
                  "push{}",
                  sight.tag(hard.part()), sight.when(from).substr(3), sight.say(force, Quantity::force),
                  sight.say(force / capacity, Quantity::share), hard.others(sight)),
      fmt::format("Stop {} before {} by a limit switch or a positive stop of the machine, or take a "
                  "cylinder whose datasheet says that the ring bears {}",
                  sight.tag(hard.part()), sight.say(sight.values(hard.part())["stroke"], Quantity::length),
                  sight.say(force, Quantity::force)),
      from);
  report.also(hard.rest());
}

// ── Rods ──

/// Push over what bows the rod; 3 to 5 times is usual.
constexpr double least_safety = 3.0;

struct Bowing {
  double share = 0.0, push = 0.0, out = 0.0, time = 0.0;
};

/// The worst moment of a rod that pushes on something, not on its own stop.
Bowing worst_bowing(const Sight& sight, int cylinder) {
  const Course share = sight.output(cylinder, "buckling_share"), force = sight.output(cylinder, "force"),
               position = sight.position(cylinder);
  Bowing worst;
  if (!force || !position || share.highest().value <= rounding / least_safety) return worst;
  const double stop = sight.values(cylinder)["stroke"] - 1e-5;
  for (std::size_t row = 0; row < share.time().size(); ++row) {
    if (share.value()[row] > worst.share && position.value()[row] < stop)
      worst = {share.value()[row], force.value()[row], position.value()[row], share.time()[row]};
  }
  return worst;
}

/// Diameter of rod that bears a push so far out with the least safety, m.
double stiff_enough(const Values& v, const Bowing& at) {
  const double k = Ends::factors[static_cast<std::size_t>(v.word("ends"))];
  const double length = v["closed_length"] + std::max(at.out, 0.0);
  double d = v["rod"];
  while (d < 4.0 && buckling_load(round_strut(d, v["hole"], length, k, steel_modulus, v["rod_yield"])) <
                        least_safety * at.push)
    d *= 1.01;
  return d;
}

void look_at_rods(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  Alike<Bowing> thin;
  for (int p : all_cylinders(sight)) {
    if (!sight.given(p, "rod") || sight.on_rod(*sight.port(p, "rod")).empty()) continue;
    const Bowing worst = worst_bowing(sight, p);
    if (worst.share > rounding / least_safety) thin.add(worst, p, worst.share);
  }
  if (!thin) return;
  const int p = thin.part();
  const Bowing& worst = thin.worst();
  report.add(p,
             fmt::format(
                 "{} pushes with {} while out by {} {}, and its rod of {} bows at {}: {:.1f} times "
                 "as much, where 3 to 5 times is usual{}",
                 sight.tag(p), sight.say(worst.push, Quantity::force), sight.say(worst.out, Quantity::length),
                 sight.when(worst.time), sight.say(sight.values(p)["rod"], Quantity::length),
                 sight.say(worst.push / worst.share, Quantity::force), 1.0 / worst.share, thin.others(sight)),
             fmt::format("Take a rod of {} or more, guide what it pushes, or push with {} at most",
                         sight.say(stiff_enough(sight.values(p), worst), Quantity::length),
                         sight.say(worst.push / worst.share / least_safety, Quantity::force)),
             worst.time);
  report.also(thin.rest());
}

void look_at_rod_sides(const Sight& sight, Report& report) {
  Alike<Peak> over;
  for (int p : sight.all({"double_acting_cylinder"})) {
    const auto rating = sight.given(p, "rod_side_rated_pressure");
    if (!rating) continue;
    Peak highest = sight.highest(PortOf{p, 1});
    if (!sight.ran()) highest.value = sight.limited_at({p, 1}, 0.0).value_or(highest.value);
    if (highest.value > rating_from(*rating).alarm) over.add(highest, p, highest.value / *rating);
  }
  if (!over) return;
  const int p = over.part();
  const double rating = sight.values(p)["rod_side_rated_pressure"],
               ratio = area_behind(sight, p) / area_around_rod(sight, p);
  report.add(p,
             fmt::format("The rod side of {} sees {}{}, and is rated {}{}", sight.tag(p),
                         sight.say(over.worst().value, Quantity::pressure),
                         sight.ran() ? " " + sight.when(over.worst().time) : std::string(),
                         sight.say(rating, Quantity::pressure), over.others(sight)),
             fmt::format(
                 "Set a relief valve of {} or less on its rod side; with that side shut {} behind the "
                 "piston already make as much there ({:.2f} times the area)",
                 sight.say(rating, Quantity::pressure), sight.say(rating / ratio, Quantity::pressure), ratio),
             over.worst().time);
  report.also(over.rest());
}

// ── Seals ──

/// Whether a valve keeps the oil in at its port while it rests.
bool shuts(const Sight& sight, PortOf at) {
  const std::string_view port = sight.plan.port(at).name;
  if (sight.role(at.part) == Role::one_way) return port == "B";
  if (!sight.is(at.part, "directional_4_3") || (port != "A" && port != "B")) return false;
  const int centre = sight.values(at.part).word("centre");
  constexpr int closed = 0, tandem = 2;
  return centre == closed || centre == tandem;
}

/// Whether nothing but such valves, gauges and switches is on a cylinder's port.
bool is_shut_in(const Sight& sight, PortOf cylinder) {
  const auto zone = sight.reach(cylinder, through_restrictions);
  if (sight.has_reservoir(zone)) return false;
  bool shut = false;
  for (const PortOf& at : sight.ports_in(zone)) {
    const bool harmless = at == cylinder || sight.plan.port(at).pilot ||
                          through_restrictions(sight.part(at.part)) ||
                          sight.is_one_of(at.part, {"gauge", "pressure_switch"});
    if (harmless) continue;
    if (!shuts(sight, at)) return false;
    shut = true;
  }
  return shut;
}

void look_at_equal_pressures(const Sight& sight, Report& report) {
  for (const LiftingPoint& point : lifting_points(sight)) {
    const int p = point.jack;
    const auto rating = sight.given(p, "rated_pressure");
    if (!rating || point.hangs || !sight.is(p, "double_acting_cylinder")) continue;
    const double behind = area_behind(sight, p), around = area_around_rod(sight, p);
    const double equal = point.weight / (behind - around);
    if (behind <= around || equal <= rating_from(*rating).alarm) continue;
    if (!is_shut_in(sight, {p, 0}) || !is_shut_in(sight, {p, 1})) continue;
    report.add(
        p,
        fmt::format("{} holds {} at {} between two shut ports: if its piston seal leaks, both sides "
                    "come to {} (ratio of areas {:.2f}), and it is rated {}",
                    sight.tag(p), sight.say(point.weight, Quantity::force),
                    sight.say(point.pressure(), Quantity::pressure), sight.say(equal, Quantity::pressure),
                    behind / around, sight.say(*rating, Quantity::pressure)),
        fmt::format("Let the rod side of {} go to tank while it holds, or put a relief valve of {} or "
                    "less on it",
                    sight.tag(p), sight.say(*rating, Quantity::pressure)));
  }
}

/// How far a hanging load may sink by a leak that its datasheet states.
constexpr double watch_time = 600.0, may_sink = 5 * si::mm;

void look_at_hanging_loads(const Sight& sight, Report& report) {
  for (const LiftingPoint& point : lifting_points(sight)) {
    const int p = point.jack;
    if (!point.hangs || !sight.is(p, "double_acting_cylinder") || !is_shut_in(sight, point.oil)) continue;
    const auto rod_parts = sight.on_rod(*sight.port(p, "rod"));
    if (std::ranges::any_of(rod_parts, [&](int each) { return sight.is(each, "lock_nut"); })) continue;
    const Values& v = sight.values(p);
    const double viscosity = sight.oil.viscosity() * sight.oil.density_at_zero();
    const double gap =
        std::numbers::pi * v["bore"] * std::pow(v["piston_gap"], 3) / (12.0 * viscosity * v["piston_length"]);
    const double leak = point.pressure() * (v["leakage"] / common::leakage_pressure(v) + gap);
    const double sinks = leak / point.area * watch_time;
    if (sinks <= may_sink) continue;
    report.add(p,
               fmt::format("{} hangs on {} with {} and sinks by {} in 10 min through the piston's leak of {}",
                           sight.tag(point.load), sight.tag(p), sight.say(point.weight, Quantity::force),
                           sight.say(sinks, Quantity::length), sight.say(leak, Quantity::flow)),
               fmt::format("Renew the piston seal of {} so that it leaks less than {}, and put a lock nut or "
                           "blocks under what hangs",
                           sight.tag(p), sight.say(leak * may_sink / sinks, Quantity::flow)));
  }
}

constexpr std::string_view tool_pages = "safety pages on lifting tools";

constexpr std::array rules{
    TradeRule{.name = "jack at four fifths of its capacity",
              .harm = Harm::hurts,
              .holds = "Each point of a lift carries at most 80 % of what its cylinder bears at its rated "
                       "pressure: its greatest share, not the average.",
              .otherwise = "Nothing is left when the load shifts towards that point.",
              .remedy = "Take a larger cylinder, more points, or lift less.",
              .source = "safety pages on lifting tools; site rules for several jacks under one piece",
              .kinds = lifting,
              .look = look_at_capacity},
    TradeRule{.name = "jack at four fifths of its stroke",
              .harm = Harm::hurts,
              .holds = "Under a load a cylinder comes out by at most 80 % of its stroke (82 % is let pass).",
              .otherwise = "Side load bends the rod and wears its guide the more, the further it is out.",
              .remedy = "Stop earlier and lift again from blocks, or take a longer stroke.",
              .source = tool_pages,
              .kinds = cylinders,
              .look = look_at_stroke},
    TradeRule{.name = "plunger off its stop ring",
              .harm = Harm::hurts,
              .holds = "A single-acting plunger is not pressed onto its stop with more than 20 % of its "
                       "capacity, unless its datasheet says that the stop bears that.",
              .otherwise = "The ring shears and the plunger leaves its body.",
              .remedy = "Stop before the end of the stroke, or take a cylinder whose datasheet says that the "
                        "ring bears it.",
              .source = "common practice",
              .kinds = single,
              .look = look_at_stops},
    TradeRule{.name = "rod does not bow",
              .harm = Harm::hurts,
              .holds = "What a rod pushes with is at most a third of what bows it, so far out and with its "
                       "ends held as stated; 3 to 5 times is usual.",
              .otherwise = "The rod bows sideways at once and without warning.",
              .remedy = "Take a thicker rod, guide the load, or push less when it is far out.",
              .source = "pages on the buckling of cylinder rods; Euler and Johnson",
              .kinds = cylinders,
              .look = look_at_rods},
    TradeRule{.name = "rod side within its own rating",
              .harm = Harm::damages,
              .holds = "Where a cylinder's rod side has a rating of its own, the pressure there stays below "
                       "it, with the rod side shut as well.",
              .otherwise = "The rod's gland gives way.",
              .remedy = "Put a relief valve on the rod side, at its rating or below.",
              .source = "common practice",
              .kinds = twofold,
              .look = look_at_rod_sides},
    TradeRule{.name = "leaking piston seal between shut ports",
              .harm = Harm::hurts,
              .holds = "Where a double-acting cylinder holds a load between two shut ports, load over the "
                       "rod's section stays below its rating: so high both sides come when the piston seal "
                       "leaks.",
              .otherwise = "Hidden pressure above the rating, without any drift; the wrong part is changed.",
              .remedy = "Let the rod side go to tank while it holds, or guard it with a relief valve.",
              .source = "trade column on cylinder drift; the factor follows from the balance of forces",
              .kinds = twofold,
              .look = look_at_equal_pressures},
    TradeRule{.name = "hanging load and leaking piston",
              .harm = Harm::hurts,
              .holds =
                  "A load that hangs on the rod side sinks through the piston's leak: by the leak of the "
                  "datasheet at most 5 mm in 10 min, unless a lock nut holds it.",
              .otherwise = "It comes down although every valve is shut.",
              .remedy = "Renew the seal, and hold it by a lock nut or blocks.",
              .source = "trade column on cylinder drift; 5 mm in 10 min common practice",
              .kinds = twofold,
              .look = look_at_hanging_loads},
};

}  // namespace

std::span<const TradeRule> cylinder_rules() { return rules; }

}  // namespace poise::rules
