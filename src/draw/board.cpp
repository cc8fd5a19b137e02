// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/board.hpp"

#include <algorithm>
#include <climits>
#include <map>

namespace poise::draw {
namespace {

constexpr double lane_half_width = 1.0;

/// The channels that a wire must get to: from the lowest to the highest.
struct Range {
  int low = INT_MAX, high = INT_MIN;
  bool empty() const { return low > high; }
  void take(int channel) {
    low = std::min(low, channel);
    high = std::max(high, channel);
  }
};

/// A wire between an item's own pins needs no channel.
bool stays_inside(const std::vector<Item>& items, int wire) {
  int holders = 0;
  for (const Item& item : items) {
    holders += std::ranges::any_of(item.pins, [&](const Pin& p) { return p.wire == wire; }) ? 1 : 0;
  }
  return holders < 2;
}

struct Builder {
  const std::vector<Item>& items;
  Board board;
  std::vector<Range> ranges;
  std::vector<bool> inside;

  void take_upright_pins() {
    for (const Item& item : items) {
      for (const Pin& p : item.pins) {
        if (p.side == Side::low) ranges[p.wire].take(item.row);
        if (p.side == Side::high) ranges[p.wire].take(item.row + 1);
      }
    }
  }
  /// Down or up beside the item, whichever is nearer to where the wire goes anyway.
  int channel_of(const Item& item, const Pin& p) const {
    if (p.side == Side::low) return item.row;
    if (p.side == Side::high) return item.row + 1;
    return !ranges[p.wire].empty() && ranges[p.wire].low > item.row ? item.row + 1 : item.row;
  }
  void add_items() {
    for (int i = 0; i < static_cast<int>(items.size()); ++i) {
      const Item& item = items[i];
      board.rows[item.row].push_back(i);
      board.cells.push_back({i, -1, item.box.left, item.box.right, 0.0});
      for (const Pin& p : item.pins) {
        if (inside[p.wire]) continue;
        const int c = channel_of(item, p);
        ranges[p.wire].take(c);
        const double out = p.side == Side::left ? -1.0 : p.side == Side::right ? 1.0 : 0.0;
        auto& touches = c == item.row ? board.channels[c].above : board.channels[c].below;
        touches.push_back({p.wire, i, p.at.x + out});
      }
    }
  }
  void add_lanes() {
    for (int w = 0; w < static_cast<int>(ranges.size()); ++w) {
      if (inside[w]) continue;
      for (int row = ranges[w].low; row < ranges[w].high; ++row) {
        const int cell = static_cast<int>(board.cells.size());
        board.cells.push_back({-1, w, -lane_half_width, lane_half_width, 0.0});
        board.rows[row].push_back(cell);
        board.channels[row].above.push_back({w, cell, 0.0});
        board.channels[row + 1].below.push_back({w, cell, 0.0});
      }
    }
  }
  /// In the order in which the oil gets to them; a lane goes with the first item of its wire.
  void sort_rows() {
    std::vector<int> first(ranges.size(), INT_MAX);
    for (const Item& item : items) {
      for (const Pin& p : item.pins) first[p.wire] = std::min(first[p.wire], item.visit);
    }
    const auto key = [&](int cell) {
      const Cell& c = board.cells[cell];
      return c.item >= 0 ? 2 * items[c.item].visit : 2 * first[c.wire] + 1;
    };
    for (auto& row : board.rows) std::ranges::stable_sort(row, {}, key);
  }
};

}  // namespace

Board board_of(const std::vector<Item>& items, int wires) {
  int rows = 0;
  for (const Item& item : items) rows = std::max(rows, item.row + 1);
  Builder b{items, {}, std::vector<Range>(static_cast<std::size_t>(wires)), {}};
  b.board.rows.resize(static_cast<std::size_t>(rows));
  b.board.channels.resize(static_cast<std::size_t>(rows) + 1);
  for (int w = 0; w < wires; ++w) b.inside.push_back(stays_inside(items, w));
  b.take_upright_pins();
  b.add_items();
  b.add_lanes();
  b.sort_rows();
  return std::move(b.board);
}

double spacing(const Cell& left, const Cell& right, double gap) {
  const bool lanes = left.item < 0 || right.item < 0;
  return left.right - right.left + (lanes ? gap - 1.0 : gap);
}

namespace {

/// A wire in one channel: its level run and where it leaves it downwards and upwards.
struct Run {
  double left = 1e300, right = -1e300;
  std::vector<double> down, up;
  void take(double x) {
    left = std::min(left, x);
    right = std::max(right, x);
  }
};

std::map<int, Run> runs_in(const Board& board, const Channel& channel) {
  std::map<int, Run> runs;
  for (const Touch& t : channel.below) {
    Run& run = runs[t.wire];
    run.take(board.x_of(t));
    run.down.push_back(board.x_of(t));
  }
  for (const Touch& t : channel.above) {
    Run& run = runs[t.wire];
    run.take(board.x_of(t));
    run.up.push_back(board.x_of(t));
  }
  return runs;
}

int within(const std::vector<double>& places, const Run& run) {
  return static_cast<int>(
      std::ranges::count_if(places, [&](double x) { return x >= run.left && x <= run.right; }));
}

}  // namespace

int crossings(const Board& board, const Channel& channel) {
  const std::map<int, Run> runs = runs_in(board, channel);
  int count = 0;
  for (auto a = runs.begin(); a != runs.end(); ++a) {
    for (auto b = std::next(a); b != runs.end(); ++b) {
      if (a->second.right < b->second.left || b->second.right < a->second.left) continue;
      const int a_over_b = within(a->second.down, b->second) + within(b->second.up, a->second);
      const int b_over_a = within(b->second.down, a->second) + within(a->second.up, b->second);
      count += std::min(a_over_b, b_over_a);
    }
  }
  return count;
}

int crossings(const Board& board) {
  int count = 0;
  for (const Channel& c : board.channels) count += crossings(board, c);
  return count;
}

double level_length(const Board& board) {
  double length = 0.0;
  for (const Channel& c : board.channels) {
    for (const auto& [wire, run] : runs_in(board, c)) length += run.right - run.left;
  }
  return length;
}

}  // namespace poise::draw
