// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Oil that has mass: what a line with inertia shows beyond one without.
#include <gtest/gtest.h>

#include <cmath>

#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double bore = 12 * si::mm, wall = 2 * si::mm, length = 10.0;
constexpr double flow = 2 * si::litre_per_minute;

/// A pump presses oil through a long tube and an open valve to tank; the valve shuts within a millisecond.
Bench long_tube(double segments, double inertia) {
  Bench b;
  b.plan.oil.air = 1e-5;
  // So thin that friction takes a third of a percent of the rise: the closed form has none.
  b.plan.oil.viscosity_40 = 2 * si::mm2_per_s;
  b.plan.oil.viscosity_100 = 1 * si::mm2_per_s;
  b.part("T1", "reservoir", {{"usable_oil", 20 * si::litre}});
  b.part(
      "P1", "pump",
      {{"flow", flow}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 250 * si::bar}, {"running", 1.0}});
  b.part("L1", "tube",
         {{"bore", bore}, {"wall", wall}, {"length", length}, {"segments", segments}, {"inertia", inertia}});
  b.part("V1", "shut_off",
         {{"rated_flow", flow},
          {"pressure_drop", 5 * si::bar},
          {"position", 1.0},
          {"port_volume", 0.05 * si::cm3}});
  b.join({"T1.T", "P1.S", "V1.B"});
  b.join({"P1.P", "L1.A"});
  b.join({"L1.B", "V1.A"});
  b.step("flow", 0.1);
  b.step("shut", 0.014, {{"V1", "position", 0.0, 0.5 * si::ms}});
  return b;
}

TEST(waves, a_valve_that_shuts_at_once_raises_the_pressure_by_density_times_speed_of_sound_times_speed) {
  const Bench b = long_tube(200, 1);
  const Trace trace = b.run({"V1.A.pressure", "L1.A.pressure", "L1.B.flow"});
  // Joukowsky: dp = ρ·c·v; c = sqrt(K_e/ρ/(1 + K_e·D/(s·E))), the wave of an elastic thin-walled tube
  // (Wylie & Streeter, Fluid Transients, from memory).
  const Oil oil(b.plan.oil);
  const double p = at(trace, "V1.A.pressure", 0.0999), modulus = oil.effective_modulus(p + 4e5),
               density = oil.density(p + 4e5).value;
  const double c = std::sqrt(modulus / density / (1.0 + modulus * bore / (wall * 210e9)));
  const double v = flow / circle(bore);
  // In the middle of the time that the wave takes to the pump and back, 2·L/c = 15 ms.
  EXPECT_NEAR(at(trace, "V1.A.pressure", 0.1075) - p, density * c * v, 0.01 * density * c * v);
  // The wave gets to the pump's end after L/c: half the rise is there when half the front is.
  const double risen =
      first_above(trace, "L1.A.pressure", at(trace, "L1.A.pressure", 0.0999) + 0.5 * density * c * v);
  EXPECT_NEAR(risen - 0.1, length / c + 0.00025, 0.05 * length / c);
  expect_closed_books(trace);
}

TEST(waves, without_inertia_the_pressure_rises_only_as_the_pump_fills_the_line) {
  const Trace trace = long_tube(1, 0).run({"V1.A.pressure"});
  const Trace with = long_tube(50, 1).run({"V1.A.pressure"});
  EXPECT_LT(at(trace, "V1.A.pressure", 0.102) - at(trace, "V1.A.pressure", 0.0999),
            0.5 * (at(with, "V1.A.pressure", 0.102) - at(with, "V1.A.pressure", 0.0999)));
}

TEST(waves, at_rest_a_line_in_pieces_with_inertia_loses_what_one_piece_without_loses) {
  const auto drop = [](double segments, double inertia) {
    const Trace trace =
        long_tube(segments, inertia).run({"L1.A.pressure", "L1.B.pressure", "L1.A.flow", "L1.B.flow"});
    expect_closed_books(trace);
    EXPECT_NEAR(at(trace, "L1.A.flow", 0.0999), -at(trace, "L1.B.flow", 0.0999), 1e-3 * flow);
    return at(trace, "L1.A.pressure", 0.0999) - at(trace, "L1.B.pressure", 0.0999);
  };
  const double one = drop(1, 0);
  EXPECT_NEAR(drop(10, 0), one, 1e-3 * one);
  EXPECT_NEAR(drop(10, 1), one, 1e-3 * one);
}

}  // namespace
}  // namespace poise::workshop
