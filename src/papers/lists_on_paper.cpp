// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The papers that are lists for other programs too: parts, lines, settings.
#include "papers/answer.hpp"
#include "papers/bill.hpp"
#include "papers/cycle.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/settings.hpp"

namespace poise::papers {
namespace {

constexpr std::size_t few = 6, many = 12;  // settings that one page takes in large and in usual letters
constexpr std::size_t most_steps = 8,
                      most_gauges = 6;  // of the readings beside them; Commissioning has them all

std::string_view letters_for(std::size_t rows) {
  if (rows <= few) return "large";
  return rows <= many ? "" : "small";
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

}  // namespace

std::string parts_and_lines(const Subject& subject) {
  const Table parts = bill_of_materials(subject), lines = list_of_lines(subject);
  return html::table(parts, "There is nothing to order.", "small") + html::heading(3, "Lines") +
         html::table(lines, "Parts are joined without hose or tube.", "small");
}

std::string settings_sheet(const Subject& subject) {
  const Table table = settings(subject);
  std::string text =
      html::table(table, "Nothing on this machine is adjusted.", letters_for(table.rows.size()));
  if (table.rows.size() <= many) {
    if (const Table readings = normal_readings(subject); !readings.rows.empty())
      text += html::heading(3, "What the gauges read at the end of each step") + html::table(readings, "");
  }
  text += html::element(
      "p",
      html::text(
          "Set in this order. A gauge is read in the state that stands beside the value. Do not touch an "
          "adjuster, loosen a fitting or stand under a load while there is pressure. To make it safe: loads "
          "down, pump off and locked, every valve worked, every trapped place bled, zero read at each "
          "gauge."),
      " class=\"mind\"");
  return text;
}

}  // namespace poise::papers
