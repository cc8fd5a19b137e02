// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/course.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "judge/evidence.hpp"
#include "judge/finding.hpp"
#include "judge/wording.hpp"

namespace poise {
namespace {

const Step* step_of(const Job& job, const StepSpan& span) {
  const auto at = std::ranges::find(job.steps, span.name, &Step::name);
  return at == job.steps.end() ? nullptr : &*at;
}

struct Missed {
  const Condition* condition = nullptr;
  double value = 0.0, room = 0.0, rank = 0.0;
};

/// The condition of a step that is furthest from holding at a moment; no condition if all hold.
Missed furthest_off(const Step& step, double time, const Trace& trace) {
  Missed worst;
  for (const Condition& condition : step.until) {
    const double value = Curve(trace, condition.signal).at(time), room = condition.room(value);
    const double rank = share_of(room, condition.threshold).value_or(-1.0);
    if (room < 0.0 && (!worst.condition || rank < worst.rank)) worst = {&condition, value, room, rank};
  }
  return worst;
}

bool waited_its_time(const Step& step, const StepSpan& span) {
  return span.end - span.begin >= step.lasts * (1.0 - 1e-6);
}

Finding waited_in_vain(const StepSpan& span, const Missed& missed, const Job& job) {
  const Condition& c = *missed.condition;
  const std::string found =
      fmt::format("step \"{}\" waited {} for {}, and it is {}", span.name,
                  units::show(span.end - span.begin, Quantity::time, job.world), wording::of(c, job.world),
                  wording::beside(missed.value, c.threshold, c.signal.quantity, job.world));
  Finding finding = measured(found, missed.room, c.signal.quantity, share_of(missed.room, c.threshold));
  finding.part = job.plan.parts[c.signal.part].tag;
  return finding;
}

Finding unfinished(const StepSpan& span, const Job& job, const Trace& trace) {
  Finding finding = broken(fmt::format("the run ended in step \"{}\" at {}", span.name,
                                       units::show(span.end, Quantity::time, job.world)));
  const Step* step = step_of(job, span);
  if (step && waited_its_time(*step, span) && !trace.time.empty()) {
    const Missed missed = furthest_off(*step, span.end, trace);
    if (missed.condition) finding = waited_in_vain(span, missed, job);
  }
  finding.time = span.end;
  finding.step = span.name;
  return finding;
}

Finding all_finished(const Job& job, const Trace& trace) {
  Finding finding;
  finding.held = true;
  const double took = trace.steps.empty() ? 0.0 : trace.steps.back().end - trace.steps.front().begin;
  finding.found = fmt::format(
      "{} in {}", trace.steps.size() == 1 ? "1 step" : fmt::format("{} steps", trace.steps.size()),
      units::show(took, Quantity::time, job.world));
  for (const StepSpan& span : trace.steps) {
    const Step* step = step_of(job, span);
    if (!step || step->until.empty()) continue;
    const double left = std::max(0.0, margin_of(step->lasts - (span.end - span.begin), span.end));
    if (finding.margin && left >= *finding.margin) continue;
    finding.margin = left;
    finding.quantity = Quantity::time;
    finding.share = share_of(left, step->lasts);
    finding.time = span.end;
    finding.step = span.name;
  }
  return finding;
}

Finding course_of(const Job& job, const Trace& trace) {
  for (const StepSpan& span : trace.steps) {
    if (!span.finished) return unfinished(span, job, trace);
  }
  if (trace.steps.size() < job.steps.size()) {
    return broken(
        fmt::format("{} of {} steps: {}", trace.steps.size(), job.steps.size(), where_it_ended(trace)));
  }
  return trace.halt ? broken(where_it_ended(trace)) : all_finished(job, trace);
}

}  // namespace

Finding judged_course(const Job& job, const Trace& trace) {
  Finding finding = course_of(job, trace);
  finding.name = finding.promised = course_promise;
  return finding;
}

}  // namespace poise
