// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <gtest/gtest.h>

#include <cmath>

#include "support/workshop.hpp"

namespace poise::workshop {

/// A relief valve and what it is built for.
struct ReliefData {
  double cracking;    ///< Pa
  double rated_flow;  ///< m3/s, passed at cracking·(1 + override)
  double override_share = 0.10;
  double band() const { return override_share * cracking; }
};

/// T1, P1 (no slip) and V1 over the pump, V1's outlet and the pump's suction in the reservoir.
inline void add_power_unit(Bench& b, double flow, const ReliefData& relief,
                           double usable_oil = 20 * si::litre) {
  b.part("T1", "reservoir", {{"usable_oil", usable_oil}});
  b.part("P1", "pump", {{"flow", flow}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 250 * si::bar}});
  b.part(
      "V1", "relief",
      {{"setting", relief.cracking}, {"override", relief.override_share}, {"rated_flow", relief.rated_flow}});
  b.join({"P1.P", "V1.P"});
  b.join({"T1.T", "P1.S", "V1.T"});
}

/// Pressure over a relief valve that passes a pump's whole flow, by the law of opening: x = (p −
/// p_crack)/band and p = (a·Q² + b·Q)/x², with a, b through the rated point (laminar share 10 %). `flow` is
/// at suction density; the oil is denser at the valve by its inlet pressure, p + back.
inline double relief_drop(const ReliefData& v, double flow, const Oil& oil, double back = 0.0) {
  const double full_drop = v.cracking + v.band();
  const double a = full_drop / (1.1 * v.rated_flow * v.rated_flow), b = 0.1 * a * v.rated_flow;
  double p = full_drop;
  for (int i = 0; i < 50; ++i) {
    const double q = flow * oil.density_at_zero() / oil.density(p + back).value;
    p = v.cracking + v.band() * std::sqrt((a * q * q + b * q) / p);
  }
  return p;
}

/// What every run owes: it came to its end, no oil appeared or vanished, and the energy is accounted for.
inline void expect_closed_books(const Trace& trace) {
  EXPECT_FALSE(trace.halt) << trace.halt->sentence;
  EXPECT_LE(trace.books.mass_share(), 1e-6);
  EXPECT_LE(trace.books.energy_share(), 1e-3);
}

}  // namespace poise::workshop
