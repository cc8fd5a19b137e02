// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>

#include "job/job.hpp"

namespace poise::cli {

/// The moment that was wished for: the end of a step, or a time.
struct When {
  std::string step;
  std::optional<double> time;  ///< s
};

/// Reads a step's name or a time; none, with a word on the error stream, where it is neither.
std::optional<When> read_when(const std::string& at, const Job& job);

}  // namespace poise::cli
