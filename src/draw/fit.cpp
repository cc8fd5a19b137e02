// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/fit.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "draw/legend.hpp"

namespace poise::draw {
namespace {

constexpr double clear_of_legend = 3.0;  // mm

std::optional<Paper> paper_of(std::string_view word) {
  if (word == "A4") return Paper::a4;
  if (word == "A3") return Paper::a3;
  if (word == "Letter") return Paper::letter;
  return std::nullopt;
}

Box area_of(Paper paper, bool less_legend) {
  Box area = drawing_area(paper);
  if (less_legend) area.low += legend_height + clear_of_legend;
  return area;
}

bool fits(const Box& drawing, const Box& area, double module) {
  return drawing.width() * module <= area.width() && drawing.height() * module <= area.height();
}

double largest_module(const Box& drawing, const Box& area) {
  const double wide = area.width() / std::max(drawing.width(), 1.0);
  const double high = area.height() / std::max(drawing.height(), 1.0);
  // Rounded down to a hundredth, which the title block can say.
  return std::floor(100.0 * std::min(wide, high)) / 100.0;
}

double module_in(const Box& drawing, const Box& area) {
  for (const double module : {full_module, reduced_module}) {
    if (fits(drawing, area, module)) return module;
  }
  return std::min(reduced_module, largest_module(drawing, area));
}

Paper chosen(const Box& drawing, bool less_legend) {
  return fits(drawing, area_of(Paper::a4, less_legend), reduced_module) ? Paper::a4 : Paper::a3;
}

/// In the middle of the area.
Mapping mapping_in(const Box& drawing, const Box& area) {
  const double module = module_in(drawing, area);
  const Point to = area.centre(), from = drawing.centre();
  return {module, {to.x - module * from.x, to.y - module * from.y}};
}

Box along(const Segment& s) {
  return hull({s.from.x, s.from.y, s.from.x, s.from.y}, {s.to.x, s.to.y, s.to.x, s.to.y});
}

/// Everything on the drawing, mm.
std::vector<Box> taken(const Schematic& schematic, const Mapping& mapping) {
  std::vector<Box> boxes;
  const auto add = [&](const Box& b) { boxes.push_back(mapping.at(b).grown(clear_of_legend)); };
  for (const PlacedSymbol& each : schematic.symbols) add(each.box);
  for (const Label& each : schematic.labels) add(each.box);
  for (const Enclosure& each : schematic.enclosures) add(each.box);
  for (const TankMark& each : schematic.tanks) {
    add(each.box);
    for (std::size_t i = 0; i + 1 < each.lead.size(); ++i) add(along({each.lead[i], each.lead[i + 1]}));
  }
  for (const Wire& wire : schematic.wires) {
    for (const Segment& s : wire.segments) add(along(s));
  }
  return boxes;
}

/// A free place in the area: low rather than high, left rather than right.
std::optional<Point> free_place(const Box& area, const std::vector<Box>& taken) {
  constexpr double step = 4.0;
  for (double y = area.low; y + legend_height <= area.high; y += step) {
    for (double x = area.left; x + legend_width <= area.right; x += step) {
      const Box place{x, y, x + legend_width, y + legend_height};
      if (std::ranges::none_of(taken, [&](const Box& b) { return overlap(b, place); })) return Point{x, y};
    }
  }
  return std::nullopt;
}

}  // namespace

Fit fit(const Schematic& schematic, std::string_view paper, bool with_legend) {
  Fit plain{.paper = paper_of(paper).value_or(chosen(schematic.box, false)), .mapping = {}, .legend = {}};
  const Box area = area_of(plain.paper, false);
  plain.mapping = mapping_in(schematic.box, area);
  if (!with_legend) return plain;
  plain.legend = free_place(area, taken(schematic, plain.mapping));
  if (plain.legend) return plain;
  Fit close{.paper = paper_of(paper).value_or(chosen(schematic.box, true)), .mapping = {}, .legend = {}};
  close.mapping = mapping_in(schematic.box, area_of(close.paper, true));
  const Box whole = area_of(close.paper, false);
  close.legend = Point{whole.left, whole.low};
  return close;
}

}  // namespace poise::draw
