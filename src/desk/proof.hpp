// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "circuit/circuit.hpp"
#include "desk/work.hpp"
#include "draw/pressure_colours.hpp"
#include "draw/schematic.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "trace/trace.hpp"

namespace poise::desk {

/// A job that was run and judged, with the moments at which its drawing can be shown.
struct Proof {
  explicit Proof(Job given) : job(std::move(given)), circuit(build(job.plan)) {}

  long number = 0;
  std::string made_from{};  ///< the text, units and signals that it was asked for with
  Job job;
  Circuit circuit;
  Trace trace;
  Verdict verdict;
  std::vector<Signal> charted;
  draw::PressureScale scale;
  double took = 0.0;  ///< s

  /// How the circuit is drawn, set down when it is first asked for.
  const draw::Schematic& schematic() const;

 private:
  mutable std::once_flag set_down_;
  mutable draw::Schematic schematic_;
};

/// Runs and judges a job that is without complaints; moments are looked at twenty times a second of the
/// machine, more seldom in long cycles. `more` are signals to be charted beside the usual ones; unknown ones
/// are left out. The verdict is that of `poise prove`: what is only charted does not add to its rows.
std::shared_ptr<Proof> prove(Job job, const std::vector<std::string>& more, Work& work);

/// The trace with the moments at the ends of steps alone: what the curves of parts are marked at.
Trace at_step_ends(const Trace& trace);

}  // namespace poise::desk
