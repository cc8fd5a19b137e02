// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "units/units.hpp"

namespace poise::units {
namespace {

void expect_refused(std::string_view text, Quantity quantity, std::string_view complaint) {
  const Reading reading = read(text, quantity);
  EXPECT_FALSE(reading.value) << text;
  EXPECT_EQ(reading.complaint, complaint) << text;
}

TEST(Complaint, a_number_needs_its_unit) {
  expect_refused("210", Quantity::pressure, R"("210" has no unit; expected a pressure, such as "210 bar")");
  expect_refused("2", Quantity::turns, R"("2" has no unit; expected a number of turns, such as "2 turns")");
  expect_refused("5", Quantity::angle, R"("5" has no unit; expected an angle, such as "30 deg")");
  expect_refused("", Quantity::pressure, R"(the value is missing; expected a pressure, such as "210 bar")");
  expect_refused(" \t ", Quantity::flow, R"(the value is missing; expected a flow, such as "2.5 L/min")");
}

TEST(Complaint, a_plain_number_takes_no_unit_and_a_share_names_its_range) {
  expect_refused("3 bar", Quantity::none, R"("3 bar" has a unit; expected a plain number, such as "2.5")");
  expect_refused("35", Quantity::share,
                 R"("35" without a unit is 3500 %; write "35 %" or a number from 0 to 1)");
  expect_refused("35 %", Quantity::pressure, R"("35 %" is a share; expected a pressure, such as "210 bar")");
  expect_refused("30 deg", Quantity::share, R"("30 deg" is an angle; expected a share, such as "35 %")");
  expect_refused("35 %", Quantity::angle, R"("35 %" is a share; expected an angle, such as "30 deg")");
}

TEST(Complaint, a_unit_of_another_kind_is_named) {
  expect_refused("5 kg", Quantity::pressure, R"("5 kg" is a mass; expected a pressure, such as "210 bar")");
  expect_refused("10 kN", Quantity::mass, R"("10 kN" is a force; expected a mass, such as "450 kg")");
  expect_refused("12 t", Quantity::pressure, R"("12 t" is a mass; expected a pressure, such as "210 bar")");
  expect_refused("7.8 cm3", Quantity::displacement,
                 R"("7.8 cm3" is a volume; expected a displacement, such as "7.8 cm3/rev")");
  expect_refused("12 cm3", Quantity::stroke_volume,
                 R"("12 cm3" is a volume; expected a volume per stroke, such as "12 cm3/stroke")");
  expect_refused("7.8 cm3/rev", Quantity::volume,
                 R"("7.8 cm3/rev" is a displacement; expected a volume, such as "8 L")");
  expect_refused("46 cP", Quantity::viscosity,
                 R"("46 cP" is a dynamic viscosity; expected a kinematic viscosity, such as "46 cSt")");
  expect_refused("2 rev", Quantity::turns,
                 R"("2 rev" is a number of revolutions; expected a number of turns, such as "2 turns")");
  expect_refused("200 kg/cm2", Quantity::pressure,
                 R"("200 kg/cm2" is not a pressure; did you mean "200 kgf/cm2"?)");
  expect_refused("5 kg2", Quantity::mass, R"("5 kg2" is not a mass; did you mean "5 kg"?)");
}

// The library under the reader turns seconds into hertz and back in silence.
TEST(Complaint, a_reciprocal_is_another_kind) {
  expect_refused("5 Hz", Quantity::time, R"("5 Hz" is a frequency; expected a time, such as "2.5 s")");
  expect_refused("5 K", Quantity::expansivity,
                 R"("5 K" is a temperature; expected a thermal expansion, such as "7e-4 1/K")");
  expect_refused("5 1/K", Quantity::temperature,
                 R"("5 1/K" is a thermal expansion; expected a temperature, such as "40 degC")");
  expect_refused("5 s/m3", Quantity::flow, R"("5 s/m3" is not a flow; expected a flow, such as "2.5 L/min")");
  expect_refused("5 min", Quantity::rotation,
                 R"("5 min" is a time; expected a speed of rotation, such as "1450 rpm")");
}

TEST(Complaint, an_unknown_unit_brings_the_nearest_one) {
  expect_refused("3 bra", Quantity::pressure, R"("3 bra" has an unknown unit; did you mean "3 bar"?)");
  expect_refused("3 Bar", Quantity::pressure, R"("3 Bar" has an unknown unit; did you mean "3 bar"?)");
  expect_refused("70 mPa", Quantity::pressure, R"("70 mPa" has an unknown unit; did you mean "70 MPa"?)");
  expect_refused("10 KN", Quantity::force, R"("10 KN" has an unknown unit; did you mean "10 kN"?)");
  expect_refused("150 in3min", Quantity::flow,
                 R"("150 in3min" has an unknown unit; did you mean "150 in3/min"?)");
  expect_refused("46 cst", Quantity::viscosity, R"("46 cst" has an unknown unit; did you mean "46 cSt"?)");
  expect_refused("40 C", Quantity::temperature,
                 R"("40 C" has an unknown unit; expected a temperature, such as "40 degC")");
  expect_refused("3 furlong", Quantity::length,
                 R"("3 furlong" has an unknown unit; expected a length, such as "150 mm")");
}

TEST(Complaint, a_bare_ton_is_asked_back) {
  for (const std::string unit : {"ton", "tons", "Ton", "TON", "tonf"})
    expect_refused(
        "10 " + unit, Quantity::force,
        "\"10 " + unit +
            R"(": a bare "ton" has no one size; write "10 t" (9.807 kN each), "10 ton_us" (US ton, 8.896 kN )"
            "each) or kN");
}

TEST(Complaint, pressures_are_gauge_pressures) {
  for (const std::string text : {"3 bar g", "3 barg", "3 bar(g)", "3 bar gauge", "3 psig"})
    expect_refused(
        text, Quantity::pressure,
        '"' + text + R"(": pressures are gauge pressures already; write the unit alone, such as "210 bar")");
  for (const std::string text : {"3 bar a", "3 bara", "3 bar (a)", "3 bar abs", "3 psia"})
    expect_refused(
        text, Quantity::pressure,
        '"' + text + R"(" is an absolute pressure; pressures are gauge here: take off 1.013 bar (14.7 psi))");
}

TEST(Complaint, commas_are_not_guessed) {
  expect_refused("2,5 bar", Quantity::pressure,
                 R"("2,5 bar" has a comma; write decimals with a point, such as "2.5 bar")");
  expect_refused("0,35", Quantity::share,
                 R"("0,35" has a comma; write decimals with a point, such as "0.35")");
  expect_refused(
      "10,000 psi", Quantity::pressure,
      R"("10,000 psi" has a comma; write "10000 psi" for thousands or "10.000 psi" for a decimal)");
  expect_refused("1,000,000 psi", Quantity::pressure,
                 R"("1,000,000 psi" has a comma; write decimals with a point, and thousands without a mark)");
  expect_refused("2, bar", Quantity::pressure,
                 R"("2, bar" has a comma; write decimals with a point, and thousands without a mark)");
}

TEST(Complaint, fractions_are_worked_out_for_the_hint) {
  expect_refused("1/2 in", Quantity::length, R"("1/2 in" is a fraction; write it as a decimal, "0.5 in")");
  expect_refused("2 1/2 in", Quantity::length,
                 R"("2 1/2 in" is a fraction; write it as a decimal, "2.5 in")");
  expect_refused("-2 1/2 in", Quantity::length,
                 R"("-2 1/2 in" is a fraction; write it as a decimal, "-2.5 in")");
  expect_refused("1/0 in", Quantity::length, R"("1/0 in" is a fraction; write it as a decimal)");
}

TEST(Complaint, one_value_is_one_number) {
  const std::string remedy = R"(write one number without blanks, and its unit, such as "210 bar")";
  for (const std::string text :
       {"3 bar 2", "10 000 psi", "10'000 psi", "2-5 bar", "3 bar 5 psi", "3 2 bar", "3*2 bar"})
    expect_refused(text, Quantity::pressure, '"' + text + "\" holds more than one number; " + remedy);
}

TEST(Complaint, what_is_no_number_is_said) {
  for (const std::string text :
       {"bar", "nan bar", "inf bar", "-inf bar", "bar 210", "--5 bar", "+-5 bar", "-", "about 5 bar"})
    expect_refused(text, Quantity::pressure,
                   '"' + text + R"(" does not begin with a number; expected a pressure, such as "210 bar")");
  expect_refused("1e999 bar", Quantity::pressure, R"("1e999 bar" is too large or too small to compute with)");
  expect_refused("1e308 MPa", Quantity::pressure, R"("1e308 MPa" is too large to compute with)");
  expect_refused("-300 degC", Quantity::temperature,
                 R"("-300 degC" is below absolute zero; expected a temperature, such as "40 degC")");
}

TEST(Complaint, junk_is_quoted_so_that_it_can_be_printed) {
  expect_refused("3 bar!", Quantity::pressure, R"("3 bar!" has an unknown unit; did you mean "3 bar"?)");
  expect_refused("3 bar since monday", Quantity::pressure,
                 R"("3 bar since monday" has an unknown unit; expected a pressure, such as "210 bar")");
  expect_refused(
      std::string_view("3\0bar", 5), Quantity::pressure,
      R"("3?bar" holds a character that cannot be printed; expected a pressure, such as "210 bar")");
  expect_refused(
      "3 \x1b[31mbar", Quantity::pressure,
      R"("3 ?[31mbar" holds a character that cannot be printed; expected a pressure, such as "210 bar")");
  expect_refused("3 \xC3\x28", Quantity::pressure,
                 R"("3 ?(" has an unknown unit; expected a pressure, such as "210 bar")");
  expect_refused("1" + std::string(100, '0') + " bar", Quantity::pressure,
                 "\"1" + std::string(39, '0') +
                     R"(..." is too long for a value; expected a pressure, such as "210 bar")");
}

}  // namespace
}  // namespace poise::units
