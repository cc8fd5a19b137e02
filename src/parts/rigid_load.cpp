// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/rigid_load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace poise {
namespace {

/// Lengths below this are one place.
constexpr double one_place = 1e-6;

struct Span {
  double x, y;
};

/// Length and width between the outermost points.
Span span_of(std::span<const CurvePoint> points) {
  const auto [left, right] = std::ranges::minmax_element(points, {}, &CurvePoint::x);
  const auto [near, far] = std::ranges::minmax_element(points, {}, &CurvePoint::y);
  return {right->x - left->x, far->y - near->y};
}

/// An even bar's radius of gyration, length/√12; a load is never thinner than a tenth of its other side.
double radius_of(double along, double across) {
  return std::max({along, 0.1 * across, 0.1}) / std::sqrt(12.0);
}

/// Distance of a place from the line through two others, and 0 where those are one.
double off_line(CurvePoint a, CurvePoint b, CurvePoint p) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (length < one_place) return 0.0;
  return std::abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length;
}

/// The point furthest from the first: the two are the line, where all points stand in one.
CurvePoint furthest_from_first(std::span<const CurvePoint> points) {
  return *std::ranges::max_element(
      points, {}, [&](const CurvePoint& p) { return std::hypot(p.x - points[0].x, p.y - points[0].y); });
}

double value_at(std::span<const CurvePoint> list, int k, double otherwise) {
  for (const CurvePoint& entry : list) {
    if (std::lround(entry.x) == k + 1) return entry.y;
  }
  return otherwise;
}

/// Heave, pitch and roll at which springs of one stiffness under all points carry the weight, by elimination.
/// A beam's free turning gets a trace of stiffness, which leaves it at 0.
std::array<double, 3> settled(std::span<const RigidLoad::Point> points, double weight, double stiffness) {
  std::array<std::array<double, 4>, 3> row{};
  for (const auto& p : points) {
    const std::array<double, 3> arm{1.0, p.x, p.y};
    for (int i = 0; i < 3; ++i) {
      for (int j = 0; j < 3; ++j) row[i][j] += stiffness * arm[i] * arm[j];
    }
  }
  for (int i = 0; i < 3; ++i) row[i][i] += 1e-9 * stiffness;
  row[0][3] = -weight;
  for (int i = 0; i < 3; ++i) {
    for (int below = i + 1; below < 3; ++below) {
      const double factor = row[below][i] / row[i][i];
      for (int j = i; j < 4; ++j) row[below][j] -= factor * row[i][j];
    }
  }
  std::array<double, 3> found{};
  for (int i = 2; i >= 0; --i) {
    double rest = row[i][3];
    for (int j = i + 1; j < 3; ++j) rest -= row[i][j] * found[j];
    found[i] = rest / row[i][i];
  }
  return found;
}

void check_list(const Values& v, std::string_view name, double low, double high, std::string_view what,
                std::vector<Mismatch>& found) {
  const auto count = static_cast<double>(v.points("points").size());
  for (const CurvePoint& entry : v.points(name)) {
    if (entry.x != std::round(entry.x) || entry.x > count) {
      found.push_back({name, fmt::format("there is no point number {:.6g}; points count from 1 to {:.0f}",
                                         entry.x, count)});
    }
    if (entry.y < low || entry.y > high) {
      found.push_back({name, fmt::format("the {} at point {:.6g} is out of all reason; it must lie within "
                                         "{:.3g} and {:.3g} in SI units",
                                         what, entry.x, low, high)});
    }
  }
}

}  // namespace

RigidLoad::RigidLoad(const Values& v, const Oil&)
    : count(std::min(static_cast<int>(v.points("points").size()), most_points)),
      mass(v["mass"]),
      centre_height(v["centre_height"]),
      pitch_radius(1.0),
      roll_radius(1.0),
      block_stiffness(v["block_stiffness"]),
      guide_damping(v["guide_damping"]),
      tilt_limit(v["tilt_limit"]),
      on_blocks(v.word("stands_on") == 0) {
  const auto points = v.points("points");
  if (points.empty()) return;
  const Span span = span_of(points);
  pitch_radius = v.given("pitch_radius") ? v["pitch_radius"] : radius_of(span.x, span.y);
  roll_radius = v.given("roll_radius") ? v["roll_radius"] : radius_of(span.y, span.x);
  for (int k = 0; k < count; ++k) {
    const double stiffness = value_at(v.points("stiffness_at"), k, v["contact_stiffness"]);
    point[k] = {.x = points[k].x - v["centre_x"],
                .y = points[k].y - v["centre_y"],
                .gap = value_at(v.points("gap_at"), k, v["gap"]),
                .stiffness = stiffness,
                .damping = v.given("contact_damping") ? v["contact_damping"] : stiffness * si::ms};
  }
  if (!on_blocks) {
    start_at = {v["start_height"], 0.0, 0.0};
    return;
  }
  start_at = settled(std::span(point).first(count), mass * si::gravity, block_stiffness);
  // A jack is set under the load as it stands: its gap counts from there, not from where the load would
  // float.
  for (Point& p : std::span(point).first(count)) {
    p.gap -= std::min(start_at[heave] + p.x * start_at[pitch] + p.y * start_at[roll], 0.0);
  }
}

std::vector<Mismatch> RigidLoad::check(const Values& v) {
  std::vector<Mismatch> found;
  const auto points = v.points("points");
  if (std::cmp_greater(points.size(), most_points)) {
    found.push_back(
        {"points", fmt::format("{} points are given; at most {} are followed", points.size(), most_points)});
  }
  if (points.size() < 2) return found;
  const CurvePoint end = furthest_from_first(points);
  const bool in_line = std::ranges::all_of(
      points, [&](const CurvePoint& p) { return off_line(points[0], end, p) < one_place; });
  const CurvePoint centre{v["centre_x"], v["centre_y"]};
  if (std::hypot(end.x - points[0].x, end.y - points[0].y) < one_place) {
    found.push_back({"points", "all points are in one place"});
  } else if (in_line && off_line(points[0], end, centre) > one_place) {
    found.push_back(
        {"points",
         "all points stand in one line and the centre of gravity is not over it: nothing keeps the "
         "load from tipping over that line; add a point beside it"});
  }
  check_list(v, "stiffness_at", 1e4, 1e11, "stiffness", found);
  check_list(v, "gap_at", -1.0, 20.0, "gap", found);
  return found;
}

double RigidLoad::heat_at(int k, const MotionHere<double>& rod, const MotionHere<double>& corner) const {
  const double of_rod = contact_heat(rod.position - point[k].gap - corner.position, rod.speed - corner.speed,
                                     point[k].stiffness, point[k].damping);
  if (!on_blocks) return of_rod;
  return of_rod + contact_heat(-corner.position, -corner.speed, block_stiffness, block_damping());
}

std::array<double, RigidLoad::outputs.size()> RigidLoad::report(const Plain& here) const {
  std::array<double, outputs.size()> out{};
  double lowest = no_limit, highest = -no_limit;
  for (int k = 0; k < count; ++k) {
    const auto top = corner(here, k);
    out[k] = push(here.body[first_point + k], top, k);
    out[most_points] += block(top);
    lowest = std::min(lowest, top.position);
    highest = std::max(highest, top.position);
  }
  out[most_points + 1] = std::hypot(here.body[pitch].position, here.body[roll].position);
  out[most_points + 2] = count > 0 ? highest - lowest : 0.0;
  return out;
}

std::array<double, 4> RigidLoad::passing(const Plain& here) const {
  constexpr double never = -1.0;
  double lowest = no_limit, freest = never;
  for (int k = 0; k < count; ++k) {
    const double height = corner(here, k).position;
    const double over_rod = height - (here.body[first_point + k].position - point[k].gap);
    lowest = std::min(lowest, height);
    freest = std::max(freest, on_blocks ? std::min(height, over_rod) : over_rod);
  }
  const bool known = on_blocks && count > 0;
  const double tilt = std::hypot(here.body[pitch].position, here.body[roll].position);
  return {known ? lowest : never, known ? -lowest : never, freest, tilt - tilt_limit};
}

double RigidLoad::stored(const Plain& here) const {
  double energy = mass * si::gravity * here.body[heave].position;
  const auto add_spring = [&](double depth, double stiffness) {
    energy += 0.5 * stiffness * std::pow(std::max(depth, 0.0), 2);
  };
  for (int k = 0; k < count; ++k) {
    const double height = corner(here, k).position;
    add_spring(here.body[first_point + k].position - point[k].gap - height, point[k].stiffness);
    if (on_blocks) add_spring(-height, block_stiffness);
  }
  for (int m : {pitch, roll}) add_spring(std::abs(here.body[m].position) - lies, lying_stiffness(m));
  return energy;
}

}  // namespace poise
