// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/lines.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace poise::draw {
namespace {

constexpr double dot_radius = 0.375;  // M
constexpr double rod_half = 0.25;     // M, from a rod's axis to each of its lines
constexpr double slimness = 0.7;      // an arrow head's width over its length
constexpr double longest_arrow = 1.6, shortest_arrow = 0.7, room_about_arrow = 0.3;  // M
// Oil that creeps is not shown: less than this share of the greatest flow, or than what a drip is.
constexpr double creeping_share = 0.005, drip = 0.1 * si::cm3_per_minute;

struct Path {
  std::vector<Point> points;
  bool pilot = false;
};

/// Segments that follow one another as one path.
std::vector<Path> paths_of(const std::vector<Segment>& segments) {
  std::vector<Path> paths;
  for (const Segment& s : segments) {
    const bool goes_on = !paths.empty() && paths.back().pilot == s.pilot;
    if (goes_on && paths.back().points.back() == s.from) {
      paths.back().points.push_back(s.to);
    } else if (goes_on && paths.back().points.back() == s.to) {
      paths.back().points.push_back(s.from);
    } else {
      paths.push_back({{s.from, s.to}, s.pilot});
    }
  }
  return paths;
}

Point direction(Point from, Point to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  return length > 0.0 ? Point{(to.x - from.x) / length, (to.y - from.y) / length} : Point{};
}

/// The path at a distance to its left, corners kept square.
std::vector<Point> beside(const std::vector<Point>& path, double distance) {
  std::vector<Point> moved;
  for (std::size_t i = 0; i < path.size(); ++i) {
    const Point in = direction(path[i > 0 ? i - 1 : 0], path[i > 0 ? i : 1]);
    const Point out = i + 1 < path.size() ? direction(path[i], path[i + 1]) : in;
    Point shift{-in.y, in.x};
    if (std::abs(in.x * out.y - in.y * out.x) > 0.5) shift = {-in.y - out.y, in.x + out.x};
    moved.push_back({path[i].x + distance * shift.x, path[i].y + distance * shift.y});
  }
  return moved;
}

void add_path(std::vector<Mark>& marks, std::vector<Point> path, const Mapping& mapping, const Pen& pen) {
  for (Point& p : path) p = mapping.at(p);
  marks.push_back({pen, Polyline{std::move(path), false}});
}

}  // namespace

void add_line(std::vector<Mark>& marks, const Wire& wire, const Mapping& mapping,
              std::optional<Colour> colour) {
  for (const Path& path : paths_of(wire.segments)) {
    if (wire.mechanical) {
      const Pen pen{.layer = Layer::mechanical, .width = line_width};
      for (const double side : {-rod_half, rod_half})
        add_path(marks, beside(path.points, side), mapping, pen);
      continue;
    }
    add_path(marks, path.points, mapping,
             {.layer = path.pilot ? Layer::pilot : Layer::working,
              .width = colour ? coloured_width : line_width,
              .dash = path.pilot ? Dash::dashed : Dash::solid,
              .colour = colour});
  }
}

void add_junctions(std::vector<Mark>& marks, const std::vector<Point>& junctions, const Mapping& mapping,
                   std::optional<Colour> colour) {
  for (Point p : junctions) {
    marks.push_back({{.layer = Layer::working, .width = line_width, .filled = true, .colour = colour},
                     Circle{mapping.at(p), dot_radius * mapping.module}});
  }
}

bool ArrowScale::shows(double flow) const {
  return std::abs(flow) > std::max(drip, creeping_share * greatest);
}

double ArrowScale::length(double flow) const {
  const double share = greatest > 0.0 ? std::min(1.0, std::abs(flow) / greatest) : 0.0;
  return std::max(shortest_arrow, longest_arrow * std::sqrt(share));
}

void add_arrow(std::vector<Mark>& marks, Point middle, double towards, double length, const Pen& pen) {
  const double angle = towards * std::numbers::pi / 180.0;
  const Point along{0.5 * length * std::cos(angle), 0.5 * length * std::sin(angle)};
  const Point across{-slimness * along.y, slimness * along.x};
  const Point base{middle.x - along.x, middle.y - along.y};
  marks.push_back({pen, Polyline{{{middle.x + along.x, middle.y + along.y},
                                  {base.x + across.x, base.y + across.y},
                                  {base.x - across.x, base.y - across.y}},
                                 true}});
}

void add_arrows(std::vector<Mark>& marks, const std::vector<Stream>& pieces, const Mapping& mapping,
                const ArrowScale& scale, const Colour& colour) {
  const Pen pen{.layer = Layer::flow, .width = 0.1, .filled = true, .colour = colour};
  for (const Stream& stream : pieces) {
    const Point from = stream.piece.from, to = stream.piece.to;
    const double length = scale.length(stream.flow);
    if (!scale.shows(stream.flow) || std::hypot(to.x - from.x, to.y - from.y) < length + room_about_arrow)
      continue;
    const double forwards = std::atan2(to.y - from.y, to.x - from.x) * 180.0 / std::numbers::pi;
    add_arrow(marks, mapping.at(Point{0.5 * (from.x + to.x), 0.5 * (from.y + to.y)}),
              stream.flow > 0.0 ? forwards : forwards + 180.0, length * mapping.module, pen);
  }
}

}  // namespace poise::draw
