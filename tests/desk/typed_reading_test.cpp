// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What people type beside an instrument, read as they mean it or answered with a sentence.
#include "desk/typed_reading.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "desk/open_folder.hpp"
#include "job/job.hpp"

namespace poise::desk {
namespace {

using diagnose::Instrument;
using diagnose::Watch;
using testing::HasSubstr;

const Job& press() {
  static const Job job = std::get<Job>(read_job(text_of_job("bush-press.toml"), "bush-press.toml"));
  return job;
}

Watch watch_of(Instrument instrument, const std::string& at, Quantity quantity) {
  Watch watch{.instrument = instrument, .at = at, .accuracy = 2.5 * si::bar};
  watch.signal.quantity = quantity;
  const auto part = std::ranges::find(press().plan.parts, at.substr(0, at.find('.')), &PlannedPart::tag);
  if (part != press().plan.parts.end())
    watch.signal.part = static_cast<int>(part - press().plan.parts.begin());
  return watch;
}
const Watch gauge = watch_of(Instrument::gauge, "G2", Quantity::pressure);  // its range: 400 bar
const Watch portable = watch_of(Instrument::portable_gauge, "C1.A", Quantity::pressure);
const Watch rule = watch_of(Instrument::rule, "C1.position", Quantity::length);  // its stroke: 200 mm
const Watch stop_watch = watch_of(Instrument::stop_watch, "C1.time", Quantity::length);
const Watch bucket = watch_of(Instrument::bucket, "V3.T.flow", Quantity::flow);
const Watch lamp = watch_of(Instrument::contact, "S1", Quantity::none);
const Watch thermometer = watch_of(Instrument::thermometer, "oil", Quantity::temperature);

/// SI; NaN where it is refused, or its moment did not come.
double read(const std::string& text, const Watch& watch, const units::World& world = units::metric()) {
  const auto value = typed_reading(text, watch, press(), world);
  const auto* number = std::get_if<std::optional<double>>(&value);
  return number && *number ? **number : std::numeric_limits<double>::quiet_NaN();
}
std::string refused(const std::string& text, const Watch& watch) {
  const auto value = typed_reading(text, watch, press(), units::metric());
  const auto* why = std::get_if<std::string>(&value);
  return why ? *why : "taken";
}

TEST(typed_reading, a_bare_number_is_in_the_units_shown) {
  EXPECT_DOUBLE_EQ(read("210", gauge), 210e5);
  EXPECT_DOUBLE_EQ(read(" 9.5 ", stop_watch), 9.5);
  EXPECT_NEAR(read("38", thermometer), 311.15, 1e-9);
  // 1 psi is 6894.757 Pa (NIST SP 811, appendix B.8)
  EXPECT_NEAR(read("100", gauge, units::us()), 689475.7, 0.1);
}

TEST(typed_reading, a_unit_of_its_own_goes_before_the_one_shown) {
  EXPECT_DOUBLE_EQ(read("21 MPa", gauge), 210e5);
  EXPECT_DOUBLE_EQ(read("210bar", gauge, units::us()), 210e5);
  EXPECT_NEAR(read("12 cm", rule), 0.12, 1e-12);
}

TEST(typed_reading, a_decimal_comma_is_a_point_unless_it_may_part_thousands) {
  EXPECT_DOUBLE_EQ(read("9,5", stop_watch), 9.5);
  EXPECT_DOUBLE_EQ(read("0,125", stop_watch), 0.125);
  EXPECT_DOUBLE_EQ(read("12,5 bar", gauge), 12.5e5);
  EXPECT_THAT(refused("1,500", gauge), HasSubstr("two ways"));
  EXPECT_THAT(refused("10,250", gauge), HasSubstr("two ways"));
  EXPECT_THAT(refused("1,2,3", gauge), HasSubstr("two ways"));
  EXPECT_THAT(refused("1.200,5", gauge), HasSubstr("two ways"));
}

TEST(typed_reading, what_is_not_reached_is_none) {
  const auto value = typed_reading(" None ", stop_watch, press(), units::metric());
  ASSERT_TRUE(std::holds_alternative<std::optional<double>>(value));
  EXPECT_FALSE(std::get<std::optional<double>>(value));
}

TEST(typed_reading, a_lamp_is_on_or_off) {
  EXPECT_EQ(read("on", lamp), 1.0);
  EXPECT_EQ(read("Off", lamp), 0.0);
  EXPECT_THAT(refused("12", lamp), HasSubstr("no state of a switch"));
}

TEST(typed_reading, another_quantity_and_what_is_no_number_are_refused) {
  EXPECT_NE(refused("12 mm", gauge), "taken");
  EXPECT_NE(refused("high", gauge), "taken");
  EXPECT_NE(refused("5 s", rule), "taken");
  EXPECT_NE(refused("1e999", gauge), "taken");
  EXPECT_NE(refused("nan", gauge), "taken");
  EXPECT_NE(refused("--", gauge), "taken");
}

TEST(typed_reading, what_no_instrument_shows_is_refused) {
  EXPECT_DOUBLE_EQ(read("60 MPa", gauge), 600e5);  // past its range, as a hand that was bent shows
  EXPECT_THAT(refused("60.1 MPa", gauge), HasSubstr("ends at 400 bar"));
  EXPECT_DOUBLE_EQ(read("400", gauge), 400e5);
  EXPECT_THAT(refused("401", gauge), HasSubstr("is it psi?"));
  EXPECT_DOUBLE_EQ(read("-1", gauge), -1e5);
  EXPECT_THAT(refused("-1.6", gauge), HasSubstr("never below -1.00 bar"));
  EXPECT_DOUBLE_EQ(read("2500", portable), 2500e5);  // whatever a sound machine has there
  EXPECT_THAT(refused("2503", portable), HasSubstr("more than any gauge shows"));
  EXPECT_THAT(refused("301", rule), HasSubstr("200 mm"));
  EXPECT_DOUBLE_EQ(read("-2", rule), -2e-3);
  EXPECT_NE(refused("-1", stop_watch), "taken");
  EXPECT_THAT(refused("100000", stop_watch), HasSubstr("write \"none\""));
  EXPECT_NE(refused("-1", bucket), "taken");
  EXPECT_THAT(refused("200", thermometer), HasSubstr("200 degC"));
  EXPECT_THAT(refused("none", thermometer), HasSubstr("always has a temperature"));
}

TEST(typed_reading, what_no_instrument_shows_is_told_in_the_units_shown) {
  const auto value = typed_reading("9000", gauge, press(), units::us());
  // 400 bar are 5801.5 psi (NIST SP 811, appendix B.8); half as much again is 8702 psi.
  ASSERT_TRUE(std::holds_alternative<std::string>(value));
  EXPECT_THAT(std::get<std::string>(value), HasSubstr("ends at 5800 psi"));
}

}  // namespace
}  // namespace poise::desk
