// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The oil's temperature over a shift, against the heat balance of one body.
#include "search/warm_up.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace poise {
namespace {

constexpr double ambient = si::zero_celsius + 15.0, start = si::zero_celsius + 20.0;
constexpr double usable = 40 * si::litre, surface = 1.2, steel = 30.0, pressure = 120 * si::bar,
                 flow = 3 * si::litre_per_minute;

/// A pump that presses its whole flow over the relief valve: all of its power is heat.
Job idling(double oil_surface = surface) {
  const std::string text = R"(
title = "Idling power unit , invented"
[parts.T1]
kind = "reservoir"
usable_oil = "40 L"
surface = ")" + std::to_string(oil_surface) +
                           R"( m2"
surroundings = "15 degC"
steel = "30 kg"
[parts.P1]
kind = "pump"
flow = "3 L/min"
volumetric_efficiency = "100 %"
rated_pressure = "250 bar"
running = "on"
[parts.V1]
kind = "relief"
setting = "120 bar"
setting_flow = "3 L/min"
rated_flow = "10 L/min"
[[lines]]
from = "T1.T"
to = ["P1.S", "V1.T"]
[[lines]]
from = "P1.P"
to = "V1.P"
[[steps]]
name = "idle"
lasts = "2 s"
[[require]]
never_above = "P1.P.pressure"
limit = "130 bar"
)";
  auto read = read_job(text, "idling.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  return std::get<Job>(read);
}

TEST(warm_up, steady_where_walls_carry_off_what_the_pump_puts_in) {
  const auto found = search::warm_up(idling(), {.start = start});
  ASSERT_TRUE(found.steady);
  // P = p·Q; T = T_air + P/(k·A), k = 11.4 W/(m2·K). The reading of the valve is at 3 L/min of oil under
  // pressure, of which the pump's 3 L/min are a percent less: the pressure is within a thousandth.
  const double power = pressure * flow, rise = power / (11.4 * surface);
  EXPECT_NEAR(*found.steady - ambient, rise, 3e-3 * rise);
  EXPECT_NEAR(found.proven.back().heat, power, 2e-3 * power);
}

TEST(warm_up, it_gets_there_by_the_time_constant_of_oil_and_steel) {
  const auto found = search::warm_up(idling(), {.start = start});
  // T(t) = T_end − (T_end − T_0)·exp(−t·U/C): 95 % of the way after 3.00 time constants.
  const double oil = 870.0 * (1 - 6.5e-4 * 25.0) * usable * 1950.0;  // J/K, at 40 °C
  const double constant = (oil + steel * 480.0) / (11.4 * surface);
  const auto time = found.time_to(start + 0.95 * (*found.steady - start));
  ASSERT_TRUE(time);
  EXPECT_NEAR(*time, -std::log(0.05) * constant, 5e-3 * 3 * constant);
}

TEST(warm_up, a_pause_between_cycles_spreads_the_heat) {
  const auto often = search::warm_up(idling(), {.start = start});
  const auto seldom = search::warm_up(idling(), {.start = start, .every = 8.0});
  EXPECT_NEAR(*seldom.steady - ambient, 0.25 * (*often.steady - ambient), 3e-3 * (*often.steady - ambient));
}

TEST(warm_up, too_little_surface_finds_no_balance_and_says_when_it_is_too_hot) {
  const auto found = search::warm_up(idling(0.3), {.start = start});
  EXPECT_FALSE(found.steady);  // 600 W over 3.4 W/K: 175 K
  const auto hot = found.time_to(si::zero_celsius + 65.0);
  ASSERT_TRUE(hot);
  EXPECT_LT(*hot, 3 * 3600.0);
}

TEST(warm_up, stopping_is_heeded) {
  const auto found = search::warm_up(idling(), {.start = start, .progress = [](double) { return false; }});
  EXPECT_TRUE(found.stopped);
}

}  // namespace
}  // namespace poise
