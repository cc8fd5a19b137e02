// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The laws that the rooms share, each against its formula or a published value.
#include "parts/laws.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "parts/directional.hpp"
#include "parts/kind.hpp"
#include "parts/pipe_flow.hpp"
#include "parts/relief.hpp"

namespace poise {
namespace {

constexpr double digits = 1e-12;  ///< what rounding leaves of a closed form
#define EXPECT_SAME(found, expected) EXPECT_NEAR(found, expected, digits* std::abs(expected))

// Q_t = s·Q_r and a = Δp_r/(Q_r²·(1 + s)) make Δp = b·Q + a·Q² pass through its datasheet point.
TEST(restriction, passes_through_its_datasheet_point) {
  const double flow = 12 * si::litre_per_minute, drop = 5 * si::bar;
  for (double share : {0.02, 0.1, 0.5}) {
    const Restriction r = Restriction::through(flow, drop, share);
    EXPECT_SAME(r.flow(drop, 1.0), flow);
    EXPECT_SAME(r.b / r.a, share * flow);
  }
}

TEST(restriction, inverts_its_quadratic_at_every_opening_and_is_odd) {
  const Restriction r = Restriction::through(12 * si::litre_per_minute, 5 * si::bar);
  for (double opening : {1.0, 0.3, 0.01}) {
    for (double drop : {1.0, 1e3, 1e5, 3e7}) {
      const double q = r.flow(drop, opening);
      EXPECT_SAME((r.a * q * q + r.b * q) / (opening * opening), drop);
      EXPECT_EQ(r.flow(-drop, opening), -q);
    }
  }
  EXPECT_EQ(r.flow(1e5, 0.0), 0.0);
  EXPECT_EQ(r.flow(0.0, 1.0), 0.0);
}

// Points that lie on Δp = b·Q + a·Q², with a quarter of the drop at 12 L/min laminar: least squares leaves
// nothing.
TEST(restriction, fitted_to_points_of_its_own_equation_finds_both_coefficients) {
  const double most = 12 * si::litre_per_minute, drop = 5 * si::bar;
  const double a = 0.75 * drop / (most * most), b = 0.25 * drop / most;
  std::vector<CurvePoint> points;
  for (double share : {0.2, 0.4, 0.6, 0.8, 1.0}) {
    const double flow = share * most;
    points.push_back({flow, b * flow + a * flow * flow});
  }
  const Restriction fitted = Restriction::fitted(points);
  EXPECT_NEAR(fitted.a, a, 1e-9 * a);
  EXPECT_NEAR(fitted.b, b, 1e-9 * b);
}

// At rest the law is laminar: dQ/dΔp = 1/b.
TEST(restriction, is_laminar_at_rest) {
  const Restriction r = Restriction::through(12 * si::litre_per_minute, 5 * si::bar);
  const auto at_rest = r.flow(Dual<1>::lane(0.0, 0), 1.0);
  EXPECT_EQ(at_rest.value, 0.0);
  EXPECT_SAME(at_rest.slope[0], 1 / r.b);
}

// Check value OR-02 (Sullivan, Fluid Power, Example 5.4, p. 90): 1,000 US gpm through 3.14 in2 at 120 psi,
// specific gravity 0.85, with the discharge coefficient 0.7055 that follows from it.
TEST(orifice, passes_the_flow_of_its_equation_or02) {
  const double inch = 0.0254, psi = 6894.757, gpm = 231 * inch * inch * inch / 60;
  const Orifice o{.area = 3.14 * inch * inch, .discharge = 0.705527, .viscosity = 0.0};
  const OilHere<double> from{120 * psi, 849.235}, to{0.0, 849.235};
  EXPECT_NEAR(o.flow(from, to, 1.0), 1000 * gpm, 1e-3 * 1000 * gpm);
}

// Δp = a·(Q² + Q_t·Q)/x², a = ρ/(2·Cd²·A²), and Q_t is where Re = Q·d/(A·ν) = 100. ρ is that of the upstream
// side.
TEST(orifice, adds_its_laminar_term_and_takes_the_upstream_density) {
  const double hole = 1.5 * si::mm, viscosity = 46e-6, area = circle(hole);
  const Orifice o{.area = area, .viscosity = viscosity};
  EXPECT_SAME(o.laminar_flow() * hole / (area * viscosity), 100.0);
  const OilHere<double> dense{80 * si::bar, 880.0}, thin{10 * si::bar, 860.0};
  for (double x : {1.0, 0.25}) {
    const double a = dense.density / (2 * 0.62 * 0.62 * area * area);
    const double q = o.flow(dense, thin, x);
    EXPECT_SAME(a * (q * q + o.laminar_flow() * q) / (x * x), dense.pressure - thin.pressure);
    EXPECT_EQ(o.flow(thin, dense, x), -q);
  }
}

// Check value FR-24 (Churchill 1977, as carried by a scientific library): Re = 1e5, ε/D = 1e-4.
TEST(churchill, rough_and_turbulent_fr24) { EXPECT_NEAR(churchill(1e5, 1e-4), 0.018462624566, 1e-11); }

// Check value FR-26: laminar, 64/Re = 0.5 at Re = 128.
TEST(churchill, laminar_is_64_over_reynolds_fr26) {
  EXPECT_NEAR(churchill(128.0, 0.0), 0.5, 1e-9);
  for (double re : {1.0, 30.0, 500.0}) EXPECT_NEAR(churchill(re, 1e-3) * re, 64.0, 1e-6 * 64.0);
}

// S = (f(Re) + ΣK·D/L)·Re², read backwards, within 1e-6 of the law everywhere, the change to turbulence
// included.
TEST(pipe_curve, inverts_churchills_law) {
  for (double roughness : {0.0, 1e-4, 1e-2}) {
    for (double fittings : {0.0, 0.05, 5.0}) {
      const PipeCurve curve(roughness, fittings);
      for (double log_re = -3.0; log_re < 7.9; log_re += 0.00137) {
        const double re = std::pow(10.0, log_re);
        const double s = (churchill(re, roughness) + fittings) * re * re;
        ASSERT_NEAR(curve.reynolds(s).value, re, 1e-6 * re)
            << "roughness " << roughness << ", fittings " << fittings;
      }
    }
  }
}

// Churchill's factor of a rough wall no longer hangs on Re: S grows with its square, however far a solver
// tries.
TEST(pipe_curve, goes_on_fully_turbulent_beyond_all_real_flows) {
  const PipeCurve curve(1e-2, 0.05);
  for (double re : {1e9, 1e12, 1e20}) {
    const double s = (churchill(1e8, 1e-2) + 0.05) * re * re;
    EXPECT_NEAR(curve.reynolds(s).value, re, 1e-3 * re);
    EXPECT_NEAR(curve.reynolds(4.0 * s).value / curve.reynolds(s).value, 2.0, 2e-4);
    EXPECT_NEAR(curve.reynolds(s).slope, 0.5 * re / s, 1e-3 * re / s);
  }
}

// Its slope is that of its own curve (central difference), the join of closed form and grid aside.
TEST(pipe_curve, gives_the_slope_of_its_own_curve) {
  const PipeCurve curve(1e-4, 0.05);
  for (double re : {1.0, 50.0, 700.0, 2300.0, 2900.0, 4000.0, 1e5}) {
    const double s = curve.drop(re), h = 1e-5 * s;
    const double slope = (curve.reynolds(s + h).value - curve.reynolds(s - h).value) / (2 * h);
    EXPECT_NEAR(curve.reynolds(s).slope, slope, 1e-5 * slope) << re;
  }
}

TEST(share_of_band, is_exactly_shut_and_open_outside_its_corners) {
  const double band = 8 * si::bar;
  EXPECT_EQ(share_of_band(-0.0101 * band, band), 0.0);
  EXPECT_EQ(share_of_band(1.0101 * band, band), 1.0);
  EXPECT_SAME(share_of_band(0.5 * band, band), 0.5);
  EXPECT_SAME(share_of_band(0.25 * band, band), 0.25);
  // Half a corner in, the rounding stands a quarter of its 1 % off the sharp corner.
  EXPECT_SAME(share_of_band(0.0, band), 0.01 / 4);
  EXPECT_SAME(share_of_band(band, band), 1 - 0.01 / 4);
}

TEST(share_of_band, has_neither_jumps_nor_kinks) {
  const double band = 8 * si::bar, step = 1e-9;
  for (double corner : {-0.01, 0.01, 0.99, 1.01}) {
    const auto below = share_of_band(Dual<1>::lane((corner - step) * band, 0, band), band);
    const auto above = share_of_band(Dual<1>::lane((corner + step) * band, 0, band), band);
    EXPECT_NEAR(below.value, above.value, 3 * step);
    EXPECT_NEAR(below.slope[0], above.slope[0], 200 * step);  // the slope turns by 1 over 2 % of the band
  }
}

// s1 = (1 − o)/2, s2 = (1 + o)/2: old paths shut by s1, new ones begin at s2; what is in both stays open.
TEST(directional_opening, follows_its_overlap) {
  using directional::opening;
  for (double overlap : {-0.4, 0.0, 0.4}) {
    const double s1 = (1 - overlap) / 2, s2 = (1 + overlap) / 2;
    EXPECT_EQ(opening(true, false, 0.0, overlap), 1.0);
    EXPECT_EQ(opening(false, true, 0.0, overlap), 0.0);
    EXPECT_SAME(opening(true, false, 0.5 * s1, overlap), 0.5);
    EXPECT_SAME(opening(false, true, s2 + 0.5 * (1 - s2), overlap), 0.5);
    EXPECT_NEAR(opening(true, false, s1, overlap), 0.0, digits);
    EXPECT_NEAR(opening(false, true, s2, overlap), 0.0, digits);
    EXPECT_EQ(opening(true, false, 1.0, overlap), 0.0);
    EXPECT_EQ(opening(false, true, 1.0, overlap), 1.0);
    for (double s : {0.0, 0.3, 0.5, 1.0}) {
      EXPECT_EQ(opening(true, true, s, overlap), 1.0);
      EXPECT_EQ(opening(false, false, s, overlap), 0.0);
    }
  }
}

TEST(directional_opening, overlap_shuts_both_at_half_way_and_underlap_opens_both) {
  using directional::opening;
  for (bool old_one : {true, false}) {
    EXPECT_EQ(opening(old_one, !old_one, 0.5, 0.4), 0.0);
    EXPECT_SAME(opening(old_one, !old_one, 0.5, -0.4), 1 - 0.5 / 0.7);
  }
}

// Check value OR-06 (Fox and McDonald, 5th ed., Example 8.1): clearance leakage of a 25 mm spool, 57.57 mm3/s
// at 19 MPa by Q = π·D·c³·Δp/(12·μ·L). A leak stated at one pressure follows that formula at every other.
TEST(leak, of_a_clearance_grows_with_the_pressure_or06) {
  const auto clearance = [](double drop) {
    return std::numbers::pi * 0.025 * std::pow(5e-6, 3) * drop / (12 * 0.018 * 0.015);
  };
  ASSERT_NEAR(clearance(19e6), 57.57162e-9, 1e-4 * 57.57162e-9);
  const Leak leak = Leak::at(57.57162e-9, 19e6);
  for (double drop : {1e5, 7e6, -19e6})
    EXPECT_NEAR(leak.flow(drop), clearance(drop), 1e-4 * std::abs(clearance(drop)));
  EXPECT_EQ(Leak::at(0.0, 19e6).flow(19e6), 0.0);
}

/// A relief valve whose setting was read with a flow going over it.
Values relief_read_at(double reading, double flow, double override_share, double rated_flow) {
  const Kind& kind = *find_kind("relief");
  std::vector<double> numbers;
  for (const Parameter& p : kind.parameters) numbers.push_back(p.fallback.value_or(std::nan("")));
  const auto set = [&](std::string_view name, double value) {
    numbers[*find_parameter(kind.parameters, name)] = value;
  };
  set("setting", reading);
  set("setting_flow", flow);
  set("override", override_share);
  set("rated_flow", rated_flow);
  return Values(kind.parameters, numbers);
}

// Set with a flow over it, the valve passes just that flow at just that reading, once its opening has come to
// rest.
TEST(relief_setting, read_with_a_flow_passes_that_flow_at_that_reading) {
  const double reading = 210 * si::bar, rated = 12 * si::litre_per_minute;
  const Oil oil{OilData{}};
  for (double override_share : {0.01, 0.1, 0.5}) {
    for (double flow : {0.01 * rated, 0.3 * rated, 0.9 * rated}) {
      const Values values = relief_read_at(reading, flow, override_share, rated);
      const double cracking = ReliefOpening(values).cracking;
      ASSERT_LT(cracking, reading);
      const Relief valve(values, oil);
      Here<Relief, double> here;
      here.oil = {OilHere<double>{reading, oil.density(reading).value},
                  OilHere<double>{0.0, oil.density(0.0).value}};
      here.state = {share_of_band(reading - cracking, override_share * cracking)};
      const auto answer = valve.law(here);
      EXPECT_NEAR(answer.inflow[0] / oil.density(reading).value, flow, 1e-9 * flow);
      EXPECT_NEAR(answer.rate[0], 0.0, 1e-9);
    }
  }
}

// The rated flow passes at cracking + override: read there, it cracks at reading/(1 + override), less the
// last rounding of the band's corner (a quarter of 1 % of the band).
TEST(relief_setting, read_at_the_rated_flow_is_cracking_plus_override) {
  const double reading = 220 * si::bar, rated = 12 * si::litre_per_minute, share = 0.1;
  const double cracking = ReliefOpening(relief_read_at(reading, rated, share, rated)).cracking;
  EXPECT_NEAR(cracking, reading / (1 + share), 0.01 * share * cracking);
}

TEST(relief_setting, without_a_flow_is_the_cracking_pressure) {
  const double reading = 220 * si::bar;
  EXPECT_EQ(ReliefOpening(relief_read_at(reading, std::nan(""), 0.1, 12 * si::litre_per_minute)).cracking,
            reading);
}

}  // namespace
}  // namespace poise
