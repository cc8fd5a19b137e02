// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "draw/board.hpp"

namespace poise::draw {
namespace {

constexpr int passes = 8;
constexpr double width_weight = 0.2;  // of the whole drawing's width, against level runs

/// Two cells of neighbouring rows that would stand straight over each other.
struct Pair {
  int run;  // of each run one pair at most
  int below, above;
  double dx;  // x of the one above less that of the one below
  int weight;
};

/// From the middle outwards; those that lead on before gauges and others that end there, which a gauge more
/// or less does not change.
std::vector<Touch> middle_first(const Board& board, std::vector<Touch> touches) {
  std::ranges::stable_sort(touches, {}, [&](const Touch& t) { return board.x_of(t); });
  const auto ends = std::stable_partition(touches.begin(), touches.end(),
                                          [&](const Touch& t) { return !board.cells[t.cell].dead_end; });
  const auto from_middle = [](auto first, auto last) {
    const std::vector<Touch> in_order(first, last);
    const int count = static_cast<int>(in_order.size()), middle = (count - 1) / 2;
    for (int k = 0; k < count; ++k) {
      const int step = (k + 1) / 2;
      *first++ = in_order[k % 2 == 0 ? middle - step : middle + step];
    }
  };
  from_middle(touches.begin(), ends);
  from_middle(ends, touches.end());
  return touches;
}

std::vector<Pair> pairs_of(const Board& board) {
  std::vector<Pair> pairs;
  int number = 0;
  for (const Channel& channel : board.channels) {
    for (const Run& run : channel) {
      ++number;
      if (run.below.empty() || run.above.empty()) continue;
      const auto below = middle_first(board, run.below), above = middle_first(board, run.above);
      const bool alone = below.size() == 1 && above.size() == 1;
      for (const Touch& b : below) {
        for (const Touch& a : above) {
          const bool lanes = board.cells[b.cell].item < 0 && board.cells[a.cell].item < 0;
          pairs.push_back({number, b.cell, a.cell, b.dx - a.dx, lanes ? 3 : alone ? 2 : 1});
        }
      }
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

  std::vector<std::pair<int, std::size_t>> seats;  // row and place in it of each cell

  Blocks(Board& b, double g)
      : board(b), gap(g), block(b.cells.size()), offset(b.cells.size(), 0.0), seats(b.cells.size()) {
    std::iota(block.begin(), block.end(), 0);
    for (int i = 0; i < static_cast<int>(block.size()); ++i) members.push_back({i});
    x.resize(block.size(), 0.0);
    for (int r = 0; r < static_cast<int>(board.rows.size()); ++r) {
      const auto& row = board.rows[r];
      for (std::size_t i = 0; i < row.size(); ++i) {
        seats[row[i]] = {r, i};
        if (i > 0) x[row[i]] = x[row[i - 1]] + spacing(board.cells[row[i - 1]], board.cells[row[i]], gap);
      }
    }
  }

  double at(int cell) const { return x[block[cell]] + offset[cell]; }

  /// Moves what stands to the right of a block as far as it must go; false: the block would have to go
  /// itself.
  bool make_room(int first) {
    std::vector<int> open{first};
    while (!open.empty()) {
      const int b = open.back();
      open.pop_back();
      for (int c : members[b]) {
        const auto [r, i] = seats[c];
        if (i + 1 >= board.rows[r].size()) continue;
        const int next = board.rows[r][i + 1];
        const double short_of = at(c) + spacing(board.cells[c], board.cells[next], gap) - at(next);
        if (short_of <= 0) continue;
        if (block[next] == first) return false;
        x[block[next]] += short_of;
        open.push_back(block[next]);
      }
    }
    return true;
  }

  /// Everything stands as far left as the order of the rows allows, before and after; a tie that no places
  /// satisfy is left.
  bool tie(const Pair& p) {
    const int a = block[p.below], b = block[p.above];
    if (a == b) return offset[p.above] == offset[p.below] + p.dx;
    const double shift = offset[p.below] + p.dx - offset[p.above];
    const auto joined = members[b];
    const auto before = x;
    for (int c : joined) {
      block[c] = a;
      offset[c] += shift;
      members[a].push_back(c);
    }
    members[b].clear();
    x[a] = std::max(x[a], x[b] - shift);
    if (make_room(a)) return true;
    x = before;
    for (int c : joined) {
      block[c] = b;
      offset[c] -= shift;
      members[a].pop_back();
    }
    members[b] = joined;
    return false;
  }

  void show() {
    for (std::size_t c = 0; c < board.cells.size(); ++c) board.cells[c].x = x[block[c]] + offset[c];
  }
};

/// Blocks move left and right, pushing what is in their way, as long as that shortens the level runs.
struct Relaxation {
  Blocks& blocks;
  Board& board;
  std::vector<std::vector<const Run*>> runs;  // that each block has to do with

  Relaxation(Blocks& b, Board& on) : blocks(b), board(on), runs(b.members.size()) {
    for (const Channel& channel : board.channels) {
      for (const Run& run : channel) {
        for (const auto* side : {&run.below, &run.above}) {
          for (const Touch& t : *side) {
            auto& of_block = runs[blocks.block[t.cell]];
            if (of_block.empty() || of_block.back() != &run) of_block.push_back(&run);
          }
        }
      }
    }
  }

  double cost() const {
    Span all;
    for (const Cell& c : board.cells) {
      all.take(c.x + c.left);
      all.take(c.x + c.right);
    }
    double sum = width_weight * all.length();
    for (const Channel& channel : board.channels) {
      for (const Run& run : channel) sum += span_of(board, run).length();
    }
    return sum;
  }

  /// How far a block would like to go: the middle of where its runs are shortest.
  double wish(int b) const {
    std::vector<double> ends;
    for (const Run* run : runs[b]) {
      Span own, others;
      for (const auto* side : {&run->below, &run->above}) {
        for (const Touch& t : *side) (blocks.block[t.cell] == b ? own : others).take(board.x_of(t));
      }
      if (others.left > others.right) continue;
      ends.push_back(others.left - own.left);
      ends.push_back(others.right - own.right);
    }
    if (ends.empty()) return 0.0;
    std::ranges::sort(ends);
    return std::round(0.5 * (ends[(ends.size() - 1) / 2] + ends[ends.size() / 2]));
  }

  void shift(int b, double by) {
    blocks.x[b] += by;
    for (int c : blocks.members[b]) board.cells[c].x += by;
  }
  /// Moves a block and what it pushes ahead of it.
  void push(int b, double by) {
    std::vector<int> open{b};
    shift(b, by);
    while (!open.empty()) {
      const int at = open.back();
      open.pop_back();
      for (int c : blocks.members[at]) {
        const auto [r, i] = blocks.seats[c];
        const auto& row = board.rows[r];
        const std::size_t next = by > 0 ? i + 1 : i - 1;
        if (next >= row.size()) continue;
        const int other = blocks.block[row[next]];
        if (other == at) continue;
        const Cell &l = board.cells[by > 0 ? c : row[next]], &right = board.cells[by > 0 ? row[next] : c];
        const double room = right.x - l.x - spacing(l, right, blocks.gap);
        if (room >= 0) continue;
        shift(other, by > 0 ? -room : room);
        open.push_back(other);
      }
    }
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
  const std::vector<Pair> pairs = pairs_of(board);
  std::vector<bool> tied(
      pairs.empty() ? 0 : static_cast<std::size_t>(std::ranges::max(pairs, {}, &Pair::run).run) + 1);
  for (const Pair& p : pairs) {
    if (!tied[p.run]) tied[p.run] = blocks.tie(p);
  }
  blocks.show();
  Relaxation relaxation(blocks, board);
  for (int pass = 0; pass < passes && relaxation.relax(); ++pass) {
  }
  double left = 1e300;
  for (const Cell& c : board.cells) left = std::min(left, c.x + c.left);
  for (Cell& c : board.cells) c.x -= left;
}

}  // namespace poise::draw
