// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fault_order.hpp"

#include <algorithm>

namespace poise::study {
namespace {

constexpr std::size_t halvings = 4;

const SizedOutcome* at_size(std::span<const SizedOutcome> so_far, double t) {
  const auto found = std::ranges::find(so_far, t, &SizedOutcome::t);
  return found == so_far.end() ? nullptr : &*found;
}

}  // namespace

std::optional<double> next_size(const FaultPlace& place, std::span<const SizedOutcome> so_far) {
  const SizedOutcome *slight = at_size(so_far, 0.0), *grave = at_size(so_far, 1.0);
  if (!slight && !place.one_size) return 0.0;
  if (!grave) return 1.0;
  if (place.one_size || slight->outcome != Outcome::held || grave->outcome != Outcome::broken)
    return std::nullopt;
  if (so_far.size() >= 2 + halvings) return std::nullopt;
  // What lies between is told apart by halves; a size that is not proven counts as one that breaks, so that
  // the greatest that holds is never overstated.
  double holds = 0.0, breaks = 1.0;
  for (const SizedOutcome& each : so_far) {
    if (each.outcome == Outcome::held)
      holds = std::max(holds, each.t);
    else
      breaks = std::min(breaks, each.t);
  }
  if (holds >= breaks) return std::nullopt;
  return 0.5 * (holds + breaks);
}

std::vector<SizedOutcome> FaultResult::outcomes() const {
  std::vector<SizedOutcome> all;
  for (const FaultAnswer& answer : answers) all.push_back({answer.t, answer.outcome});
  return all;
}

const FaultAnswer* FaultResult::breaks_from() const {
  const FaultAnswer* smallest = nullptr;
  for (const FaultAnswer& answer : answers) {
    const bool breaks = answer.outcome == Outcome::broken && !answer.breaks.empty();
    if (breaks && (!smallest || answer.t < smallest->t)) smallest = &answer;
  }
  return smallest;
}

std::string FaultResult::breaks_from_in_words() const {
  const FaultAnswer* smallest = breaks_from();
  if (!smallest || place.one_size) return "";
  return smallest->change + (smallest->t == 0.0 ? ", the least tried" : "");
}

const FaultAnswer* FaultResult::telling() const {
  if (const FaultAnswer* smallest = breaks_from()) return smallest;
  const auto gravest = std::ranges::max_element(answers, {}, &FaultAnswer::t);
  return gravest == answers.end() ? nullptr : &*gravest;
}

Severity FaultResult::severity() const {
  Severity worst = answers.empty() ? Severity::not_proven : Severity::nothing_breaks;
  for (const FaultAnswer& answer : answers) worst = std::min(worst, answer.severity);
  return worst;
}

std::vector<FaultResult> results_of(const std::vector<FaultPlace>& places, std::span<const Row> rows) {
  std::vector<FaultResult> results;
  for (const FaultPlace& place : places) results.push_back({place, {}});
  std::vector<const Row*> by_number;
  for (const Row& row : rows) by_number.push_back(&row);
  std::ranges::sort(by_number, {}, [](const Row* row) { return row->number; });
  for (const Row* row : by_number) {
    const long fault = row->number / runs_per_fault;
    if (row->number < 0 || fault >= static_cast<long>(results.size())) continue;
    if (auto answer = answer_from(row->detail)) results[fault].answers.push_back(*std::move(answer));
  }
  return results;
}

}  // namespace poise::study
