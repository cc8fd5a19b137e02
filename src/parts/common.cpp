// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/common.hpp"

namespace poise::common {

std::vector<Mismatch> check_opens_below_drop(const Values& values) {
  const CheckOpening opening(values["cracking_pressure"]);
  const double open_at = opening.cracking + opening.band;
  if (values["pressure_drop"] >= open_at) return {};
  return {{"pressure_drop",
           "the check is fully open only at twice its cracking pressure (or a little above, where that is "
           "small); the "
           "pressure drop at rated flow cannot be below that"}};
}

}  // namespace poise::common
