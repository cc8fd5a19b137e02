// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <string_view>
#include <vector>

#include "units/units.hpp"

namespace poise::units {
namespace {

// Definitions are exact, so only the rounding of a few multiplications is left.
constexpr double rounding = 1e-14;

void expect_reads(std::string_view text, Quantity quantity, double si, double relative = rounding) {
  const Reading reading = read(text, quantity);
  ASSERT_TRUE(reading.value) << text << ": " << reading.complaint;
  EXPECT_EQ(reading.complaint, "") << text;
  EXPECT_NEAR(*reading.value, si, relative * std::abs(si)) << text;
}

TEST(Reading, texts_of_datasheets_and_nameplates_become_si) {
  expect_reads("210 bar", Quantity::pressure, 210e5);
  expect_reads("2.5 L/min", Quantity::flow, 2.5e-3 / 60);
  expect_reads("2.5 l/min", Quantity::flow, 2.5e-3 / 60);
  expect_reads("2.5 lpm", Quantity::flow, 2.5e-3 / 60);
  expect_reads("2.5 L per min", Quantity::flow, 2.5e-3 / 60);
  expect_reads("46 cSt", Quantity::viscosity, 46e-6);
  expect_reads("46 mm2/s", Quantity::viscosity, 46e-6);
  expect_reads("870 kg/m3", Quantity::density, 870);
  expect_reads("35 %", Quantity::share, 0.35);
  expect_reads("35%", Quantity::share, 0.35);
  expect_reads("0.35", Quantity::share, 0.35);
  expect_reads("-3", Quantity::none, -3);
  expect_reads("90 deg", Quantity::angle, std::numbers::pi / 2);
  expect_reads("400 N s/m", Quantity::damping, 400);
  expect_reads("25 N/mm", Quantity::spring_rate, 25e3);
  expect_reads("0.02 cm3/(m bar)", Quantity::expansion, 0.02e-6 / 1e5);
  expect_reads("0.02 cm3/m/bar", Quantity::expansion, 0.02e-6 / 1e5);
  expect_reads("7e-4 1/K", Quantity::expansivity, 7e-4);
  expect_reads("7e-4 K-1", Quantity::expansivity, 7e-4);
  expect_reads("1900 J/(kg K)", Quantity::heat_capacity, 1900.0);
  expect_reads("1.9 kJ/(kg degC)", Quantity::heat_capacity, 1900.0);
  expect_reads("1 BTU/(lb degF)", Quantity::heat_capacity, 4186.8);  // by definition of the Btu
  expect_reads("0.022 1/MPa", Quantity::per_pressure, 2.2e-8);
  expect_reads("1.7e-3 1/bar", Quantity::per_pressure, 1.7e-8);
  expect_reads("5.5 kW", Quantity::power, 5500);
  expect_reads("2 t", Quantity::mass, 2000);
  expect_reads("1.5 h", Quantity::time, 5400);
  expect_reads("20 min", Quantity::time, 1200);
}

TEST(Reading, revolutions_strokes_and_turns_are_counted) {
  expect_reads("1450 rpm", Quantity::rotation, 1450.0 / 60);
  expect_reads("1450 rev/min", Quantity::rotation, 1450.0 / 60);
  expect_reads("1450 1/min", Quantity::rotation, 1450.0 / 60);
  expect_reads("1450 min\u207B\u00B9", Quantity::rotation, 1450.0 / 60);
  expect_reads("7.8 cm3/rev", Quantity::displacement, 7.8e-6);
  expect_reads("12 cm3/stroke", Quantity::stroke_volume, 12e-6);
  expect_reads("30 strokes/min", Quantity::stroke_rate, 0.5);
  expect_reads("2 turns", Quantity::turns, 2);
  expect_reads("1 turn", Quantity::turns, 1);
}

// NIST Special Publication 811, Appendix B: the factors as tabulated there (check values U-01 to U-06).
TEST(Reading, factors_are_those_of_nist_sp_811) {
  constexpr double seven_figures = 1e-7;
  expect_reads("1 psi", Quantity::pressure, 6894.757, seven_figures);
  expect_reads("231 in3", Quantity::volume, 3.785412e-3, seven_figures);
  expect_reads("1 in3", Quantity::volume, 1.638706e-5,
               3e-7);  // the table gives 1.638 706 E-05, exact 1.6387064
  expect_reads("1 hp", Quantity::power, 745.6999, seven_figures);
  expect_reads("1 lbf", Quantity::force, 4.448222, seven_figures);
  expect_reads("1 inHg", Quantity::pressure, 3386.389, seven_figures);
}

TEST(Reading, inch_pound_units_follow_from_their_definitions) {
  constexpr double inch = 0.0254, pound = 0.45359237, gravity = 9.80665;  // exact, NIST SP 811
  expect_reads("3000 psi", Quantity::pressure, 3000 * pound * gravity / (inch * inch));
  expect_reads("1e3 psi", Quantity::pressure, 1000 * pound * gravity / (inch * inch));
  expect_reads("3000 PSI", Quantity::pressure, 3000 * pound * gravity / (inch * inch));
  expect_reads("150 in3/min", Quantity::flow, 150 * inch * inch * inch / 60);
  expect_reads("1 gpm", Quantity::flow, 231 * inch * inch * inch / 60);  // U-05
  expect_reads("1 in2", Quantity::area, 6.4516e-4);                      // U-10
  expect_reads("1 psi", Quantity::pressure, 703.0696 * gravity, 1e-7);   // U-09, FM 5-499 table A-1 in kgf/m2
  expect_reads("0.5 in", Quantity::length, inch / 2);
  expect_reads("100 lbf/in", Quantity::spring_rate, 100 * pound * gravity / inch);
}

// U-13: "700 bar is 10,000 psi" is a class of the trade, not an equality.
TEST(Reading, ten_thousand_psi_is_not_seven_hundred_bar) {
  EXPECT_NEAR(*read("10000 psi", Quantity::pressure).value / si::bar, 689.4757, 5e-5);
  EXPECT_NEAR(in_unit(700 * si::bar, Quantity::pressure, us()), 10152.642, 5e-4);
}

// U-12, an identity: p[bar] Q[L/min] / 600 is the power in kW.
TEST(Reading, hundred_bar_times_six_litres_a_minute_is_a_kilowatt) {
  const double power = *read("100 bar", Quantity::pressure).value * *read("6 L/min", Quantity::flow).value;
  EXPECT_NEAR(power, *read("1 kW", Quantity::power).value, 1e-9);
}

TEST(Reading, temperatures_take_the_offset_of_their_scale) {
  expect_reads("-5 degC", Quantity::temperature, 268.15);
  expect_reads("40 \u00B0C", Quantity::temperature, 313.15);
  expect_reads("40\u2103", Quantity::temperature, 313.15);
  expect_reads("212 degF", Quantity::temperature, 373.15);
  expect_reads("212 \u00B0F", Quantity::temperature, 373.15);
  expect_reads("313.15 K", Quantity::temperature, 313.15);
  // U-11: the scales meet at -40.
  EXPECT_NEAR(*read("-40 degC", Quantity::temperature).value, *read("-40 degF", Quantity::temperature).value,
              1e-12);
}

TEST(Reading, masses_given_for_a_force_are_weights_under_standard_gravity) {
  expect_reads("10 t", Quantity::force, 98066.5);
  expect_reads("10t", Quantity::force, 98066.5);
  expect_reads("450 kg", Quantity::force, 450 * 9.80665);
  expect_reads("1 lb", Quantity::force, 0.45359237 * 9.80665);
  expect_reads("1 ton_us", Quantity::force, 2000 * 0.45359237 * 9.80665);
  expect_reads("1 USton", Quantity::force, 2000 * 0.45359237 * 9.80665);
  expect_reads("1 kgf", Quantity::force, 9.80665);
}

TEST(Reading, signs_of_word_processors_are_understood) {
  expect_reads("210\u00A0bar", Quantity::pressure, 210e5);
  expect_reads("210\u202Fbar", Quantity::pressure, 210e5);
  expect_reads("  210\tbar\r\n", Quantity::pressure, 210e5);
  expect_reads("\u22125 \u00B0C", Quantity::temperature, 268.15);
  expect_reads("25 \u00B5m", Quantity::length, 25e-6);
  expect_reads("25 \u03BCm", Quantity::length, 25e-6);
  expect_reads("25 um", Quantity::length, 25e-6);
  expect_reads("12 cm\u00B2", Quantity::area, 12e-4);
  expect_reads("12 cm\u00B3/rev", Quantity::displacement, 12e-6);
  expect_reads("400 N\u00B7s/m", Quantity::damping, 400);
  expect_reads("+5 mm", Quantity::length, 5e-3);
  expect_reads(".5 mm", Quantity::length, 5e-4);
  expect_reads("5. mm", Quantity::length, 5e-3);
}

TEST(Reading, every_example_in_a_message_reads) {
  for (std::size_t i = 0; i < quantity_count; ++i) {
    const auto quantity = static_cast<Quantity>(i);
    EXPECT_EQ(read(example(quantity), quantity).complaint, "") << name(quantity);
  }
}

RC_GTEST_PROP(Reading, any_bytes_give_either_a_finite_value_or_a_complaint, (const std::string& text)) {
  const auto quantity = static_cast<Quantity>(*rc::gen::inRange<int>(0, static_cast<int>(quantity_count)));
  const Reading reading = read(text, quantity);
  RC_ASSERT(reading.value.has_value() == reading.complaint.empty());
  RC_ASSERT(!reading.value || std::isfinite(*reading.value));
}

// Texts made of pieces that do occur get deeper into the reader than random bytes.
RC_GTEST_PROP(Reading, any_heap_of_unit_pieces_gives_either_a_finite_value_or_a_complaint, ()) {
  const auto piece = rc::gen::element<std::string>(
      "1", "2.5", "e3", "-", " ", "/", "(", ")", "*", "^", ".", ",", "bar", "in", "m", "3", "min", "K",
      "degF", "%", "ton", "1/", "\u00B2", "per", "since", "lg(re", "@", "\u00B5", "rev");
  std::string text = "5 ";
  for (const std::string& each : *rc::gen::container<std::vector<std::string>>(piece)) text += each;
  for (std::size_t i = 0; i < quantity_count; ++i) {
    const Reading reading = read(text, static_cast<Quantity>(i));
    RC_ASSERT(reading.value.has_value() == reading.complaint.empty());
    RC_ASSERT(!reading.value || std::isfinite(*reading.value));
  }
}

}  // namespace
}  // namespace poise::units
