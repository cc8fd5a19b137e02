// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "judge/verdict.hpp"
#include "study/fault_answer.hpp"
#include "study/fault_place.hpp"
#include "study/row.hpp"

namespace poise::study {

/// The sound machine, run once with everything recorded: what every fault is held against.
struct Nominal {
  Job job;
  Circuit circuit;
  std::vector<Signal> signals;  ///< those that judging needs, then every other one of every part
  Trace trace;
  Verdict verdict;
  std::vector<Promise> promises;
};

/// Told the share done of a run; says false to stop it. May be empty.
using RunProgress = std::function<bool(double share)>;

Nominal nominal_of(const Job& job, const RunProgress& progress = {});

/// A faulty machine's run. Its trace has the signals of the nominal one in the same columns, and the same
/// steps: a step that was cut in two by the fault is one again.
struct FaultyRun {
  Job job;
  Trace trace;
  Verdict verdict;
};

/// Runs and judges a job with a fault in it. `split_step`: the step that it has in two halves, or −1.
FaultyRun run_faulty(const Nominal& nominal, Job faulty, int split_step, const RunProgress& progress = {});

/// Makes one step again of one that a fault has cut in two; −1: none.
void join_halves(Trace& trace, int split_step);

/// The case of one fault at one size; with its values not going together it is not proven.
struct FaultCase {
  FaultAnswer answer;
  Verdict verdict;
};
FaultCase case_of(const Nominal& nominal, const FaultPlace& place, double t,
                  const RunProgress& progress = {});

/// The answer from a run; `blamed` are the tags of the faulty parts, which do not count as protecting.
FaultAnswer answer_of(const Nominal& nominal, const FaultyRun& run, std::span<const std::string> blamed);

/// What is kept of a case.
Row row_of(long number, const Nominal& nominal, const FaultCase& done);

}  // namespace poise::study
