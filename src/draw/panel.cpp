// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/panel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "draw/label_place.hpp"
#include "draw/letters.hpp"
#include "draw/reduce.hpp"

namespace poise::draw {
namespace {

constexpr double column = 0.15;  // mm; less than half a curve's width
constexpr double alike = 0.3;    // mm; curves nearer than this are one
constexpr double between_ticks = 30.0, hatch_every = 3.0, hatch_length = 0.9;
constexpr double tick_pitch = 5.5, small = 1.9, title_room = 13.5;
/// Oil at rest trembles about nothing and a rod sits a little into its stop: what is below zero by less than
/// this share of the rest is drawn as nothing.
constexpr double nothing = 0.02;
/// A limit further off than this times what the curves reach would flatten them.
constexpr double far_off = 2.5;

struct Range {
  double low = 0.0, high = 0.0;
};

Range range_of(const std::vector<PanelCurve>& curves) {
  Range range;  // nothing is part of every quantity that is drawn
  for (const PanelCurve& curve : curves) {
    for (const Point& p : curve.points) range = {std::min(range.low, p.y), std::max(range.high, p.y)};
  }
  if (-range.low < nothing * range.high) range.low = 0.0;
  return range;
}

bool in_reach(const PanelLimit& limit, const Range& curves) {
  const double size = std::max(std::abs(curves.low), std::abs(curves.high));
  return std::abs(limit.number) <= far_off * size || size == 0.0;
}

double value_at(const std::vector<Point>& points, double x) {
  const auto after = std::ranges::lower_bound(points, x, {}, &Point::x);
  if (after == points.begin()) return after->y;
  if (after == points.end()) return points.back().y;
  const Point a = *(after - 1), b = *after;
  return b.x > a.x ? a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x) : b.y;
}

/// Curves of one trace have their points at the same times.
bool lie_together(const PanelCurve& a, const PanelCurve& b, double off) {
  if (a.what != b.what || a.points.size() != b.points.size()) return false;
  for (std::size_t i = 0; i < a.points.size(); ++i) {
    if (std::abs(a.points[i].y - b.points[i].y) > off) return false;
  }
  return true;
}

/// One panel on its way to the paper.
class Drawing {
 public:
  Drawing(const Panel& panel, const TimeAxis& time, double low, double high, double right)
      : panel_(panel), time_(time), frame_{time.left(), low, time.right(), high}, right_(right) {
    Range range = range_of(panel.curves);
    for (const PanelLimit& limit : panel.limits) {
      if (in_reach(limit, range_of(panel.curves)))
        range = {std::min(range.low, limit.number), std::max(range.high, limit.number)};
    }
    const int most = std::max(2, static_cast<int>(frame_.height() / tick_pitch) + 1);
    axis_ = value_axis(range.low, range.high, low, high, most);
    group_ = {.kind = "panel", .name = panel.title, .title = panel.title, .marks = {}};
  }

  Group draw() {
    axis();
    for (const PanelCurve& curve : panel_.curves) paths_.push_back(path_of(curve));
    for (std::size_t i = 0; i < paths_.size(); ++i) curve(static_cast<int>(i));
    labels();
    // From here on paths are only what names of limits keep clear of.
    if (axis_.low < 0.0) paths_.push_back({{frame_.left, axis_.at(0.0)}, {frame_.right, axis_.at(0.0)}});
    for (const TimeAxis::Piece& piece : time_.pieces())
      paths_.push_back({{piece.right, frame_.low}, {piece.right, frame_.high}});
    for (const PanelLimit& each : panel_.limits) bar(each);
    for (const PanelLimit& each : panel_.limits) name(each);
    return std::move(group_);
  }

 private:
  void add(Mark mark) { group_.marks.push_back(std::move(mark)); }

  void axis() {
    for (const double number : axis_.ticks.at) {
      const double y = axis_.at(number);
      add(line({frame_.left, y}, {frame_.right, y}, number == 0.0 ? pens::thin : pens::grid));
      add(words({frame_.left - 1.2, y - 0.35 * label_letters}, tick_label(number, axis_.ticks), label_letters,
                Text::Stands::right));
    }
    add(line({frame_.left, frame_.low}, {frame_.left, frame_.high}, pens::ink));
    Mark title =
        words({frame_.left - title_room, frame_.centre().y},
              cut(panel_.title, frame_.height() + 2.0, label_letters), label_letters, Text::Stands::middle);
    std::get<Text>(title.shape).upright = true;
    add(title);
  }

  std::vector<Point> path_of(const PanelCurve& curve) const {
    std::vector<Point> path;
    for (const Point& p : curve.points) path.push_back({time_.at(p.x), axis_.at(std::max(p.y, axis_.low))});
    return reduced(path, column);
  }

  void curve(int i) {
    const std::vector<Point>& path = paths_[i];
    const Style style = style_of(i);
    add(polyline(path, style.pen));
    const double first = frame_.left + 6.0 + 5.0 * i;
    for (double x = first; x < frame_.right; x += between_ticks) {
      for (Mark& mark : tick_at({x, value_at(path, x)}, style)) add(std::move(mark));
    }
  }

  /// Each curve's name right of its end, with a sample of its line.
  void labels() {
    const auto room = static_cast<std::size_t>(std::max(1.0, frame_.height() / label_pitch + 1.0));
    const std::size_t shown = paths_.size() <= room ? paths_.size() : room - 1;
    std::vector<double> ends;
    for (std::size_t i = 0; i < shown; ++i) ends.push_back(paths_[i].back().y);
    if (shown < paths_.size()) ends.push_back(frame_.low);
    const auto at = spread(ends, label_pitch, frame_.low, frame_.high);
    const double begin = frame_.right + 4.0, words_at = frame_.right + sample_room;
    for (std::size_t i = 0; i < shown; ++i) {
      const Style style = style_of(static_cast<int>(i));
      Pen leader = style.pen;
      leader.width = 0.13;
      leader.dash = Dash::solid;
      add(line({frame_.right, ends[i]}, {begin, at[i]}, leader));
      add(line({begin, at[i]}, {words_at - 1.0, at[i]}, style.pen));
      for (Mark& mark : tick_at({0.5 * (begin + words_at) - 0.5, at[i]}, style)) add(std::move(mark));
      add(words({words_at, at[i] - 0.35 * label_letters}, panel_.curves[i].label(right_ - words_at),
                label_letters, Text::Stands::left));
    }
    if (shown == paths_.size()) return;
    add(words(
        {words_at, at.back() - 0.35 * label_letters},
        cut(fmt::format("{} more, by --signals", paths_.size() - shown), right_ - words_at, label_letters),
        label_letters, Text::Stands::left));
  }

  /// A dashed line with short strokes on the side where the curve must not be.
  void bar(const PanelLimit& limit) {
    if (!in_reach(limit, range_of(panel_.curves))) return;
    const double side = limit.never_above ? 1.0 : -1.0, y = axis_.at(limit.number);
    for (const Window& window : limit.windows) {
      const double left = time_.at(window.begin), right = time_.at(window.end);
      add(line({left, y}, {right, y}, pens::limit));
      paths_.push_back({{left, y}, {right, y}});
      for (double x = left + 1.0; x + hatch_length < right; x += hatch_every)
        add(line({x, y}, {x + hatch_length, y + side * hatch_length}, pens::thin));
    }
  }

  void name(const PanelLimit& limit) {
    if (!in_reach(limit, range_of(panel_.curves))) return beyond(limit);
    const double side = limit.never_above ? 1.0 : -1.0, y = axis_.at(limit.number);
    const double wide = text_width(limit.label, small);
    std::vector<Text> places;
    for (const Window& window : limit.windows) {
      for (const double up : {-side, side}) {
        const double base = up > 0.0 ? y + 1.3 : y - 1.3 - 0.75 * small;
        for (double x = time_.at(window.begin) + 0.8; x + wide < frame_.right; x += 4.0)
          places.push_back({.at = {x, base}, .words = limit.label, .height = small});
      }
    }
    put(places);
  }

  void beyond(const PanelLimit& limit) {
    const bool up = limit.number > axis_.high;
    const std::string label = fmt::format("{}: {} this panel", limit.label, up ? "above" : "below");
    std::vector<Text> places;
    const double base = up ? frame_.high - 0.8 * small : frame_.low + 0.4;
    for (const Window& window : limit.windows) {
      for (double x = time_.at(window.begin) + 0.8; x + text_width(label, small) < frame_.right; x += 4.0) {
        for (const double row : {0.0, 1.0, 2.0})
          places.push_back(
              {.at = {x, base - (up ? 1.0 : -1.0) * row * 2.6}, .words = label, .height = small});
      }
    }
    put(places);
  }

  void put(const std::vector<Text>& places) {
    const auto best = best_place(places, frame_.grown(0.5), taken_, paths_);
    if (!best) return;
    taken_.push_back(box_of(places[*best]));
    add({pens::letters, places[*best]});
  }

  const Panel& panel_;
  const TimeAxis& time_;
  Box frame_;
  double right_;
  ValueAxis axis_;
  Group group_;
  std::vector<std::vector<Point>> paths_;
  std::vector<Box> taken_;
};

}  // namespace

std::string PanelCurve::label(double width) const {
  const std::string behind = what.empty() ? "" : " " + what;
  for (std::size_t count = names.size(); count > 0; --count) {
    const std::size_t more = names.size() - count;
    const std::string text =
        fmt::format("{}{}{}", fmt::join(names.begin(), names.begin() + static_cast<long>(count), ", "),
                    more > 0 ? fmt::format(" +{}", more) : "", behind);
    if (count == 1 || text_width(text, label_letters) <= width) return cut(text, width, label_letters);
  }
  return what;
}

void merge_alike(Panel& panel, double height) {
  const Range range = range_of(panel.curves);
  const double off = alike * (range.high - range.low) / height;
  std::vector<PanelCurve> kept;
  for (PanelCurve& curve : panel.curves) {
    const auto twin =
        std::ranges::find_if(kept, [&](const PanelCurve& other) { return lie_together(curve, other, off); });
    if (twin == kept.end()) {
      kept.push_back(std::move(curve));
    } else {
      twin->names.insert(twin->names.end(), curve.names.begin(), curve.names.end());
    }
  }
  panel.curves = std::move(kept);
}

Group draw_panel(const Panel& panel, const TimeAxis& time, double low, double high, double right) {
  return Drawing(panel, time, low, high, right).draw();
}

}  // namespace poise::draw
