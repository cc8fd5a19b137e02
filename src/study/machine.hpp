// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "job/job.hpp"
#include "judge/verdict.hpp"

namespace poise::study {

/// How a machine is run.
struct RunWish {
  bool rules = false;  ///< whether the rules of the trade are judged as well
  /// Steps of the integrator after which the run is given up; 0: never. Counted, not timed: the same machine
  /// gives the same answer everywhere.
  long most_steps = 0;
  /// Told the share done now and then; says false to stop.
  std::function<bool(double share)> go_on{};
};

/// A machine's verdict and what it took.
struct Ran {
  Verdict verdict;
  long steps = 0;
};

/// Runs and judges a job; none where `go_on` has stopped it. What is given up for its steps has a halt in its
/// verdict and is not proven.
std::optional<Ran> run_machine(const Job& job, const RunWish& wish);

/// Why a job as stated is no start for a study; empty where it has an answer, held or broken.
std::string why_no_study(const Verdict& verdict);

/// Steps after which another machine of the same job is given up, by those that the job as stated takes.
long patience(long nominal_steps);

}  // namespace poise::study
