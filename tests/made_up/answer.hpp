// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "support/made_up_job.hpp"

namespace poise::made_up {

/// How a job ended: what `poise prove` would say of it.
enum class Ending {
  refused,     ///< complaints of the reader
  held,        ///< all requirements
  broken,      ///< some of them, seen
  too_early,   ///< not proven: it ended before anything was seen to break
  books_open,  ///< not proven: the books do not close
};
std::string_view word(Ending ending);

/// What came of a job on its whole way, and what is wrong with the answer itself.
struct Answer {
  Ending ending = Ending::refused;
  std::string halt;  ///< why it ended early
  long steps = 0;    ///< of the integrator
  double mass_share = 0.0, energy_share = 0.0;
  double cpu_seconds = 0.0;             ///< for reports alone
  std::vector<std::string> complaints;  ///< of the reader
  std::vector<std::string> wrong;       ///< empty: the answer is as it must be
};

/// How closely an answer is looked at.
enum class Look {
  usual,
  closely,  ///< also its JSON by the schema, its traces as CSV, its drawing
};

/// Reads, builds, runs and judges the text as `poise prove` does, and looks at all that it says.
/// `most_steps`: of the integrator, after which the run is given up.
Answer answer_to(const MadeUpJob& job, Look look, long most_steps);
/// The same for a text alone.
Answer answer_to(const std::string& text, Look look, long most_steps);

}  // namespace poise::made_up
