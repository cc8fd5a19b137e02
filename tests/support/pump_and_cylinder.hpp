// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "support/workshop.hpp"

namespace poise::workshop {

/// A pump that drives a cylinder, without a relief valve.
inline Bench pump_and_cylinder() {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part("P1", "pump", {{"flow", 2 * si::litre_per_minute}, {"rated_pressure", 250 * si::bar}});
  b.part("C1", "single_acting_cylinder", {{"bore", 40 * si::mm}, {"stroke", 0.1}});
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "C1.A"});
  return b;
}

/// A relief valve V1 with its outlet at the reservoir; its inlet is still to be joined.
inline void add_relief(Bench& b) {
  b.part("V1", "relief", {{"setting", 200 * si::bar}, {"rated_flow", 10 * si::litre_per_minute}});
  b.join({"V1.T", "T1.T"});
}

}  // namespace poise::workshop
