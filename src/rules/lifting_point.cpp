// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/lifting_point.hpp"

#include <array>
#include <charconv>
#include <cmath>

#include "rules/rods.hpp"

namespace poise::rules {
namespace {

/// Weights below this are no load, N.
constexpr double no_load = 1.0;
/// Sine of the slope from which on a mass is lifted and not pushed along: 30 deg.
constexpr double slightest_lift = 0.499;

double determinant(const std::array<std::array<double, 3>, 3>& m) {
  return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
         m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
         m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
}

/// What point `k` carries of a weight of 1 about the origin: 1·(a + b·x + c·y), with the sums of forces and
/// moments in balance.
double share_of(const std::vector<PlanPoint>& points, int k) {
  double span = 0.0;
  for (const PlanPoint& p : points) span = std::max(span, std::hypot(p.x, p.y));
  if (!(span > 0.0)) return 1.0 / static_cast<double>(points.size());
  std::array<std::array<double, 3>, 3> sums{};
  for (const PlanPoint& p : points) {
    const std::array<double, 3> arm{1.0, p.x / span, p.y / span};
    for (int i = 0; i < 3; ++i) {
      for (int j = 0; j < 3; ++j) sums[i][j] += arm[i] * arm[j];
    }
  }
  // A beam's free turning is left alone.
  for (int i = 1; i < 3; ++i) sums[i][i] += 1e-9;
  const double whole = determinant(sums);
  const std::array<double, 3> arm{1.0, points[k].x / span, points[k].y / span};
  double share = 0.0;
  for (int column = 0; column < 3; ++column) {
    auto replaced = sums;
    for (int row = 0; row < 3; ++row) replaced[row][column] = row == 0 ? 1.0 : 0.0;
    share += arm[column] * determinant(replaced) / whole;
  }
  return share;
}

/// Weight along the rod's way out that one part puts on it, N.
double weight_of(const Sight& sight, PortOf at) {
  const Values& v = sight.values(at.part);
  const double steep = std::sin(v["slope"]);
  return std::abs(steep) < slightest_lift ? 0.0 : v["mass"] * si::gravity * steep;
}

/// Number of a rigid load's point by its port's name, or 0.
int point_number(std::string_view port) {
  if (!port.starts_with("point_")) return 0;
  int number = 0;
  std::from_chars(port.data() + 6, port.data() + port.size(), number);
  return number;
}

/// How many cylinders share one rod.
int cylinders_on(const Sight& sight, PortOf rod) {
  int count = 0;
  for (const PortOf& at : sight.members(sight.group(rod))) count += is_cylinder(sight, at.part) ? 1 : 0;
  return count;
}

/// The side of the cylinder that carries a weight; none where it carries none.
bool find_side(const Sight& sight, LiftingPoint& point) {
  const bool single = sight.is(point.jack, "single_acting_cylinder");
  point.hangs = point.weight < 0.0;
  if (single && pulls(sight, point.jack) != point.hangs) return false;
  point.weight = std::abs(point.weight);
  point.area = point.hangs ? area_around_rod(sight, point.jack) : area_behind(sight, point.jack);
  point.oil = {point.jack, !single && point.hangs ? 1 : 0};
  return point.area > 0.0;
}

}  // namespace

std::vector<PlanPoint> points_about_centre(const Sight& sight, int rigid_load) {
  const Values& v = sight.values(rigid_load);
  std::vector<PlanPoint> points;
  for (const CurvePoint& p : v.points("points")) points.push_back({p.x - v["centre_x"], p.y - v["centre_y"]});
  return points;
}

std::vector<LiftingPoint> lifting_points(const Sight& sight) {
  std::vector<LiftingPoint> found;
  for (int jack : all_cylinders(sight)) {
    const PortOf rod = *sight.port(jack, "rod");
    LiftingPoint point{.jack = jack};
    for (const PortOf& at : sight.beside(rod)) {
      if (sight.is(at.part, "mass")) {
        point.weight += weight_of(sight, at);
        point.load = at.part;
      } else if (const int number = point_number(sight.plan.port(at).name);
                 number > 0 && sight.is(at.part, "rigid_load")) {
        const double whole = sight.values(at.part)["mass"] * si::gravity;
        point.weight += whole * share_of(points_about_centre(sight, at.part), number - 1);
        point.load = at.part;
        point.number = number;
      }
    }
    point.weight /= cylinders_on(sight, rod);
    if (point.load < 0 || std::abs(point.weight) < no_load || !find_side(sight, point)) continue;
    found.push_back(point);
  }
  return found;
}

std::set<int> lifting_jacks(const Sight& sight) {
  std::set<int> jacks;
  for (const LiftingPoint& point : lifting_points(sight)) jacks.insert(point.jack);
  return jacks;
}

}  // namespace poise::rules
