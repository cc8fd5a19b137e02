// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/worked.hpp"

namespace poise::worked {

/// A sharp-edged hole that is open by a share of its area.
struct Hole {
  Orifice orifice;
  double share = 1.0;
  std::string share_meaning{};  ///< empty: it is always fully open
};

/// Drop of a flow over it, with density and viscosity of the oil upstream at `pressure` (NaN: at none).
Expression drop_of(const Hole& hole, const Oil& oil, const Flow& flow, double pressure);

/// Density and viscosity upstream as terms "ρ" and "ν".
struct Upstream {
  double density, viscosity;
  Upstream(const Oil& oil, double pressure);
  Term density_term() const;
  Term viscosity_term() const;
};

}  // namespace poise::worked
