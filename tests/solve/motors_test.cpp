// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Motors and pumps on shafts: torque, speed and power against formulas and printed examples. 0.1 % is the
// bar.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

constexpr double closed_form = 1e-3;
constexpr double lpm = si::litre_per_minute, turn = 2.0 * std::numbers::pi;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

/// The motor of these tests: 2.2 kW at 1450 rpm, four poles.
struct Plate {
  double power = 2200.0, synchronous = 25.0, rated = 1450.0 / 60.0, breakdown = 2.5, start = 2.0;
  double torque() const { return power / (turn * rated); }
  /// Torque at a slip: Kloss, 2·T_b/(s/s_b + s_b/s), and what the deep bars add at the start, in s³.
  double at(double slip) const {
    const double rated_slip = 1 - rated / synchronous;
    const double s_b = rated_slip * (breakdown + std::sqrt(breakdown * breakdown - 1));
    const auto kloss = [&](double s) { return 2 * breakdown * torque() / (s / s_b + s_b / s); };
    return kloss(slip) + (start * torque() - kloss(1.0)) * slip * slip * slip;
  }
  /// Speed at which it gives a torque, rev/s, on the running side of its curve.
  double speed_under(double load) const {
    double low = 0.0, high = 0.1;  // slip
    for (int i = 0; i < 60; ++i) (at(0.5 * (low + high)) < load ? low : high) = 0.5 * (low + high);
    return synchronous * (1 - low);
  }
};

void add_motor(Bench& b) { b.part("M1", "electric_motor", {{"rated_power", 2200.0}, {"friction", 0.0}}); }

void add_pump(Bench& b, const std::string& number, double displacement, double held,
              double mechanical = 0.9) {
  b.part("P" + number, "shaft_pump",
         {{"displacement", displacement},
          {"volumetric_efficiency", 0.95},
          {"mechanical_efficiency", mechanical},
          {"rated_pressure", 200 * si::bar}});
  b.part("H" + number, "hose", {{"bore", 10 * si::mm}, {"length", 1.0}});
  b.part("V" + number, "relief", {{"setting", held}, {"override", 0.01}, {"rated_flow", 200 * lpm}});
  const std::string suction = "P" + number + ".S", outlet = "P" + number + ".P",
                    shaft = "P" + number + ".shaft";
  const std::string near_end = "H" + number + ".A", far_end = "H" + number + ".B";
  const std::string inlet = "V" + number + ".P", back = "V" + number + ".T";
  b.join({"T1.T", suction, back});
  b.join({outlet, near_end});
  b.join({far_end, inlet});
  b.join({"M1.shaft", shaft});
}

// The motor settles where its torque over slip meets the pump's: D·p/2π over the mechanical efficiency at the
// rated pressure. Delivery: n·D less the leakage.
TEST(electric_motor, turns_at_the_speed_where_its_torque_is_the_pumps) {
  Bench b;
  const double displacement = 4 * si::cm3;
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  add_motor(b);
  add_pump(b, "1", displacement, 200 * si::bar);
  b.step("run", 4.0, {{"M1", "running", 1.0}});
  const Trace t = b.run({"M1.torque", "M1.speed_of_rotation", "M1.power", "M1.motor_load", "P1.P.pressure",
                         "P1.delivery", "P1.torque"});
  expect_closed_books(t);
  const double p = last(t, "P1.P.pressure"), ideal = displacement * p / turn;
  const double friction = (1 / 0.9 - 1) * (0.3 * displacement * 200 * si::bar / turn + 0.7 * ideal);
  const double n = Plate{}.speed_under(ideal + friction);
  EXPECT_CLOSE(last(t, "M1.torque"), ideal + friction);
  EXPECT_CLOSE(last(t, "P1.torque"), ideal + friction);
  EXPECT_CLOSE(last(t, "M1.speed_of_rotation"), n);
  EXPECT_CLOSE(Plate{}.synchronous - last(t, "M1.speed_of_rotation"),
               Plate{}.synchronous - n);  // the slip too
  EXPECT_CLOSE(last(t, "M1.motor_load"), turn * n * (ideal + friction) / 2200.0);
  EXPECT_CLOSE(last(t, "P1.delivery"), displacement * (n - 0.05 * Plate{}.rated * p / (200 * si::bar)));
}

// At its rated power it turns at its rated speed, and its highest torque is the breakdown ratio of the rated
// one.
TEST(electric_motor, has_the_torque_of_its_plate) {
  const Kind& kind = *find_kind("electric_motor");
  Bench b;
  add_motor(b);
  const Laws laws = kind.make(b.plan.parts[0].values, Oil{OilData{}});
  const auto torque = [&](double speed) {
    Neighbourhood n{};
    n.input[0] = {1.0, 1.0, 1.0};
    n.body[0].speed = turn * speed;
    std::array<double, 4> out{};
    laws.report(laws.numbers.get(), n, out);
    return out[0];
  };
  EXPECT_CLOSE(torque(1450.0 / 60.0), Plate{}.torque());
  EXPECT_CLOSE(torque(0.0), 2.0 * Plate{}.torque());
  EXPECT_NEAR(torque(25.0), 0.0, 1e-9);
  EXPECT_LT(torque(26.0), 0.0);  // driven above its field it brakes
  double most = 0.0;
  for (double n = 12.0; n < 25.0; n += 0.01) most = std::max(most, torque(n));
  EXPECT_NEAR(most, 2.5 * Plate{}.torque(), 0.01 * most);  // the starting term adds a little there
}

// Overloaded it stalls: with the outlet shut the pump can only turn as fast as it leaks, n·D = k·p, and the
// motor crawls where its torque at that speed is the pump's. That, not the pump's rating, is then the limit
// of the pressure.
TEST(electric_motor, stalls_against_a_shut_outlet_and_so_limits_the_pressure) {
  Bench b;
  const double displacement = 8 * si::cm3, rated = 200 * si::bar;
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  add_motor(b);
  add_pump(b, "1", displacement, 1000 * si::bar, 1.0);
  b.part("S1", "shut_off", {{"position", 1.0}, {"rated_flow", 40 * lpm}});
  b.join({"H1.B", "S1.A"});
  b.join({"S1.B", "T1.T"});
  b.step("run up without load", 3.0, {{"M1", "running", 1.0}});
  b.step("shut", 5.0, {{"S1", "position", 0.0}});
  const Trace t = b.run({"M1.torque", "M1.speed_of_rotation", "P1.P.pressure"});
  expect_closed_books(t);
  double low = 0.0, high = 10.0;  // rev/s
  for (int i = 0; i < 60; ++i) {
    const double n = 0.5 * (low + high), p = n / (0.05 * Plate{}.rated) * rated;
    (displacement * p / turn < Plate{}.at(1 - n / 25.0) ? low : high) = n;
  }
  EXPECT_CLOSE(last(t, "M1.speed_of_rotation"), low);
  EXPECT_CLOSE(last(t, "P1.P.pressure"), low / (0.05 * Plate{}.rated) * rated);
  EXPECT_LT(last(t, "P1.P.pressure"), 300 * si::bar);
  EXPECT_TRUE(std::ranges::any_of(
      t.events, [](const Event& e) { return e.sentence.find("stalls") != std::string::npos; }));
}

// Several pumps on one shaft: each takes its torque, and the load of one slows the flow of the other.
TEST(shaft_pump, shares_a_shaft_and_is_slowed_by_the_others_load) {
  const auto delivery_beside = [](double other_held) {
    Bench b;
    b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
    add_motor(b);
    add_pump(b, "1", 4 * si::cm3, 10 * si::bar);
    add_pump(b, "2", 4 * si::cm3, other_held);
    b.step("run", 4.0, {{"M1", "running", 1.0}});
    const Trace t = b.run({"M1.torque", "P1.torque", "P2.torque", "M1.speed_of_rotation", "P1.delivery"});
    expect_closed_books(t);
    EXPECT_CLOSE(last(t, "M1.torque"), last(t, "P1.torque") + last(t, "P2.torque"));
    EXPECT_CLOSE(last(t, "M1.speed_of_rotation"), Plate{}.speed_under(last(t, "M1.torque")));
    return last(t, "P1.delivery");
  };
  EXPECT_LT(delivery_beside(200 * si::bar), 0.98 * delivery_beside(10 * si::bar));
}

void add_drive(Bench& b, double flow, Bench::Numbers motor) {
  b.part("T1", "reservoir", {{"usable_oil", 50 * si::litre}});
  b.part("P1", "pump", {{"flow", flow}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 250 * si::bar}});
  // Narrow enough to damp the shaft on the oil: a motor without losses under a constant torque would ring for
  // ever.
  b.part("H1", "hose", {{"bore", 7 * si::mm}, {"length", 1.0}});
  b.part("M1", "hydraulic_motor", motor);
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "H1.A"});
}

// PU-13 (Esposito, Fluid Power with Applications, 6th ed., example 7-5): a motor of 0.082 L/rev on 0.0006
// m3/s and 70 bar turns at 439 rpm with 91.4 N·m and gives 4.2 kW. The oil at the motor is denser than what
// the pump draws.
TEST(hydraulic_motor, turns_displacement_and_pressure_into_speed_and_torque) {
  Bench b;
  const double displacement = 0.082 * si::litre, flow = 0.0006, load = 91.35494;
  b.plan.oil.air = 1e-5;
  add_drive(b, flow,
            {{"displacement", displacement},
             {"volumetric_efficiency", 1.0},
             {"mechanical_efficiency", 1.0},
             {"rated_pressure", 210 * si::bar},
             {"drain", 0.0}});
  b.join({"H1.B", "M1.A"});
  b.join({"M1.B", "T1.T"});
  b.step("run", 4.0, {{"P1", "running", 1.0}, {"M1", "load_torque", load}});
  const Trace t = b.run({"M1.torque", "M1.speed_of_rotation", "M1.power", "M1.A.pressure"});
  expect_closed_books(t);
  const double p = last(t, "M1.A.pressure");
  const Oil oil{b.plan.oil};
  EXPECT_CLOSE(p, 70 * si::bar);
  EXPECT_CLOSE(last(t, "M1.torque"), 91.35494);
  EXPECT_CLOSE(last(t, "M1.speed_of_rotation"), 439.0244 / 60 * oil.density_at_zero() / oil.density(p).value);
  EXPECT_NEAR(last(t, "M1.power"), 4200.0, 0.006 * 4200.0);
}

// At its rated point it has its two efficiencies: speed = flow·η_v/D, torque = η_m·D·p/2π, and half of what
// slips comes out of the case.
TEST(hydraulic_motor, has_its_efficiencies_at_the_rated_point) {
  Bench b;
  const double displacement = 20 * si::cm3, rated = 200 * si::bar, n = 1450.0 / 60.0;
  const Oil oil{OilData{}};
  const double density = oil.density(rated).value / oil.density_at_zero();
  const double slip = displacement * n * (1 / 0.92 - 1);
  // Leakage at the density of A; the pump's flow is counted at suction density.
  add_drive(b, displacement * n / 0.92 * density,
            {{"displacement", displacement},
             {"volumetric_efficiency", 0.92},
             {"mechanical_efficiency", 0.85},
             {"rated_pressure", rated}});
  b.part("V1", "relief", {{"setting", 300 * si::bar}, {"rated_flow", 60 * lpm}});
  b.join({"H1.B", "M1.A", "V1.P"});
  b.join({"M1.B", "M1.L", "V1.T", "T1.T"});
  const double torque = 0.85 * displacement * rated / turn;
  b.step("run", 5.0, {{"P1", "running", 1.0}, {"M1", "load_torque", torque}});
  const Trace t = b.run({"M1.torque", "M1.speed_of_rotation", "M1.power", "M1.A.pressure", "M1.case_flow"});
  expect_closed_books(t);
  EXPECT_CLOSE(last(t, "M1.A.pressure"), rated);
  EXPECT_CLOSE(last(t, "M1.torque"), torque);
  EXPECT_CLOSE(last(t, "M1.speed_of_rotation"), n);
  EXPECT_CLOSE(last(t, "M1.power"), 0.85 * 0.92 * rated * displacement * n / 0.92);
  EXPECT_CLOSE(last(t, "M1.case_flow"), 0.5 * slip);
}

// Common practice: a shut-in motor does not hold a hanging load; it creeps back by its leakage, n = k·p/D at
// p = 2π·M/D.
TEST(hydraulic_motor, creeps_under_a_hanging_load_when_shut_in) {
  Bench b;
  const double displacement = 50 * si::cm3, rated = 200 * si::bar, load = 80.0;
  b.part("T1", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part("M1", "hydraulic_motor",
         {{"displacement", displacement},
          {"volumetric_efficiency", 0.94},
          {"mechanical_efficiency", 1.0},
          {"rated_pressure", rated},
          {"load", 1.0},
          {"inertia", 0.5}});
  b.plug("M1.A");
  b.join({"M1.B", "M1.L", "T1.T"});
  b.step("hang", 10.0, {{"M1", "load_torque", load, 1.0}});
  const Trace t = b.run({"M1.speed_of_rotation", "M1.A.pressure"});
  expect_closed_books(t);
  const double p = turn * load / displacement, k = displacement * 1450 / 60.0 * (1 / 0.94 - 1) / rated;
  EXPECT_CLOSE(last(t, "M1.A.pressure"), p);
  // What leaks out of A at its density is drawn in from B at the tank's.
  const Oil oil{OilData{}};
  EXPECT_CLOSE(-last(t, "M1.speed_of_rotation"),
               k * p / displacement * oil.density(p).value / oil.density_at_zero());
}

}  // namespace
}  // namespace poise
