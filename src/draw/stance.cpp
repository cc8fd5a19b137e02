// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/stance.hpp"

#include <algorithm>
#include <array>

#include "draw/strokes.hpp"

namespace poise::draw {

Side side_of(Point at, const Box& box) {
  const std::array distance{std::abs(at.x - box.left), std::abs(box.right - at.x), std::abs(at.y - box.low),
                            std::abs(box.high - at.y)};
  // At a corner a line leaves along the longer side of the symbol.
  const bool wide = box.width() > box.height();
  const std::array sides = wide ? std::array{Side::left, Side::right, Side::low, Side::high}
                                : std::array{Side::low, Side::high, Side::left, Side::right};
  return *std::ranges::min_element(sides, {}, [&](Side s) { return distance[static_cast<std::size_t>(s)]; });
}

Box rest_box(const Kind& kind) {
  Box box = extent_of(kind.symbol);
  for (const Anchor& a : kind.anchors) box = hull(box, {a.x, a.y, a.x, a.y});
  return box;
}

Turn turned_over(Turn turn) { return {!turn.mirrored, (6 - turn.quarters) % 4}; }
Turn mirrored(Turn turn) { return {!turn.mirrored, (4 - turn.quarters) % 4}; }

Stance stance_of(const PlannedPart& part) {
  const Kind& kind = *part.kind;
  const Box box = rest_box(kind);
  Stance stance;
  std::vector<int> left, right;
  for (int i = 0; i < static_cast<int>(kind.ports.size()); ++i) {
    const Port& port = kind.ports[i];
    if (port.domain != Domain::oil || port.pilot || !port_exists(port, part.values)) continue;
    switch (side_of({kind.anchors[i].x, kind.anchors[i].y}, box)) {
      case Side::low:
        stance.low.push_back(i);
        break;
      case Side::high:
        stance.high.push_back(i);
        break;
      case Side::left:
        left.push_back(i);
        break;
      case Side::right:
        right.push_back(i);
        break;
    }
  }
  const bool sideways = left.size() == 1 && right.size() == 1 && stance.low.empty() && stance.high.empty();
  if (sideways) {
    stance.turn.quarters = 1;
    stance.low = left;
    stance.high = right;
  } else if (!left.empty() && !stance.high.empty()) {
    // Inlets at the sides of a symbol whose outlet is on top.
    stance.low.insert(stance.low.end(), left.begin(), left.end());
    stance.low.insert(stance.low.end(), right.begin(), right.end());
  }
  const bool shifted = !kind.inputs.empty() && stance.low.size() + stance.high.size() > 2;
  stance.turns_over =
      !stance.low.empty() && !stance.high.empty() && kind.about.role != Role::source && !shifted;
  return stance;
}

}  // namespace poise::draw
