// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "study/fault_run.hpp"

namespace poise::study {

/// A moment of the cycle that both runs have: the middle or the end of a step.
struct SameMoment {
  std::size_t step = 0;
  bool end = false;
  double sound = 0.0, faulty = 0.0;  ///< s

  /// `in the middle of "clamp"`
  std::string words(const Trace& trace) const;
};

/// A faulty run beside the sound one.
class Compared {
 public:
  /// Views its arguments, which must outlive it.
  Compared(const Nominal& sound_one, const FaultyRun& faulty_one);

  const Nominal& nominal;
  const FaultyRun& run;

  const std::vector<SameMoment>& moments() const { return moments_; }
  /// Steps that both runs came to.
  std::size_t steps() const { return steps_; }
  bool has_rows() const { return !run.trace.time.empty(); }
  /// Column of a signal of a part of the job in both traces, or −1.
  int column(Signal::What what, int part, int index) const;
  /// Values, straight between rows.
  double sound(int column, double time) const;
  double faulty(int column, double time) const;
  /// In the job's units; what is less than anybody reads is 0.
  std::string show(double value, Quantity quantity) const;
  const PlannedPart& part(int p) const { return nominal.job.plan.parts[p]; }
  int parts() const { return static_cast<int>(nominal.job.plan.parts.size()); }

 private:
  std::vector<SameMoment> moments_;
  std::size_t steps_ = 0;
};

/// Rows of one column within a stretch of time, ends included.
struct Stretch {
  std::span<const double> time, value;
};
Stretch rows_within(const Trace& trace, int column, double begin, double end);

/// What holds on the sound machine and not on the faulty one, the worst first: promises, and loads that come
/// down.
std::vector<Break> breaks_of(const Compared& compared);

/// Loads that fall, or go further or faster than on the sound machine: in a step they come down by 3 mm, and
/// by a tenth, more and lower than there, or by 20 mm/s and a half faster than ever there (common practice).
std::vector<Break> falling_loads(const Compared& compared);

/// What a gauge, a pressure switch or a motion shows. A gauge shows what differs by more than twice its
/// class, at the end of a step or where its needle stands still, a motion what comes later by a fifth and 0.3
/// s or ends elsewhere (common practice).
Shown shown_in(const Compared& compared, std::span<const Break> breaks);

/// Parts that act in the fault and not, or less, on the sound machine.
std::vector<std::string> protects_in(const Compared& compared, std::span<const std::string> blamed);

/// Oil above 7 bar at the end that is below it on the sound machine: 100 psi, from which on a jet goes
/// through the skin (fluid power safety alerts).
std::vector<std::string> left_pressed_in(const Compared& compared);

}  // namespace poise::study
