// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The curve of one part by its own law, and where it worked at the ends of the steps.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "draw/axis.hpp"
#include "draw/chart.hpp"
#include "draw/in_unit.hpp"
#include "draw/label_place.hpp"
#include "draw/marks.hpp"
#include "draw/part_curve.hpp"
#include "draw/roles.hpp"
#include "draw/time_frame.hpp"

namespace poise::draw {
namespace {

constexpr double left_room = 18.0, right_room = 84.0, low_room = 10.0, letters = 2.3, row = 3.4,
                 tick_pitch = 13.0, tick_room = 16.0, dot = 1.0, together = 1.6, sample = 9.0, nothing = 0.02;
constexpr Pen dot_pen{.layer = Layer::chart, .width = 0.2, .filled = true};

std::string_view shape_title(CurveShape shape) {
  switch (shape) {
    case CurveShape::drop:
      return "pressure drop over flow";
    case CurveShape::inlet:
      return "inlet pressure over flow";
    case CurveShape::outlet:
      return "outlet pressure over flow";
    case CurveShape::delivery:
      return "delivery over outlet pressure";
  }
  return "";
}

/// Steps whose points are one on paper.
struct Dot {
  Point at;
  std::vector<std::string> steps;
};

class Drawing {
 public:
  Drawing(const Job& job, const Characteristic& all, const PlannedPart& part, const ChartWish& wish)
      : job_(job),
        all_(all),
        part_(part),
        pressure_(Quantity::pressure, job.world),
        flow_(Quantity::flow, job.world),
        frame_{wish.content.left + left_room, wish.content.low + notice_height + low_room,
               wish.content.right - right_room, wish.content.high - title_height - 2.0},
        right_(wish.content.right) {}

  Group draw() {
    group_ = {.kind = "curve",
              .name = part_.tag,
              .title = part_.tag + ": " + std::string(shape_title(all_.shape)),
              .marks = {}};
    axes();
    curves();
    bounds();
    points();
    key();
    return std::move(group_);
  }

 private:
  bool flow_across() const { return all_.shape != CurveShape::delivery; }
  void add(Mark mark) { group_.marks.push_back(std::move(mark)); }
  std::string shown(double value, Quantity quantity) const {
    return units::show(value, quantity, job_.world);
  }

  /// A point of a curve in the axes' numbers: across and up.
  Point number(Point p) const {
    return flow_across() ? Point{flow_(p.x), pressure_(p.y)} : Point{pressure_(p.x), flow_(p.y)};
  }
  Point place(Point p) const {
    const Point n = number(p);
    return {across_.at(n.x), up_.at(n.y)};
  }
  Point place(const OperatingPoint& p) const {
    return place(flow_across() ? Point{p.flow, p.pressure} : Point{p.pressure, p.flow});
  }
  std::optional<double> given(std::string_view name) const {
    if (!find_parameter(part_.values.table(), name)) return std::nullopt;
    const double value = part_.values[name];
    return std::isfinite(value) ? std::optional(value) : std::nullopt;
  }

  void axes() {
    double x = 0.0, y = 0.0, least_x = 0.0, least_y = 0.0;
    const auto hold = [&](Point n) {
      x = std::max(x, n.x);
      y = std::max(y, n.y);
      least_x = std::min(least_x, n.x);
      least_y = std::min(least_y, n.y);
    };
    for (const PartCurve& curve : all_.curves) {
      for (const Point& p : curve.points) hold(number(p));
      for (const OperatingPoint& p : curve.at)
        hold(number(flow_across() ? Point{p.flow, p.pressure} : Point{p.pressure, p.flow}));
    }
    if (const auto setting = given("setting"); setting && all_.shape != CurveShape::drop && flow_across())
      y = std::max(y, 1.05 * pressure_(*setting));
    // A shut valve's leakage the other way is nothing on paper.
    if (-least_x < nothing * x) least_x = 0.0;
    if (-least_y < nothing * y) least_y = 0.0;
    across_ = value_axis(least_x, x, frame_.left, frame_.right, static_cast<int>(frame_.width() / tick_room));
    up_ = value_axis(least_y, y, frame_.low, frame_.high, static_cast<int>(frame_.height() / tick_pitch));
    for (const double n : across_.ticks.at) {
      add(line({across_.at(n), frame_.low}, {across_.at(n), frame_.high}, pens::grid));
      add(words({across_.at(n), frame_.low - 3.2}, tick_label(n, across_.ticks), letters,
                Text::Stands::middle));
    }
    for (const double n : up_.ticks.at) {
      add(line({frame_.left, up_.at(n)}, {frame_.right, up_.at(n)}, pens::grid));
      add(words({frame_.left - 1.2, up_.at(n) - 0.35 * letters}, tick_label(n, up_.ticks), letters,
                Text::Stands::right));
    }
    add(rectangle(frame_, pens::ink));
    const std::string pressure = (all_.shape == CurveShape::drop    ? "pressure drop, "
                                  : all_.shape == CurveShape::inlet ? "pressure at its inlet, "
                                                                    : "pressure at its outlet, ") +
                                 job_.world[Quantity::pressure];
    const std::string flow = (flow_across() ? "flow, " : "delivery, ") + job_.world[Quantity::flow];
    add(words({frame_.centre().x, frame_.low - 7.0}, flow_across() ? flow : pressure, letters,
              Text::Stands::middle));
    Mark upright = words({frame_.left - 14.0, frame_.centre().y}, flow_across() ? pressure : flow, letters,
                         Text::Stands::middle);
    std::get<Text>(upright.shape).upright = true;
    add(upright);
  }

  void curves() {
    for (std::size_t i = 0; i < all_.curves.size(); ++i) {
      std::vector<Point> path;
      for (const Point& p : all_.curves[i].points) {
        const Point at = place(p);
        if (at.x <= frame_.right + 1e-6 && at.y <= frame_.high + 1e-6)
          path.push_back({std::max(at.x, frame_.left), std::max(at.y, frame_.low)});
      }
      if (path.size() < 2) continue;
      if (path.front().x > path.back().x) std::ranges::reverse(path);
      paths_.push_back(path);
      add(polyline(path, style_of(static_cast<int>(i)).pen));
    }
  }

  /// What the datasheet says, as thin dashed lines.
  void bounds() {
    struct Bound {
      std::string_view parameter;
      Quantity quantity;
      std::string_view name;
    };
    for (const Bound& each :
         {Bound{"rated_flow", Quantity::flow, "rated flow"}, Bound{"setting", Quantity::pressure, "setting"},
          Bound{"pressure_drop", Quantity::pressure, "drop at rated flow"},
          Bound{"rated_pressure", Quantity::pressure, "rated pressure"}}) {
      const auto value = given(each.parameter);
      const bool drop = each.parameter == "pressure_drop";
      if (!value || (each.parameter == "setting" && all_.shape == CurveShape::drop) ||
          (drop && all_.shape != CurveShape::drop) ||
          (each.parameter == "rated_pressure" && all_.shape == CurveShape::drop))
        continue;
      bound(*value, each.quantity, fmt::format("{} {}", each.name, shown(*value, each.quantity)));
    }
  }

  void bound(double value, Quantity quantity, const std::string& label) {
    const bool upright = (quantity == Quantity::flow) == flow_across();
    const double n = quantity == Quantity::flow ? flow_(value) : pressure_(value);
    const ValueAxis& axis = upright ? across_ : up_;
    if (n > axis.high * (1.0 + 1e-9)) {
      beyond_.push_back(label + ": beyond this chart");
      return;
    }
    const double at = axis.at(n);
    std::vector<Text> places;
    if (upright) {
      add(line({at, frame_.low}, {at, frame_.high}, pens::limit));
      paths_.push_back({{at, frame_.low}, {at, frame_.high}});
      for (double y = frame_.high - 3.0; y > frame_.low; y -= 6.0) {
        places.push_back(
            {.at = {at - 0.8, y}, .words = label, .height = letters, .stands = Text::Stands::right});
        places.push_back({.at = {at + 0.8, y}, .words = label, .height = letters});
      }
    } else {
      add(line({frame_.left, at}, {frame_.right, at}, pens::limit));
      paths_.push_back({{frame_.left, at}, {frame_.right, at}});
      for (double x = frame_.right - 1.0; x > frame_.left + 20.0; x -= 6.0) {
        places.push_back(
            {.at = {x, at + 0.9}, .words = label, .height = letters, .stands = Text::Stands::right});
        places.push_back(
            {.at = {x, at - 2.8}, .words = label, .height = letters, .stands = Text::Stands::right});
      }
    }
    put(places);
  }

  bool put(const std::vector<Text>& places) {
    const auto best = best_place(places, frame_, taken_, paths_);
    if (!best) return false;
    taken_.push_back(box_of(places[*best]));
    add({pens::letters, places[*best]});
    return true;
  }

  std::vector<Dot> dots() const {
    std::vector<Dot> dots;
    for (const PartCurve& curve : all_.curves) {
      for (const OperatingPoint& point : curve.at) {
        const Point at = place(point);
        const auto near = std::ranges::find_if(dots, [&](const Dot& other) {
          return std::hypot(other.at.x - at.x, other.at.y - at.y) < together;
        });
        if (near == dots.end()) {
          dots.push_back({at, {point.step}});
        } else if (std::ranges::find(near->steps, point.step) == near->steps.end()) {
          near->steps.push_back(point.step);
        }
      }
    }
    return dots;
  }

  void points() {
    const std::vector<Dot> all = dots();
    for (const Dot& each : all) {
      add({dot_pen, Circle{each.at, dot}});
      taken_.push_back(Box{each.at.x, each.at.y, each.at.x, each.at.y}.grown(dot + 0.3));
    }
    for (const Dot& each : all) label(each);
  }

  /// Near the dot, in the first direction that is free; a thin line leads to it from further off.
  void label(const Dot& each) {
    const std::string text = fmt::format("{}", fmt::join(each.steps, ", "));
    std::vector<Text> places;
    std::vector<Point> leads;
    for (const double far : {2.2, 5.0, 9.0, 14.0, 20.0, 28.0}) {
      for (const double angle : {40.0, -40.0, 140.0, -140.0, 0.0, 180.0, 75.0, -75.0, 105.0, -105.0}) {
        const double turn = angle * std::numbers::pi / 180.0;
        const Point at{each.at.x + far * std::cos(turn), each.at.y + far * std::sin(turn)};
        const bool left = std::cos(turn) < 0.0;
        places.push_back({.at = {at.x, at.y - 0.35 * letters},
                          .words = text,
                          .height = letters,
                          .stands = left ? Text::Stands::right : Text::Stands::left,
                          .bold = true});
        leads.push_back(at);
      }
    }
    const auto best = best_place(places, frame_, taken_, paths_);
    if (!best) return;
    taken_.push_back(box_of(places[*best]));
    add({pens::letters, places[*best]});
    if (std::hypot(leads[*best].x - each.at.x, leads[*best].y - each.at.y) > 3.0)
      add(line(each.at, leads[*best], pens::thin));
  }

  /// Right of the chart: what each curve is, and the numbers of its points.
  void key() {
    const double left = frame_.right + 5.0, wide = right_ - left;
    double y = frame_.high - letters;
    const auto say = [&](const std::string& text, double inset, bool bold = false) {
      if (y < frame_.low) return;
      Mark mark =
          words({left + inset, y}, cut(text, (wide - inset) / 1.08, letters), letters, Text::Stands::left);
      std::get<Text>(mark.shape).bold = bold;
      add(mark);
      y -= row;
    };
    for (std::size_t i = 0; i < all_.curves.size(); ++i) {
      const PartCurve& curve = all_.curves[i];
      if (y < frame_.low) break;
      add(line({left, y + 0.35 * letters}, {left + sample - 1.5, y + 0.35 * letters},
               style_of(static_cast<int>(i)).pen));
      for (const std::string& each : broken(curve.label, wide - sample, letters, 3)) say(each, sample);
      for (const OperatingPoint& point : curve.at) {
        say(fmt::format("{}: {} at {}", point.step,
                        point.flow == 0.0 ? "no flow" : shown(point.flow, Quantity::flow),
                        shown(std::abs(point.pressure) < 10.0 ? 0.0 : point.pressure, Quantity::pressure)),
            sample, true);
      }
      y -= 1.5;
    }
    if (!all_.idle.empty()) say("Without flow:", 0.0);
    for (const OperatingPoint& point : all_.idle) {
      const double size = std::abs(point.pressure);
      say(fmt::format("{}: {}{}", point.step, shown(size < 10.0 ? 0.0 : size, Quantity::pressure),
                      all_.shape == CurveShape::drop ? " across" : ""),
          sample, true);
    }
    for (const std::string& each : beyond_) say(each, 0.0);
  }

  const Job& job_;
  const Characteristic& all_;
  const PlannedPart& part_;
  InUnit pressure_, flow_;
  Box frame_;
  double right_;
  ValueAxis across_, up_;
  Group group_;
  std::vector<std::vector<Point>> paths_;
  std::vector<Box> taken_;
  std::vector<std::string> beyond_;
};

}  // namespace

std::vector<std::string> parts_with_curve(const Plan& plan) {
  std::vector<std::string> tags;
  const Oil oil(plan.oil);
  for (const PlannedPart& part : plan.parts) {
    if (curve_shape(part, oil)) tags.push_back(part.tag);
  }
  return tags;
}

Sheet valve_chart(const Job& job, const Trace& trace, const ChartWish& wish) {
  const auto at = std::ranges::find(job.plan.parts, wish.part, &PlannedPart::tag);
  if (at == job.plan.parts.end()) throw std::logic_error("no part " + wish.part + " to draw the curve of");
  const Characteristic all = characteristic_of(job, trace, static_cast<int>(at - job.plan.parts.begin()));
  const std::string title = fmt::format("{} ({}), {}, with the ends of the steps", at->tag,
                                        kind_in_words(*at->kind), shape_title(all.shape));
  Sheet sheet{.width = wish.width,
              .height = wish.height,
              .title = job.title + ": " + title,
              .description = {},
              .groups = {}};
  sheet.groups = {title_line(wish, job, title), Drawing(job, all, *at, wish).draw(), notice_line(wish)};
  sheet.description = fmt::format("{} curves of {}", all.curves.size(), at->tag);
  return sheet;
}

}  // namespace poise::draw
