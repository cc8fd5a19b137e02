// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "job/job.hpp"

namespace poise::cli {

/// Prints, for every part of a kind in a job, the points of its datasheet's curves beside what its law makes
/// of them. False, with a word on the error stream, where there is none.
bool print_curves(const Kind& kind, const Job& job);

}  // namespace poise::cli
