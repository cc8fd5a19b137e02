// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The papers that are lists for other programs too: parts, lines, settings.
#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

#include "papers/bill.hpp"
#include "papers/breadth.hpp"
#include "papers/cycle.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/settings.hpp"

namespace poise::papers {
namespace {

constexpr std::size_t most_steps = 8, most_gauges = 6;  // of the readings; Commissioning has them all

/// Letters of the settings sheet, the largest first: the style's name, their size, and what a row has above
/// and below its lines, mm.
struct Letters {
  std::string_view style;
  double size, padding;
};
constexpr double point = 25.4 / 72.0;
constexpr std::array letters{Letters{"large", 10 * point, 3.3}, Letters{"", 8.5 * point, 1.7},
                             Letters{"small", 7.5 * point, 1.7}, Letters{"tiny", 6.5 * point, 1.1}};

// Of their size: letters of this face in prose, and bold ones.
constexpr double usual_letter = 0.53, bold_letter = 0.6;

/// The lines that words take in a column, mm. Besides blanks a line may end behind a hyphen.
double lines_in(std::string_view words, double width, double letter) {
  constexpr double paddings = 2.4;
  std::string parted;
  for (const char c : words) parted += c == '-' ? std::string("- ") : std::string(1, c);
  return lines_of(parted, std::floor(std::max(width - paddings, letter) / letter));
}

/// How high a table is in these letters, mm.
double height_of(const Table& table, double width, const Letters& in) {
  double sum = 0.0, height = 0.0;
  for (const Column& column : table.columns) sum += column.width;
  const auto width_of = [&](std::size_t i) { return width * table.columns[i].width / sum; };
  const auto add = [&](double lines) { height += lines * 1.25 * in.size + in.padding; };
  double head = 1.0;
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    head = std::max(head, lines_in(table.columns[i].head, width_of(i), bold_letter * in.size));
  add(head);
  for (const auto& row : table.rows) {
    double lines = 1.0;
    for (std::size_t i = 0; i < row.size(); ++i)
      lines = std::max(lines, lines_in(row[i].text, width_of(i), usual_letter * in.size));
    add(lines);
  }
  return height;
}

/// The largest letters in which tables of this width have room; null where there are none.
const Letters* letters_for(std::span<const Table* const> tables, Area room) {
  for (const Letters& each : letters) {
    double height = 0.0;
    for (const Table* table : tables) height += height_of(*table, room.width, each);
    if (height <= room.height) return &each;
  }
  return nullptr;
}

void drop_column(Table& table, std::size_t column) {
  const auto place = static_cast<std::ptrdiff_t>(column);
  table.columns.erase(table.columns.begin() + place);
  for (auto& row : table.rows) row.erase(row.begin() + place);
}

/// Rows that differ in nothing but code and tag, which are the first two columns, become one.
void join_alike(Table& table) {
  std::vector<std::vector<Cell>> rows;
  for (auto& row : table.rows) {
    const auto says_the_same = [&](const std::vector<Cell>& other) {
      return std::ranges::equal(std::span(row).subspan(2), std::span(other).subspan(2), {}, &Cell::text,
                                &Cell::text);
    };
    const auto known = std::ranges::find_if(rows, says_the_same);
    if (known == rows.end()) {
      rows.push_back(std::move(row));
      continue;
    }
    for (const std::size_t column : {std::size_t{0}, std::size_t{1}}) {
      if (!row[column].text.empty()) (*known)[column].text += ", " + row[column].text;
    }
  }
  table.rows = std::move(rows);
}

/// The settings as they hang on the wall: what is alike in one row, one column for what is filled in by hand,
/// none that says nothing, and none for the way that raises, which is a sentence below.
Table for_the_wall(Table table) {
  join_alike(table);
  constexpr std::array by_hand{"Raise", "Locked", "By", "Date"};
  for (std::size_t column = table.columns.size(); column-- > 2;) {
    const bool is_empty =
        std::ranges::all_of(table.rows, [&](const auto& row) { return row[column].text.empty(); });
    if (is_empty || std::ranges::find(by_hand, table.columns[column].head) != by_hand.end())
      drop_column(table, column);
  }
  table.columns.push_back({.head = "Locked, by, date", .width = 1.3});
  for (auto& row : table.rows) row.emplace_back();
  return table;
}

/// What each gauge reads at the end of each step: a row for a gauge, a column for a step.
Table normal_readings(const Subject& subject) {
  Table table{"normal readings", {{"gauge", 0.8}, {"where", 2.4}}, {}};
  std::vector<const Moment*> moments;
  for (std::size_t step = 0; step < subject.trace.steps.size(); ++step) {
    const Moment* moment = end_of(step, subject);
    if (!moment || moments.size() == most_steps) continue;
    moments.push_back(moment);
    table.columns.push_back({subject.trace.steps[step].name, 1.0, true});
  }
  for (std::size_t p = 0; p < subject.job.plan.parts.size(); ++p) {
    const PlannedPart& part = subject.job.plan.parts[p];
    if (part.kind->about.kind != "gauge" || table.rows.size() == most_gauges || moments.empty()) continue;
    std::vector<Cell> row{{part.tag}, {p < subject.job.drawn.size() ? subject.job.drawn[p].note : ""}};
    for (const Moment* moment : moments)
      row.push_back(seen(moment->parts[p].outputs.front(), Quantity::pressure, subject.job.world));
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::string words_below_settings(const Plan& plan) {
  const bool stores = std::ranges::any_of(
      plan.parts, [](const PlannedPart& p) { return p.kind->about.kind == "accumulator"; });
  std::string words =
      "Set in this order. A gauge is read in the state that stands beside the value. Which way raises a "
      "setting, the "
      "part's datasheet says. Do not touch an adjuster, loosen a fitting or stand under a load while there "
      "is "
      "pressure. To make it safe: loads down, pump off and locked, every valve worked, every trapped place "
      "bled, zero "
      "read at each gauge.";
  if (stores)
    words +=
        " An accumulator stays armed: shut it off, let it off through its bleed, read zero at its gauge.";
  return words;
}

}  // namespace

std::string parts_and_lines(const Subject& subject) {
  const Table parts = bill_of_materials(subject), lines = list_of_lines(subject);
  return html::table(parts, "There is nothing to order.", "small") + html::heading(3, "Lines") +
         html::table(lines, "Parts are joined without hose or tube.", "small");
}

std::string settings_sheet(const Subject& subject) {
  constexpr double words_below = 32.0;  // mm
  const Table table = for_the_wall(settings(subject));
  Table readings = normal_readings(subject);
  Area room = area_of(subject.format, true);
  room.height -= words_below;
  const Letters* in = letters_for(std::array{&table, &std::as_const(readings)}, room);
  if (!in) {
    readings.rows.clear();
    in = letters_for(std::array{&table}, room);
  }
  const std::string_view style = in ? in->style : letters.back().style;
  std::string text = html::table(table, "Nothing on this machine is adjusted.", style);
  if (!readings.rows.empty())
    text +=
        html::heading(3, "What the gauges read at the end of each step") + html::table(readings, "", style);
  text += html::element("p", html::text(words_below_settings(subject.job.plan)), " class=\"mind\"");
  return text;
}

}  // namespace poise::papers
