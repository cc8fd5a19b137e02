// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/verdict.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "judge/course.hpp"
#include "judge/evidence.hpp"
#include "judge/rating.hpp"
#include "judge/requirements.hpp"
#include "judge/wording.hpp"
#include "rules/people.hpp"

namespace poise {
namespace {

void add_once(std::vector<Signal>& all, const Signal& signal) {
  if (std::ranges::find(all, signal.name, &Signal::name) == all.end()) all.push_back(signal);
}

bool worse(const Finding& a, const Finding& b) {
  if (a.held != b.held) return !a.held;
  constexpr double last = std::numeric_limits<double>::infinity();
  return a.share.value_or(last) < b.share.value_or(last);
}

/// Parts that a finding names: the one it is about and those with which it is likewise.
std::vector<std::string> named_by(const RuleNotKept& broken) {
  std::vector<std::string> named = broken.also;
  if (!broken.part.empty()) named.push_back(broken.part);
  return named;
}

bool names(const Waiver& waiver, const std::string& tag) {
  return waiver.parts.empty() || std::ranges::find(waiver.parts, tag) != waiver.parts.end();
}

/// The reasons of the waivers that cover a finding: of one for every place, or of several that name all its
/// parts between them; empty where it is not covered. Waivers that meet it are marked.
std::string reasons_for(const RuleNotKept& broken, const std::vector<Waiver>& waivers,
                        std::vector<bool>& met) {
  const std::vector<std::string> parts = named_by(broken);
  std::vector<std::string> open = parts, reasons;
  bool everywhere = false;
  for (std::size_t w = 0; w < waivers.size(); ++w) {
    const Waiver& waiver = waivers[w];
    if (waiver.rule != broken.rule->name) continue;
    const bool meets = waiver.parts.empty() ||
                       std::ranges::any_of(parts, [&](const std::string& tag) { return names(waiver, tag); });
    if (!meets) continue;
    met[w] = true;
    everywhere = everywhere || waiver.parts.empty();
    std::erase_if(open, [&](const std::string& tag) { return names(waiver, tag); });
    if (std::ranges::find(reasons, waiver.reason) == reasons.end()) reasons.push_back(waiver.reason);
  }
  const bool covered = everywhere || (open.empty() && !parts.empty());
  return covered ? fmt::format("{}", fmt::join(reasons, "; ")) : std::string();
}

/// What is said of a waiver that meets nothing.
std::string idle(const Waiver& waiver, const Verdict& verdict) {
  const bool elsewhere = std::ranges::any_of(
      verdict.rules, [&](const RuleNotKept& broken) { return broken.rule->name == waiver.rule; });
  if (!elsewhere)
    return fmt::format("The rule \"{}\" is waived and is kept: the waiver can go.", waiver.rule);
  return fmt::format("The waiver of \"{}\" for {} meets nothing: there the rule is kept.", waiver.rule,
                     wording::joined(waiver.parts, " and "));
}

void add_rules(Verdict& verdict, const Job& job, const Trace& trace) {
  const rules::Sight sight(job.plan, job.steps, job.controls, job.world, &trace);
  std::vector<bool> met(job.waivers.size(), false);
  for (rules::Breach& breach : rules::breaches(sight)) {
    RuleNotKept broken{.rule = breach.rule,
                       .sentence = std::move(breach.found.sentence),
                       .remedy = std::move(breach.found.remedy),
                       .part = breach.found.part < 0 ? "" : sight.tag(breach.found.part),
                       .time = breach.found.time,
                       .step = breach.found.time ? step_at(*breach.found.time, trace.steps) : ""};
    for (int part : breach.found.also) broken.also.push_back(sight.tag(part));
    broken.waived = reasons_for(broken, job.waivers, met);
    verdict.rules.push_back(std::move(broken));
  }
  std::stable_partition(verdict.rules.begin(), verdict.rules.end(),
                        [](const RuleNotKept& rule) { return rule.waived.empty(); });
  verdict.people = rules::for_people(sight);
  if (trace.halt || !sight.ran()) return;  // what was not seen may still break the rule
  for (std::size_t w = 0; w < job.waivers.size(); ++w) {
    if (!met[w]) verdict.cautions.push_back(idle(job.waivers[w], verdict));
  }
}

/// What is said of steps that did nothing, since what they wait for held as they began.
void add_idle_steps(Verdict& verdict) {
  for (std::size_t i = 0; i < verdict.steps.size(); ++i) {
    const StepSpan& step = verdict.steps[i];
    if (!step.finished || step.end > step.begin) continue;
    verdict.cautions.push_back(
        fmt::format("Step \"{}\" is over as it begins: what it waits for holds already.{}", step.name,
                    i == 0 ? " What stands under [parts] is so before the first step too; what a step is to "
                             "start belongs into its \"set\"."
                           : ""));
  }
}

void add_cautions(Verdict& verdict, const Job& job) {
  add_idle_steps(verdict);
  const std::string ratings = caution_on_ratings(job.plan);
  if (!ratings.empty()) verdict.cautions.push_back(ratings);
  if (job.requirements.empty())
    verdict.cautions.push_back("The job states no requirement, so only its steps and ratings are judged.");
}

}  // namespace

bool Verdict::holds() const { return !halt && books_close && std::ranges::all_of(findings, &Finding::held); }

long Verdict::not_kept(rules::Harm harm) const {
  return std::ranges::count_if(
      rules, [&](const RuleNotKept& each) { return each.rule->harm == harm && each.waived.empty(); });
}

std::vector<Signal> signals_needed(const Job& job) {
  std::vector<Signal> all;
  for (const Requirement& requirement : job.requirements) {
    for (const Signal& signal : signals_of(requirement)) add_once(all, signal);
  }
  for (const Step& step : job.steps) {
    for (const Condition& condition : step.until) add_once(all, condition.signal);
  }
  for (const Signal& signal : rated_pressures(job.plan)) add_once(all, signal);
  return all;
}

std::vector<Signal> signals_of_rules(const Job& job) { return rules::watched(job.plan); }

Verdict judge(const Job& job, const Trace& trace) {
  Verdict verdict;
  for (std::size_t i = 0; i < job.requirements.size(); ++i) {
    verdict.findings.push_back(judged(job.requirements[i], job, trace));
    verdict.findings.back().requirement = i;
  }
  verdict.findings.push_back(judged_course(job, trace));
  if (auto ratings = judged_ratings(job, trace)) verdict.findings.push_back(*std::move(ratings));
  std::ranges::stable_sort(verdict.findings, worse);

  verdict.books = trace.books;
  verdict.books_close =
      trace.books.mass_share() <= Books::mass_closes && trace.books.energy_share() <= Books::energy_closes;
  verdict.halt = trace.halt;
  verdict.steps = trace.steps;
  add_rules(verdict, job, trace);
  add_cautions(verdict, job);
  return verdict;
}

}  // namespace poise
