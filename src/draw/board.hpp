// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "draw/figure.hpp"

namespace poise::draw {

/// What stands in a row: an item, or the lane of a wire that passes the row.
struct Cell {
  int item = -1, wire = -1;
  double left = 0.0, right = 0.0;  ///< from its x, M
  double x = 0.0;
};

/// Where a wire enters a channel: from a cell of the row below or above it, `dx` beside the cell's x.
struct Touch {
  int wire = 0, cell = 0;
  double dx = 0.0;
};

/// The space between two rows, where lines run level.
struct Channel {
  std::vector<Touch> below, above;
};

/// Rows of cells from the bottom up; channel c lies under row c, the last one over all rows.
struct Board {
  std::vector<Cell> cells;
  std::vector<std::vector<int>> rows;  ///< cells from left to right
  std::vector<Channel> channels;

  double x_of(const Touch& t) const { return cells[t.cell].x + t.dx; }
};

/// Items in their rows, in the order in which the oil gets to them, and lanes for wires that pass a row.
Board board_of(const std::vector<Item>& items, int wires);

/// Distance kept from one cell's x to the x of the cell to its right.
double spacing(const Cell& left, const Cell& right, double gap);

/// Crossings of wires in a channel, each pair with the lower one of its level runs chosen best.
int crossings(const Board& board, const Channel& channel);
int crossings(const Board& board);
/// Length of the level runs of all wires.
double level_length(const Board& board);

/// Puts the cells of each row in an order with few crossings.
void order_rows(Board& board, double gap);
/// Gives each cell its x: chains of parts stand straight over each other, level runs are short.
void place_columns(Board& board, double gap);

}  // namespace poise::draw
