// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Laws that use the viscosity, with oil that thickens under pressure.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "parts/laws.hpp"
#include "parts/line.hpp"

namespace poise {
namespace {

Oil oil_with(PressureViscosity law) {
  OilData data;
  data.pressure_viscosity = law;
  return Oil(data);
}

OilHere<double> at(const Oil& oil, double p) { return {p, oil.density(p).value}; }

/// Pressures in lanes 0 and 1, densities following them.
OilHere<Dual<2>> lane(const Oil& oil, double p, int index) {
  const Oil::Density density = oil.density(p);
  OilHere<Dual<2>> here{Dual<2>::lane(p, index), Dual<2>(density.value)};
  here.density.slope[index] = density.slope;
  return here;
}

constexpr double pairs[][2] = {{300e5, 20e5}, {20e5, 300e5}, {201e5, 200e5}, {-0.3e5, 2e5}};

/// The slopes of `flow` by both pressures against central differences, but for the rounding of these.
template <class Flow>
void expect_exact_slopes(const Oil& oil, const Flow& flow) {
  for (const auto& [p0, p1] : pairs) {
    const Dual<2> found = flow(lane(oil, p0, 0), lane(oil, p1, 1));
    EXPECT_DOUBLE_EQ(found.value, flow(at(oil, p0), at(oil, p1)));
    const double h = 20.0;
    const double rounding = 16 * std::numeric_limits<double>::epsilon() * std::abs(found.value) / h;
    const double by_0 = (flow(at(oil, p0 + h), at(oil, p1)) - flow(at(oil, p0 - h), at(oil, p1))) / (2 * h);
    const double by_1 = (flow(at(oil, p0), at(oil, p1 + h)) - flow(at(oil, p0), at(oil, p1 - h))) / (2 * h);
    EXPECT_NEAR(found.slope[0], by_0, 1e-6 * std::abs(by_0) + rounding) << p0 << ", " << p1;
    EXPECT_NEAR(found.slope[1], by_1, 1e-6 * std::abs(by_1) + rounding) << p0 << ", " << p1;
  }
}

constexpr PressureViscosity laws[] = {PressureViscosity::none, PressureViscosity::barus,
                                      PressureViscosity::roelands};

TEST(thickening_oil, an_orifice_has_exact_slopes) {
  for (PressureViscosity law : laws) {
    const Oil oil = oil_with(law);
    const Orifice orifice{.area = circle(0.4 * si::mm), .viscosity = oil.viscosity_law()};
    expect_exact_slopes(oil, [&]<class T>(const OilHere<T>& from, const OilHere<T>& to) {
      return orifice.flow(from, to, T(0.5));
    });
  }
}

// One bore laminar throughout, one turbulent with 280 bar.
TEST(thickening_oil, a_bore_has_exact_slopes) {
  for (PressureViscosity law : laws) {
    const Oil oil = oil_with(law);
    for (double length : {200.0, 2.0}) {
      const Bore bore(8 * si::mm, length, 0.0, 1.0, 0.0, oil);
      expect_exact_slopes(oil, [&](const auto& from, const auto& to) { return bore.mass_flow(from, to); });
    }
  }
}

// Friction by the flow is the flow by the friction read backwards, and its slopes are exact too.
TEST(thickening_oil, the_friction_of_a_flow_is_the_drop_that_drives_it) {
  for (PressureViscosity law : laws) {
    const Oil oil = oil_with(law);
    for (double length : {200.0, 2.0}) {
      const Bore bore(8 * si::mm, length, 0.0, 1.0, 0.0, oil);
      for (const auto& [p0, p1] : pairs) {
        const double flow = bore.mass_flow(at(oil, p0), at(oil, p1));
        EXPECT_NEAR(bore.friction_drop(flow, at(oil, p0), at(oil, p1)), p0 - p1, 1e-5 * std::abs(p0 - p1));
      }
      for (double flow : {0.3, -0.02})
        expect_exact_slopes(oil, [&]<class T>(const OilHere<T>& from, const OilHere<T>& to) {
          return bore.friction_drop(T(flow), from, to);
        });
    }
  }
}

// Hagen–Poiseuille with the viscosity at the upstream end: w = π·D⁴·Δp/(128·ν·L).
TEST(thickening_oil, a_laminar_line_passes_what_the_upstream_viscosity_lets_through) {
  const double bore = 4 * si::mm, length = 50.0;
  for (PressureViscosity law : laws) {
    const Oil oil = oil_with(law);
    const Bore line(bore, length, 0.0, 0.0, 0.0, oil);
    const double high = 300 * si::bar, drop = 20 * si::bar;
    const double expected =
        std::numbers::pi * bore * bore * bore * bore * drop / (128 * oil.viscosity(high).value * length);
    EXPECT_NEAR(line.mass_flow(at(oil, high), at(oil, high - drop)), expected, 1e-9 * expected);
    EXPECT_NEAR(line.mass_flow(at(oil, high - drop), at(oil, high)), -expected, 1e-9 * expected);
  }
}

// Q_t = Re_t·ν·A/d: Δp = a·(Q² + Q_t·Q)/x² with ν of the upstream side.
TEST(thickening_oil, an_orifice_turns_laminar_by_the_upstream_viscosity) {
  const Oil oil = oil_with(PressureViscosity::barus);
  const double hole = 0.5 * si::mm, area = circle(hole), high = 400 * si::bar;
  const Orifice orifice{.area = area, .viscosity = oil.viscosity_law()};
  const OilHere<double> from = at(oil, high), to = at(oil, 399 * si::bar);
  const double q = orifice.flow(from, to, 1.0);
  const double a = from.density / (2 * 0.62 * 0.62 * area * area);
  const double q_t = 100 * oil.viscosity(high).value * area / hole;
  EXPECT_NEAR(a * (q * q + q_t * q), 1 * si::bar, 1e-9 * si::bar);
}

}  // namespace
}  // namespace poise
