// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What studies of tolerances and faults add to the papers.
#include "papers/studies.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "papers/html.hpp"
#include "study/spread_words.hpp"

namespace poise::papers {
namespace {

Table promises(const study::SpreadStudied& studied, const Job& job) {
  Table table{"tolerances",
              {{"requirement", 2.6},
               {"broken on", 1.7},
               {"least room", 1.3, true},
               {"usual room", 1.3, true},
               {"driven by", 2.6},
               {"breaks first", 3.4}},
              {}};
  constexpr std::size_t drivers = 3;
  for (std::size_t p = 0; p < studied.answer.promises.size(); ++p) {
    const study::PromiseSpread& of = studied.answer.promises[p];
    const bool known = p < studied.nearest.size();
    table.rows.push_back({{of.promise.name},
                          {study::words_of(of.broken)},
                          {study::room_in_words(of, 0.0, job)},
                          {study::room_in_words(of, 0.5, job)},
                          {study::drivers_in_words(of, studied.spread, drivers)},
                          {known ? study::nearest_in_words(studied.nearest[p], studied.spread) : ""}});
  }
  return table;
}

Table faults(const std::vector<study::FaultLine>& lines) {
  Table table{"faults",
              {{"fault, from what size on", 2.6},
               {"harm", 1.5},
               {"what breaks", 3.4},
               {"would it show", 2.4},
               {"what acts then", 2.0}},
              {}};
  for (const study::FaultLine& line : lines) {
    if (line.severity == study::Severity::nothing_breaks) continue;
    std::string shown = line.shown_by;
    if (!line.shown_text.empty()) shown += ": " + line.shown_text;
    std::vector<std::string> keeps = line.protects;
    if (!line.left_pressed.empty())
      keeps.push_back(fmt::format("left pressed: {}", fmt::join(line.left_pressed, ", ")));
    table.rows.push_back(
        {{line.breaks_from.empty() ? line.name : fmt::format("{}, {}", line.name, line.breaks_from)},
         {std::string(study::words_of(line.severity))},
         {fmt::format("{}", fmt::join(line.happens, "; "))},
         {shown},
         {fmt::format("{}", fmt::join(keeps, "; "))}});
  }
  return table;
}

}  // namespace

std::string tolerances_studied(const Subject& subject) {
  std::string text = html::heading(3, "Tolerances");
  if (!subject.studied || !subject.studied->spread)
    return text +
           html::paragraph(
               "Everything above is worked out with each value exactly as it is stated. Values at the ends "
               "of their tolerances have not been studied for these papers (poise spread).");
  const study::SpreadStudied& studied = *subject.studied->spread;
  text += html::element("p",
                        html::element("strong", html::text(study::answer_in_words(studied.answer) + ".")) +
                            html::text(" " + study::shape_in_words(studied.spread) +
                                       ". Driven by: shares of what makes the margin vary. Breaks first: the "
                                       "nearest values at which it breaks."));
  return text + html::table(promises(studied, subject.job), "The job asks for nothing.");
}

std::string faults_studied(const Subject& subject) {
  std::string text = html::heading(3, "Faults");
  if (!subject.studied || !subject.studied->faults)
    return text +
           html::paragraph(
               "Single faults (a valve that sticks, a hose that bursts, a gauge that lies) have not been "
               "studied for these papers (poise faults). Whoever signs for the machine has to judge them.");
  const auto& lines = *subject.studied->faults;
  const auto pairs = std::ranges::count(lines, true, &study::FaultLine::pair);
  const auto harmless =
      std::ranges::count(lines, study::Severity::nothing_breaks, &study::FaultLine::severity);
  text += html::paragraph(
      fmt::format("{} faults were tried one by one, each from slight to grave{}; {} of all break no promise. "
                  "How likely they "
                  "are is not said: nobody knows. Whoever signs for the machine has to judge them.",
                  static_cast<long>(lines.size()) - pairs,
                  pairs > 0 ? fmt::format(", and {} pairs of them", pairs) : "", harmless));
  return text + html::table(faults(lines), "No fault that was tried breaks a promise.");
}

}  // namespace poise::papers
