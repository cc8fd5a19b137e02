// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/evidence.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/finding.hpp"

namespace poise {
namespace {

bool asked_for(const std::string& step, std::span<const std::string> during) {
  return during.empty() || std::ranges::find(during, step) != during.end();
}

}  // namespace

Evidence evidence_for(const Requirement& requirement, const Job& job, const Trace& trace) {
  Evidence evidence{job, trace, requirement.during, {}, true};
  std::size_t seen = 0;
  for (const StepSpan& span : trace.steps) {
    if (!asked_for(span.name, evidence.during)) continue;
    ++seen;
    if (!span.finished) evidence.to_the_end = false;
    if (!evidence.during.empty()) evidence.windows.push_back({span.begin, span.end});
  }
  if (evidence.during.empty()) {
    if (!trace.time.empty()) evidence.windows = {{trace.time.front(), trace.time.back()}};
    if (trace.halt || seen < job.steps.size()) evidence.to_the_end = false;
  } else if (seen < evidence.during.size()) {
    evidence.to_the_end = false;
  }
  if (trace.time.empty()) evidence.windows.clear();
  std::ranges::sort(evidence.windows, {}, &Window::begin);
  return evidence;
}

std::string step_at(double time, const std::vector<StepSpan>& steps, std::span<const std::string> during) {
  for (const StepSpan& span : steps) {
    if (span.begin <= time && time <= span.end && asked_for(span.name, during)) return span.name;
  }
  return "";
}

std::string where_it_ended(const Trace& trace) {
  if (trace.steps.empty()) return "the run ended before its first step";
  return "the run ended in step \"" + trace.steps.back().name + "\"";
}

Finding as_far_as_seen(const Finding& seen, const Trace& trace, const units::World& world) {
  Finding finding = broken(fmt::format("not reached: {} at {}; until then {}", where_it_ended(trace),
                                       units::show(trace.time.back(), Quantity::time, world), seen.found));
  finding.name = seen.name;
  finding.promised = seen.promised;
  finding.part = seen.part;
  return finding;
}

std::optional<double> share_of(double margin, double promised) {
  if (promised == 0.0) return std::nullopt;
  return margin / std::abs(promised);
}

}  // namespace poise
