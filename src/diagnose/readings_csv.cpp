// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "diagnose/readings_forms.hpp"
#include "units/text.hpp"

namespace poise::diagnose {
namespace {

constexpr std::size_t most_cells = 500;

int characters(std::string_view text) {
  return static_cast<int>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

/// Where the cell ends that begins at `from`, outside its quotation marks; none where these are not closed.
std::optional<std::size_t> end_of_cell(std::string_view line, std::size_t from, char separator) {
  bool quoted = false;
  for (std::size_t i = from; i < line.size(); ++i) {
    if (line[i] == '"') quoted = !quoted;
    if (line[i] == separator && !quoted) return i;
  }
  return quoted ? std::nullopt : std::optional(line.size());
}

/// What stands in a cell, its own quotation marks taken off.
std::string content_of(std::string_view cell) {
  cell = units::trimmed(cell);
  if (cell.size() < 2 || cell.front() != '"' || cell.back() != '"') return std::string(cell);
  std::string text;
  cell = cell.substr(1, cell.size() - 2);
  for (std::size_t i = 0; i < cell.size(); ++i) {
    if (cell[i] == '"' && i + 1 < cell.size() && cell[i + 1] == '"') ++i;
    text += cell[i];
  }
  return std::string(units::trimmed(text));
}

bool is_figure(char c) { return c >= '0' && c <= '9'; }

}  // namespace

std::string with_point(std::string_view number) {
  std::string text(number);
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    if (text[i] == ',' && is_figure(text[i + 1])) text[i] = '.';
  }
  return text;
}

CsvRows::CsvRows(std::string_view text, Intake& intake) : rest_(text), intake_(&intake) {}

void CsvRows::take_comment(std::string_view line, Place place) {
  while (!line.empty() && (line.front() == '#' || line.front() == ' ')) line.remove_prefix(1);
  // A spreadsheet fills the line up with empty cells.
  while (!line.empty() && (line.back() == ';' || line.back() == ',' || line.back() == ' '))
    line.remove_suffix(1);
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos) return;
  const std::string key(units::trimmed(line.substr(0, colon)));
  const std::string value(units::trimmed(line.substr(colon + 1)));
  const auto& known = occasion_keys();
  if (value.empty() || std::ranges::find(known, key) == known.end()) return;
  take_occasion(intake_->readings(), key, {value, place}, intake_->remarks());
}

bool CsvRows::split(std::string_view line, job::Row& row) {
  row.clear();
  std::size_t from = 0;
  int column = 1;
  while (true) {
    const auto end = end_of_cell(line, from, separator_);
    if (!end) {
      intake_->complain({line_, column},
                        "the quotation mark that opens here is not closed in this line; one that belongs to "
                        "the text is written twice");
      return false;
    }
    if (row.size() == most_cells) {
      intake_->complain({line_, column}, fmt::format("a row has more than {} cells", most_cells));
      return false;
    }
    const std::string_view cell = line.substr(from, *end - from);
    row.push_back({content_of(cell), {line_, column}});
    if (*end == line.size()) return true;
    column += characters(cell) + 1;
    from = *end + 1;
  }
}

bool CsvRows::next(job::Row& row) {
  while (!rest_.empty()) {
    const std::size_t end = rest_.find('\n');
    const std::string_view line = units::trimmed(rest_.substr(0, end));
    rest_ = end == std::string_view::npos ? std::string_view{} : rest_.substr(end + 1);
    ++line_;
    if (line.empty()) continue;
    if (line.front() == '#') {
      take_comment(line, {line_, 1});
      continue;
    }
    const bool quoted_comment = line.starts_with("\"#");
    if (!has_separator_ && !quoted_comment) {
      separator_ = line.find(';') == std::string_view::npos ? ',' : ';';
      has_separator_ = true;
    }
    if (!split(line, row)) continue;
    if (quoted_comment) {
      take_comment(row.front().text, row.front().place);
      continue;
    }
    if (std::ranges::any_of(row, [](const job::Cell& cell) { return !cell.text.empty(); })) return true;
  }
  return false;
}

std::vector<Column> columns_of(const job::Row& header) {
  std::vector<Column> columns;
  for (const job::Cell& cell : header) {
    Column column{.name = cell.text, .place = cell.place};
    const std::size_t open = cell.text.find_last_of("[(");
    const bool closed = cell.text.ends_with(']') || cell.text.ends_with(')');
    if (open == 0 && cell.text.front() == '(' && closed) {
      column.read = false;
    } else if (open != std::string::npos && closed) {
      column.name = units::trimmed(std::string_view(cell.text).substr(0, open));
      column.unit = units::trimmed(std::string_view(cell.text).substr(open + 1, cell.text.size() - open - 2));
    }
    columns.push_back(std::move(column));
  }
  return columns;
}

void read_csv(std::string_view text, Intake& intake) {
  CsvRows rows(text, intake);
  job::Row header;
  if (!rows.next(header)) return;
  const std::vector<Column> columns = columns_of(header);
  const auto has = [&](std::string_view name) {
    return std::ranges::any_of(columns, [&](const Column& column) { return column.name == name; });
  };
  const std::string_view first = columns.front().name;
  if (has("at") || has("gauge")) {
    read_table(columns, rows, intake);
  } else if (first == "time" || first.starts_with("time_")) {
    read_log(columns, rows, intake);
  } else {
    intake.complain(
        header.front().place,
        "this begins neither as TOML nor as a table with \"at,step,when,value,unit\" above it nor "
        "as a log with \"time [s]\" and a column for each gauge");
  }
}

}  // namespace poise::diagnose
