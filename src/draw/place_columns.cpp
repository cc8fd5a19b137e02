// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "draw/board.hpp"

namespace poise::draw {
namespace {

constexpr int passes = 8;
constexpr double width_weight = 0.2;  // of the whole drawing's width, against level runs

/// Two cells of neighbouring rows that would stand straight over each other.
struct Pair {
  int below, above;
  double dx;  // x of the one above less that of the one below
  int weight;
};

std::vector<Pair> pairs_of(const Board& board) {
  std::vector<Pair> pairs;
  for (const Channel& channel : board.channels) {
    std::map<int, std::pair<std::vector<Touch>, std::vector<Touch>>> wires;
    for (const Touch& t : channel.below) wires[t.wire].first.push_back(t);
    for (const Touch& t : channel.above) wires[t.wire].second.push_back(t);
    for (auto& [wire, sides] : wires) {
      auto& [below, above] = sides;
      if (below.empty() || above.empty()) continue;
      const auto left_first = [&](const Touch& a, const Touch& b) { return board.x_of(a) < board.x_of(b); };
      std::ranges::stable_sort(below, left_first);
      std::ranges::stable_sort(above, left_first);
      const bool alone = below.size() == 1 && above.size() == 1;
      const Touch &b = below[(below.size() - 1) / 2], &a = above[(above.size() - 1) / 2];
      const bool lanes = board.cells[b.cell].item < 0 && board.cells[a.cell].item < 0;
      pairs.push_back({b.cell, a.cell, b.dx - a.dx, lanes ? 3 : alone ? 2 : 1});
    }
  }
  std::ranges::stable_sort(pairs, [](const Pair& a, const Pair& b) { return a.weight > b.weight; });
  return pairs;
}

/// Cells tied to each other move as one block.
struct Blocks {
  Board& board;
  double gap;
  std::vector<int> block;                 // of each cell
  std::vector<double> offset;             // of the cell from its block
  std::vector<std::vector<int>> members;  // cells
  std::vector<double> x;                  // of each block

  Blocks(Board& b, double g)
      : board(b), gap(g), block(b.cells.size()), offset(b.cells.size(), 0.0), x(b.cells.size(), 0.0) {
    std::iota(block.begin(), block.end(), 0);
    for (int i = 0; i < static_cast<int>(block.size()); ++i) members.push_back({i});
  }

  /// Everything as far left as the order of the rows allows; false: no place satisfies all of it.
  bool pack_left() {
    std::ranges::fill(x, 0.0);
    for (std::size_t round = 0; round <= board.cells.size() + 1; ++round) {
      bool moved = false;
      for (const auto& row : board.rows) {
        for (std::size_t i = 0; i + 1 < row.size(); ++i) {
          const int a = row[i], b = row[i + 1];
          const double least =
              x[block[a]] + offset[a] + spacing(board.cells[a], board.cells[b], gap) - offset[b];
          if (block[a] == block[b]) {
            if (least > x[block[b]]) return false;
          } else if (x[block[b]] < least) {
            x[block[b]] = least;
            moved = true;
          }
        }
      }
      if (!moved) return true;
    }
    return false;
  }

  void tie(const Pair& p) {
    const int a = block[p.below], b = block[p.above];
    if (a == b) return;
    const double shift = offset[p.below] + p.dx - offset[p.above];
    const auto joined = members[b];
    for (int c : joined) {
      block[c] = a;
      offset[c] += shift;
      members[a].push_back(c);
    }
    members[b].clear();
    if (pack_left()) return;
    for (int c : joined) {
      block[c] = b;
      offset[c] -= shift;
      members[a].pop_back();
    }
    members[b] = joined;
  }

  void show() {
    for (std::size_t c = 0; c < board.cells.size(); ++c) board.cells[c].x = x[block[c]] + offset[c];
  }
};

/// Blocks move left and right, pushing what is in their way, as long as that shortens the level runs.
struct Relaxation {
  Blocks& blocks;
  Board& board;
  struct Run {
    double left, right;
  };

  double cost() const {
    double left = 1e300, right = -1e300;
    for (const Cell& c : board.cells) {
      left = std::min(left, c.x + c.left);
      right = std::max(right, c.x + c.right);
    }
    return level_cost() + width_weight * (right - left);
  }
  double level_cost() const {
    double sum = 0.0;
    std::map<int, Run> runs;
    for (const Channel& channel : board.channels) {
      runs.clear();
      for (const auto* side : {&channel.below, &channel.above}) {
        for (const Touch& t : *side) {
          const double at = board.x_of(t);
          const auto [run, fresh] = runs.try_emplace(t.wire, Run{at, at});
          run->second.left = std::min(run->second.left, at);
          run->second.right = std::max(run->second.right, at);
        }
      }
      for (const auto& [wire, run] : runs) sum += run.right - run.left;
    }
    return sum;
  }

  /// How far a block would like to go: the middle of where its runs are shortest.
  double wish(int b) const {
    std::vector<double> ends;
    for (const Channel& channel : board.channels) {
      std::map<int, std::pair<Run, Run>> runs;  // of the block's own ends; of the others
      for (const auto* side : {&channel.below, &channel.above}) {
        for (const Touch& t : *side) {
          const auto [pair, fresh] = runs.try_emplace(t.wire, Run{1e300, -1e300}, Run{1e300, -1e300});
          Run& run = blocks.block[t.cell] == b ? pair->second.first : pair->second.second;
          run.left = std::min(run.left, board.x_of(t));
          run.right = std::max(run.right, board.x_of(t));
        }
      }
      for (const auto& [wire, pair] : runs) {
        const auto& [own, others] = pair;
        if (own.left > own.right || others.left > others.right) continue;
        ends.push_back(others.left - own.left);
        ends.push_back(others.right - own.right);
      }
    }
    if (ends.empty()) return 0.0;
    std::ranges::sort(ends);
    return std::round(0.5 * (ends[(ends.size() - 1) / 2] + ends[ends.size() / 2]));
  }

  /// Moves a block and what it pushes ahead of it.
  void push(int b, double by) {
    std::vector<int> open{b};
    blocks.x[b] += by;
    while (!open.empty()) {
      const int at = open.back();
      open.pop_back();
      for (const auto& row : board.rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
          if (blocks.block[row[i]] != at) continue;
          const std::size_t next = by > 0 ? i + 1 : i - 1;
          if (next >= row.size()) continue;
          const int other = blocks.block[row[next]];
          if (other == at) continue;
          const int l = by > 0 ? row[i] : row[next], r = by > 0 ? row[next] : row[i];
          const double room = blocks.x[blocks.block[r]] + blocks.offset[r] - blocks.x[blocks.block[l]] -
                              blocks.offset[l] - spacing(board.cells[l], board.cells[r], blocks.gap);
          if (room >= 0) continue;
          blocks.x[other] += by > 0 ? -room : room;
          open.push_back(other);
        }
      }
    }
    blocks.show();
  }

  bool relax() {
    bool better = false;
    double now = cost();
    for (int b = 0; b < static_cast<int>(blocks.members.size()); ++b) {
      if (blocks.members[b].empty()) continue;
      const double by = wish(b);
      if (by == 0.0) continue;
      const std::vector<double> before = blocks.x;
      push(b, by);
      const double then = cost();
      if (then < now - 1e-9) {
        now = then;
        better = true;
      } else {
        blocks.x = before;
        blocks.show();
      }
    }
    return better;
  }
};

}  // namespace

void place_columns(Board& board, double gap) {
  Blocks blocks(board, gap);
  for (const Pair& p : pairs_of(board)) blocks.tie(p);
  blocks.pack_left();
  blocks.show();
  Relaxation relaxation{blocks, board};
  for (int pass = 0; pass < passes && relaxation.relax(); ++pass) {
  }
  double left = 1e300;
  for (const Cell& c : board.cells) left = std::min(left, c.x + c.left);
  for (Cell& c : board.cells) c.x -= left;
}

}  // namespace poise::draw
