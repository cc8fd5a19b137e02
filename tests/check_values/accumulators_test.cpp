// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 14 of the check values: accumulators. The sources' pressures are absolute, those of the house
// gauge.
#include "check_values/source.hpp"

namespace poise::check {
namespace {

struct Bottle {
  double gas_volume, precharge, exponent;  ///< m3, Pa absolute
};
struct Held {
  double oil, gas;
};
/// What a bottle holds at rest at a pressure, Pa absolute.
Held held(const Bottle& bottle, double pressure) {
  Bench b;
  add_dead_weight(b, "W1", pressure - si::atmosphere);
  b.set("W1", "stroke", 20.0);
  b.set("W1", "start_position", 18.0);
  b.part("A1", "accumulator",
         {{"gas_volume", bottle.gas_volume},
          {"precharge", bottle.precharge - si::atmosphere},
          {"exponent", bottle.exponent},
          {"least_gas", 0.02}});
  b.join({"W1.A", "A1.A"});
  b.step("rest", 10.0);
  const Trace t = b.run({"A1.oil_volume", "A1.gas_volume"});
  return {last(t, "A1.oil_volume"), last(t, "A1.gas_volume")};
}
/// Bottle that gives a volume of oil between two pressures.
Bottle bottle_for(double oil, Bottle bottle, double high, double low) {
  bottle.gas_volume = argument_for(oil, 2 * oil, 4 * oil, [&](double volume) {
    const Bottle trial{volume, bottle.precharge, bottle.exponent};
    return held(trial, high).oil - held(trial, low).oil;
  });
  return bottle;
}

// AC-01. A. Esposito, Fluid Power with Applications, 6th ed., 2005, Example 14-7, p. 539 (known: N).
TEST(check_values, AC_01_isothermal_accumulator_for_a_6_by_100_inch_cylinder) {
  const Bottle b =
      bottle_for(volume_taken(circle(6 * inch), 100 * inch), {0.0, 1200 * psi, 1.0}, 3000 * psi, 1800 * psi);
  EXPECT_VALUE(b.gas_volume / gallon, 45.89988901, 45.8, 0.25);
}

// AC-02. Esposito, Example 14-10, p. 542 (known: N).
TEST(check_values, AC_02_the_same_in_si_and_power_of_its_pump) {
  const double volume = volume_taken(circle(152 * si::mm), 2.54);
  const Bottle b = bottle_for(volume, {0.0, 84 * si::bar, 1.0}, 210 * si::bar, 126 * si::bar);
  EXPECT_VALUE(b.gas_volume / si::litre, 172.8391181, 172, 0.55);
  EXPECT_VALUE(pump_power(2 * volume / (5 * 60), 210 * si::bar), 6452.660408, 6450, 0.1);
  EXPECT_VALUE(pump_power(volume / 10, 126 * si::bar), 58073.94367, 58100, 0.1);
}

// AC-03. J. Sullivan, Fluid Power: Theory and Applications, 4th ed., Reston, Example 12.4, p. 298 (known: N).
TEST(check_values, AC_03_isothermal_size_for_5_gallons) {
  const Bottle b = bottle_for(5 * gallon, {0.0, 1514.7 * psi, 1.0}, 3014.7 * psi, 2014.7 * psi);
  EXPECT_VALUE(b.gas_volume / gallon, 20.04923777, 20.05, 0.05);
}

// AC-04. Sullivan, Example 12.5, p. 300 (known: N).
TEST(check_values, AC_04_adiabatic_size_for_5_gallons) {
  const Bottle b = bottle_for(1155 * in3, {0.0, 1514.7 * psi, 1.4}, 3014.7 * psi, 2014.7 * psi);
  EXPECT_VALUE(b.gas_volume / in3, 5660.756072, 5660.756, 0.05);
  EXPECT_VALUE(held(b, 3014.7 * psi).gas / in3, 3462.278181, 3462.278, 0.05);
}

// AC-05. Sullivan, Example 12.3, p. 296 (known: N).
TEST(check_values, AC_05_weight_and_stroke_of_a_weight_loaded_accumulator) {
  const double area = circle(12 * inch);
  const auto run = [&](double weight) {
    Bench b;
    b.plan.oil = plain_oil();
    add_pump(b, 50 * gallon / 20.0);
    add_ram(b, "C1", area, 4.0, 0.0);
    b.set("C1", "damping", 1e3);
    b.part("M1", "mass", {{"mass", weight / si::gravity}});
    b.join({"P1.P", "C1.A"});
    b.join({"C1.rod", "M1.rod"});
    b.step("fill", 20.0, {{"P1", "running", 1.0, 5.0}});
    b.step("last of it", 5.0, {{"P1", "running", 0.0, 5.0}});
    b.step("stand", 5.0);
    return b.run({"C1.A.pressure", "C1.position"});
  };
  const double weight = argument_for(1500 * psi, 500 * si::kN, 1000 * si::kN, [&](double w) {
    const Trace t = run(w);
    return mean(t, "C1.A.pressure", t.steps[2].begin, t.steps[2].end);
  });
  const Trace t = run(weight);
  EXPECT_VALUE(weight / lbf, 169646.0033, 169646, 0.05);
  EXPECT_VALUE(mean(t, "C1.position", t.steps[2].begin, t.steps[2].end) / inch, 102.1244218, 102.124, 0.05);
}

// AC-06. Training article on accumulator capacity, petrolengineering.com (known: T): its pressures are taken
// as absolute.
TEST(check_values, AC_06_usable_oil_of_a_10_gallon_bottle) {
  const Bottle b{10 * gallon, 1000 * psi, 1.0};
  const double low = held(b, 1200 * psi).oil, high = held(b, 3000 * psi).oil;
  EXPECT_VALUE(low / gallon, 1.666666667, 1.67, 0.25);
  EXPECT_VALUE(high / gallon, 6.666666667, 6.67, 0.1);
  EXPECT_VALUE((high - low) / gallon, 5.0, 5.0, 0.05);
}

// AC-07. J. Sullivan, Fluid Power: Theory and Applications, 4th ed., Reston, Example 15.3, p. 406 (known: N).
// Charged at 80 °F, at work at 250 °F, which is as hot as a job's oil gets (120 °C) plus a kelvin: the part's
// law is asked itself.
TEST(check_values, AC_07_precharge_warmed_at_constant_volume) {
  const auto kelvin = [](double fahrenheit) { return (fahrenheit + 459.67) / 1.8; };
  OilData data;
  data.temperature = kelvin(250);
  const Kind& kind = *find_kind("accumulator");
  Values values(kind.parameters, {0.0, 1 * si::litre, 2014.7 * psi - si::atmosphere, kelvin(80), 1.2, 0.1,
                                  std::nan(""), 2 * si::bar, 1.5 * si::bar, 0.5, std::nan(""), std::nan("")});
  ASSERT_EQ(kind.parameters[3].name, "precharge_temperature");
  const Laws laws = kind.make(values, Oil(data));
  std::array<double, max_outputs> outputs{};
  laws.report(laws.numbers.get(), Neighbourhood{}, outputs);
  EXPECT_VALUE((outputs[0] + si::atmosphere) / psi, 2649.345, 2648.957, 0.05);
}

}  // namespace
}  // namespace poise::check
