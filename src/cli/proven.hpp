// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "prove/prove.hpp"

namespace poise::cli {

/// Runs a job twice at once: as `poise prove` does, for the verdict, and with everything recorded. More
/// signals mean more rows, and more rows a last digit that differs; papers are to agree with the screen. So
/// the verdict is to the last digit the one of `poise prove`, and the trace has all signals, a moment at the
/// end of each step, and the heat of each part. `progress` is told the share done, now and then, and says
/// false to stop both.
Proof prove_fully(const Job& job, const Circuit& circuit, const std::function<bool(double share)>& progress);

}  // namespace poise::cli
