// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "draw/panel.hpp"
#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::draw {

/// Whether two signals are one: a part with one port answers to two names for it.
bool is_same(const Signal& a, const Signal& b);

/// The signals' curves over time in the job's units, one panel for each quantity, with the limits that the
/// job sets them. Signals that the trace does not have are left out.
std::vector<Panel> cycle_panels(const Job& job, const Trace& trace, const std::vector<Signal>& signals);

}  // namespace poise::draw
