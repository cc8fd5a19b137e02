// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>

namespace poise {

/// How a part stands at a moment, for its drawing. Every span may be empty: then the part is drawn at rest.
struct Pose {
  std::span<const double> position;  ///< of each motion port, m from retracted
  std::span<const double> flow;      ///< of each oil port, m3/s into the part
  std::span<const double> input;     ///< of each input, SI; of words the index, between two while it shifts
  std::span<const bool> mode;
};

}  // namespace poise
