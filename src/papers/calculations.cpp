// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper of calculations: what the parts' rooms work out from datasheet and run.
#include <fmt/format.h>

#include <algorithm>

#include "draw/roles.hpp"
#include "draw/words.hpp"
#include "papers/duty.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"

namespace poise::papers {
namespace {

std::string numbers_of(const Working& working, const units::World& world) {
  std::string text;
  for (const Term& term : working.terms)
    text += fmt::format("{}{} = {} ({})", text.empty() ? "" : "; ", term.symbol,
                        draw::shown(term.value, term.quantity, world), term.meaning);
  return text;
}

/// One calculation as it stands on paper, and the parts of which it says the same.
struct Line {
  std::string tags, kind, name, formula, numbers, source;
  Cell result;
  bool same_as(const Line& other) const {
    return kind == other.kind && name == other.name && formula == other.formula && numbers == other.numbers &&
           result.text == other.result.text;
  }
};

std::vector<Line> lines_of(const Subject& subject) {
  std::vector<Line> lines;
  const std::vector<Duty> duties = duties_of(subject.job.plan, subject.trace);
  for (std::size_t p = 0; p < subject.job.plan.parts.size(); ++p) {
    const PlannedPart& part = subject.job.plan.parts[p];
    for (const Working& working : part.kind->workings(part.values, subject.circuit.oil, duties[p])) {
      Cell result = measured(working.result.value, working.result.quantity, subject.job.world);
      result.text = working.result.symbol + " = " + result.text;
      Line line{part.tag,         draw::kind_in_words(*part.kind),        working.name,
                working.formula,  numbers_of(working, subject.job.world), working.source,
                std::move(result)};
      const auto known = std::ranges::find_if(lines, [&](const Line& l) { return l.same_as(line); });
      if (known == lines.end()) {
        lines.push_back(std::move(line));
      } else {
        known->tags += ", " + line.tags;
      }
    }
  }
  return lines;
}

}  // namespace

std::string calculations(const Subject& subject) {
  Table table{"calculations",
              {{"part", 1.4},
               {"what is worked out", 2.0},
               {"formula", 2.4},
               {"with", 4.2},
               {"result", 1.9},
               {"source", 1.8}},
              {}};
  for (const Line& line : lines_of(subject))
    table.rows.push_back({{fmt::format("{} ({})", line.tags, line.kind)},
                          {line.name},
                          {line.formula},
                          {line.numbers},
                          line.result,
                          {line.source}});
  return html::paragraph(
             "Formulas are in SI units; numbers stand in the units of the job. Pressures, flows and speeds "
             "are the highest of "
             "the run. The margins in Requirements come from the run itself, which holds all of this at "
             "every moment.") +
         html::table(table, "The run showed nothing that could be worked out.", "small");
}

}  // namespace poise::papers
