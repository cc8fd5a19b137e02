// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>

#include "by_hand/stand.hpp"

namespace poise::by_hand {

/// How the model is integrated. The values here are the fastest of those tried: 5,304 steps in 17 ms. With a
/// fresh Jacobian at each step 5,109 in 24 ms; as CVODES has it (kept, convergence 0.1) 13,404 in 42 ms, and
/// with order 5 347,747: an old Jacobian is safe only where the corrector converges ten times further.
struct Method {
  int highest_order = 2;      ///< of the BDF
  int renew_every = 10;       ///< steps between two Jacobians, at the most
  double convergence = 0.01;  ///< of the corrector, as a share of the error allowed in a step
  double tighter = 1.0;       ///< divides all noise levels
};

/// What a run of ten seconds of machine time leaves.
struct Outcome {
  bool finished = false;
  long steps = 0, evaluations = 0;
  double k1_touches = -1.0, s1_met = -1.0, r1_in = -1.0;  ///< s, interpolated within the step
  std::array<double, volumes> highest{};                  ///< pressures at the ends of steps, Pa
  std::array<double, movers> clamp_peak{};                ///< N, of the clamps
};
Outcome run(const Method& method);

}  // namespace poise::by_hand
