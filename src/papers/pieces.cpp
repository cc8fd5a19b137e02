// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/pieces.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "draw/geometry.hpp"
#include "draw/letters.hpp"

namespace poise::papers {
namespace {

using draw::Box;
using draw::Point;

constexpr double shared = 60.0;  // mm, wider than a label

Box box_of(const draw::Text& text, bool upright) {
  const double length = draw::text_width(text.words, text.height, text.bold);
  const double back = text.stands == draw::Text::Stands::left     ? 0.0
                      : text.stands == draw::Text::Stands::middle ? 0.5 * length
                                                                  : length;
  const double below = draw::tail_share * text.height, above = draw::capital_share * text.height;
  const Point at = text.at;
  return upright ? Box{at.x - above, at.y - back, at.x + below, at.y - back + length}
                 : Box{at.x - back, at.y - below, at.x - back + length, at.y + above};
}

Box around(Point centre, double radius) { return Box{centre.x, centre.y, centre.x, centre.y}.grown(radius); }

Box box_of(const draw::Mark& mark) {
  if (const auto* text = std::get_if<draw::Text>(&mark.shape)) return box_of(*text, text->upright);
  if (const auto* circle = std::get_if<draw::Circle>(&mark.shape))
    return around(circle->centre, circle->radius);
  if (const auto* arc = std::get_if<draw::Arc>(&mark.shape)) return around(arc->centre, arc->radius);
  const auto& points = std::get<draw::Polyline>(mark.shape).points;
  Box box = around(points.front(), 0.0);
  for (const Point& point : points) box = draw::hull(box, around(point, 0.0));
  return box;
}

/// Lines run on to the edge of the paper; a text is there whole or not at all.
bool is_seen(const draw::Mark& mark, const Box& window) {
  const Box box = box_of(mark);
  if (!std::holds_alternative<draw::Text>(mark.shape))
    return draw::overlap(box.grown(mark.pen.width), window);
  return draw::hull(box, window) == window;
}

void move(draw::Mark& mark, Point by) {
  const auto moved = [&](Point& point) { point = {point.x + by.x, point.y + by.y}; };
  if (auto* text = std::get_if<draw::Text>(&mark.shape)) moved(text->at);
  if (auto* circle = std::get_if<draw::Circle>(&mark.shape)) moved(circle->centre);
  if (auto* arc = std::get_if<draw::Arc>(&mark.shape)) moved(arc->centre);
  if (auto* line = std::get_if<draw::Polyline>(&mark.shape)) std::ranges::for_each(line->points, moved);
}

draw::Sheet seen_through(const Box& window, const draw::Sheet& sheet) {
  draw::Sheet piece{.width = window.width(),
                    .height = window.height(),
                    .title = sheet.title,
                    .description = sheet.description,
                    .groups = {}};
  for (const draw::Group& group : sheet.groups) {
    draw::Group left{.kind = group.kind, .name = group.name, .title = group.title, .marks = {}};
    for (draw::Mark mark : group.marks) {
      if (!is_seen(mark, window)) continue;
      move(mark, {-window.left, -window.low});
      left.marks.push_back(std::move(mark));
    }
    if (!left.marks.empty()) piece.groups.push_back(std::move(left));
  }
  return piece;
}

/// Where pieces of a length begin that together cover a whole, evenly.
std::vector<double> beginnings(double whole, double piece) {
  if (piece >= whole) return {0.0};
  const double count = std::ceil((whole - shared) / std::max(piece - shared, 1.0));
  std::vector<double> all;
  for (double i = 0.0; i < count; ++i) all.push_back((whole - piece) * i / (count - 1.0));
  return all;
}

}  // namespace

std::vector<draw::Sheet> pieces_of(const draw::Sheet& sheet, double width, double height) {
  width = std::min(width, sheet.width);
  height = std::min(height, sheet.height);
  std::vector<draw::Sheet> pieces;
  for (const double down : beginnings(sheet.height, height)) {
    const double high = sheet.height - down;
    for (const double left : beginnings(sheet.width, width))
      pieces.push_back(seen_through({left, high - height, left + width, high}, sheet));
  }
  return pieces;
}

}  // namespace poise::papers
