// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper of promises: requirements with margins, ratings, rules of the trade that are not kept.
#include <fmt/format.h>

#include <algorithm>

#include "circuit/rating.hpp"
#include "draw/words.hpp"
#include "judge/curve.hpp"
#include "judge/evidence.hpp"
#include "judge/outcome.hpp"
#include "judge/rating.hpp"
#include "judge/wording.hpp"
#include "papers/answer.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/rules_not_kept.hpp"
#include "papers/studies.hpp"

namespace poise::papers {
namespace {

std::string_view word_of(Mark mark) {
  if (mark == Mark::held) return "held";
  return mark == Mark::broken ? "BROKEN" : "NOT SEEN";
}

Cell margin_of(const Finding& finding, const units::World& world) {
  if (!finding.margin) return {"–"};
  return {.text = units::show_difference(*finding.margin, finding.quantity, world),
          .number = units::difference_in_unit(*finding.margin, finding.quantity, world),
          .unit = world[finding.quantity]};
}

std::string decided(const Finding& finding, const units::World& world) {
  std::string text = finding.part;
  const auto add = [&](const std::string& words) { text += (text.empty() ? "" : ", ") + words; };
  if (finding.time) add(units::show(*finding.time, Quantity::time, world));
  if (!finding.step.empty()) add(finding.step);
  return text;
}

Table findings(const Subject& subject) {
  Table table{"requirements",
              {{"answer", 1.3},
               {"requirement", 3.2},
               {"found", 3.2},
               {"margin", 1.5, true},
               {"share", 1.1, true},
               {"decided by", 2.0}},
              {}};
  const units::World& world = subject.job.world;
  for (const Finding& finding : subject.verdict.findings) {
    const bool named = finding.name != finding.promised;
    table.rows.push_back(
        {{std::string(word_of(mark(finding, subject.verdict)))},
         {named ? finding.name + ": " + finding.promised : finding.name},
         {finding.found},
         margin_of(finding, world),
         finding.share ? measured(*finding.share, Quantity::share, units::metric()) : Cell{"–"},
         {decided(finding, world)}});
  }
  return table;
}

struct Loaded {
  std::string port;
  double rated = 0.0, left = 0.0, share = 0.0;
  Point peak;
};

/// The port of each rated part with the least room, least room first.
std::vector<Loaded> loaded_parts(const Subject& subject) {
  std::vector<Loaded> all;
  if (subject.trace.time.empty()) return all;
  int last_part = -1;
  for (const Signal& signal : rated_pressures(subject.job.plan)) {
    if (subject.trace.column(signal.name) < 0) continue;
    const PlannedPart& part = subject.job.plan.parts[signal.part];
    const auto points =
        Curve(subject.trace, signal).over({subject.trace.time.front(), subject.trace.time.back()});
    Loaded loaded{.port = subject.job.plan.name({signal.part, signal.index}),
                  .rated = part.values[rating_parameter(*part.kind)],
                  .peak = *std::ranges::max_element(points, {}, &Point::value)};
    loaded.left = margin(rating_from(loaded.rated), loaded.peak.value);
    loaded.share = loaded.left / loaded.rated;
    if (signal.part != last_part) {
      all.push_back(loaded);
    } else if (loaded.left < all.back().left) {
      all.back() = loaded;
    }
    last_part = signal.part;
  }
  std::ranges::stable_sort(all, {}, &Loaded::share);
  return all;
}

Table ratings(const Subject& subject) {
  Table table{"ratings",
              {{"port", 1.6},
               {"rated", 1.2, true},
               {"highest seen", 1.3, true},
               {"left", 1.2, true},
               {"share", 1.0, true},
               {"when", 2.2}},
              {}};
  const units::World& world = subject.job.world;
  for (const Loaded& each : loaded_parts(subject)) {
    table.rows.push_back({{each.port},
                          stated(each.rated, Quantity::pressure, world),
                          seen(each.peak.value, Quantity::pressure, world),
                          measured(each.left, Quantity::pressure, world),
                          measured(each.share, Quantity::share, units::metric()),
                          {fmt::format("{}, {}", units::show(each.peak.time, Quantity::time, world),
                                       step_at(each.peak.time, subject.trace.steps))}});
  }
  return table;
}

}  // namespace

std::string requirements(const Subject& subject) {
  std::string text = html::element(
      "p",
      html::element("strong", html::text(mark_of(subject.verdict))) +
          html::text(". Margin: what is left to the promise. Share: of what was promised. Worst first."));
  if (subject.verdict.halt)
    text += html::paragraph(fmt::format(
        "The run ended at {}: {}", units::show(subject.verdict.halt->time, Quantity::time, subject.job.world),
        subject.verdict.halt->sentence));
  text += html::table(findings(subject), "The job asks for nothing.");
  text += tolerances_studied(subject);
  text += html::heading(3, "Ratings") +
          html::table(ratings(subject), "No part's rating is given, so none is checked.");
  return text + html::heading(3, "Rules of the trade that are not kept") +
         rules_not_kept(subject, Waived::no);
}

}  // namespace poise::papers
