// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/trial.hpp"

#include <algorithm>
#include <cmath>

#include "judge/outcome.hpp"

namespace poise::search {
namespace {

constexpr double cannot_run = -10.0;
constexpr double no_number = 1.0;
constexpr double round_off = 1e-9;
constexpr double never_came =
    1.0;  // what a moment that never comes misses at least: as much as its whole time

/// A requirement on a moment is measured in time, or, where that never came, by how near it got.
bool never_came_to(const Finding& finding, const std::vector<Requirement>& requirements) {
  if (!finding.requirement || finding.quantity == Quantity::time) return false;
  const auto& what = requirements[*finding.requirement].what;
  return std::holds_alternative<Reached>(what) || std::holds_alternative<Order>(what);
}

double share_of(const Finding& finding, const std::vector<Requirement>& requirements) {
  if (finding.held) return std::max(finding.share.value_or(no_number), 0.0);
  if (!finding.margin || !finding.share) return unseen_share;
  const double missed =
      std::max(-*finding.share, round_off) + (never_came_to(finding, requirements) ? never_came : 0.0);
  return std::max(-std::log1p(missed), unseen_share + 0.1);
}

/// What can hurt someone outweighs any number of what can damage, and so on.
double weight(rules::Harm harm) {
  switch (harm) {
    case rules::Harm::hurts:
      return 1e4;
    case rules::Harm::damages:
      return 1e2;
    case rules::Harm::works_badly:
      return 1.0;
    case rules::Harm::worth_knowing:
      break;
  }
  return 0.0;
}

void sum_up(Trial& trial) {
  trial.missing = 0.0;
  for (const double share : trial.shares) trial.missing += std::max(-share, 0.0);
}

std::vector<double> from_the_smallest(const Trial& trial, double enough) {
  std::vector<double> shares = trial.shares;
  for (double& share : shares) share = std::min(share, enough);
  std::ranges::sort(shares);
  return shares;
}

int by_number(double a, double b, double tolerance) {
  if (a < b - tolerance) return -1;
  return a > b + tolerance ? 1 : 0;
}

/// By whole steps of the tolerance: differences that are none on the way from a to b and from b to c must be
/// none from a to c, or a search could go round in rings.
int by_steps(double a, double b, double step) {
  if (!(step > 0.0)) return by_number(a, b, 0.0);
  return by_number(std::floor(a / step + round_off), std::floor(b / step + round_off), 0.0);
}

}  // namespace

double Trial::smallest() const {
  return runs && !shares.empty() ? *std::ranges::min_element(shares) : cannot_run;
}

bool holds_as_far_as_seen(const Trial& trial, std::size_t place) {
  if (!trial.runs || place >= trial.shares.size()) return false;
  if (trial.shares[place] >= 0.0) return true;
  const Finding& finding = finding_of(trial, place);
  return mark(finding, trial.verdict) == Mark::unseen && !finding.part.empty();
}

double plain_share(double share) { return share < 0.0 ? 1.0 - std::exp(-share) : share; }

const Finding& finding_of(const Trial& trial, std::size_t place) {
  return trial.verdict.findings[trial.finding[place]];
}

Trial trial_of(Point at, Verdict verdict, const std::vector<Requirement>& requirements) {
  Trial trial{.at = std::move(at), .runs = true};
  std::vector<std::size_t> every_job_has;
  trial.finding.resize(requirements.size());
  for (std::size_t f = 0; f < verdict.findings.size(); ++f) {
    if (const auto requirement = verdict.findings[f].requirement)
      trial.finding[*requirement] = f;
    else
      every_job_has.push_back(f);
  }
  std::ranges::sort(every_job_has, {}, [&](std::size_t f) { return verdict.findings[f].name; });
  std::ranges::move(every_job_has, std::back_inserter(trial.finding));
  for (const std::size_t f : trial.finding)
    trial.shares.push_back(share_of(verdict.findings[f], requirements));
  for (const RuleNotKept& rule : verdict.rules) {
    if (rule.waived.empty())
      trial.rules += weight(rule.rule->harm) * static_cast<double>(1 + rule.also.size());
  }
  trial.runs = verdict.books_close && !(verdict.halt && !verdict.halt->by_the_machine());
  trial.verdict = std::move(verdict);
  sum_up(trial);
  return trial;
}

void worsen(Trial& trial, const Trial& other) {
  trial.runs = trial.runs && other.runs;
  trial.rules = std::max(trial.rules, other.rules);
  for (std::size_t i = 0; i < std::min(trial.shares.size(), other.shares.size()); ++i)
    trial.shares[i] = std::min(trial.shares[i], other.shares[i]);
  sum_up(trial);
}

int compared(const Trial& a, const Trial& b, double enough, double tolerance) {
  if (a.runs != b.runs) return a.runs ? -1 : 1;
  if (!a.runs) return 0;
  if (const int by = by_number(a.missing, b.missing, round_off); by != 0) return by;
  if (const int by = by_number(a.rules, b.rules, 0.5); by != 0) return by;
  const std::vector<double> of_a = from_the_smallest(a, enough), of_b = from_the_smallest(b, enough);
  for (std::size_t i = 0; i < std::min(of_a.size(), of_b.size()); ++i) {
    if (const int by = by_steps(of_b[i], of_a[i], tolerance); by != 0) return by;
  }
  return 0;
}

bool better(const Trial& a, const Trial& b, double enough, double tolerance) {
  return compared(a, b, enough, tolerance) < 0;
}

}  // namespace poise::search
