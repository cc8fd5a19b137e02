// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/band.hpp"

#include "draw/letters.hpp"
#include "draw/reduce.hpp"

namespace poise::draw {
namespace {

constexpr double tag_letters = 2.5, letters = 2.0, small = 1.8, column = 0.15;
constexpr double tag_room = 26.0, thinnest = 0.3, inset = 0.3;
constexpr Pen state_pen{.layer = Layer::chart, .width = 0.35};
constexpr Pen motion_pen{.layer = Layer::chart, .width = 0.5, .colour = pens::blue};
constexpr Pen open_pen{.layer = Layer::chart, .width = 0.18, .filled = true, .colour = pens::sky};
constexpr Pen back_pen{.layer = Layer::chart, .width = 0.18, .filled = true, .colour = pens::pale};

void name_it(Group& group, const Band& band, double left, double low, double high) {
  const double middle = 0.5 * (low + high), wide = tag_room - 1.0;
  Mark tag = words({left, middle - (band.what.empty() ? 0.35 * tag_letters : -0.2)},
                   cut(band.tag, wide, tag_letters), tag_letters, Text::Stands::left);
  group.marks.push_back(tag);
  if (band.what.empty()) return;
  group.marks.push_back(
      words({left, middle - 2.1}, cut(band.what, wide, small), small, Text::Stands::left, pens::quiet));
}

}  // namespace

Group draw_band(const Band& band, const TimeAxis& time, double left, double low, double high) {
  Group group{.kind = "band", .name = band.tag, .title = band.title, .marks = {}};
  const double bottom = low + inset, height = high - low - 2.0 * inset;
  const auto at = [&](double level) { return bottom + level * height; };
  name_it(group, band, left, low, high);
  for (const Band::Level& level : band.levels) {
    const double y = at(level.at);
    group.marks.push_back(line({time.left(), y}, {time.right(), y}, pens::grid));
    group.marks.push_back(words({time.left() - 1.0, y - 0.35 * letters},
                                cut(level.name, time.left() - 1.0 - left - tag_room, letters), letters,
                                Text::Stands::right));
  }
  group.marks.push_back(line({time.left(), low}, {time.left(), high}, pens::ink));
  for (const Band::Open& open : band.open) {
    const double begin = time.at(open.begin), end = std::max(time.at(open.end), begin + thinnest);
    const Box box{begin, at(0.0), std::min(end, time.right()), at(1.0)};
    group.marks.push_back(rectangle(box, open.backwards ? back_pen : open_pen));
    if (text_width(open.way, letters) + 1.0 < box.width())
      group.marks.push_back(
          words({box.centre().x, box.centre().y - 0.35 * letters}, open.way, letters, Text::Stands::middle));
  }
  if (!band.course.empty()) {
    std::vector<Point> path;
    for (const Point& p : band.course) path.push_back({time.at(p.x), at(p.y)});
    group.marks.push_back(polyline(reduced(path, column), band.moves ? motion_pen : state_pen));
  }
  return group;
}

}  // namespace poise::draw
