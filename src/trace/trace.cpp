// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "trace/trace.hpp"

#include <algorithm>
#include <cmath>

namespace poise {

double Books::mass_share() const {
  const double handled = mass_drawn + mass_at_start;
  return handled > 0.0 ? std::abs(mass_residual) / handled : 0.0;
}

double Books::energy_share() const {
  // Below a millijoule nothing has happened that could be accounted for.
  constexpr double nothing = 1e-3;
  // What stores gave away through a shaft, a falling line or an outside force was handled as much as what was
  // put in.
  return std::abs(energy_residual()) /
         std::max({put_in, std::abs(shaft), std::abs(delivered), flow_heat + friction_heat, nothing});
}

int Trace::column(std::string_view name) const {
  const auto at = std::ranges::find(signals, name, &Signal::name);
  return at == signals.end() ? -1 : static_cast<int>(at - signals.begin());
}

}  // namespace poise
