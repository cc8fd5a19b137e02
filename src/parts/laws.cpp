// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/laws.hpp"

namespace poise {

double contact_heat(double depth, double approach, double stiffness, double damping) {
  if (!(depth > 0.0)) return 0.0;
  return (contact(depth, approach, stiffness, damping) - stiffness * depth) * approach;
}

}  // namespace poise
