// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "draw/label.hpp"
#include "draw/strokes.hpp"

namespace poise::draw {
namespace {

constexpr double shaft_gap = 2.0;       // between a rod and the load on it
constexpr double lane = 2.0;            // room beside a symbol for a line that leaves it sideways
constexpr double tank_lead = 1.0;       // from a port to the mark of the reservoir
constexpr Box tank_tray{-1, -1, 1, 0};  // about the upper end of the tray's middle
constexpr double way_out = 3.0;         // that words keep clear ahead of a pin
constexpr double half_way = 0.75;

Box outward(const Box& b) {
  return {std::floor(b.left), std::floor(b.low), std::ceil(b.right), std::ceil(b.high)};
}
Box around(Point p) { return {p.x, p.y, p.x, p.y}; }
Point sum(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }

Box extent_of_all(const std::vector<Stroke>& strokes, Turn turn) {
  Box all = extent_of(std::array{turned(strokes.front(), turn)});
  for (const Stroke& s : strokes) all = hull(all, extent_of(std::array{turned(s, turn)}));
  return all;
}

/// Around the symbol in every position it can take.
Box reach_of(const PlannedPart& part, Turn turn) {
  constexpr double some_flow = 1e-3;
  const Kind& kind = *part.kind;
  Box all = extent_of_all(kind.drawn(part.values, {}), turn);
  const auto take = [&](const Pose& pose) {
    all = hull(all, extent_of_all(kind.drawn(part.values, pose), turn));
  };
  for (double way : {some_flow, -some_flow}) {
    const std::vector<double> flow(static_cast<std::size_t>(kind.oil_ports), way);
    take({.flow = flow});
  }
  if (!kind.modes.empty()) {
    std::array<bool, max_modes> on{};
    on.fill(true);
    take({.mode = on});
  }
  if (!kind.inputs.empty()) {
    const std::size_t words = kind.parameters[kind.inputs[0]].words.size();
    for (std::size_t w = 0; w < words; ++w) {
      const std::vector<double> input(kind.inputs.size(), static_cast<double>(w));
      take({.input = input});
    }
  }
  return all;
}

PlacedSymbol symbol_of(const PlannedPart& part, int index, Turn turn) {
  PlacedSymbol symbol{index, turn, {}, {}, reach_of(part, turn)};
  for (const Anchor& a : part.kind->anchors) {
    symbol.anchors.push_back(turned(Point{a.x, a.y}, turn));
    symbol.box = hull(symbol.box, around(symbol.anchors.back()));
  }
  symbol.box = outward(symbol.box);
  return symbol;
}

Side turned_side(const Kind& kind, int port, Turn turn) {
  const Box rest = rest_box(kind);
  const Point a = turned(Point{rest.left, rest.low}, turn), b = turned(Point{rest.right, rest.high}, turn);
  const Box box{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
  return side_of(turned(Point{kind.anchors[port].x, kind.anchors[port].y}, turn), box);
}

Point ahead(Side side) {
  switch (side) {
    case Side::left:
      return {-1, 0};
    case Side::right:
      return {1, 0};
    case Side::low:
      return {0, -1};
    case Side::high:
      return {0, 1};
  }
  return {};
}

TankMark tank_at(PortOf port, int reservoir, Point anchor, Side side, const Box& symbol) {
  TankMark mark{reservoir, port, {anchor}, {}};
  if (side == Side::high) {
    const double beside = symbol.right + 1, over = anchor.y + 1;
    mark.lead = {anchor, {anchor.x, over}, {beside, over}, {beside, over - 2}};
  } else if (side != Side::low) {
    const double beside = anchor.x + ahead(side).x;
    mark.lead = {anchor, {beside, anchor.y}, {beside, anchor.y - 2}};
  } else {
    mark.lead = {anchor, {anchor.x, anchor.y - tank_lead}};
  }
  mark.box = tank_tray.moved(mark.lead.back());
  return mark;
}

Box box_of(const TankMark& mark) {
  Box all = mark.box;
  for (Point p : mark.lead) all = hull(all, around(p));
  return all;
}

Box box_of(const Figure& f) {
  Box all = f.symbol.box;
  for (const TankMark& t : f.tanks) all = hull(all, box_of(t));
  return f.label.width() > 0 ? hull(all, f.label) : all;
}

Box in_front(const Pin& pin, double far) {
  const Point to = ahead(pin.side);
  return hull(around(pin.at), around({pin.at.x + far * to.x, pin.at.y + far * to.y})).grown(half_way);
}

struct Assembly {
  const Plan& plan;
  const Links& links;
  const Levels& levels;
  std::span<const Words> words;
  const std::vector<bool>& mirror;

  Turn turn_of(int part) const {
    return mirror[part] && may_mirror(plan.parts[part]) ? mirrored(levels.turn[part]) : levels.turn[part];
  }
  Figure figure(int part, Turn turn) const {
    Figure f{symbol_of(plan.parts[part], part, turn), {}, {}};
    const auto& of = links.of[part];
    for (int port = 0; port < static_cast<int>(of.size()); ++port) {
      if (of[port].reservoir < 0) continue;
      f.tanks.push_back(tank_at({part, port}, of[port].reservoir, f.symbol.anchors[port],
                                turned_side(*plan.parts[part].kind, port, turn), f.symbol.box));
    }
    return f;
  }
  void add_pins(Item& item, const Figure& f) const {
    const int part = f.symbol.part;
    const auto& of = links.of[part];
    for (int port = 0; port < static_cast<int>(of.size()); ++port) {
      if (of[port].wire < 0) continue;
      item.pins.push_back({{part, port},
                           of[port].wire,
                           f.symbol.anchors[port],
                           turned_side(*plan.parts[part].kind, port, f.symbol.turn)});
    }
  }
};

void shift(Figure& f, Point by) {
  f.symbol.at = sum(f.symbol.at, by);
  for (Point& a : f.symbol.anchors) a = sum(a, by);
  f.symbol.box = f.symbol.box.moved(by);
  f.label = f.label.moved(by);
  for (TankMark& t : f.tanks) {
    for (Point& p : t.lead) p = sum(p, by);
    t.box = t.box.moved(by);
  }
}

/// Beside, over or under the symbol: where it makes the item least larger and touches nothing.
Box place_words(const Item& item, const Figure& f, LabelSize size) {
  constexpr double air = 0.25;
  const Box s = f.symbol.box, all = box_of(f);
  const double w = size.width, h = size.height, middle = std::round(s.centre().y - 0.5 * h);
  std::vector<Point> corners;
  for (double y :
       {middle, s.high - h, s.low, middle + 1, middle - 1, middle + 2, middle - 2, middle + 3, middle - 3}) {
    corners.push_back({s.right + air, y});
  }
  for (double y : {middle, s.high - h, s.low, middle + 2, middle - 2})
    corners.push_back({s.left - air - w, y});
  for (double x : {s.left, s.right - w, std::round(s.centre().x - 0.5 * w)}) {
    corners.push_back({x, s.high + air});
    corners.push_back({x, s.low - air - h});
  }
  for (const Pin& pin : item.pins) {
    if (pin.port.part != f.symbol.part) continue;
    for (double y : {s.high + air, s.low - air - h}) {
      corners.push_back({pin.at.x + 1, y});
      corners.push_back({pin.at.x - 1 - w, y});
    }
  }
  for (double y : {s.high + 1, s.low - h - 1}) {
    corners.push_back({s.right + 2, y});
    corners.push_back({s.right + 4, y});
    corners.push_back({all.right + air, y});
  }
  const auto clear = [&](const Box& b) {
    for (const Figure& other : item.figures) {
      if (overlap(b, other.symbol.box) || overlap(b, other.label)) return false;
      for (const TankMark& t : other.tanks) {
        if (overlap(b, box_of(t).grown(half_way))) return false;
      }
    }
    if (std::ranges::any_of(item.ways_out, [&](const Box& way) { return overlap(outward(b), way); }))
      return false;
    return std::ranges::none_of(item.pins,
                                [&](const Pin& p) { return overlap(outward(b), in_front(p, way_out)); });
  };
  Box best{};
  double least = 1e300;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Box b{corners[i].x, corners[i].y, corners[i].x + w, corners[i].y + h};
    if (!clear(b)) continue;
    const Box grown = hull(item.box, b);
    // Width is scarcer than height on the paper; words to the right are what people look for first.
    const double cost = 1.5 * (grown.width() - item.box.width()) + (grown.height() - item.box.height()) +
                        (i >= 9 ? 4.0 : 0.0) + 0.01 * static_cast<double>(i);
    if (cost < least) {
      least = cost;
      best = b;
    }
  }
  return best;
}

/// The parts that stand beside another: a load at a rod, a motor at a shaft.
std::vector<int> hosts_of(const Plan& plan, const Links& links) {
  std::vector<int> host(plan.parts.size(), -1);
  for (const auto& wire : links.wires) {
    if (plan.port(wire.front()).domain != Domain::motion) continue;
    const auto first = std::ranges::find_if(wire, [&](PortOf p) {
      const Kind& kind = *plan.parts[p.part].kind;
      return kind.oil_ports > 0 &&
             side_of({kind.anchors[p.port].x, kind.anchors[p.port].y}, rest_box(kind)) == Side::right;
    });
    if (first == wire.end()) continue;
    for (PortOf p : wire) {
      const Kind& kind = *plan.parts[p.part].kind;
      if (kind.oil_ports == 0 && kind.motion_ports == 1) host[p.part] = first->part;
    }
  }
  return host;
}

/// Guests stand to the right of their host, the first in line with the rod, the others over and under it.
void seat_guests(Item& item, const Assembly& a, const std::vector<int>& guests) {
  const int host = item.figures.front().symbol.part;
  double over = 0.0, under = 0.0;
  bool first = true;
  for (int guest : guests) {
    const auto& links = a.links.of[guest];
    const auto joined = std::ranges::find_if(links, [](const PortLink& l) { return l.wire >= 0; });
    const int wire = joined->wire, port = static_cast<int>(joined - links.begin());
    const auto at =
        std::ranges::find_if(item.pins, [&](const Pin& p) { return p.port.part == host && p.wire == wire; });
    Turn turn;
    if (turned_side(*a.plan.parts[guest].kind, port, turn) == Side::right) turn = mirrored(turn);
    Figure f = a.figure(guest, turn);
    const Point anchor = f.symbol.anchors[port];
    double y = at->at.y - anchor.y;
    const Box box = f.symbol.box;
    if (first) {
      over = box.high + y + 1;
      under = box.low + y - 1;
    } else if (over - at->at.y <= at->at.y - under) {
      y = over - box.low;
      over += box.height() + 1;
    } else {
      y = under - box.high;
      under -= box.height() + 1;
    }
    if (first && a.links.wires[wire].size() > guests.size() + 1) {
      const double gap = at->at.x + 0.5 * shaft_gap;
      item.ways_out.push_back({gap - half_way, at->at.y - 100, gap + half_way, at->at.y});
    }
    first = false;
    shift(f, {at->at.x + shaft_gap - anchor.x, y});
    a.add_pins(item, f);
    item.box = hull(item.box, box_of(f));
    item.figures.push_back(std::move(f));
  }
}

}  // namespace

bool may_mirror(const PlannedPart& part) {
  const Stance s = stance_of(part);
  return s.turns_over && s.low.size() == 1 && s.high.size() == 1;
}

Item moved(Item item, Point by) {
  for (Figure& f : item.figures) shift(f, by);
  for (Pin& p : item.pins) p.at = sum(p.at, by);
  for (Lines& l : item.lines) {
    for (Segment& s : l.segments) s = {sum(s.from, by), sum(s.to, by), s.pilot};
  }
  for (Enclosure& e : item.enclosures) {
    e.box = e.box.moved(by);
    e.label = e.label.moved(by);
  }
  item.box = item.box.moved(by);
  return item;
}

std::vector<Item> items_of(const Plan& plan, const Links& links, const Levels& levels,
                           std::span<const Words> words, const std::vector<bool>& mirror) {
  const Assembly a{plan, links, levels, words, mirror};
  const std::vector<int> host = hosts_of(plan, links);
  std::vector<Item> items;
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    if (host[p] >= 0) continue;
    Item item;
    item.row = levels.row[p];
    item.visit = levels.visit[p];
    item.figures.push_back(a.figure(p, a.turn_of(p)));
    a.add_pins(item, item.figures.front());
    item.box = box_of(item.figures.front());
    std::vector<int> guests;
    for (int g = 0; g < static_cast<int>(host.size()); ++g) {
      if (host[g] == p) guests.push_back(g);
    }
    seat_guests(item, a, guests);
    for (Figure& f : item.figures) {
      const LabelSize size = label_size(words[f.symbol.part]);
      if (size.width <= 0) continue;
      f.label = place_words(item, f, size);
      item.box = hull(item.box, f.label);
    }
    for (const Pin& pin : item.pins) {
      if (pin.side == Side::left || pin.side == Side::right)
        item.box = hull(item.box, around({pin.at.x + lane * ahead(pin.side).x, pin.at.y}));
    }
    item.box = outward(item.box);
    items.push_back(std::move(item));
  }
  return items;
}

}  // namespace poise::draw
