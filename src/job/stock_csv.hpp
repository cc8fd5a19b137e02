// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "job/node.hpp"

namespace poise::job {

/// What stands between two commas, without blanks at its ends, and where it begins.
struct Cell {
  std::string text;
  Place place;
};
/// One record of a CSV text; it may go over several lines.
using Row = std::vector<Cell>;

/// The records of a text by RFC 4180: commas, quotation marks around cells that hold commas, quotation marks
/// or ends of lines, a quotation mark inside written twice. Lines may end in LF alone. Passed over: rows
/// without anything in them, and lines before the first record that begin with "#". Or the first place where
/// it is not such a text.
std::variant<std::vector<Row>, Remark> parse_csv(std::string_view text);

/// A parts list as CSV in the form that one in TOML has: a list of tables. Each row is a table with a key for
/// each cell that is not empty; a bare number under a column with a unit gets it; the cell of a curve becomes
/// a list of points. Complains about the header and about rows that do not fit it; a column that was
/// complained about is left out.
Node items_of_csv(std::string_view text, Remarks& remarks);

}  // namespace poise::job
