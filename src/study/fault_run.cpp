// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fault_run.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>

#include "solve/run.hpp"
#include "study/fault_compare.hpp"

namespace poise::study {
namespace {

std::vector<Signal> everything(const Job& job) {
  std::vector<Signal> all = signals_needed(job);
  std::set<std::string> seen;
  for (const Signal& signal : all) seen.insert(signal.name);
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    for (Signal& signal : signals_of(job.plan, p)) {
      if (seen.insert(signal.name).second) all.push_back(std::move(signal));
    }
  }
  return all;
}

/// The rows follow what judging needs, so that the verdict is that of `poise prove` to the last digit.
Trace run(const Job& job, const Circuit& circuit, const std::vector<Signal>& signals, std::size_t needed,
          const RunProgress& progress) {
  solve::RunOptions options{.followed = needed, .controls = job.controls, .progress = {}};
  if (progress) options.progress = [&](double, double share) { return progress(share); };
  return solve::run(circuit, job.steps, signals, options);
}

/// What the sound machine breaks as well does not count: a fault holds where it breaks nothing more.
Outcome outcome_of(const Verdict& verdict, std::span<const Break> breaks) {
  if (!verdict.books_close) return Outcome::not_proven;
  if (!breaks.empty()) return Outcome::broken;
  const bool followed = !verdict.halt || verdict.halt->by_the_machine();
  return followed ? Outcome::held : Outcome::not_proven;
}

Severity severity_of(const FaultAnswer& answer) {
  if (answer.outcome == Outcome::not_proven) return Severity::not_proven;
  return answer.breaks.empty() ? Severity::nothing_breaks : answer.breaks.front().severity;
}

}  // namespace

Nominal nominal_of(const Job& job, const RunProgress& progress) {
  Nominal nominal{.job = job,
                  .circuit = build(job.plan),
                  .signals = everything(job),
                  .trace = {},
                  .verdict = {},
                  .promises = {}};
  nominal.trace = run(job, nominal.circuit, nominal.signals, signals_needed(job).size(), progress);
  nominal.verdict = judge(job, nominal.trace);
  nominal.promises = promises_of(job, nominal.verdict);
  return nominal;
}

void join_halves(Trace& trace, int split_step) {
  const auto first = static_cast<std::size_t>(split_step);
  if (split_step < 0 || trace.steps.size() < first + 2) return;
  trace.steps[first].end = trace.steps[first + 1].end;
  trace.steps[first].finished = trace.steps[first + 1].finished;
  trace.steps.erase(trace.steps.begin() + split_step + 1);
}

FaultyRun run_faulty(const Nominal& nominal, Job faulty, int split_step, const RunProgress& progress) {
  const Circuit circuit = build(faulty.plan);
  FaultyRun done{.job = {},
                 .trace = run(faulty, circuit, nominal.signals, signals_needed(nominal.job).size(), progress),
                 .verdict = {}};
  join_halves(done.trace, split_step);
  faulty.steps = nominal.job.steps;
  done.job = std::move(faulty);
  done.verdict = judge(done.job, done.trace);
  return done;
}

FaultAnswer answer_of(const Nominal& nominal, const FaultyRun& run, std::span<const std::string> blamed) {
  const Compared compared(nominal, run);
  FaultAnswer answer;
  answer.breaks = breaks_of(compared);
  answer.outcome = outcome_of(run.verdict, answer.breaks);
  answer.severity = severity_of(answer);
  answer.shown = shown_in(compared, answer.breaks);
  answer.protects = protects_in(compared, blamed);
  answer.left_pressed = left_pressed_in(compared);
  if (run.trace.halt) answer.ended = run.trace.halt->sentence;
  return answer;
}

FaultCase case_of(const Nominal& nominal, const FaultPlace& place, double t, const RunProgress& progress) {
  FaultCase done;
  if (auto faulty = with_fault(nominal.job, place, t)) {
    FaultyRun run = run_faulty(nominal, *std::move(faulty), splits_a_step(place) ? place.step : -1, progress);
    std::vector<std::string> blamed{place.part};
    if (place.other >= 0) blamed.push_back(nominal.job.plan.parts[place.other].tag);
    done.answer = answer_of(nominal, run, blamed);
    done.verdict = std::move(run.verdict);
  } else {
    done.answer.ended = "the values do not go together at this size";
  }
  done.answer.t = t;
  done.answer.change = change_at(nominal.job, place, t);
  return done;
}

Row row_of(long number, const Nominal& nominal, const FaultCase& done) {
  Row row = row_of(number, nominal.promises, nominal.job, done.verdict);
  row.outcome = done.answer.outcome;
  row.detail = to_json(done.answer).dump();
  return row;
}

}  // namespace poise::study
