// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::study {

/// One way in which one place of a machine can be wrong, with its sizes from slight (0) to grave (1).
struct FaultPlace {
  enum class Of {
    room,             ///< a fault of the part's own room
    return_blocked,   ///< a line into a reservoir
    suction_clogged,  ///< a line out of one
    sucks_air,
    leaks_outside,
    air_left,  ///< a pocket of air beside an actuator
    oil_colder,
    oil_hotter,
    oil_thinner,
    oil_thicker,
    oil_aerated,
    other_fluid,
    source_stops,
    power_lost,
    forgotten,  ///< a command is not given
    wrong_way,  ///< a command sends a valve to its other side
    swapped,    ///< two settings are exchanged
    wide_open,  ///< an adjuster is left so
    left_shut,
    left_open,
    wrong_spool,
    set_low,  ///< an adjuster stands below what the settings sheet says
    set_high,
  };
  Of of = Of::room;
  std::string name;              ///< unique within a job: "V2 spring relaxed"
  std::string part;              ///< tag; empty where it is no part's
  std::string fault;             ///< "spring relaxed"
  std::string sentence, source;  ///< what is behind it and what the machine shows; who says so
  int on = -1;                   ///< part of the plan
  int which = -1;                ///< place in its kind's faults, or parameter, or input
  int other = -1;                ///< the second part of two
  int step = -1, command = -1;   ///< what is not done, or the step in whose middle it happens
  double time = 0.0;             ///< s into that step
  std::vector<PortOf> ports;     ///< what is joined to the reservoir, or where the oil gets out
  PortOf reservoir{};            ///< its port
  double slight = 0.0, grave = 0.0;
  bool factors = false;   ///< sizes lie between the two by factors, else by differences
  bool one_size = false;  ///< it is there or it is not: always its grave size

  /// Factor, difference or value, SI, by the kind of change.
  double size(double t) const;
};

/// A fault that a part's room knows and that this job has nothing to change for.
struct NotApplicable {
  std::string name, reason;
};

struct FaultList {
  std::vector<FaultPlace> places;
  std::vector<NotApplicable> not_applicable;
};

/// Every fault that the job can have, in a fixed order: of its parts, of the circuit around them, of the oil,
/// of the power, of people. `nominal` is the run of the sound machine with everything recorded: it says where
/// the middle of a step lies that waits for something, and in which step oil stands highest, so that a line
/// bursts there. Without it half of the longest wait is taken, and the first step.
FaultList list_faults(const Job& job, const Trace* nominal = nullptr);
std::vector<FaultPlace> faults_of(const Job& job, const Trace* nominal = nullptr);

/// Adjusters that stand elsewhere than the job says. `poise faults` does without them: rooms state what
/// springs do. Who looks for the cause of a reading needs both.
std::vector<FaultPlace> wrong_settings(const Job& job);

/// The job with the fault in it; none where its values do not go together at this size. Parts that stand for
/// the fault come behind those of the job; every index into the job's own stays good.
std::optional<Job> with_fault(const Job& job, const FaultPlace& place, double t);

/// "setting 72.0 bar", in the job's units: what is so at this size.
std::string change_at(const Job& job, const FaultPlace& place, double t);
/// "setting 120 bar → 116 … 72.0 bar".
std::string change_of(const Job& job, const FaultPlace& place);

/// Whether the run has the step `place.step` in two halves.
bool splits_a_step(const FaultPlace& place);

}  // namespace poise::study
