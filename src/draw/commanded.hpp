// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::draw {

/// A command on its way: an input goes from one value to another between two moments.
struct CommandedWay {
  double begin = 0.0, end = 0.0;  ///< s
  double from = 0.0, to = 0.0;    ///< SI; of words the index

  Input at(double time) const;
};

/// How an input of a part was commanded over a run, by its steps and controls, in order of time. The first
/// entry is the value it starts with, from time 0 to time 0.
std::vector<CommandedWay> ways_of(const Job& job, const Trace& trace, int part, int input);

/// The inputs of a part at a moment.
std::vector<Input> inputs_at(const Job& job, const Trace& trace, int part, double time);

}  // namespace poise::draw
