// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/verdict.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "judge/course.hpp"
#include "judge/outcome.hpp"
#include "judge/rating.hpp"
#include "judge/requirements.hpp"

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

void add_cautions(Verdict& verdict, const Job& job, const std::vector<Remark>& remarks) {
  for (const Remark& remark : remarks) verdict.cautions.push_back(remark.sentence);
  const std::string ratings = caution_on_ratings(job.plan);
  if (!ratings.empty()) verdict.cautions.push_back(ratings);
  if (job.requirements.empty())
    verdict.cautions.push_back("The job states no requirement, so only its steps and ratings are judged.");
}

}  // namespace

bool Verdict::holds() const { return !halt && books_close && std::ranges::all_of(findings, &Finding::held); }

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

Verdict judge(const Job& job, const Trace& trace, const std::vector<Remark>& cautions) {
  Verdict verdict;
  for (const Requirement& requirement : job.requirements)
    verdict.findings.push_back(judged(requirement, job, trace));
  verdict.findings.push_back(judged_course(job, trace));
  if (auto ratings = judged_ratings(job, trace)) verdict.findings.push_back(*std::move(ratings));
  std::ranges::stable_sort(verdict.findings, worse);

  verdict.books = trace.books;
  verdict.books_close =
      trace.books.mass_share() <= allowed_mass_share && trace.books.energy_share() <= allowed_energy_share;
  verdict.halt = trace.halt;
  verdict.steps = trace.steps;
  add_cautions(verdict, job, cautions);
  return verdict;
}

}  // namespace poise
