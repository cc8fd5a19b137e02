// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/common.hpp"

#include <fmt/format.h>

namespace poise::common {

std::vector<Mismatch> check_opens_below_drop(const Values& values) {
  const CheckOpening opening(values["cracking_pressure"]);
  const double open_at = opening.cracking + opening.band;
  if (values["pressure_drop"] >= open_at) return {};
  return {
      {"pressure_drop",
       fmt::format(
           "the check is fully open only at {:.3g} bar (twice its cracking pressure, at least 0.2 bar above "
           "it); the pressure drop at rated flow cannot be below that",
           open_at / si::bar)}};
}

}  // namespace poise::common
