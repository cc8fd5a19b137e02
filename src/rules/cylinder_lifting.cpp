// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Lifts on several points: who rises first, who comes down first, tilt, centre of gravity.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/lifting_point.hpp"
#include "rules/trapped.hpp"
#include "rules/ways.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 4> lifts{"rigid_load", "mass", "single_acting_cylinder",
                                                "double_acting_cylinder"};
constexpr std::array<std::string_view, 1> load{"rigid_load"};
constexpr std::array<std::string_view, 5> with_gauge{"gauge", "rigid_load", "mass", "single_acting_cylinder",
                                                     "double_acting_cylinder"};

enum class Way { up, down };

/// Whether oil passes a part without being metered on its way to (up) or from (down) a jack that stands on
/// the side of port `from`.
bool is_open(const Sight& sight, int p, std::string_view from, Way way) {
  if (through_lines(sight.part(p))) return true;
  if (sight.is_one_of(p, {"filter", "quick_coupling", "hose_burst_valve"})) return true;
  const std::string_view free = way == Way::up ? "B" : "A";
  if (sight.is_one_of(p, {"check", "one_way_flow_control"})) return from == free;
  return sight.is(p, "pilot_operated_check") && from == "B";
}

/// The groups that a jack's oil is openly joined to, one way.
std::set<int> open_line(const Sight& sight, PortOf jack, Way way) {
  const auto stops_at = [&](int group) { return sight.has_reservoir({group}); };
  return groups_from(sight, sight.group(jack), stops_at, [&](PortOf at) {
    const bool open = is_open(sight, at.part, sight.plan.port(at).name, way);
    return open ? sight.oil_ports(at.part) : std::vector<PortOf>{};
  });
}

bool meet(const std::set<int>& a, const std::set<int>& b) {
  return std::ranges::any_of(a, [&](int group) { return b.contains(group); });
}

/// Lifting points with one open line in common, at least two, the lowest pressure first.
std::vector<std::vector<LiftingPoint>> on_one_line(const Sight& sight, Way way) {
  std::vector<std::pair<std::set<int>, std::vector<LiftingPoint>>> lines;
  for (const LiftingPoint& point : lifting_points(sight)) {
    const std::set<int> open = open_line(sight, point.oil, way);
    const auto same = std::ranges::find_if(lines, [&](const auto& line) { return meet(line.first, open); });
    if (same == lines.end())
      lines.push_back({open, {point}});
    else
      same->second.push_back(point);
  }
  std::vector<std::vector<LiftingPoint>> found;
  for (auto& [open, points] : lines) {
    if (points.size() < 2) continue;
    std::ranges::stable_sort(points, {}, &LiftingPoint::pressure);
    found.push_back(std::move(points));
  }
  return found;
}

/// Pressures on one line that differ by less are taken for the same.
constexpr double alike = 1.10;

void look_who_rises_first(const Sight& sight, Report& report) {
  for (const auto& points : on_one_line(sight, Way::up)) {
    const LiftingPoint &light = points.front(), &heavy = points.back();
    const double ratio = heavy.pressure() / light.pressure();
    if (light.pressure() <= 0.0 || ratio <= alike) continue;
    const double bore = sight.values(heavy.jack)["bore"] * std::sqrt(ratio);
    report.add(
        light.jack,
        fmt::format("On one open line {} rises at {} under {} and {} only at {} under {}: {} rises "
                    "first and alone",
                    sight.tag(light.jack), sight.say(light.pressure(), Quantity::pressure),
                    sight.say(light.weight, Quantity::force), sight.tag(heavy.jack),
                    sight.say(heavy.pressure(), Quantity::pressure), sight.say(heavy.weight, Quantity::force),
                    sight.tag(light.jack)),
        fmt::format("Feed {} and {} by a valve, a pump stage or a divider's outlet each, or take for {} a "
                    "cylinder of about {} bore",
                    sight.tag(light.jack), sight.tag(heavy.jack), sight.tag(heavy.jack),
                    sight.say(bore, Quantity::length)));
  }
}

/// Where one of two jacks is furthest ahead of the other on its way down.
struct Ahead {
  double fallen = 0.0, other = 0.0, time = 0.0;
  double by() const { return fallen - other; }
};

Ahead furthest_ahead(const Sight& sight, int jack, int other) {
  const Course x = sight.position(jack), v = sight.speed(jack), y = sight.position(other);
  Ahead worst;
  if (!x || !v || !y) return worst;
  constexpr double moves = 1e-4;  // m/s
  std::optional<std::size_t> start;
  for (std::size_t row = 0; row < x.time().size(); ++row) {
    if (v.value()[row] > -moves) {
      start.reset();
      continue;
    }
    if (!start) start = row;
    const Ahead here{x.value()[*start] - x.value()[row], y.value()[*start] - y.value()[row], x.time()[row]};
    if (here.by() > worst.by()) worst = here;
  }
  return worst;
}

void look_who_falls_first(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  constexpr double much = 5 * si::mm, share = 0.2;
  for (const auto& points : on_one_line(sight, Way::down)) {
    const LiftingPoint &light = points.front(), &heavy = points.back();
    if (heavy.pressure() <= alike * light.pressure()) continue;
    const Ahead ahead = furthest_ahead(sight, heavy.jack, light.jack);
    if (ahead.by() <= much || ahead.by() <= share * ahead.fallen) continue;
    const std::string other =
        ahead.other < 0.1 * si::mm
            ? fmt::format("{} with {} on the same line still stands", sight.tag(light.jack),
                          sight.say(light.pressure(), Quantity::pressure))
            : fmt::format("{} with {} on the same line by {}", sight.tag(light.jack),
                          sight.say(light.pressure(), Quantity::pressure),
                          sight.say(ahead.other, Quantity::length));
    report.add(heavy.jack,
               fmt::format("{} with {} comes down first: {} it has come down by {}, {}",
                           sight.tag(heavy.jack), sight.say(heavy.pressure(), Quantity::pressure),
                           sight.when(ahead.time), sight.say(ahead.fallen, Quantity::length), other),
               fmt::format("Let {} and {} down through a flow control each, set with its own load on ({} and "
                           "{})",
                           sight.tag(heavy.jack), sight.tag(light.jack),
                           sight.say(heavy.pressure(), Quantity::pressure),
                           sight.say(light.pressure(), Quantity::pressure)),
               ahead.time);
  }
}

// ── Four points ──

/// The lifting points of one rigid load.
std::vector<LiftingPoint> points_of(const std::vector<LiftingPoint>& all, int rigid_load) {
  std::vector<LiftingPoint> found;
  std::ranges::copy_if(all, std::back_inserter(found),
                       [&](const LiftingPoint& point) { return point.load == rigid_load; });
  return found;
}

bool share_one_line(const Sight& sight, const std::vector<LiftingPoint>& points) {
  const std::set<int> first = sight.reach(points.front().oil, through_lines);
  return std::ranges::all_of(points,
                             [&](const LiftingPoint& point) { return sight.touches(first, point.oil); });
}

void look_at_two_corners(const Sight& sight, Report& report) {
  constexpr double four_fifths = 0.8;
  const auto all = lifting_points(sight);
  for (int p : sight.all({"rigid_load"})) {
    const auto points = points_of(all, p);
    const bool shown = !sight.values(p).points("gap_at").empty();
    if (sight.values(p).points("points").size() != 4 || points.size() != 4 || shown ||
        share_one_line(sight, points))
      continue;
    const double weight = sight.values(p)["mass"] * si::gravity;
    const LiftingPoint* weakest = nullptr;
    double least = 0.0;
    for (const LiftingPoint& point : points) {
      const auto rating = sight.given(point.jack, "rated_pressure");
      if (!rating || (weakest && *rating * point.area >= least)) continue;
      weakest = &point;
      least = *rating * point.area;
    }
    if (!weakest || 0.5 * weight <= four_fifths * least * 1.005) continue;
    report.add(p,
               fmt::format("{} weighs {} on four points: 1 mm of unevenness may put {} on each of two "
                           "opposite ones, and {} may carry {}, 80 % of what it bears",
                           sight.tag(p), sight.say(weight, Quantity::force),
                           sight.say(0.5 * weight, Quantity::force), sight.tag(weakest->jack),
                           sight.say(four_fifths * least, Quantity::force)),
               fmt::format("Take jacks that bear {} or more, or show by the gaps at the points how they "
                           "share",
                           sight.say(0.5 * weight / four_fifths, Quantity::force)));
  }
}

// ── Centre of gravity ──

/// A line through two of the points, and how far left of it a place lies.
struct Edge {
  PlanPoint from, to;
  double length() const { return std::hypot(to.x - from.x, to.y - from.y); }
  double left(PlanPoint p) const {
    return ((to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)) / length();
  }
  double along(PlanPoint p) const {
    return ((to.x - from.x) * (p.x - from.x) + (to.y - from.y) * (p.y - from.y)) / length();
  }
};

/// How far the origin lies inside the outermost points; negative outside. Of points in one line, along it.
double inside_by(const std::vector<PlanPoint>& points) {
  constexpr double one_place = 1e-6;
  double across = no_limit, along = no_limit;
  bool in_line = true;
  for (const PlanPoint& a : points) {
    for (const PlanPoint& b : points) {
      const Edge edge{a, b};
      if (edge.length() < one_place) continue;
      const auto [right, left] =
          std::ranges::minmax(points, {}, [&](const PlanPoint& p) { return edge.left(p); });
      in_line = in_line && edge.left(left) - edge.left(right) < one_place;
      const bool all_on_its_left = edge.left(right) > -one_place;
      const bool outermost =
          std::ranges::all_of(points, [&](const PlanPoint& p) { return edge.along(p) > -one_place; });
      if (all_on_its_left) across = std::min(across, edge.left({}));
      if (outermost) along = std::min(along, edge.along({}));
    }
  }
  return in_line ? along : across;
}

double longest_span(const std::vector<PlanPoint>& points) {
  double span = 0.0;
  for (const PlanPoint& a : points) {
    for (const PlanPoint& b : points) span = std::max(span, std::hypot(a.x - b.x, a.y - b.y));
  }
  return span;
}

/// Share of the distance between the outermost points that the centre of gravity keeps from their edge: its
/// place is never known better.
constexpr double unsure = 0.05;

void look_at_centres(const Sight& sight, Report& report) {
  for (int p : sight.all({"rigid_load"})) {
    const auto points = points_about_centre(sight, p);
    if (points.size() < 2) continue;
    const Peak tilt = sight.output(p, "tilt").highest();
    const double shift = std::max(sight.values(p)["centre_height"], 0.0) * tilt.value;
    const double inside = inside_by(points) - shift, needed = unsure * longest_span(points);
    if (inside >= needed / 1.005) continue;
    report.add(
        p,
        fmt::format(
            "The centre of gravity of {} is {} {} the edge of its points{}, where 5 % of their "
            "distance, {}, is the least",
            sight.tag(p), sight.say(std::abs(inside), Quantity::length), inside < 0.0 ? "outside" : "inside",
            shift > 0.001 * needed
                ? fmt::format(", {} of it lost by a tilt of {} {}", sight.say(shift, Quantity::length),
                              sight.say(tilt.value, Quantity::share), sight.when(tilt.time))
                : std::string(),
            sight.say(needed, Quantity::length)),
        fmt::format("Set a point at least {} further out on that side",
                    sight.say(needed - inside, Quantity::length)),
        shift > 0.0 ? std::optional(tilt.time) : std::nullopt);
  }
}

void look_at_tilt(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int p : sight.all({"rigid_load"})) {
    const Course tilt = sight.output(p, "tilt");
    const double limit = sight.values(p)["tilt_limit"];
    const Peak worst = tilt.highest();
    if (!tilt || worst.value <= 1.005 * limit) continue;
    const double span = longest_span(points_about_centre(sight, p));
    const auto first = tilt.first_above(limit);
    report.add(p,
               fmt::format("{} tilts by {} {}, and its limit is {}, passed {}", sight.tag(p),
                           sight.say(worst.value, Quantity::share), sight.when(worst.time),
                           sight.say(limit, Quantity::share), sight.when(first.value_or(worst.time))),
               fmt::format("Stop and level it before any two points differ by {}; feed and let down each "
                           "point by itself",
                           sight.say(limit * span, Quantity::length)),
               worst.time);
  }
}

void look_at_gauges(const Sight& sight, Report& report) {
  Alike<LiftingPoint> blind;
  for (const LiftingPoint& point : lifting_points(sight)) {
    if (gauge_beside(sight, point.oil) < 0) blind.add(point, point.jack, point.pressure());
  }
  if (!blind) return;
  const LiftingPoint& worst = blind.worst();
  report.add(worst.jack,
             fmt::format("No gauge shows what {} carries, {} or {} in its line{}", sight.tag(worst.jack),
                         sight.say(worst.weight, Quantity::force),
                         sight.say(worst.pressure(), Quantity::pressure), blind.others(sight)),
             fmt::format("Put a gauge between {} and the valve that holds it, with a scale that ends {}",
                         sight.tag(worst.jack), fitting_scale(sight, worst.pressure())));
  report.also(blind.rest());
}

constexpr std::array rules{
    TradeRule{.name = "points rise together",
              .harm = Harm::hurts,
              .holds = "Lifting points on one open line need the same pressure, load over area, within 10 %.",
              .otherwise = "The one with the least pressure rises alone until load shifts to it: it tips.",
              .remedy = "Give each point a valve, a pump stage or a divider's outlet, or match the areas.",
              .source = "trade magazine's e-book on fluid-power circuits, book 1; supplier's lexicon",
              .kinds = lifts,
              .look = look_who_rises_first},
    TradeRule{.name = "points come down together",
              .harm = Harm::hurts,
              .holds =
                  "Points that are let down over one valve come down together, within 5 mm or a fifth of "
                  "the way.",
              .otherwise = "The one with the highest pressure comes down alone: it tips.",
              .remedy = "Let each point down through a flow control or valve of its own.",
              .source = "common practice",
              .kinds = lifts,
              .look = look_who_falls_first},
    TradeRule{.name = "two corners can carry it all",
              .harm = Harm::hurts,
              .holds = "On four points with a line each, half the weight is at most 80 % of what every jack "
                       "bears, unless gaps at the points show how they share.",
              .otherwise = "An uneven floor or one jack that is ahead puts half the weight on each of two "
                           "opposite jacks.",
              .remedy = "Take stronger jacks, three points, or show how the four share.",
              .source = "common practice",
              .kinds = load,
              .look = look_at_two_corners},
    TradeRule{.name = "centre of gravity inside the points",
              .harm = Harm::hurts,
              .holds = "The centre of gravity stays inside the outermost points by 5 % of their distance, at "
                       "every tilt of the run.",
              .otherwise = "It overturns.",
              .remedy = "Move the points outwards on that side, or keep it level.",
              .source = "common practice",
              .kinds = load,
              .look = look_at_centres},
    TradeRule{.name = "lift within its tilt",
              .harm = Harm::hurts,
              .holds = "A lifted load tilts less than its limit: 1:200 in fine work, 1:100 in rough work, "
                       "unless it says otherwise.",
              .otherwise = "It walks off its points.",
              .remedy = "Stop and level in small steps; feed and let down each point by itself.",
              .source = "common practice",
              .kinds = load,
              .look = look_at_tilt},
    TradeRule{.name = "gauge at each lifting point",
              .harm = Harm::hurts,
              .holds =
                  "Between each lifting cylinder and what holds it stands a gauge, with nothing before it "
                  "that can be shut but its own cock (points on one open line may share one).",
              .otherwise = "Nobody sees that one point takes more than its share.",
              .remedy = "Put a gauge or a load cell at each point.",
              .source = "safety pages on lifting tools",
              .kinds = with_gauge,
              .look = look_at_gauges},
};

}  // namespace

std::span<const TradeRule> lifting_rules() { return rules; }

}  // namespace poise::rules
