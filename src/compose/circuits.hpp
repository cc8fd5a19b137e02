// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "job/job.hpp"

namespace poise::compose {

/// Why a part was put into a circuit.
struct BlockReason {
  std::string tag;
  std::string block;     ///< "hold", "meter", ...
  std::string sentence;  ///< in a practitioner's words, with what asked for it
};

/// A circuit that might do what a job without one asks for.
struct Composed {
  std::string text;  ///< the job with its circuit; what is still to be worked out reads "find"
  std::string name;  ///< in a few words: what it is made of, as far as others are made differently
  std::vector<BlockReason> reasons;
};

/// Several circuits for a job that has none, each different in at least one block; the plainest first. Which
/// blocks there are follows from what its steps and requirements ask of its actuators, never from their
/// names.
std::variant<std::vector<Composed>, Complaints> circuits_for(std::string_view text,
                                                             std::string_view file_name);

}  // namespace poise::compose
