// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "papers/seen.hpp"
#include "trace/trace.hpp"

namespace poise::papers {

/// A value that is adjusted on the machine: as the part has it when the cycle begins, or as a step gives it.
struct Setting {
  int part = 0;
  const Parameter* parameter = nullptr;
  const Adjusting* how = nullptr;  ///< null: the part's room does not say
  double value = 0.0;              ///< SI
  bool is_stated = true;           ///< by the job; else it follows from a curve
  std::string step{};              ///< that brings it about; empty: it stands so from the beginning
  bool is_changed = false;         ///< it stands so from the beginning, and a step gives it another value
  std::vector<Window> stands{};    ///< the stretches of the run in which it stands; on its way it does not
};

/// All settings of a job in the order in which they are made: by `Adjusting::turn`, then as the job has them;
/// those whose turn nobody says come last. A setting of a datasheet's curve that states none is told by the
/// pressure at which the valve cracks.
std::vector<Setting> settings_of(const Job& job, const Trace& trace);

}  // namespace poise::papers
