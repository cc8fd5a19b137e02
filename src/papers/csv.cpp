// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <string_view>

#include "papers/answer.hpp"
#include "papers/lists.hpp"

namespace poise::papers {
namespace {

/// What a spreadsheet might take for a formula, or for the end of a cell, stands in quotation marks.
std::string quoted(std::string_view field) {
  const bool plain = field.find_first_of(",;\"\n\r\t") == std::string_view::npos &&
                     field.find_first_of("=+-@ ") != 0 && !field.ends_with(' ');
  if (plain) return std::string(field);
  std::string text = "\"";
  for (const char c : field) text += c == '"' ? std::string("\"\"") : std::string(1, c);
  return text + '"';
}

/// A line's fields with commas between them.
class Line {
 public:
  void add(std::string_view field) { add_as_it_is(quoted(field)); }
  /// Twelve figures: all that the calculation knows, without the noise of the last bits.
  void add(double number) { add_as_it_is(fmt::format("{:.12g}", number)); }
  std::string text() const { return text_ + '\n'; }

 private:
  void add_as_it_is(const std::string& field) {
    if (!first_) text_ += ',';
    text_ += field;
    first_ = false;
  }

  std::string text_;
  bool first_ = true;
};

void add(Line& line, const Column& column, const Cell& cell) {
  if (!column.measured) {
    line.add(cell.text);
    return;
  }
  if (cell.number) {
    line.add(*cell.number);
  } else {
    line.add(cell.text);
  }
  if (!column.counted) line.add(cell.unit);
}

}  // namespace

std::string csv(const Table& table, const Subject& subject) {
  Line heads;
  for (const Column& column : table.columns) {
    heads.add(column.head);
    if (column.measured && !column.counted) heads.add(column.head + ", unit");
  }
  heads.add("Answer");
  heads.add("Fingerprint");
  std::string text = heads.text();
  const std::string answer = answer_of(subject.verdict);
  for (const std::vector<Cell>& row : table.rows) {
    Line line;
    for (std::size_t i = 0; i < table.columns.size(); ++i) add(line, table.columns[i], row[i]);
    line.add(answer);
    line.add(subject.fingerprint);
    text += line.text();
  }
  return text;
}

}  // namespace poise::papers
