// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What damps a gauge: with the gauge's volume and give it makes a first-order lag.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "parts/laws.hpp"
#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double range = 250 * si::bar, give = 0.2 * si::cm3;

/// A line at about 100 bar that a second relief brings down at 2 s; the gauge G2 stands behind the damping.
Bench step_down(std::string_view kind, Bench::Numbers numbers, double viscosity_40) {
  Bench b;
  b.plan.oil.viscosity_40 = viscosity_40;
  b.plan.oil.viscosity_100 = 0.15 * viscosity_40;
  b.plan.oil.temperature = si::zero_celsius + 40;
  add_power_unit(b, 4 * si::litre_per_minute,
                 {.cracking = 100 * si::bar, .rated_flow = 8 * si::litre_per_minute});
  b.set("P1", "running", 1.0);
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
  b.part("V2", "directional_2_2",
         {{"rated_flow", 40 * si::litre_per_minute}, {"pressure_drop", 1 * si::bar}});
  b.part("V3", "relief", {{"setting", 90 * si::bar}, {"rated_flow", 8 * si::litre_per_minute}});
  b.part("G1", "gauge", {{"range", range}});
  b.part("N1", kind, numbers);
  b.part("G2", "gauge", {{"range", range}, {"give", give}, {"port_volume", 1 * si::cm3}});
  b.join({"P1.P", "H1.A"});
  b.join({"H1.B", "V2.P", "G1.M", "N1.A"});
  b.join({"V2.A", "V3.P"});
  b.join({"V3.T", "T1.T"});
  b.join({"N1.B", "G2.M"});
  b.step("high", 30.0);
  b.step("low", 8.0, {{"V2", "position", 1.0, 0.005}});
  return b;
}

/// The exact answer of a first-order lag to the line's pressure from 30 s on, straight between rows, row by
/// row; returns the greatest deviation of the damped gauge from it as a share of the step.
double deviation_from_lag(const Trace& t, double lag) {
  const auto& u = t.values[t.column("G1.reading")];
  const auto& damped = t.values[t.column("G2.reading")];
  double y = at(t, "G2.reading", 30.0), worst = 0.0;
  for (std::size_t i = 1; i < u.size(); ++i) {
    if (t.time[i - 1] < 30.0) continue;
    const double dt = t.time[i] - t.time[i - 1];
    if (dt <= 0.0) continue;
    const double behind = lag * (u[i] - u[i - 1]) / dt;
    y = u[i] - behind + (y - u[i - 1] + behind) * std::exp(-dt / lag);
    worst = std::max(worst, std::abs(damped[i] - y));
  }
  const double step = at(t, "G1.reading", 29.9) - last(t, "G1.reading");
  EXPECT_GT(step, 8 * si::bar);
  EXPECT_LT(last(t, "G2.reading"), at(t, "G2.reading", 30.0) - 0.9 * step);
  return worst / step;
}

double give_of_gauge(const Oil& oil, double p, double extra_volume) {
  const double wall = give / range, volume = 1 * si::cm3 + extra_volume + wall * p;
  return volume / oil.effective_modulus(p) + wall;
}

TEST(capillary, delays_a_gauge_by_its_resistance_times_the_gauges_give) {
  const double bore = 0.3 * si::mm, length = 0.6;
  const Bench b = step_down("capillary", {{"bore", bore}, {"length", length}, {"port_volume", 0.2 * si::cm3}},
                            60 * si::mm2_per_s);
  const Trace t = b.run({"G1.reading", "G2.reading"});
  expect_closed_books(t);
  const Oil oil{b.plan.oil};
  const double p = 0.5 * (at(t, "G1.reading", 29.9) + last(t, "G1.reading"));
  // Hagen–Poiseuille: 128·μ·L/(π·d⁴), μ = ν·ρ
  const double resistance =
      128 * oil.viscosity() * oil.density(p).value * length / (std::numbers::pi * std::pow(bore, 4));
  const double lag = resistance * give_of_gauge(oil, p, 0.2 * si::cm3 + 0.5 * circle(bore) * length);
  ASSERT_GT(lag, 0.3);
  // The line's modulus and density differ by some 1 % between its two pressures.
  EXPECT_LT(deviation_from_lag(t, lag), 0.01);
}

TEST(snubber, delays_a_gauge_by_its_laminar_resistance_times_the_gauges_give) {
  const double bore = 0.05 * si::mm;
  const Bench b = step_down("snubber", {{"bore", bore}, {"port_volume", 0.2 * si::cm3}}, 150 * si::mm2_per_s);
  const Trace t = b.run({"G1.reading", "G2.reading"});
  expect_closed_books(t);
  const Oil oil{b.plan.oil};
  const double p = 0.5 * (at(t, "G1.reading", 29.9) + last(t, "G1.reading")), area = circle(bore);
  const double turbulent = oil.density(p).value / (2 * 0.62 * 0.62 * area * area),
               laminar_flow = 100 * oil.viscosity() * area / bore, resistance = turbulent * laminar_flow;
  const double step = at(t, "G1.reading", 29.9) - last(t, "G1.reading");
  const double not_laminar = step / resistance / laminar_flow;  // a·Q²/(b·Q) at most
  ASSERT_LT(not_laminar, 0.02);
  EXPECT_LT(deviation_from_lag(t, resistance * give_of_gauge(oil, p, 0.2 * si::cm3)), 0.01 + not_laminar);
}

// R. W. Fox and A. T. McDonald, Introduction to Fluid Mechanics, 5th ed., example 8.4: 880 mm3/s through 0.5
// mm × 1 m at 1.0 MPa belong to 1.743e-3 Pa·s (the book rounds to 0.0017).
TEST(capillary, passes_what_a_book_gives) {
  OilData data;
  data.temperature = si::zero_celsius + 40;
  data.viscosity_40 = 2 * si::mm2_per_s;
  data.viscosity_100 = 1 * si::mm2_per_s;
  OnePart probe("capillary", {{"bore", 0.5 * si::mm}, {"length", 1.0}, {"end_loss", 0.0}}, data);
  const double density = probe.oil().density(10 * si::bar).value;
  data.viscosity_40 = 1.74316e-3 / density;
  data.viscosity_100 = 0.7 * data.viscosity_40;
  OnePart c("capillary", {{"bore", 0.5 * si::mm}, {"length", 1.0}, {"end_loss", 0.0}}, data);
  c.press(0, 10 * si::bar);
  EXPECT_NEAR(c.flow(0), 880e-9, 1e-3 * 880e-9);
}

TEST(capillary, loses_the_end_loss_beside_the_laminar_drop) {
  OnePart c("capillary", {{"bore", 1 * si::mm}, {"length", 0.1}, {"end_loss", 2.24}});
  c.press(0, 20 * si::bar);
  const double rho = c.oil().density(20 * si::bar).value, q = c.flow(0), v = q / circle(1 * si::mm);
  const double laminar = 128 * c.oil().viscosity() * rho * 0.1 / (std::numbers::pi * 1e-12) * q;
  EXPECT_NEAR(laminar + 2.24 * rho * v * v / 2, 20 * si::bar, 1.0);
  EXPECT_GT(2.24 * rho * v * v / 2, 0.02 * laminar);
}

}  // namespace
}  // namespace poise::workshop
