// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <optional>

#include "draw/board.hpp"

namespace poise::draw {
namespace {

constexpr int sweeps = 8;
constexpr double clearly_better = 30.0;
constexpr int rounds = 4;
constexpr int most_trials = 60;
constexpr double worth_it =
    25.0;  // two bends saved do not change the order yet: drawings stay what they were

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

/// Mean places of what the cells of a row are joined to below or above.
std::vector<double> drawn_to(const Board& board, int row, bool upwards) {
  std::vector<double> sum(board.cells.size(), 0.0), count(board.cells.size(), 0.0);
  for (const Run& run : board.channels[upwards ? row : row + 1]) {
    const auto &mine = upwards ? run.above : run.below, &others = upwards ? run.below : run.above;
    for (const Touch& t : mine) {
      for (const Touch& o : others) {
        sum[t.cell] += board.x_of(o) - t.dx;
        count[t.cell] += 1.0;
      }
    }
  }
  for (std::size_t c = 0; c < sum.size(); ++c) sum[c] = count[c] > 0.0 ? sum[c] / count[c] : board.cells[c].x;
  return sum;
}

void sort_by_neighbours(Board& board, int row, bool upwards, double gap) {
  auto& cells = board.rows[row];
  if (cells.empty()) return;
  const std::vector<double> wanted = drawn_to(board, row, upwards);
  std::ranges::stable_sort(cells, {}, [&](int c) { return wanted[c]; });
  pack(board, cells, gap);
  // Towards where they are drawn to, as a whole.
  double off = 0.0;
  for (int c : cells) off += wanted[c] - board.cells[c].x;
  off /= static_cast<double>(cells.size());
  for (int c : cells) board.cells[c].x += off;
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

void move_in_row(std::vector<int>& row, int from, int to) {
  const int cell = row[from];
  row.erase(row.begin() + from);
  row.insert(row.begin() + to, cell);
}

/// Sets single cells elsewhere in their rows, near places first, as long as that makes the board better.
void set_elsewhere(Board& board, double gap) {
  double least = cost_of(board);
  int trials = 0;
  for (bool better = true; better && trials < most_trials;) {
    better = false;
    for (std::size_t r = 0; r < board.rows.size(); ++r) {
      const int count = static_cast<int>(board.rows[r].size());
      for (int far = 1; far < count; ++far) {
        for (int from = 0; from < count; ++from) {
          for (int to : {from - far, from + far}) {
            if (to < 0 || to >= count || (far == 1 && to < from) || ++trials > most_trials) continue;
            const std::vector<Cell> before = board.cells;
            move_in_row(board.rows[r], from, to);
            place_columns(board, gap);
            if (const double now = cost_of(board); now < least - worth_it) {
              least = now;
              better = true;
            } else {
              move_in_row(board.rows[r], to, from);
              board.cells = before;
            }
          }
        }
      }
    }
  }
}

void improve(Board& board, double gap) {
  place_columns(board, gap);
  for (int round = 0; round < rounds && swap_neighbours(board, gap); ++round) place_columns(board, gap);
}

/// Whether most cells of the rows stand the other way round than in `first`: people read from the left.
bool runs_backwards(const Board& board, const std::vector<std::vector<int>>& first) {
  std::vector<std::size_t> rank(board.cells.size());
  for (const auto& row : first) {
    for (std::size_t i = 0; i < row.size(); ++i) rank[row[i]] = i;
  }
  int backwards = 0, pairs = 0;
  for (const auto& row : board.rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      for (std::size_t k = i + 1; k < row.size(); ++k) {
        ++pairs;
        backwards += rank[row[i]] > rank[row[k]] ? 1 : 0;
      }
    }
  }
  return 2 * backwards > pairs;
}

/// The rows from right to left, if that costs little.
void turn_round(Board& board, double gap) {
  Board other = board;
  for (auto& row : other.rows) std::ranges::reverse(row);
  improve(other, gap);
  set_elsewhere(other, gap);
  if (cost_of(other) < cost_of(board) + clearly_better) board = std::move(other);
}

}  // namespace

void order_rows(Board& board, double gap) {
  for (auto& row : board.rows) {
    pack(board, row, gap);
    centre(board, row);
  }
  const int rows = static_cast<int>(board.rows.size());
  const auto first = board.rows;
  // First the order in which the oil gets to the parts, mended in single places: it stays much the same when
  // a part is added. Another order must be clearly better.
  Board best = board;
  improve(best, gap);
  set_elsewhere(best, gap);
  const double least = cost_of(best);
  std::optional<Board> other;
  double cost = least;
  for (int sweep = 0; sweep < sweeps && least > clearly_better; ++sweep) {
    const bool upwards = sweep % 2 == 0;
    for (int i = 0; i < rows; ++i) sort_by_neighbours(board, upwards ? i : rows - 1 - i, upwards, gap);
    Board tried = board;
    improve(tried, gap);
    if (const double now = cost_of(tried); now < cost) {
      cost = now;
      other = std::move(tried);
    }
  }
  if (other) {
    set_elsewhere(*other, gap);
    if (cost_of(*other) < least - clearly_better) best = std::move(*other);
  }
  board = std::move(best);
  if (runs_backwards(board, first)) turn_round(board, gap);
}

}  // namespace poise::draw
