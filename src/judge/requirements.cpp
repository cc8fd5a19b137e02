// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/requirements.hpp"

#include "judge/finding.hpp"
#include "judge/wording.hpp"

namespace poise {
namespace {

struct Asked {
  std::vector<Signal> operator()(const Never& r) const { return {r.signal}; }
  std::vector<Signal> operator()(const Reached& r) const { return {r.condition.signal}; }
  std::vector<Signal> operator()(const Band& r) const { return {r.signal}; }
  std::vector<Signal> operator()(const Drift& r) const { return {r.signal}; }
  std::vector<Signal> operator()(const Level& r) const { return r.signals; }
  std::vector<Signal> operator()(const Order& r) const {
    std::vector<Signal> signals;
    for (const Condition& condition : r.first) signals.push_back(condition.signal);
    for (const Condition& condition : r.then) signals.push_back(condition.signal);
    return signals;
  }
};

/// A requirement on moments is decided once its moment is seen; one on every moment only at the end of its
/// steps.
bool looks_for_a_moment(const Requirement& requirement) {
  return std::holds_alternative<Reached>(requirement.what) || std::holds_alternative<Order>(requirement.what);
}

Finding judged_on_evidence(const Requirement& requirement, const Evidence& evidence) {
  if (evidence.windows.empty()) return broken("not reached: " + where_it_ended(evidence.trace));
  for (const Signal& signal : signals_of(requirement)) {
    if (Curve(evidence.trace, signal).has_values()) continue;
    Finding finding = broken("no value of " + signal.name);
    finding.part = evidence.tag(signal);
    return finding;
  }
  Finding finding = std::visit([&](const auto& what) { return judged_on(what, evidence); }, requirement.what);
  if (evidence.to_the_end) return finding;
  const bool decided = finding.margin && (!finding.held || looks_for_a_moment(requirement));
  return decided ? finding : as_far_as_seen(finding, evidence.trace, evidence.job.world);
}

}  // namespace

std::vector<Signal> signals_of(const Requirement& requirement) {
  return std::visit(Asked{}, requirement.what);
}

Finding judged(const Requirement& requirement, const Job& job, const Trace& trace) {
  Finding finding = judged_on_evidence(requirement, evidence_for(requirement, job, trace));
  finding.promised = wording::of(requirement, job.world);
  finding.name = requirement.name.empty() ? finding.promised : requirement.name;
  return finding;
}

}  // namespace poise
