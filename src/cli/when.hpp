// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>

#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::cli {

/// A moment that is wished for: the end of a step, or a time, s.
struct When {
  std::string step;
  std::optional<double> time;
};

/// Reads a step's name or a time such as "3.5 s"; none after a complaint on the error stream.
std::optional<When> read_when(const std::string& at, const Job& job);

/// The moment in a trace that was run with it; null, after a word on the error stream, where the run did not
/// get there. Says too where the run ended early.
const Moment* find_moment(const Trace& trace, const When& when, const Job& job);

}  // namespace poise::cli
