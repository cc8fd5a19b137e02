// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The oil of cylinders: whether there is enough, whether it comes back, what presses against a return spring.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include "parts/accumulator.hpp"
#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/gas.hpp"
#include "rules/lifting_point.hpp"
#include "rules/reservoir.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 6> users{
    "reservoir",   "single_acting_cylinder", "double_acting_cylinder",
    "swing_clamp", "work_support",           "accumulator"};
constexpr std::array<std::string_view, 3> tank_and_cylinders{"reservoir", "single_acting_cylinder",
                                                             "double_acting_cylinder"};
constexpr std::array<std::string_view, 1> single{"single_acting_cylinder"};

/// Oil that a part takes from the reservoir and keeps, from home to the end of its stroke, m3.
double takes(const Sight& sight, int p) {
  const Values& v = sight.values(p);
  if (sight.is(p, "single_acting_cylinder")) return area_of_side(sight, {p, 0}) * v["stroke"];
  if (sight.is(p, "double_acting_cylinder"))
    return std::max(area_behind(sight, p) - area_around_rod(sight, p), 0.0) * v["stroke"];
  if (sight.is(p, "swing_clamp") && v.word("return") == 0)
    return v["clamp_area"] * (v["swing_stroke"] + v["clamp_stroke"]);
  if (sight.is(p, "work_support") && v.word("advance") == 0) return v["lift_area"] * v["stroke"];
  if (!sight.is(p, "accumulator")) return 0.0;
  const auto highest = sight.limited_at({p, 0}, 0.0);
  if (!highest) return 0.0;
  const Cushion gas = Accumulator(v, sight.oil).gas;
  return gas.volume * std::min(filled_share(gas, *highest), 1.0 - v["least_gas"]);
}

/// The most that was out of the reservoir at once in the run, m3.
double most_drawn(const Sight& sight, int reservoir) {
  const Course back = sight.flow({reservoir, 0});
  double out = 0.0, most = 0.0;
  for (std::size_t row = 1; row < back.time().size(); ++row) {
    out -= 0.5 * (back.value()[row - 1] + back.value()[row]) * (back.time()[row] - back.time()[row - 1]);
    most = std::max(most, out);
  }
  return most;
}

/// What a reservoir has to have over the need.
constexpr double with_reserve = 1.2;

void look_at_usable_oil(const Sight& sight, Report& report) {
  const auto tank = only_reservoir(sight);
  if (!tank) return;
  double strokes = 0.0;
  for (int p = 0; p < sight.parts(); ++p) strokes += takes(sight, p);
  const double drawn = most_drawn(sight, *tank), need = std::max(strokes, drawn);
  const double usable = sight.values(*tank)["usable_oil"];
  if (with_reserve * need <= 1.005 * usable) return;
  report.add(*tank,
             fmt::format("{} has {} of usable oil, and {} {}: {} of it, where a fifth more than the need is "
                         "usual",
                         sight.tag(*tank), sight.say(usable, Quantity::volume),
                         drawn > strokes ? "the run draws" : "all strokes together take",
                         sight.say(need, Quantity::volume), sight.say(need / usable, Quantity::share)),
             fmt::format("Give {} {} of usable oil or more", sight.tag(*tank),
                         sight.say(with_reserve * need, Quantity::volume)));
}

/// Air beside the oil of a reservoir, as a share of it: 10 to 15 % is usual.
constexpr double air_space = 0.10;

void look_at_oil_that_comes_back(const Sight& sight, Report& report) {
  const auto tank = only_reservoir(sight);
  // Where its air is stated, that is reckoned with instead.
  if (!tank || sight.given(*tank, "air_space")) return;
  double out = 0.0;
  Alike<double> away;
  for (int p : all_cylinders(sight)) {
    const Values& v = sight.values(p);
    if (pulls(sight, p)) continue;
    const double volume = takes(sight, p) * v["start_position"] / v["stroke"];
    if (volume <= 0.0) continue;
    out += volume;
    away.add(v["start_position"], p, volume);
  }
  const double usable = sight.values(*tank)["usable_oil"];
  if (!away || out <= air_space * usable) return;
  report.add(
      *tank,
      fmt::format("{} come back to {} besides its {} when {}, out by {} at the start, goes in: {} "
                  "more, where 10 to 15 % of air is usual{}",
                  sight.say(out, Quantity::volume), sight.tag(*tank), sight.say(usable, Quantity::volume),
                  sight.tag(away.part()), sight.say(away.worst(), Quantity::length),
                  sight.say(out / usable, Quantity::share), away.others(sight)),
      fmt::format("Fill {} with every cylinder in, or leave {} of air above the full mark", sight.tag(*tank),
                  sight.say(out, Quantity::volume)));
  report.also(away.rest());
}

// ── Return by a spring ──

/// Cylinders that a spring alone pushes in.
std::vector<int> returned_by_spring(const Sight& sight) {
  std::vector<int> found;
  const std::set<int> loaded = lifting_jacks(sight);
  for (int p : sight.all({"single_acting_cylinder"})) {
    const Values& v = sight.values(p);
    const bool spring = v["spring_preload"] > 0.0 || v["spring_rate"] > 0.0;
    if (spring && v.word("acts") == 0 && !loaded.contains(p)) found.push_back(p);
  }
  return found;
}

struct Left {
  double out = 0.0, pressure = 0.0, spring = 0.0, comes_at = 0.0, speed = 0.0;
};

/// How a cylinder that ought to have come home stands as the run ends; none where it is home or at work.
std::optional<Left> left_out(const Sight& sight, int p) {
  constexpr double no_work = 15e5, share_of_work = 0.25;
  const Values& v = sight.values(p);
  const Course position = sight.position(p), pressure = sight.pressure({p, 0});
  if (!position || !pressure) return std::nullopt;
  const double area = area_behind(sight, p), out = position.value().back();
  const double spring = v["spring_preload"] + v["spring_rate"] * out;
  Left left{.out = out,
            .pressure = pressure.value().back(),
            .spring = spring,
            .comes_at = (spring - v["friction"]) / (area * (1.0 + v["seal_friction"])),
            .speed = sight.speed(p).value().back()};
  const double home = v["start_position"] + std::max(0.5 * si::mm, 0.03 * v["stroke"]);
  if (out <= home || left.speed > 1e-5) return std::nullopt;
  if (left.pressure > std::min(no_work, share_of_work * sight.highest(PortOf{p, 0}).value))
    return std::nullopt;
  return left;
}

void look_at_spring_return(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  Alike<Left> away;
  for (int p : returned_by_spring(sight)) {
    if (const auto left = left_out(sight, p)) away.add(*left, p, left->out / sight.values(p)["stroke"]);
  }
  if (!away) return;
  const Left& left = away.worst();
  const std::string& tag = sight.tag(away.part());
  const Values& v = sight.values(away.part());
  const bool stuck = left.pressure > left.comes_at || left.speed > -1e-5;
  const double needed =
      left.pressure * area_behind(sight, away.part()) * (1.0 + v["seal_friction"]) + v["friction"];
  report.add(
      away.part(),
      fmt::format("{} is still out by {} as the cycle ends: {} stand at its port, and its spring of {} "
                  "brings it in at less than {}{}",
                  tag, sight.say(left.out, Quantity::length), sight.say(left.pressure, Quantity::pressure),
                  sight.say(left.spring, Quantity::force),
                  sight.say(std::max(left.comes_at, 0.0), Quantity::pressure), away.others(sight)),
      stuck ? fmt::format("Let what stands at {} down below {}, with the oil at its coldest, or take a "
                          "spring of {} or more there",
                          tag, sight.say(std::max(left.comes_at, 0.0), Quantity::pressure),
                          sight.say(needed, Quantity::force))
            : fmt::format("Give {} {} more to come in, or a wider line to tank", tag,
                          sight.say(left.out / -left.speed, Quantity::time)));
  report.also(away.rest());
}

/// Heights of all groups that oil of one joins, through everything, m above it.
std::map<int, double> heights_from(const Sight& sight, int group) {
  std::map<int, double> height{{group, 0.0}};
  std::vector<int> to_visit{group};
  while (!to_visit.empty()) {
    const int here = to_visit.back();
    to_visit.pop_back();
    for (const PortOf& at : sight.members(here)) {
      if (sight.plan.port(at).domain != Domain::oil) continue;
      const auto rise = sight.given(at.part, "rise");
      for (const PortOf& other : sight.oil_ports(at.part)) {
        const double up = rise && other != at ? (at.port == 0 ? *rise : -*rise) : 0.0;
        if (height.emplace(sight.group(other), height[here] + up).second)
          to_visit.push_back(sight.group(other));
      }
    }
  }
  return height;
}

/// Share of a return spring's pressure that a column of oil may take.
constexpr double column_may_take = 0.5;

void look_at_heads(const Sight& sight, Report& report) {
  const auto tank = only_reservoir(sight);
  const auto springs = returned_by_spring(sight);
  if (!tank || springs.empty()) return;
  struct Place {
    double below = 0.0, head = 0.0, spring = 0.0;
  };
  Alike<Place> low;
  const auto heights = heights_from(sight, sight.group({*tank, 0}));
  for (int p : springs) {
    const auto height = heights.find(sight.group({p, 0}));
    if (height == heights.end() || height->second >= 0.0) continue;
    const double head = -height->second * sight.oil.density_at_zero() * si::gravity;
    const double spring = sight.values(p)["spring_preload"] / area_behind(sight, p);
    if (head > column_may_take * spring) low.add({-height->second, head, spring}, p, head / spring);
  }
  if (!low) return;
  const auto& [below, head, spring] = low.worst();
  report.add(
      low.part(),
      fmt::format("{} lies {} below {}: that column presses on it with {}, and its spring holds {} "
                  "when it is in; at most half is usual{}",
                  sight.tag(low.part()), sight.say(below, Quantity::length), sight.tag(*tank),
                  sight.say(head, Quantity::pressure), sight.say(spring, Quantity::pressure),
                  low.others(sight)),
      fmt::format("Set {} at most {} above {}, or take a spring of {} or more", sight.tag(*tank),
                  sight.say(below * column_may_take * spring / head, Quantity::length), sight.tag(low.part()),
                  sight.say(head * area_behind(sight, low.part()) / column_may_take, Quantity::force)));
  report.also(low.rest());
}

constexpr std::array rules{
    TradeRule{.name = "oil for all strokes and a fifth more",
              .harm = Harm::hurts,
              .holds = "The usable oil of the reservoir is 1.2 times what all strokes and accumulators take, "
                       "or the run draws at once.",
              .otherwise = "The pump sucks air and the lift stops half way.",
              .remedy = "Take a larger reservoir.",
              .source = "common practice; safety pages on lifting tools",
              .kinds = users,
              .look = look_at_usable_oil},
    TradeRule{.name = "reservoir has room for what comes back",
              .harm = Harm::damages,
              .holds = "Where the air over the oil is not stated, what stands in cylinders as the job begins "
                       "is at most 10 % of the usable oil: it comes back on top of it.",
              .otherwise = "The reservoir overflows, or a closed one bursts.",
              .remedy = "Fill it with every cylinder in, or leave air for it.",
              .source = "safety pages on lifting tools; 10 to 15 % of air common practice",
              .kinds = tank_and_cylinders,
              .look = look_at_oil_that_comes_back},
    TradeRule{
        .name = "spring brings the cylinder home",
        .harm = Harm::works_badly,
        .holds = "As the cycle ends a cylinder that a spring pushes in is home, within 3 % of its "
                 "stroke, unless it is at work.",
        .otherwise = "It stays out: the next cycle touches too early.",
        .remedy = "Lower the back pressure, head and cold tank line included, or take a stronger spring.",
        .source = "workholding design pages (a limit of back pressure exists); figures from memory",
        .kinds = single,
        .look = look_at_spring_return},
    TradeRule{.name = "reservoir above a spring-returned cylinder",
              .harm = Harm::works_badly,
              .holds =
                  "The column of oil from the reservoir down to a spring-returned cylinder takes at most "
                  "half the pressure that its spring makes: 0.087 bar for each metre.",
              .otherwise = "The plunger does not come in, or creeps out.",
              .remedy = "Set the power unit lower, or take a stronger spring.",
              .source = "density times gravity times height; the half is common practice",
              .kinds = tank_and_cylinders,
              .look = look_at_heads},
};

}  // namespace

std::span<const TradeRule> cylinder_oil_rules() { return rules; }

}  // namespace poise::rules
