// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/csv.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <sstream>

namespace poise {
namespace {

Trace trace_of(std::vector<Signal> signals, std::vector<std::vector<double>> values) {
  Trace trace;
  trace.time = {0.0, 0.1, 1.0 / 3.0};
  trace.signals = std::move(signals);
  trace.values = std::move(values);
  return trace;
}

std::string csv(const Trace& trace, const units::World& world) {
  std::ostringstream out;
  write_csv(out, trace, world);
  return out.str();
}

Signal signal(const std::string& name, Quantity quantity) { return {.quantity = quantity, .name = name}; }

TEST(Csv, names_and_units_head_the_columns_and_numbers_stand_in_those_units) {
  const Trace trace =
      trace_of({signal("C1.A.pressure", Quantity::pressure), signal("C1.position", Quantity::length)},
               {{0.0, 187e5, 1.5e5}, {0.0, 0.012, -0.001}});
  EXPECT_EQ(csv(trace, units::metric()),
            "time [s],C1.A.pressure [bar],C1.position [mm]\n"
            "0,0,0\n"
            "0.1,187,12\n"
            "0.333333333,1.5,-1\n");
}

TEST(Csv, a_plain_number_has_no_unit_and_a_missing_value_is_an_empty_field) {
  const Trace trace = trace_of({signal("V1.turned", Quantity::none)},
                               {{1.0, std::numeric_limits<double>::quiet_NaN(), 1e-12}});
  EXPECT_EQ(csv(trace, units::metric()), "time [s],V1.turned\n0,1\n0.1,\n0.333333333,1e-12\n");
}

TEST(Csv, a_comma_in_a_unit_or_name_is_quoted) {
  const Trace trace = trace_of({signal("a,\"b\"", Quantity::none)}, {{1, 2, 3}});
  EXPECT_EQ(csv(trace, units::metric()).substr(0, 20), "time [s],\"a,\"\"b\"\"\"\n0");
}

TEST(Csv, read_back_it_gives_the_values_to_nine_figures_in_every_unit_world) {
  const std::vector<double> pressures{123456789.123, -0.987654321e5, 3.0},
      temperatures{273.15, 300.0, 313.15};
  const Trace trace = trace_of({signal("p", Quantity::pressure), signal("T", Quantity::temperature)},
                               {pressures, temperatures});
  for (const units::World& world : {units::metric(), units::us()}) {
    std::istringstream lines(csv(trace, world));
    std::string line;
    std::getline(lines, line);
    for (std::size_t row = 0; row < trace.time.size(); ++row) {
      double time = 0.0, pressure = 0.0, temperature = 0.0;
      char comma = 0;
      lines >> time >> comma >> pressure >> comma >> temperature;
      ASSERT_TRUE(lines) << world.name << row;
      const double expected = units::in_unit(pressures[row], Quantity::pressure, world);
      EXPECT_NEAR(time, trace.time[row], 1e-9);
      EXPECT_NEAR(pressure, expected, 1e-8 * std::abs(expected));
      EXPECT_NEAR(temperature, units::in_unit(temperatures[row], Quantity::temperature, world), 1e-6);
    }
  }
}

}  // namespace
}  // namespace poise
