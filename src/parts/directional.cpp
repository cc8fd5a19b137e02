// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/directional.hpp"

namespace poise::directional {

double opening(bool in_old, bool in_new, double s, double overlap) {
  if (in_old && in_new) return 1.0;
  const double s1 = 0.5 * (1.0 - overlap), s2 = 0.5 * (1.0 + overlap);
  if (in_old) return std::clamp(1.0 - s / s1, 0.0, 1.0);
  if (in_new) return std::clamp((s - s2) / (1.0 - s2), 0.0, 1.0);
  return 0.0;
}

bool has_path(const Position& position, Path path) {
  for (int i = 0; i < position.count; ++i) {
    const Path& open = position.paths[i];
    if ((open.from == path.from && open.to == path.to) || (open.from == path.to && open.to == path.from))
      return true;
  }
  return false;
}

}  // namespace poise::directional
