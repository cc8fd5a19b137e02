// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>

#include "by_hand/stand.hpp"

namespace poise::by_hand {

/// How the model is integrated. The values here are the fastest of sixty that met all marks of
/// bench/stand.cpp at forty tolerances around the nominal one: 17 ms. A fresh Jacobian at each step takes 22
/// ms. Old Jacobians with CVODES' own convergence of 0.1 take up to 35 times the steps (order 5: 70 times),
/// and with 0.01 two of the forty still show a pressure peak that is not there.
struct Method {
  int highest_order = 2;       ///< of the BDF
  int renew_every = 10;        ///< steps between two Jacobians, at the most
  double convergence = 0.003;  ///< of the corrector, as a share of the error allowed in a step
  double tighter = 1.0;        ///< divides all noise levels
};

/// What a run of ten seconds of machine time leaves.
struct Outcome {
  bool finished = false;
  long steps = 0, evaluations = 0;
  double k1_touches = -1.0, s1_met = -1.0, r1_in = -1.0;  ///< s, interpolated within the step
  std::array<double, volumes> highest{};                  ///< pressures at the ends of steps, Pa
  std::array<double, movers> clamp_peak{};                ///< N, of the clamps
};
Outcome run(const Method& chosen);

}  // namespace poise::by_hand
