// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Readings as a table: one reading a row.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "diagnose/readings_forms.hpp"
#include "units/text.hpp"

namespace poise::diagnose {
namespace {

enum Field { at, step, when, time, value, unit, accuracy, fields };
constexpr std::array<std::string_view, fields> names{"at",    "step", "when",    "time",
                                                     "value", "unit", "accuracy"};
using Places = std::array<int, fields>;

Places places_of(const std::vector<Column>& columns, std::vector<std::string>& units_of, Intake& intake) {
  Places places;
  places.fill(-1);
  std::vector<std::string> known(names.begin(), names.end());
  for (std::size_t c = 0; c < columns.size(); ++c) {
    const Column& column = columns[c];
    if (!column.read || column.name.empty()) continue;
    std::string name = column.name == "gauge" ? "at" : column.name;
    if (name.starts_with("time_")) {
      units_of[c] = name.substr(5);
      name = "time";
    }
    const auto field = std::ranges::find(names, name);
    if (field == names.end()) {
      intake.complain(column.place,
                      fmt::format("a table of readings has no column {}{}; one that is not to be read "
                                  "stands in round brackets: {}",
                                  job::quote(column.name), job::hint(column.name, known),
                                  job::quote(fmt::format("({})", column.name))));
      continue;
    }
    int& place = places[static_cast<std::size_t>(field - names.begin())];
    if (place >= 0)
      intake.complain(column.place, fmt::format("the column {} stands twice; keep one", job::quote(name)));
    place = static_cast<int>(c);
  }
  return places;
}

class Table {
 public:
  Table(const std::vector<Column>& columns, bool comma_is_decimal, Intake& intake)
      : width_(columns.size()), comma_is_decimal_(comma_is_decimal), intake_(&intake) {
    for (const Column& column : columns) units_.push_back(column.unit);
    places_ = places_of(columns, units_, intake);
    if (places_[value] < 0)
      intake.complain(columns.front().place, "the table has no column \"value\", what was read");
  }

  bool has_values() const { return places_[value] >= 0; }

  void take(const job::Row& row) {
    if (row.size() > width_ && !row[width_].text.empty()) {
      intake_->complain(row[width_].place,
                        "this row has more cells than the header; a decimal comma needs semicolons between "
                        "the cells, and a text with a comma quotation marks around it");
      return;
    }
    const auto said = cell(row, value);
    const auto name = cell(row, at);
    if (!said) return;
    if (!name) {
      intake_->complain(row.front().place, "this row has a value but does not say at what it was read");
      return;
    }
    Entry entry{.at = *name, .value = measured(row, *said)};
    entry.step = cell(row, step);
    entry.when = moment(row);
    if (auto off = cell(row, accuracy))
      entry.accuracy = with_unit(*off, unit_of(row, value, entry.value.value));
    intake_->take(entry);
  }

 private:
  std::optional<job::Text> cell(const job::Row& row, Field field) const {
    const int place = places_[field];
    if (place < 0 || static_cast<std::size_t>(place) >= row.size()) return std::nullopt;
    const job::Cell& cell = row[static_cast<std::size_t>(place)];
    if (cell.text.empty()) return std::nullopt;
    const bool number = comma_is_decimal_ && field != at && field != step;
    return job::Text{number ? with_point(cell.text) : cell.text, cell.place};
  }

  /// The unit for bare numbers: the row's, the header's, or the one that stands in the value.
  std::string unit_of(const job::Row& row, Field field, std::string_view text) const {
    if (const auto own = unit_behind(text); !own.empty()) return std::string(own);
    if (const auto rows = cell(row, unit); rows && field == value) return rows->value;
    return places_[field] < 0 ? std::string() : units_[static_cast<std::size_t>(places_[field])];
  }

  static job::Text with_unit(job::Text text, const std::string& unit) {
    const std::string_view first = units::trimmed(text.value);
    const bool number =
        !first.empty() && (std::string_view("+-.0123456789").find(first.front()) != std::string_view::npos);
    if (number && !unit.empty() && unit_behind(text.value).empty()) text.value += " " + unit;
    return text;
  }

  job::Text measured(const job::Row& row, const job::Text& said) const {
    return with_unit(said, unit_of(row, value, said.value));
  }

  std::optional<job::Text> moment(const job::Row& row) {
    auto word = cell(row, when);
    auto seconds = cell(row, time);
    if (word && seconds)
      intake_->complain(seconds->place, "the row has both a time and a moment in words; keep one of them");
    if (!seconds) return word;
    const std::string unit = unit_of(row, time, seconds->value);
    return with_unit(*seconds, unit.empty() ? "s" : unit);
  }

  std::size_t width_;
  bool comma_is_decimal_;
  Intake* intake_;
  std::vector<std::string> units_{};
  Places places_{};
};

}  // namespace

void read_table(const std::vector<Column>& columns, CsvRows& rows, Intake& intake) {
  constexpr int most = 20'000;
  Table table(columns, rows.comma_is_decimal(), intake);
  if (!table.has_values()) return;
  job::Row row;
  for (int count = 0; rows.next(row); ++count) {
    if (count == most) {
      intake.complain(row.front().place, fmt::format("a table has at most {} rows", most));
      return;
    }
    table.take(row);
  }
}

}  // namespace poise::diagnose
