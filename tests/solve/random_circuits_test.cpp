// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What holds for any flow law and any circuit put together at random (RapidCheck, fixed seed).
#include <gtest/gtest.h>

// RapidCheck needs GoogleTest before it.
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>

#include "parts/laws.hpp"
#include "support/workshop.hpp"

namespace poise::workshop {
namespace {

double between(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0; }

OilHere<double> oil_at(const Oil& oil, double pressure) { return {pressure, oil.density(pressure).value}; }

RC_GTEST_PROP(flow_laws, of_a_restriction_are_odd_and_rise_with_the_drop, ()) {
  const Restriction r = Restriction::through(between(1e-6, 1e-3), between(1e4, 1e7), between(0.02, 5.0));
  const double drop = between(1.0, 7e7), more = drop * between(1.001, 3.0), x = between(0.01, 1.0);
  RC_ASSERT(std::abs(r.flow(-drop, x) + r.flow(drop, x)) <= 1e-15);
  RC_ASSERT(r.flow(more, x) > r.flow(drop, x));
  RC_ASSERT(r.flow(drop, x) > 0.0);
}

RC_GTEST_PROP(flow_laws, of_an_orifice_turned_round_pass_as_much_the_other_way, ()) {
  const Oil oil{OilData{}};
  const Orifice o{.area = between(1e-8, 1e-4), .viscosity = oil.viscosity()};
  const auto a = oil_at(oil, between(0.0, 7e7)), b = oil_at(oil, between(0.0, 7e7));
  const double x = between(0.01, 1.0), there = o.flow(a, b, x), back = o.flow(b, a, x);
  RC_ASSERT(std::abs(there + back) <= 1e-12 * std::abs(there));
  const auto higher = oil_at(oil, a.pressure + between(1e3, 1e6));
  if (a.pressure > b.pressure) RC_ASSERT(o.flow(higher, b, x) > there);
}

/// A pump with its relief valve, and up to four branches of parts in a row, each back to the tank.
Bench random_circuit() {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 20 * si::litre}});
  b.part("P1", "pump",
         {{"flow", between(0.5, 12.0) * si::litre_per_minute}, {"rated_pressure", 250 * si::bar}});
  b.part("V1", "relief",
         {{"setting", between(40.0, 200.0) * si::bar}, {"rated_flow", 15 * si::litre_per_minute}});
  b.join({"T1.T", "P1.S", "V1.T"});
  b.join({"P1.P", "V1.P"});
  const int branches = *rc::gen::inRange(1, 5);
  for (int i = 0; i < branches; ++i) {
    std::string last = "P1.P";
    const int length = *rc::gen::inRange(1, 5);
    for (int k = 0; k < length; ++k) {
      const std::string tag = "X" + std::to_string(i) + "-" + std::to_string(k);
      const int which = *rc::gen::inRange(0, 5);
      if (which == 0)
        b.part(tag, "needle", {{"bore", between(0.5, 3.0) * si::mm}, {"turns", between(0.5, 8.0)}});
      if (which == 1)
        b.part(tag, "hose", {{"bore", between(4.0, 12.0) * si::mm}, {"length", between(0.2, 5.0)}});
      if (which == 2) b.part(tag, "check", {{"rated_flow", between(2.0, 20.0) * si::litre_per_minute}});
      if (which == 3)
        b.part(tag, "tube", {{"bore", between(4.0, 12.0) * si::mm}, {"length", between(0.2, 5.0)}});
      if (which == 4)
        b.part(tag, "shut_off",
               {{"rated_flow", between(2.0, 20.0) * si::litre_per_minute}, {"position", 1.0}});
      b.join({last, tag + ".A"});
      last = tag + ".B";
    }
    if (*rc::gen::arbitrary<bool>()) {
      b.join({last, "T1.T"});
    } else {
      const std::string n = std::to_string(i);
      b.part("C" + n, "single_acting_cylinder", {{"bore", between(20.0, 80.0) * si::mm}, {"stroke", 0.05}});
      b.part("M" + n, "mass", {{"mass", between(20.0, 2000.0)}});
      b.join({last, "C" + n + ".A"});
      b.join({"C" + n + ".rod", "M" + n + ".rod"});
    }
  }
  b.step("run", 1.0, {{"P1", "running", 1.0, 0.2}});
  b.step("coast", 0.5, {{"P1", "running", 0.0, 0.2}});
  return b;
}

RC_GTEST_PROP(random_circuits, keep_their_oil_and_close_their_books, ()) {
  const Trace trace = random_circuit().run({"P1.P.pressure"});
  RC_ASSERT(!trace.halt);
  RC_ASSERT(trace.books.mass_share() <= 1e-6);
  RC_ASSERT(trace.books.energy_share() <= 1e-3);
}

RC_GTEST_PROP(random_circuits, lose_power_in_every_passive_part_and_gain_it_in_none, ()) {
  const Bench b = random_circuit();
  const Circuit circuit = build(b.plan);
  solve::RunOptions options;
  options.look_at_step_ends = true;
  options.look_at = {0.1, 0.3, 0.6, 1.2};
  const Trace trace = solve::run(circuit, b.steps, {}, options);
  for (const Moment& moment : trace.moments) {
    for (const PartMoment& part : moment.parts) RC_ASSERT(part.heat >= -1e-6);
  }
}

}  // namespace
}  // namespace poise::workshop
