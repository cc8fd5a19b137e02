// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Rules for what takes room on a drawing: symbols, labels, tank marks, enclosures.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "reference/picture.hpp"
#include "support/drawing_rules.hpp"
#include "support/drawn_boxes.hpp"

namespace poise::drawing {
namespace {

using draw::Box;
using draw::Point;

/// A place of the symbol where it lands on the drawing.
Point landed(Point at, const draw::PlacedSymbol& symbol) {
  if (symbol.turn.mirrored) at.x = -at.x;
  for (int i = 0; i < ((symbol.turn.quarters % 4) + 4) % 4; ++i) at = {-at.y, at.x};
  return {symbol.at.x + at.x, symbol.at.y + at.y};
}

bool within(const Box& inner, const Box& outer) {
  constexpr double rounding = 1e-6;
  return inner.left >= outer.left - rounding && inner.right <= outer.right + rounding &&
         inner.low >= outer.low - rounding && inner.high <= outer.high + rounding;
}

/// On the edge of a box, or as far inside as a dot at the port covers.
bool on_edge(Point at, const Box& box) {
  const double from_edge = std::min({at.x - box.left, box.right - at.x, at.y - box.low, box.high - at.y});
  return from_edge > -1e-6 && from_edge < room_of_a_dot;
}

bool is_joined(const Plan& plan, PortOf port) {
  return std::ranges::any_of(plan.joints, [&](const Joint& j) { return j.a == port || j.b == port; });
}

/// Room between two boxes along the axes; 0 if they touch.
double gap(const Box& a, const Box& b) {
  return std::max({0.0, a.left - b.right, b.left - a.right, a.low - b.high, b.low - a.high});
}

bool has_words(const draw::Words& words) {
  return !words.code.empty() || !words.tag.empty() || !words.lines.empty();
}

void check_symbol(const Drawn& drawn, int part, Sentences& wrong) {
  const PlannedPart& planned = drawn.plan.parts[part];
  const draw::PlacedSymbol& symbol = drawn.schematic.symbols[part];
  if (symbol.part != part) wrong.push_back(fmt::format("{} is not in the plan's order", planned.tag));
  const auto anchors = planned.kind->anchors;
  if (symbol.anchors.size() != anchors.size()) {
    wrong.push_back(
        fmt::format("{} has {} ports and {} anchors", planned.tag, anchors.size(), symbol.anchors.size()));
    return;
  }
  for (std::size_t i = 0; i < anchors.size(); ++i) {
    const Point want = landed({anchors[i].x, anchors[i].y}, symbol), is = symbol.anchors[i];
    const std::string name = drawn.plan.name({part, static_cast<int>(i)});
    if (std::hypot(want.x - is.x, want.y - is.y) > 1e-6)
      wrong.push_back(fmt::format("{} is at {:g}, {:g}, its symbol has it at {:g}, {:g}", name, is.x, is.y,
                                  want.x, want.y));
    if (is_joined(drawn.plan, {part, static_cast<int>(i)}) && !on_edge(is, symbol.box))
      wrong.push_back(fmt::format("{} is not on the edge of its symbol's box", name));
  }
  const std::vector<Stroke> strokes = planned.kind->drawn(planned.values, {});
  const Box rest = reference::extent_of(strokes, {});
  const Point a = landed({rest.left, rest.low}, symbol), b = landed({rest.right, rest.high}, symbol);
  if (!within(draw::hull({a.x, a.y, a.x, a.y}, {b.x, b.y, b.x, b.y}), symbol.box))
    wrong.push_back(fmt::format("{} has strokes outside its box", planned.tag));
}

void check_label(const Drawn& drawn, int part, Sentences& wrong) {
  const std::string& tag = drawn.plan.parts[part].tag;
  const draw::Label& label = drawn.schematic.labels[part];
  if (label.part != part) wrong.push_back(fmt::format("the label of {} is not in the plan's order", tag));
  if (!has_words(drawn.words[part])) return;
  if (label.box.width() <= 0 || label.box.height() <= 0)
    wrong.push_back(fmt::format("{} has words and no room for them", tag));
  constexpr double beside = 4.0;  // M; farther away a fitter takes it for somebody else's
  if (gap(label.box, drawn.schematic.symbols[part].box) > beside)
    wrong.push_back(fmt::format("the label of {} is not beside it", tag));
}

bool is_member(const Drawn& drawn, int part, const std::string& assembly) {
  return static_cast<std::size_t>(part) < drawn.wishes.size() && drawn.wishes[part].assembly == assembly;
}

}  // namespace

std::vector<NamedBox> boxes_of(const Plan& plan, const draw::Schematic& schematic) {
  std::vector<NamedBox> boxes;
  for (const auto& symbol : schematic.symbols)
    boxes.push_back({.name = "symbol of " + plan.parts[symbol.part].tag,
                     .box = symbol.box,
                     .part = symbol.part,
                     .symbol = true});
  for (const auto& label : schematic.labels) {
    if (label.box.width() > 0)
      boxes.push_back({"label of " + plan.parts[label.part].tag, label.box, label.part});
  }
  for (std::size_t i = 0; i < schematic.tanks.size(); ++i)
    boxes.push_back({"tank mark of " + plan.name(schematic.tanks[i].port), schematic.tanks[i].box,
                     schematic.tanks[i].port.part, static_cast<int>(i)});
  for (const auto& enclosure : schematic.enclosures)
    boxes.push_back({"label of enclosure " + enclosure.name, enclosure.label});
  return boxes;
}

Sentences symbols_set_wrong(const Drawn& drawn) {
  const std::size_t parts = drawn.plan.parts.size();
  if (drawn.schematic.symbols.size() != parts || drawn.schematic.labels.size() != parts)
    return {fmt::format("{} parts, but {} symbols and {} labels", parts, drawn.schematic.symbols.size(),
                        drawn.schematic.labels.size())};
  Sentences wrong;
  for (std::size_t i = 0; i < parts; ++i) {
    check_symbol(drawn, static_cast<int>(i), wrong);
    check_label(drawn, static_cast<int>(i), wrong);
  }
  return wrong;
}

Sentences boxes_that_overlap(const Drawn& drawn) {
  Sentences wrong;
  const std::vector<NamedBox> boxes = boxes_of(drawn.plan, drawn.schematic);
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      if (overlap(boxes[i].box.grown(-1e-6), boxes[k].box))
        wrong.push_back(boxes[k].name + " overlaps " + boxes[i].name);
    }
  }
  return wrong;
}

Sentences enclosures_drawn_wrong(const Drawn& drawn) {
  Sentences wrong;
  const auto& enclosures = drawn.schematic.enclosures;
  for (std::size_t i = 0; i < drawn.wishes.size(); ++i) {
    const std::string& name = drawn.wishes[i].assembly;
    if (!name.empty() && std::ranges::count(enclosures, name, &draw::Enclosure::name) != 1)
      wrong.push_back(
          fmt::format("{} belongs to {}, which is not drawn once", drawn.plan.parts[i].tag, name));
  }
  const std::vector<NamedBox> boxes = boxes_of(drawn.plan, drawn.schematic);
  for (const draw::Enclosure& enclosure : enclosures) {
    for (const NamedBox& box : boxes) {
      if (box.part < 0) continue;
      if (is_member(drawn, box.part, enclosure.name) ? !within(box.box, enclosure.box)
                                                     : overlap(box.box.grown(-1e-6), enclosure.box))
        wrong.push_back(fmt::format("{} is {} {}", box.name,
                                    is_member(drawn, box.part, enclosure.name) ? "not in" : "in",
                                    enclosure.name));
    }
    for (const draw::Enclosure& other : enclosures) {
      if (&other != &enclosure && overlap(other.box.grown(-1e-6), enclosure.box))
        wrong.push_back(fmt::format("{} and {} overlap", enclosure.name, other.name));
    }
  }
  return wrong;
}

Sentences outside_the_drawing(const Drawn& drawn) {
  Sentences wrong;
  const Box& all = drawn.schematic.box;
  for (const NamedBox& box : boxes_of(drawn.plan, drawn.schematic)) {
    if (!within(box.box, all)) wrong.push_back(box.name + " is outside the drawing");
  }
  for (const draw::Enclosure& enclosure : drawn.schematic.enclosures) {
    if (!within(enclosure.box, all)) wrong.push_back(enclosure.name + " is outside the drawing");
  }
  for (const draw::Wire& wire : drawn.schematic.wires) {
    for (const draw::Segment& s : wire.segments) {
      if (!within(draw::hull({s.from.x, s.from.y, s.from.x, s.from.y}, {s.to.x, s.to.y, s.to.x, s.to.y}),
                  all))
        wrong.push_back("the line at " + drawn.plan.name(wire.ports.at(0)) + " is outside the drawing");
    }
  }
  return wrong;
}

double kept_order(const Plan& before, const draw::Schematic& first, const Plan& after,
                  const draw::Schematic& second) {
  std::vector<std::pair<draw::Box, draw::Box>> both;
  for (std::size_t i = 0; i < before.parts.size(); ++i) {
    const auto same = std::ranges::find(after.parts, before.parts[i].tag, &PlannedPart::tag);
    if (same == after.parts.end()) continue;
    both.emplace_back(first.symbols[i].box,
                      second.symbols[static_cast<std::size_t>(same - after.parts.begin())].box);
  }
  const auto left = [](const draw::Box& a, const draw::Box& b) { return a.right <= b.left; };
  const auto under = [](const draw::Box& a, const draw::Box& b) { return a.high <= b.low; };
  int kept = 0, all = 0;
  for (std::size_t i = 0; i < both.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      const auto& [a, b] = both[i];
      const auto& [c, d] = both[k];
      const bool changed = (left(a, c) && left(d, b)) || (left(c, a) && left(b, d)) ||
                           (under(a, c) && under(d, b)) || (under(c, a) && under(b, d));
      ++all;
      if (!changed) ++kept;
    }
  }
  return all == 0 ? 1.0 : static_cast<double>(kept) / all;
}

}  // namespace poise::drawing
