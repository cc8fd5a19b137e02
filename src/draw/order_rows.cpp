// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <optional>

#include "draw/board.hpp"

namespace poise::draw {
namespace {

constexpr int sweeps = 8;
constexpr int rounds = 4;

/// Cells of a row side by side, from the left, in their order.
void pack(Board& board, const std::vector<int>& row, double gap) {
  for (std::size_t i = 0; i < row.size(); ++i) {
    Cell& cell = board.cells[row[i]];
    if (i == 0) {
      cell.x = -cell.left;
    } else {
      const Cell& left = board.cells[row[i - 1]];
      cell.x = left.x + spacing(left, cell, gap);
    }
  }
}

/// Around the middle of the drawing, so that rows of different length lie over each other.
void centre(Board& board, const std::vector<int>& row) {
  if (row.empty()) return;
  const Cell &first = board.cells[row.front()], &last = board.cells[row.back()];
  const double middle = 0.5 * (first.x + first.left + last.x + last.right);
  for (int c : row) board.cells[c].x -= middle;
}

/// Mean place of what a cell is joined to through one of its channels; the order of `mine` and `others` says
/// whether it looks down or up.
std::optional<double> drawn_to(const Board& board, int cell, const std::vector<Touch>& mine,
                               const std::vector<Touch>& others) {
  double sum = 0.0;
  int count = 0;
  for (const Touch& t : mine) {
    if (t.cell != cell) continue;
    for (const Touch& o : others) {
      if (o.wire != t.wire) continue;
      sum += board.x_of(o) - t.dx;
      ++count;
    }
  }
  if (count == 0) return std::nullopt;
  return sum / count;
}

void sort_by_neighbours(Board& board, int row, bool upwards, double gap) {
  auto& cells = board.rows[row];
  const Channel& c = board.channels[upwards ? row : row + 1];
  std::vector<std::pair<double, int>> wanted;
  for (int cell : cells) {
    const auto to =
        upwards ? drawn_to(board, cell, c.above, c.below) : drawn_to(board, cell, c.below, c.above);
    wanted.emplace_back(to.value_or(board.cells[cell].x), cell);
  }
  std::ranges::stable_sort(wanted, {}, &std::pair<double, int>::first);
  for (std::size_t i = 0; i < cells.size(); ++i) cells[i] = wanted[i].second;
  pack(board, cells, gap);
  // Towards where they are drawn to, as a whole.
  double off = 0.0;
  for (std::size_t i = 0; i < cells.size(); ++i) off += wanted[i].first - board.cells[cells[i]].x;
  off /= static_cast<double>(std::max<std::size_t>(cells.size(), 1));
  for (int cell : cells) board.cells[cell].x += off;
}

double cost_about(const Board& board, int row) {
  return crossings(board, board.channels[row]) + crossings(board, board.channels[row + 1]);
}

/// Two neighbours change places and keep the room they have together.
void swap_cells(Board& board, std::vector<int>& row, std::size_t i, double gap) {
  Cell &a = board.cells[row[i]], &b = board.cells[row[i + 1]];
  const double left = a.x + a.left;
  b.x = left - b.left;
  a.x = b.x + spacing(b, a, gap);
  std::swap(row[i], row[i + 1]);
}

bool swap_neighbours(Board& board, double gap) {
  bool better = false;
  for (int r = 0; r < static_cast<int>(board.rows.size()); ++r) {
    auto& row = board.rows[r];
    for (std::size_t i = 0; i + 1 < row.size(); ++i) {
      const double before = cost_about(board, r);
      if (before == 0.0) break;
      const double a = board.cells[row[i]].x, b = board.cells[row[i + 1]].x;
      swap_cells(board, row, i, gap);
      if (cost_about(board, r) < before) {
        better = true;
        continue;
      }
      std::swap(row[i], row[i + 1]);
      board.cells[row[i]].x = a;
      board.cells[row[i + 1]].x = b;
    }
  }
  return better;
}

}  // namespace

void order_rows(Board& board, double gap) {
  for (auto& row : board.rows) {
    pack(board, row, gap);
    centre(board, row);
  }
  const int rows = static_cast<int>(board.rows.size());
  Board best = board;
  place_columns(best, gap);
  int least = crossings(best);
  const auto keep_if_better = [&] {
    Board tried = board;
    place_columns(tried, gap);
    for (int round = 0; round < rounds && swap_neighbours(tried, gap); ++round) place_columns(tried, gap);
    if (const int now = crossings(tried); now < least) {
      least = now;
      best = std::move(tried);
    }
  };
  keep_if_better();
  for (int sweep = 0; sweep < sweeps && least > 0; ++sweep) {
    const bool upwards = sweep % 2 == 0;
    for (int i = 0; i < rows; ++i) sort_by_neighbours(board, upwards ? i : rows - 1 - i, upwards, gap);
    if (sweep % 2 == 1) keep_if_better();
  }
  board = std::move(best);
}

}  // namespace poise::draw
