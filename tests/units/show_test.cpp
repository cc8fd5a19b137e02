// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "units/units.hpp"

namespace poise::units {
namespace {

TEST(Show, three_figures_and_the_unit) {
  EXPECT_EQ(show(187.2 * si::bar, Quantity::pressure, metric()), "187 bar");
  EXPECT_EQ(show(0.02138 * si::litre_per_minute, Quantity::flow, metric()), "0.0214 L/min");
  EXPECT_EQ(show(-3 * si::mm, Quantity::length, metric()), "-3.00 mm");
  EXPECT_EQ(show(700 * si::bar, Quantity::pressure, us()), "10200 psi");
  EXPECT_EQ(show(0.35, Quantity::share, metric()), "35.0 %");
  EXPECT_EQ(show(2.5, Quantity::none, metric()), "2.50");
  EXPECT_EQ(show(1450.0 / 60, Quantity::rotation, metric()), "1450 rpm");
  EXPECT_EQ(show(98066.5, Quantity::force, metric()), "98.1 kN");
  EXPECT_EQ(show(313.15, Quantity::temperature, us()), "104 degF");
}

TEST(Show, rounding_carries_into_the_next_figure) {
  EXPECT_EQ(show(9.996 * si::bar, Quantity::pressure, metric()), "10.0 bar");
  EXPECT_EQ(show(999.6 * si::bar, Quantity::pressure, metric()), "1000 bar");
}

TEST(Show, powers_of_ten_only_for_the_very_small_and_the_very_large) {
  EXPECT_EQ(show(1e-4, Quantity::none, metric()), "0.000100");
  EXPECT_EQ(show(9.9e-5, Quantity::none, metric()), "9.90e-05");
  EXPECT_EQ(show(9.98e6, Quantity::none, metric()), "9980000");
  EXPECT_EQ(show(1e7, Quantity::none, metric()), "1.00e+07");
}

TEST(Show, zero_has_neither_sign_nor_figures) {
  EXPECT_EQ(show(0.0, Quantity::pressure, metric()), "0 bar");
  EXPECT_EQ(show(-0.0, Quantity::pressure, metric()), "0 bar");
  EXPECT_EQ(show(273.15, Quantity::temperature, metric()), "0 degC");
  // A sum of kelvins may miss the freezing point by its last digit.
  EXPECT_EQ(show(std::nextafter(273.15, 300.0), Quantity::temperature, metric()), "0 degC");
  // 0 degF = 459.67/1.8 K, by the definition of the scales.
  EXPECT_EQ(show(459.67 / 1.8, Quantity::temperature, us()), "0 degF");
}

TEST(Show, what_is_not_finite_is_no_value) {
  EXPECT_EQ(show(std::nan(""), Quantity::pressure, metric()), "no value");
  EXPECT_EQ(show(std::numeric_limits<double>::infinity(), Quantity::temperature, us()), "no value");
}

TEST(Show, differences_of_temperature_take_no_offset) {
  EXPECT_EQ(show_difference(10.0, Quantity::temperature, metric()), "10.0 degC");
  EXPECT_EQ(show_difference(10.0, Quantity::temperature, us()), "18.0 degF");  // 1 K = 1.8 degF
  EXPECT_NEAR(difference_in_unit(10.0, Quantity::temperature, us()), 18.0, 1e-12);
  EXPECT_EQ(show_difference(-5 * si::bar, Quantity::pressure, metric()), "-5.00 bar");
}

TEST(World, every_unit_reads_back) {
  for (const World* world : {&metric(), &us()})
    for (std::size_t i = 0; i < quantity_count; ++i) {
      const auto quantity = static_cast<Quantity>(i);
      const Reading reading = read("1 " + (*world)[quantity], quantity);
      ASSERT_TRUE(reading.value) << world->name << ", " << name(quantity) << ": " << reading.complaint;
      EXPECT_NEAR(in_unit(*reading.value, quantity, *world), 1.0, 1e-12) << name(quantity);
    }
}

// Any number in any unit of either world: what is shown reads back to within its three figures.
RC_GTEST_PROP(World, what_is_shown_reads_back, ()) {
  const World& world = *rc::gen::arbitrary<bool>() ? metric() : us();
  const auto quantity = static_cast<Quantity>(*rc::gen::inRange<int>(0, static_cast<int>(quantity_count)));
  const double number = std::pow(10.0, *rc::gen::inRange(-80, 80) / 10.0);
  const Reading exact = read(std::to_string(number) + " " + world[quantity], quantity);
  RC_ASSERT(exact.value.has_value());
  const Reading shown = read(show(*exact.value, quantity, world), quantity);
  RC_ASSERT(shown.value.has_value());
  const double before = in_unit(*exact.value, quantity, world),
               after = in_unit(*shown.value, quantity, world);
  RC_ASSERT(std::abs(after - before) <= 0.005001 * std::abs(before) + 1e-9);
}

TEST(World, a_job_may_choose_other_units) {
  World world = metric();
  EXPECT_TRUE(set_unit(world, Quantity::pressure, "MPa"));
  EXPECT_EQ(show(700 * si::bar, Quantity::pressure, world), "70.0 MPa");
  EXPECT_TRUE(set_unit(world, Quantity::force, "t"));
  EXPECT_EQ(show(98066.5, Quantity::force, world), "10.0 t");
  EXPECT_TRUE(set_unit(world, Quantity::flow, " gpm "));
  EXPECT_EQ(show(231 * 16.387064e-6 / 60, Quantity::flow, world), "1.00 gpm");
  EXPECT_TRUE(set_unit(world, Quantity::area, "cm\u00B2"));
  EXPECT_EQ(show(1e-4, Quantity::area, world), "1.00 cm\u00B2");
}

TEST(World, a_unit_of_another_kind_is_not_taken) {
  World world = metric();
  for (const std::string_view unit : {"kg", "ton", "", "1", "2 bar", "1/bar", "Bar", "bar\n2", "%"})
    EXPECT_FALSE(set_unit(world, Quantity::pressure, unit)) << unit;
  EXPECT_EQ(world[Quantity::pressure], "bar");
  EXPECT_FALSE(set_unit(world, Quantity::none, "bar"));
}

TEST(World, several_threads_read_and_show_at_once) {
  std::vector<std::string> shown(4);
  std::vector<std::thread> threads;
  threads.reserve(shown.size());
  for (std::string& each : shown)
    threads.emplace_back([&each] {
      for (int i = 0; i < 200; ++i)
        each = show(*read("3000 psi", Quantity::pressure).value, Quantity::pressure, metric()) + ", " +
               read("3 kg m s", Quantity::pressure).complaint;
    });
  for (std::thread& each : threads) each.join();
  for (const std::string& each : shown)
    EXPECT_EQ(each, R"(207 bar, "3 kg m s" is not a pressure; expected a pressure, such as "210 bar")");
}

}  // namespace
}  // namespace poise::units
