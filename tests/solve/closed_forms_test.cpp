// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Circuits whose answer can be written down. 0.1 % is the bar for closed forms.
#include <gtest/gtest.h>

#include <cmath>

#include "parts/laws.hpp"
#include "support/workshop.hpp"

namespace poise {
namespace {

using workshop::Bench;
using workshop::last;

constexpr double closed_form = 1e-3;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form * std::abs(expected))

void add_power_unit(Bench& b, double flow, double efficiency = 1.0) {
  b.part("T1", "reservoir", {{"usable_oil", 20 * si::litre}});
  b.part("P1", "pump", {{"flow", flow}, {"volumetric_efficiency", efficiency}, {"rated_pressure", 250 * si::bar}});
  b.join({"T1.T", "P1.S"});
}

// Pump with full flow into a closed volume: dp/dt = K_e·(ρ_suction/ρ)·Q/V. Source: conservation of mass (physics §7.1).
TEST(closed_form, dead_headed_pump_raises_pressure_at_modulus_times_flow_over_volume) {
  Bench b;
  const double flow = 2 * si::litre_per_minute, volume = 1 * si::litre;
  add_power_unit(b, flow);
  b.part("G1", "gauge", {{"range", 1000 * si::bar}, {"give", 0.0}, {"port_volume", volume - 5 * si::cm3}});
  b.join({"P1.P", "G1.M"});
  b.set("P1", "start_time", 0.0);
  b.step("fill", 0.5, {{"P1", "running", 1.0}});
  const Trace trace = b.run({"G1.pressure"});

  const Oil oil(b.plan.oil);
  const double p1 = workshop::at(trace, "G1.pressure", 0.3), h = 1e-3;
  const double slope =
      (workshop::at(trace, "G1.pressure", 0.3 + h) - workshop::at(trace, "G1.pressure", 0.3 - h)) / (2 * h);
  const double expected =
      oil.effective_modulus(p1) * oil.density_at_zero() / oil.density(p1).value * flow / volume;
  EXPECT_CLOSE(slope, expected);
  // And without any slope: mass in = mass that the volume has gained.
  const double mass = oil.density(last(trace, "G1.pressure")).value * volume;
  EXPECT_CLOSE(mass - oil.density_at_zero() * volume, oil.density_at_zero() * flow * 0.5);
}

}  // namespace
}  // namespace poise
