// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <set>

#include "job/section.hpp"
#include "job/stock_csv.hpp"
#include "job/stock_words.hpp"
#include "job/tolerance.hpp"
#include "units/complaint.hpp"
#include "units/text.hpp"
#include "units/units.hpp"

namespace poise::job {
namespace {

/// A column of the header: "rated_flow [L/min]".
struct Column {
  std::string name;
  std::vector<std::string> units{};  ///< one, or two of a curve
  Place place;
  bool read = true;  ///< false: complained about, or in round brackets
};

std::vector<std::string> parted(std::string_view text, char mark) {
  std::vector<std::string> pieces;
  while (true) {
    const std::size_t end = text.find(mark);
    pieces.emplace_back(units::trimmed(text.substr(0, end)));
    if (end == std::string_view::npos) return pieces;
    text.remove_prefix(end + 1);
  }
}

bool is_bare_number(std::string_view text) {
  double number = 0.0;
  if (text.starts_with('+')) text.remove_prefix(1);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc() && end == text.data() + text.size();
}

std::string with_unit(const std::string& text, const std::vector<std::string>& units, std::size_t which) {
  if (which >= units.size() || !is_bare_number(text)) return text;
  return text + " " + units[which];
}

Node text_node(std::string text, Place place) {
  Node node;
  node.form = Node::Form::text;
  node.text = std::move(text);
  node.place = place;
  return node;
}

Node list_node(Place place) {
  Node node;
  node.form = Node::Form::list;
  node.place = place;
  return node;
}

/// "5 L/min: 0.8 bar; 10 L/min: 3.1 bar" as a list of pairs.
Node curve_node(const Cell& cell, const Column& column) {
  Node list = list_node(cell.place);
  for (const std::string& point : parted(cell.text, ';')) {
    if (point.empty()) continue;
    Node pair = list_node(cell.place);
    const std::vector<std::string> halves = parted(point, ':');
    for (std::size_t i = 0; i < halves.size(); ++i)
      pair.items.push_back(text_node(with_unit(halves[i], column.units, i), cell.place));
    list.items.push_back(std::move(pair));
  }
  return list;
}

/// The rows below the header with the kinds that their items have.
struct Sheet {
  std::vector<Column> columns;
  std::vector<const Kind*> kinds;  ///< those of this list; all where none is understood

  std::optional<std::size_t> column(std::string_view name) const {
    const auto found = std::ranges::find(columns, name, &Column::name);
    if (found == columns.end()) return std::nullopt;
    return static_cast<std::size_t>(found - columns.begin());
  }
};

Column read_column(const Cell& cell, Remarks& remarks) {
  Column column{.name = cell.text, .place = cell.place};
  if (is_left_alone(cell.text) || cell.text.empty()) {
    column.read = false;
    return column;
  }
  const std::size_t open = cell.text.find('[');
  if (open == std::string::npos) return column;
  column.name = units::trimmed(std::string_view(cell.text).substr(0, open));
  if (cell.text.ends_with(']')) {
    column.units = parted(std::string_view(cell.text).substr(open + 1, cell.text.size() - open - 2), ':');
    return column;
  }
  remarks.push_back(
      {cell.place, fmt::format("column {}: the unit stands at its end in square brackets, as in "
                               "\"rated_flow [L/min]\"",
                               quote(cell.text))});
  column.read = false;
  return column;
}

/// "3 %", or "-5 %; +3 %" as a pair.
Node tolerance_node(const Cell& cell, const Column& column) {
  const std::vector<std::string> ends = parted(cell.text, ';');
  if (ends.size() == 1) return text_node(with_unit(ends[0], column.units, 0), cell.place);
  Node pair = list_node(cell.place);
  for (const std::string& end : ends)
    pair.items.push_back(text_node(with_unit(end, column.units, 0), cell.place));
  return pair;
}

/// Whether a bare number with the unit of the header is a tolerance of this parameter.
bool takes_tolerance_unit(const Parameter& parameter, const std::vector<std::string>& units) {
  if (!may_be_off(parameter) || units.size() != 1) return false;
  return is_tolerance("1 " + units[0], parameter);
}

/// Whether bare numbers with the units of the header are values of this parameter.
bool takes_units(const Parameter& parameter, const std::vector<std::string>& units) {
  if (!parameter.words.empty() || units.size() != (parameter.against ? 2u : 1u)) return false;
  if (!units::read("1 " + units[0], parameter.quantity).value) return false;
  return !parameter.against || units::read("1 " + units[1], *parameter.against).value;
}

void check_units(const Sheet& sheet, Column& column, Remarks& remarks) {
  if (!column.read || column.units.empty()) return;
  const Parameter* example = nullptr;
  bool of_tolerance = false;
  for (const Kind* kind : sheet.kinds) {
    const auto meant = column_of(*kind, column.name);
    if (!meant) continue;
    example = &kind->parameters[static_cast<std::size_t>(meant->parameter)];
    of_tolerance = meant->what == StockColumn::What::tolerance;
    if (of_tolerance ? takes_tolerance_unit(*example, column.units) : takes_units(*example, column.units))
      return;
  }
  column.read = false;
  std::string expected = "it has none";
  if (example && example->words.empty() && example->quantity != Quantity::none) {
    expected = of_tolerance ? fmt::format("expected %, or what {} is measured in", example->name)
               : example->against
                   ? "a curve has two, as in \"drop_curve [L/min: bar]\""
                   : fmt::format("it is {}, such as {}", units::with_article(units::name(example->quantity)),
                                 quote(units::example(example->quantity)));
  }
  std::string found;
  for (const std::string& unit : column.units) found += (found.empty() ? "" : ": ") + unit;
  remarks.push_back(
      {column.place, fmt::format("{} is no unit of {}; {}", quote(found), column.name, expected)});
}

void refuse_unknown(Sheet& sheet, Remarks& remarks) {
  const std::vector<std::string> known = known_columns(sheet.kinds),
                                 tolerances = tolerance_columns(sheet.kinds);
  std::set<std::string_view> seen;
  for (Column& column : sheet.columns) {
    if (!column.read) continue;
    if (!seen.insert(column.name).second) {
      remarks.push_back({column.place, fmt::format("there is a column {} already", quote(column.name))});
      column.read = false;
    } else if (std::ranges::find(known, column.name) == known.end() &&
               std::ranges::find(tolerances, column.name) == tolerances.end()) {
      remarks.push_back(
          {column.place,
           fmt::format("no item of this list has {}{}; a column that is not to be read stands in round "
                       "brackets: \"(weight)\"",
                       quote(column.name), hint(column.name, known, tolerances))});
      column.read = false;
    }
  }
}

/// Names the sign that parts the cells where it is not a comma.
bool has_commas(const Row& header, Remarks& remarks) {
  if (header.size() > 1) return true;
  const bool semicolons = header[0].text.find(';') != std::string::npos;
  if (!semicolons && header[0].text.find('\t') == std::string::npos) return true;
  remarks.push_back({header[0].place, fmt::format("the columns are parted by {}; a parts list has commas "
                                                  "between its cells and points in its numbers (RFC 4180)",
                                                  semicolons ? "\";\"" : "tabs")});
  return false;
}

bool has_columns(const Sheet& sheet, Place place, Remarks& remarks) {
  bool all = true;
  for (const std::string_view needed : {"model", "kind", "cost"}) {
    if (sheet.column(needed)) continue;
    remarks.push_back({place, fmt::format("the first row names the columns, model,kind,cost,note,..., and "
                                          "has no {}",
                                          quote(needed))});
    all = false;
  }
  return all;
}

std::vector<const Kind*> kinds_of(const Sheet& sheet, const std::vector<Row>& rows) {
  std::set<const Kind*> found;
  if (const auto at = sheet.column("kind")) {
    for (std::size_t i = 1; i < rows.size(); ++i) {
      const Kind* kind = *at < rows[i].size() ? find_kind(rows[i][*at].text) : nullptr;
      if (kind) found.insert(kind);
    }
  }
  std::vector<const Kind*> kinds;
  for (const Kind& kind : all_kinds()) {
    if (found.empty() || found.contains(&kind)) kinds.push_back(&kind);
  }
  return kinds;
}

Node node_of(const Cell& cell, const Column& column, const Kind* kind,
             const std::optional<StockColumn>& meant) {
  if (meant && meant->what == StockColumn::What::tolerance) return tolerance_node(cell, column);
  const bool curve = meant && kind->parameters[static_cast<std::size_t>(meant->parameter)].against;
  return curve ? curve_node(cell, column) : text_node(with_unit(cell.text, column.units, 0), cell.place);
}

Node table_of(const Row& row, const Sheet& sheet, Remarks& remarks) {
  Node table;
  table.place = row[0].place;
  const auto kind_at = sheet.column("kind");
  const Kind* kind = kind_at && *kind_at < row.size() ? find_kind(row[*kind_at].text) : nullptr;
  for (std::size_t i = 0; i < std::min(row.size(), sheet.columns.size()); ++i) {
    const Column& column = sheet.columns[i];
    if (row[i].text.empty()) continue;
    if (column.name.empty())
      remarks.push_back({row[i].place, fmt::format("{} stands under no column", quote(row[i].text))});
    if (!column.read) continue;
    const auto meant = kind ? column_of(*kind, column.name) : std::nullopt;
    table.fields.push_back({column.name, row[i].place, node_of(row[i], column, kind, meant)});
  }
  return table;
}

}  // namespace

Node items_of_csv(std::string_view text, Remarks& remarks) {
  Node items = list_node({1, 1});
  auto parsed = parse_csv(text);
  if (auto* remark = std::get_if<Remark>(&parsed)) {
    remarks.push_back(std::move(*remark));
    return items;
  }
  const auto& rows = std::get<std::vector<Row>>(parsed);
  if (rows.empty() || !has_commas(rows[0], remarks)) return items;
  Sheet sheet;
  for (const Cell& cell : rows[0]) sheet.columns.push_back(read_column(cell, remarks));
  if (!has_columns(sheet, rows[0][0].place, remarks)) return items;
  sheet.kinds = kinds_of(sheet, rows);
  refuse_unknown(sheet, remarks);
  for (Column& column : sheet.columns) check_units(sheet, column, remarks);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].size() != sheet.columns.size()) {
      remarks.push_back({rows[i][0].place, fmt::format("this row has {} cells, but the header has {}",
                                                       rows[i].size(), sheet.columns.size())});
      continue;
    }
    items.items.push_back(table_of(rows[i], sheet, remarks));
  }
  return items;
}

}  // namespace poise::job
