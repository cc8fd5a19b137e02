// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper of calculations: what the parts' rooms work out from datasheet and run.
#include <fmt/format.h>

#include <algorithm>

#include "draw/words.hpp"
#include "papers/duty.hpp"
#include "papers/html.hpp"
#include "papers/naming.hpp"
#include "papers/paper.hpp"
#include "papers/sources.hpp"

namespace poise::papers {
namespace {

std::string numbers_of(const Working& working, const units::World& world) {
  std::string text;
  for (const Term& term : working.terms)
    text += fmt::format("{}{} = {} ({})", text.empty() ? "" : "; ", term.symbol,
                        draw::shown(term.value, term.quantity, world), term.meaning);
  return text;
}

using Rows = std::vector<std::vector<Cell>>;

/// The calculations of one part: what, formula, numbers, result, number of the source.
Rows rows_of(const PlannedPart& part, const Duty& duty, const Subject& subject, Sources& sources) {
  Rows rows;
  for (const Working& working : part.kind->workings(part.values, subject.circuit.oil, duty)) {
    Cell result = measured(working.result.value, working.result.quantity, subject.job.world);
    result.text = working.result.symbol + " = " + result.text;
    rows.push_back({{working.name},
                    {working.formula},
                    {numbers_of(working, subject.job.world)},
                    std::move(result),
                    {sources.number_of(working.source)}});
  }
  return rows;
}

bool are_alike(const Rows& a, const Rows& b) {
  return std::ranges::equal(a, b, [](const auto& left, const auto& right) {
    return std::ranges::equal(left, right, {}, &Cell::text, &Cell::text);
  });
}

/// Parts of one kind of which all calculations say the same.
struct Group {
  const Kind* kind;
  std::string tags;
  Rows rows;
};

std::vector<Group> groups_of(const Subject& subject, Sources& sources) {
  std::vector<Group> groups;
  const std::vector<Duty> duties = duties_of(subject.job.plan, subject.trace);
  for (std::size_t p = 0; p < subject.job.plan.parts.size(); ++p) {
    const PlannedPart& part = subject.job.plan.parts[p];
    Rows rows = rows_of(part, duties[p], subject, sources);
    if (rows.empty()) continue;
    const auto known = std::ranges::find_if(
        groups, [&](const Group& g) { return g.kind == part.kind && are_alike(g.rows, rows); });
    if (known == groups.end()) {
      groups.push_back({part.kind, part.tag, std::move(rows)});
    } else {
      known->tags += ", " + part.tag;
    }
  }
  return groups;
}

/// What a part has as its kind's usual value, which is what it gets where the job states nothing.
std::string usual_values(const PlannedPart& part, const units::World& world) {
  std::string text;
  for (const Parameter& parameter : part.kind->parameters) {
    if (!parameter.fallback || parameter.against || part.values[parameter.name] != *parameter.fallback)
      continue;
    const std::string value =
        parameter.words.empty() ? draw::shown(*parameter.fallback, parameter.quantity, world)
                                : std::string(parameter.words[static_cast<std::size_t>(*parameter.fallback)]);
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", in_words(parameter.name), value);
  }
  return text;
}

Table taken_as_usual(const Subject& subject) {
  Table table{"usual values", {{"part", 1.6}, {"value", 6.0}}, {}};
  for (const PlannedPart& part : subject.job.plan.parts) {
    const std::string values = usual_values(part, subject.job.world);
    if (values.empty()) continue;
    const auto known =
        std::ranges::find_if(table.rows, [&](const auto& row) { return row[1].text == values; });
    if (known == table.rows.end()) {
      table.rows.push_back({{part.tag}, {values}});
    } else {
      (*known)[0].text += ", " + part.tag;
    }
  }
  return table;
}

}  // namespace

std::string calculations(const Subject& subject) {
  std::string text = html::paragraph(
      "Formulas are in SI units; numbers stand in the units of the job. Pressures are the highest of the "
      "run; flows "
      "and speeds are what lasts a tenth of a second in all. The margins in Requirements come from the run "
      "itself, "
      "which holds all of this at every moment.");
  Sources sources;
  std::vector<Group> groups = groups_of(subject, sources);
  if (groups.empty()) return text + html::paragraph("The run showed nothing that could be worked out.");
  for (Group& group : groups) {
    const Table table{
        fmt::format("{}: {}", group.tags, called(*group.kind)),
        {{"what is worked out", 2.4}, {"formula", 2.4}, {"with", 4.6}, {"result", 2.0}, {"source", 0.9}},
        std::move(group.rows)};
    text += html::titled_table(table, "small");
  }
  text += html::heading(3, "Values taken as usual") +
          html::paragraph(
              "What the job does not state has the usual value of its kind of part. Compare with the "
              "datasheets.") +
          html::table(taken_as_usual(subject), "None.", "small");
  return text + sources.list();
}

}  // namespace poise::papers
