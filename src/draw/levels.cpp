// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <climits>
#include <deque>

#include "draw/stance.hpp"

namespace poise::draw {
namespace {

constexpr int unknown = INT_MIN;
constexpr int under_ground = -1000;  // height of a reservoir, below all that a pump feeds

struct Survey {
  const Plan& plan;
  const Links& links;
  std::vector<Stance> stance;
  std::vector<int> height;  // of each wire: parts passed from the pump up, or from the reservoir up
  std::vector<int> visit;
  std::deque<int> wires;
  int visited = 0;

  int parts() const { return static_cast<int>(plan.parts.size()); }
  int wire_at(int part, int port) const { return links.of[part][port].wire; }

  void reach(int wire, int at) {
    if (wire < 0 || height[wire] != unknown) return;
    height[wire] = at;
    wires.push_back(wire);
  }
  void walk_on(int part, int port) {
    const int wire = wire_at(part, port);
    if (wire < 0) return;
    for (PortOf next : links.wires[wire]) walk(next.part);
  }
  /// Branch by branch, each to its end before the next.
  void walk(int part) {
    if (visit[part] >= 0) return;
    visit[part] = visited++;
    for (int port : stance[part].high)
      walk_on(part, port);  // what it feeds before what it shares with others
    for (int port = 0; port < static_cast<int>(links.of[part].size()); ++port) walk_on(part, port);
  }
  /// From a port of a part on to its other side.
  void pass(PortOf p) {
    const Stance& s = stance[p.part];
    const int h = height[wire_at(p.part, p.port)] + 1;
    if (std::ranges::count(s.low, p.port) > 0) {
      for (int port : s.high) reach(wire_at(p.part, port), h);
    } else if (s.turns_over && std::ranges::count(s.high, p.port) > 0) {
      for (int port : s.low) reach(wire_at(p.part, port), h);
    }
  }
  void follow() {
    while (!wires.empty()) {
      const int wire = wires.front();
      wires.pop_front();
      for (PortOf p : links.wires[wire]) pass(p);
    }
  }
};

/// The lines of a branch that hangs down to a reservoir: from its last part up, as long as nothing else
/// joins. Come in by a pilot port, it may turn into a ring and never leave it: it is no longer than there are
/// lines.
void survey_hanging(Survey& s) {
  const auto next_up = [&](int part, int port) {
    const Stance& stance = s.stance[part];
    if (!stance.turns_over || stance.low.size() != 1 || stance.high.size() != 1) return -1;
    return s.wire_at(part, port == stance.low[0] ? stance.high[0] : stance.low[0]);
  };
  for (int p = 0; p < s.parts(); ++p) {
    for (int port = 0; port < static_cast<int>(s.links.of[p].size()); ++port) {
      if (s.links.of[p][port].reservoir < 0) continue;
      int wire = next_up(p, port), from = p;
      const int last = under_ground + static_cast<int>(s.links.wires.size());
      for (int h = under_ground + 1; h <= last && wire >= 0 && s.links.wires[wire].size() == 2; ++h) {
        const auto& ends = s.links.wires[wire];
        const PortOf other = ends[0].part == from ? ends[1] : ends[0];
        const Stance& stance = s.stance[other.part];
        const bool low = std::ranges::count(stance.low, other.port) > 0;
        if (!low && !stance.turns_over) break;
        if (s.height[wire] == unknown) s.height[wire] = h;
        from = other.part;
        wire = next_up(other.part, other.port);
      }
    }
  }
}

void survey_heights(Survey& s) {
  survey_hanging(s);
  for (int p = 0; p < s.parts(); ++p) {
    if (s.plan.parts[p].kind->about.role != Role::source) continue;
    for (int port : s.stance[p].high) s.reach(s.wire_at(p, port), 1);
  }
  s.follow();
  // Lines down to a reservoir: what a mark or the reservoir itself hangs on.
  for (int p = 0; p < s.parts(); ++p) {
    for (const auto* side : {&s.stance[p].low, &s.stance[p].high}) {
      for (int port : *side) {
        if (s.links.of[p][port].reservoir < 0 || !s.stance[p].turns_over) continue;
        const auto& other = side == &s.stance[p].low ? s.stance[p].high : s.stance[p].low;
        for (int beyond : other) s.reach(s.wire_at(p, beyond), under_ground + 1);
      }
    }
    if (s.plan.parts[p].kind->about.kind == "reservoir") s.reach(s.wire_at(p, 0), under_ground);
  }
  s.follow();
  for (int w = 0; w < static_cast<int>(s.height.size()); ++w) {
    s.reach(w, 0);
    s.follow();
  }
}

void survey_branches(Survey& s) {
  for (int p = 0; p < s.parts(); ++p) {
    if (s.plan.parts[p].kind->about.role == Role::source) s.walk(p);
  }
  for (int p = 0; p < s.parts(); ++p) s.walk(p);
}

/// The lowest line at some ports of a part.
int height_at(const Survey& s, int part, const std::vector<int>& ports) {
  int lowest = INT_MAX;
  for (int port : ports) {
    const PortLink& link = s.links.of[part][port];
    if (link.wire >= 0) lowest = std::min(lowest, s.height[link.wire]);
    if (link.reservoir >= 0) lowest = std::min(lowest, under_ground);
  }
  return lowest;
}

/// Who stands under whom: an arc from the part below a wire to the part above it.
struct Order {
  std::vector<std::vector<int>> above, below;
};

/// Arcs that close a ring are left out, the last found first.
struct RingFree {
  const std::vector<std::vector<int>>& all;
  std::vector<std::vector<int>> kept;
  std::vector<int> state;

  void walk(int part) {
    state[part] = 1;
    for (int next : all[part]) {
      if (state[next] == 1) continue;
      kept[part].push_back(next);
      if (state[next] == 0) walk(next);
    }
    state[part] = 2;
  }
};

Order order_of(const Survey& s, const std::vector<Turn>& turn) {
  std::vector<std::vector<int>> above(s.parts());
  for (const auto& wire : s.links.wires) {
    std::vector<int> under, over;
    for (PortOf p : wire) {
      const Stance& stance = s.stance[p.part];
      const bool over_turned = turn[p.part] != stance.turn;
      const bool low = std::ranges::count(stance.low, p.port) > 0,
                 high = std::ranges::count(stance.high, p.port) > 0;
      const bool motion = s.plan.port(p).domain == Domain::motion;
      if (motion) {
        const Kind& kind = *s.plan.parts[p.part].kind;
        const Side side = side_of({kind.anchors[p.port].x, kind.anchors[p.port].y}, rest_box(kind));
        if (side == Side::low) over.push_back(p.part);
        if (side == Side::high || kind.oil_ports > 0) under.push_back(p.part);
      } else {
        if (low != over_turned && (low || high)) over.push_back(p.part);
        if (high != over_turned && (low || high)) under.push_back(p.part);
      }
    }
    for (int a : under) {
      for (int b : over) {
        if (a != b) above[a].push_back(b);
      }
    }
  }
  std::vector<int> first(s.parts());
  for (int p = 0; p < s.parts(); ++p) first[s.visit[p]] = p;
  RingFree ring_free{above, std::vector<std::vector<int>>(s.parts()), std::vector<int>(s.parts(), 0)};
  for (int p : first) {
    if (ring_free.state[p] == 0) ring_free.walk(p);
  }
  Order order{std::move(ring_free.kept), std::vector<std::vector<int>>(s.parts())};
  for (int p = 0; p < s.parts(); ++p) {
    for (int b : order.above[p]) order.below[b].push_back(p);
  }
  return order;
}

std::vector<int> from_below(const Order& order) {
  const int count = static_cast<int>(order.above.size());
  std::vector<int> row(count, 0), waits(count);
  std::deque<int> ready;
  for (int p = 0; p < count; ++p) {
    waits[p] = static_cast<int>(order.below[p].size());
    if (waits[p] == 0) ready.push_back(p);
  }
  while (!ready.empty()) {
    const int p = ready.front();
    ready.pop_front();
    for (int b : order.above[p]) {
      row[b] = std::max(row[b], row[p] + 1);
      if (--waits[b] == 0) ready.push_back(b);
    }
  }
  return row;
}

bool is_actuator(const Kind& kind) {
  return kind.oil_ports > 0 && kind.motion_ports > 0 && kind.about.role != Role::source &&
         std::ranges::any_of(kind.ports, [](const Port& p) { return p.domain == Domain::motion; }) &&
         kind.about.kind != "cam_valve" && kind.about.kind != "accumulator";
}

/// Whether a pump stands somewhere under a part; what hangs free is drawn up under what it hangs from.
bool stands(const Survey& s, const Order& order, int part, std::vector<int>& known) {
  if (known[part] >= 0) return known[part] == 1;
  const Kind& kind = *s.plan.parts[part].kind;
  bool yes = kind.about.role == Role::source || (!s.stance[part].turns_over && !s.stance[part].low.empty());
  for (int b : order.below[part]) yes = yes || stands(s, order, b, known);
  known[part] = yes ? 1 : 0;
  return yes;
}

/// Whether a part belongs to what it feeds: it passes oil straight on, to one branch of several.
bool rises(const Survey& s, int part) {
  const Stance& stance = s.stance[part];
  if (!stance.turns_over || stance.low.size() != 1 || stance.high.size() != 1) return false;
  const int low = s.wire_at(part, stance.low[0]), high = s.wire_at(part, stance.high[0]);
  if (low < 0 || high < 0) return false;
  const auto pins = [&](int w) { return s.links.wires[w].size(); };
  const bool over = s.height[low] > s.height[high];
  return over ? pins(high) >= pins(low) : pins(low) >= pins(high);
}

void settle_rows(const Survey& s, const Order& order, std::vector<int>& row) {
  const int count = s.parts();
  int top = 0;
  for (int r : row) top = std::max(top, r);
  for (int p = 0; p < count; ++p) {
    const Kind& kind = *s.plan.parts[p].kind;
    if (is_actuator(kind)) row[p] = top;
  }
  for (int p = 0; p < count; ++p) {  // a beam that actuators lift lies over them
    for (int b : order.below[p]) row[p] = std::max(row[p], row[b] + 1);
  }
  int pumps = 0;
  const auto is_pump = [&](int p) { return s.plan.parts[p].kind->about.role == Role::source; };
  for (int p = 0; p < count; ++p) pumps = is_pump(p) ? std::max(pumps, row[p]) : pumps;
  for (int p = 0; p < count; ++p) {  // side by side, as far as what they feed leaves them room
    if (!is_pump(p)) continue;
    int under = pumps;
    for (int b : order.above[p]) under = std::min(under, row[b] - 1);
    row[p] = std::max(row[p], under);
  }
  std::vector<int> known(count, -1), topmost(count);
  for (int p = 0; p < count; ++p) topmost[p] = p;
  std::ranges::stable_sort(topmost, [&](int a, int b) { return row[a] > row[b]; });
  for (int p : topmost) {
    if (order.above[p].empty() || (stands(s, order, p, known) && !rises(s, p))) continue;
    int under = INT_MAX;
    for (int b : order.above[p]) under = std::min(under, row[b] - 1);
    row[p] = std::max(row[p], under);
  }
  std::vector<int> used(row);
  std::ranges::sort(used);
  used.erase(std::unique(used.begin(), used.end()), used.end());
  for (int& r : row) r = static_cast<int>(std::ranges::lower_bound(used, r) - used.begin());
}

}  // namespace

Levels levels_of(const Plan& plan, const Links& links) {
  const std::size_t count = plan.parts.size();
  Survey s{plan, links, {}, std::vector<int>(links.wires.size(), unknown), std::vector<int>(count, -1), {}};
  for (const PlannedPart& part : plan.parts) s.stance.push_back(stance_of(part));
  survey_heights(s);
  survey_branches(s);
  Levels levels;
  for (int p = 0; p < s.parts(); ++p) {
    const Stance& stance = s.stance[p];
    const bool over = stance.turns_over && height_at(s, p, stance.low) > height_at(s, p, stance.high);
    levels.turn.push_back(over ? turned_over(stance.turn) : stance.turn);
  }
  const Order order = order_of(s, levels.turn);
  levels.row = from_below(order);
  settle_rows(s, order, levels.row);
  levels.visit = std::move(s.visit);
  return levels;
}

}  // namespace poise::draw
