// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/board.hpp"

#include <algorithm>
#include <climits>

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
  Run& run_in(int channel, int wire) {
    Channel& runs = board.channels[channel];
    const auto found = std::ranges::find(runs, wire, &Run::wire);
    if (found != runs.end()) return *found;
    runs.push_back({wire, {}, {}});
    return runs.back();
  }
  void add_items() {
    for (int i = 0; i < static_cast<int>(items.size()); ++i) {
      const Item& item = items[i];
      board.rows[item.row].push_back(i);
      board.cells.push_back({i, -1, item.pins.size() < 2, item.box.left, item.box.right, 0.0});
      for (const Pin& p : item.pins) {
        if (inside[p.wire]) continue;
        const int c = channel_of(item, p);
        ranges[p.wire].take(c);
        const double out = p.side == Side::left ? -1.0 : p.side == Side::right ? 1.0 : 0.0;
        Run& run = run_in(c, p.wire);
        (c == item.row ? run.above : run.below).push_back({i, p.at.x + out});
      }
    }
  }
  void add_lanes() {
    for (int w = 0; w < static_cast<int>(ranges.size()); ++w) {
      if (inside[w]) continue;
      for (int row = ranges[w].low; row < ranges[w].high; ++row) {
        const int cell = static_cast<int>(board.cells.size());
        board.cells.push_back({-1, w, false, -lane_half_width, lane_half_width, 0.0});
        board.rows[row].push_back(cell);
        run_in(row, w).above.push_back({cell, 0.0});
        run_in(row + 1, w).below.push_back({cell, 0.0});
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

Span span_of(const Board& board, const Run& run) {
  Span span;
  for (const Touch& t : run.below) span.take(board.x_of(t));
  for (const Touch& t : run.above) span.take(board.x_of(t));
  return span;
}

namespace {

int within(const Board& board, const std::vector<Touch>& touches, const Span& span) {
  int count = 0;
  for (const Touch& t : touches) {
    const double x = board.x_of(t);
    count += x >= span.left && x <= span.right ? 1 : 0;
  }
  return count;
}

/// A run turns at its ends, unless lines go on both up and down there.
int bends_of(const Board& board, const Run& run, const Span& span) {
  if (span.length() == 0.0) return 0;
  int bends = 0;
  for (double end : {span.left, span.right}) {
    const auto here = [&](const Touch& t) { return board.x_of(t) == end; };
    bends += std::ranges::any_of(run.below, here) != std::ranges::any_of(run.above, here) ? 1 : 0;
  }
  return bends;
}

}  // namespace

int crossings(const Board& board, const Channel& channel) {
  std::vector<Span> spans;
  for (const Run& run : channel) spans.push_back(span_of(board, run));
  int count = 0;
  for (std::size_t i = 0; i < channel.size(); ++i) {
    for (std::size_t k = i + 1; k < channel.size(); ++k) {
      if (spans[i].right < spans[k].left || spans[k].right < spans[i].left) continue;
      const Run &a = channel[i], &b = channel[k];
      const int a_over_b = within(board, a.below, spans[k]) + within(board, b.above, spans[i]);
      const int b_over_a = within(board, b.below, spans[i]) + within(board, a.above, spans[k]);
      count += std::min(a_over_b, b_over_a);
    }
  }
  return count;
}

double cost_of(const Board& board) {
  constexpr double per_crossing = 45.0, per_bend = 10.0, per_module = 0.5, per_module_of_width = 0.5;
  double cost = 0.0;
  for (const Channel& channel : board.channels) {
    cost += per_crossing * crossings(board, channel);
    for (const Run& run : channel) {
      const Span span = span_of(board, run);
      cost += per_bend * bends_of(board, run, span) + per_module * span.length();
    }
  }
  Span all;
  for (const Cell& c : board.cells) {
    all.take(c.x + c.left);
    all.take(c.x + c.right);
  }
  return cost + per_module_of_width * all.length();
}

}  // namespace poise::draw
