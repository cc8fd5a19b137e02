// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/router.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <queue>
#include <tuple>

#include "draw/grid.hpp"

namespace poise::draw {
namespace {

constexpr double bend_cost = 10.0, crossing_cost = 55.0, branch_cost = 0.5;
constexpr double near_cost = 0.6;   // of a module beside a symbol or words
constexpr double tight_cost = 1.0;  // of a module beside another line
constexpr int improving_rounds = 1;

/// Shortest way on the grid from a wire's tree to a pin.
class Search {
 public:
  explicit Search(Grid& grid) : grid_(grid), known_(grid.spots.size() * 4) {}

  /// Places from the tree to the pin, or none where every way costs more than `most`.
  std::vector<int> way(int wire, const std::vector<std::pair<int, int>>& starts, const Pin& target,
                       double most) {
    ++now_;
    most_ = most;
    goal_ = grid_.index(target.at);
    arrive_ = opposite(way_of(target.side));
    wire_ = wire;
    Queue open;
    for (const auto& [spot, way] : starts) offer(open, spot, way, start_cost(spot), -1);
    while (!open.empty()) {
      const auto [estimate, state] = open.top();
      open.pop();
      const int spot = state / 4, way = state % 4;
      if (estimate > known_[state].cost + ahead(spot, way) + 1e-9) continue;
      if (spot == goal_ && way == arrive_) {
        spent_ = known_[state].cost;
        return trace(state);
      }
      go_on(open, spot, way);
    }
    return {};
  }

  /// Cost of the way found last.
  double spent() const { return spent_; }

 private:
  using Entry = std::pair<double, int>;
  using Queue = std::priority_queue<Entry, std::vector<Entry>, std::greater<>>;

  /// A branch in the middle of a piece makes a junction; from a corner it takes the bend away.
  double start_cost(int spot) const { return grid_.spots[spot].knot == wire_ ? 0.0 : branch_cost; }
  /// Never more than what is left: straight distance and the bends that it must have.
  double ahead(int spot, int way) const {
    const Point at = grid_.place(spot), to = grid_.place(goal_);
    const double dx = to.x - at.x, dy = to.y - at.y;
    const bool right_way = is_level(way) == is_level(arrive_);
    const bool aside = is_level(arrive_) ? dy != 0 : dx != 0;
    const int bends = right_way ? (aside ? 2 : 0) : 1;
    return std::abs(dx) + std::abs(dy) + bends * bend_cost;
  }
  void offer(Queue& open, int spot, int way, double cost, int from) {
    const int state = spot * 4 + way;
    if (known_[state].age == now_ && known_[state].cost <= cost) return;
    const double estimate = cost + ahead(spot, way);
    if (estimate > most_) return;
    known_[state].age = now_;
    known_[state].cost = cost;
    known_[state].from = from;
    open.emplace(estimate, state);
  }
  bool crossed_by_other(const Grid::Spot& s, int way) const {
    const int across = is_level(way) ? s.upright : s.level;
    return across >= 0 && across != wire_;
  }
  /// What a line costs on top of its length where it runs through a spot.
  double crowding(int spot, int way) const {
    double cost = grid_.spots[spot].near ? near_cost : 0.0;
    for (int side : {(way + 1) % 4, (way + 3) % 4}) {
      if (!grid_.may_step(spot, side)) continue;
      const Grid::Spot& s = grid_.spots[spot + grid_.step(side)];
      const int along = is_level(way) ? s.level : s.upright;
      if ((along >= 0 && along != wire_) || (s.knot >= 0 && s.knot != wire_)) cost += tight_cost;
    }
    return cost;
  }
  void go_on(Queue& open, int spot, int way) {
    const int state = spot * 4 + way;
    const double cost = known_[state].cost;
    if (spot == goal_) return;
    if (grid_.may_step(spot, way)) {
      const int next = spot + grid_.step(way);
      const Grid::Spot& s = grid_.spots[next];
      const int along = is_level(way) ? s.level : s.upright;
      const bool own = s.knot == wire_ || s.level == wire_ || s.upright == wire_;
      const bool open_spot =
          next == goal_ ? way == arrive_
                        : !s.taken && (s.kept < 0 || s.kept == wire_) && !own && s.knot < 0 && along < 0;
      const bool crossing = next != goal_ && crossed_by_other(s, way);
      const bool lead = crossing && (s.level == Grid::foreign_lead || s.upright == Grid::foreign_lead);
      if (open_spot && !lead) {
        offer(open, next, way,
              cost + 1.0 + (crossing ? crossing_cost : 0.0) + (next == goal_ ? 0.0 : crowding(next, way)),
              state);
      }
    }
    // A line does not turn on top of another one, nor where it starts.
    if (known_[state].from < 0 || crossed_by_other(grid_.spots[spot], way)) return;
    for (int turn : {(way + 1) % 4, (way + 3) % 4}) offer(open, spot, turn, cost + bend_cost, state);
  }
  std::vector<int> trace(int state) const {
    std::vector<int> spots;
    for (; state >= 0; state = known_[state].from) {
      if (spots.empty() || spots.back() != state / 4) spots.push_back(state / 4);
    }
    std::ranges::reverse(spots);
    return spots;
  }

  Grid& grid_;
  /// What is known of a place and a way to go there; of a search before the last one if its age says so.
  struct Known {
    double cost = 0.0;
    int from = -1, age = 0;
  };
  std::vector<Known> known_;
  int now_ = 0, goal_ = 0, wire_ = 0;
  double most_ = 0.0, spent_ = 0.0;
  Way arrive_ = way_up;
};

/// Cuts pieces where branches meet them and joins pieces that go straight on, so that pieces run from knot to
/// knot.
Found tidy(const Grid& grid, const std::vector<std::vector<int>>& ways) {
  std::map<int, std::array<bool, 4>> open;  // which ways the wire leaves each place
  for (const auto& way : ways) {
    for (std::size_t i = 0; i + 1 < way.size(); ++i) {
      for (int w = 0; w < 4; ++w) {
        if (way[i] + grid.step(w) != way[i + 1]) continue;
        open[way[i]][w] = true;
        open[way[i + 1]][opposite(w)] = true;
      }
    }
  }
  const auto knot = [&](const std::array<bool, 4>& ways_of) {
    return !(ways_of == std::array{true, false, true, false} ||
             ways_of == std::array{false, true, false, true});
  };
  Found found;
  for (const auto& [spot, ways_of] : open) {
    if (!knot(ways_of)) continue;
    if (std::ranges::count(ways_of, true) > 2) found.junctions.push_back(grid.place(spot));
    for (int w : {way_right, way_up}) {
      if (!ways_of[w]) continue;
      int to = spot + grid.step(w);
      while (!knot(open.at(to))) to += grid.step(w);
      found.segments.push_back({grid.place(spot), grid.place(to)});
    }
  }
  return found;
}

int bends_of(const Found& wire) {
  std::map<std::pair<double, double>, std::pair<int, int>> ends;  // level, upright pieces
  for (const Segment& s : wire.segments) {
    for (Point p : {s.from, s.to}) {
      auto& [level, upright] = ends[{p.x, p.y}];
      ++(s.from.y == s.to.y ? level : upright);
    }
  }
  return static_cast<int>(std::ranges::count_if(ends, [](const auto& e) {
    return e.second == std::pair{1, 1};
  }));
}

class Router {
 public:
  explicit Router(const Ground& ground)
      : ground_(ground), grid_(ground.box), search_(grid_), found_(ground.wires.size()) {
    for (const Box& b : ground.taken) grid_.take(b);
    for (const auto& lead : ground.leads) {
      for (std::size_t i = 0; i + 1 < lead.size(); ++i) grid_.lay({lead[i], lead[i + 1]}, Grid::foreign_lead);
    }
    for (std::size_t w = 0; w < ground.wires.size(); ++w) {
      for (const Pin& p : ground.wires[w]) {
        keep_free(p, static_cast<int>(w));
        const int spot = grid_.index(p.at), way = way_of(p.side);
        if (grid_.may_step(spot, way)) grid_.spots[spot + grid_.step(way)].kept = static_cast<int>(w);
      }
    }
  }

  Routes run() {
    std::vector<int> order(found_.size());
    for (int w = 0; w < static_cast<int>(order.size()); ++w) order[w] = w;
    std::ranges::stable_sort(order, {}, [&](int w) { return span(w); });
    bool complete = true;
    for (int w : order) complete = lay(w) && complete;
    for (int round = 0; round < improving_rounds; ++round) {
      bool better = false;
      for (int w : order) better = again(w) || better;
      if (!better) break;
    }
    Routes routes{found_, complete, 0.0};
    for (int w : order) {
      routes.complete = routes.complete && (!found_[w].segments.empty() || ground_.wires[w].size() < 2);
      routes.cost += cost_of(w, true);
    }
    return routes;
  }

 private:
  void keep_free(const Pin& p, int wire) { grid_.spots[grid_.index(p.at)].knot = wire; }
  double span(int w) const {
    Box b{1e9, 1e9, -1e9, -1e9};
    for (const Pin& p : ground_.wires[w]) b = hull(b, {p.at.x, p.at.y, p.at.x, p.at.y});
    return b.width() + b.height() + (b.width() == 0.0 || b.height() == 0.0 ? -1000.0 : 0.0);
  }
  double cost_of(int w, bool half_crossings) const {
    double cost = bends_of(found_[w]) * bend_cost;
    for (const Segment& s : found_[w].segments) {
      const bool level = s.from.y == s.to.y;
      const int from = grid_.index(s.from), to = grid_.index(s.to),
                step = grid_.step(level ? way_right : way_up);
      for (int i = from + step; i < to; i += step) {
        const Grid::Spot& spot = grid_.spots[i];
        const int across = level ? spot.upright : spot.level;
        cost += 1.0 + (across >= 0 ? (half_crossings ? 0.5 : 1.0) * crossing_cost : 0.0);
        cost += spot.near ? near_cost : 0.0;
        for (int side : level ? std::array{1, 3} : std::array{0, 2}) {
          if (!grid_.may_step(i, side)) continue;
          const Grid::Spot& beside = grid_.spots[i + grid_.step(side)];
          const int along = level ? beside.level : beside.upright;
          if ((along >= 0 && along != w) || (beside.knot >= 0 && beside.knot != w)) cost += tight_cost;
        }
      }
      cost += 1.0;
    }
    return cost;
  }
  void wipe(int w) {
    for (const Segment& s : found_[w].segments) grid_.lay(s, -1);
    for (const Pin& p : ground_.wires[w]) keep_free(p, w);
    found_[w] = {};
  }
  void mark(int w) {
    for (const Segment& s : found_[w].segments) grid_.lay(s, w);
  }
  bool crossed(int w) const {
    return std::ranges::any_of(found_[w].segments, [&](const Segment& s) {
      const bool level = s.from.y == s.to.y;
      const int step = grid_.step(level ? way_right : way_up), to = grid_.index(s.to);
      for (int i = grid_.index(s.from) + step; i < to; i += step) {
        if ((level ? grid_.spots[i].upright : grid_.spots[i].level) >= 0) return true;
      }
      return false;
    });
  }
  /// Nothing to be won by laying it again: it crosses nothing and turns no more than any such wire.
  bool good_enough(int w) const {
    const int pins = static_cast<int>(ground_.wires[w].size());
    return !found_[w].segments.empty() && bends_of(found_[w]) <= std::max(1, pins - 2) && !crossed(w);
  }
  bool again(int w) {
    if (good_enough(w)) return false;
    const Found before = found_[w];
    const double cost = before.segments.empty() ? 1e300 : cost_of(w, false);
    wipe(w);
    if (lay(w, cost) && cost_of(w, false) < cost - 1e-9) return true;
    wipe(w);
    found_[w] = before;
    mark(w);
    return false;
  }

  std::vector<std::pair<int, int>> starts_of(int w, const std::vector<int>& joined) const {
    std::vector<std::pair<int, int>> starts;
    if (found_[w].segments.empty()) {
      const Pin& p = ground_.wires[w][joined.front()];
      return {{grid_.index(p.at), way_of(p.side)}};
    }
    std::vector<int> pins;
    for (const Pin& p : ground_.wires[w]) pins.push_back(grid_.index(p.at));
    for (const Segment& s : found_[w].segments) {
      const bool level = s.from.y == s.to.y;
      const int step = grid_.step(level ? way_right : way_up), to = grid_.index(s.to);
      for (int i = grid_.index(s.from); i <= to; i += step) {
        const Grid::Spot& spot = grid_.spots[i];
        if (spot.knot == w && std::ranges::count(pins, i) > 0) continue;
        const bool crossed = (level ? spot.upright : spot.level) >= 0 && spot.knot != w;
        if (crossed) continue;
        for (int way = 0; way < 4; ++way) {
          const bool along = is_level(way) == level && spot.knot != w;
          if (!along && grid_.may_step(i, way) && !grid_.spots[i + grid_.step(way)].taken)
            starts.emplace_back(i, way);
        }
      }
    }
    return starts;
  }
  double far_from_tree(int w, const std::vector<int>& joined, const Pin& pin) const {
    double least = 1e300;
    if (found_[w].segments.empty()) {
      const Point a = ground_.wires[w][joined.front()].at;
      return std::abs(a.x - pin.at.x) + std::abs(a.y - pin.at.y);
    }
    for (const Segment& s : found_[w].segments) {
      const Point near{std::clamp(pin.at.x, s.from.x, s.to.x), std::clamp(pin.at.y, s.from.y, s.to.y)};
      least = std::min(least, std::abs(near.x - pin.at.x) + std::abs(near.y - pin.at.y));
    }
    return least;
  }
  /// Joins the pins of a wire one after the other; false where that cannot be done, or only for more than
  /// `most`.
  bool lay(int w, double most = 1e300) {
    double left = most + bend_cost;  // a branch from a corner takes a bend away again
    const auto& pins = ground_.wires[w];
    std::vector<int> joined{0}, open;
    for (int i = 1; i < static_cast<int>(pins.size()); ++i) open.push_back(i);
    std::vector<std::vector<int>> ways;
    while (!open.empty()) {
      const auto next =
          std::ranges::min_element(open, {}, [&](int i) { return far_from_tree(w, joined, pins[i]); });
      const auto way = search_.way(w, starts_of(w, joined), pins[*next], left);
      if (way.empty()) {
        wipe(w);
        return false;
      }
      left -= search_.spent();
      ways.push_back(way);
      joined.push_back(*next);
      open.erase(next);
      for (const Segment& s : found_[w].segments) grid_.lay(s, -1);
      for (const Pin& p : pins) keep_free(p, w);
      found_[w] = tidy(grid_, ways);
      mark(w);
    }
    return true;
  }

  const Ground& ground_;
  Grid grid_;
  Search search_;
  std::vector<Found> found_;
};

}  // namespace

Found joined(const std::vector<Segment>& pieces) {
  Box box{1e9, 1e9, -1e9, -1e9};
  for (const Segment& s : pieces) box = hull(box, {s.from.x, s.from.y, s.to.x, s.to.y});
  const Grid grid(box.grown(1.0));  // at least two places wide, so that up and right are different steps
  std::vector<std::vector<int>> ways;
  for (const Segment& s : pieces) {
    const int step = grid.step(s.from.y == s.to.y ? way_right : way_up);
    auto& way = ways.emplace_back();
    for (int i = grid.index(s.from); i <= grid.index(s.to); i += step) way.push_back(i);
  }
  return tidy(grid, ways);
}

Routes find_routes(const Ground& ground) { return Router(ground).run(); }

}  // namespace poise::draw
