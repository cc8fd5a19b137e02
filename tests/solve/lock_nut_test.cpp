// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A load raised, stood on the lock nut, and left without oil. Invented data.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

constexpr double mass = 8000.0;
constexpr double clearance = 0.4 * si::mm, stiffness = 5e8;

/// P1 raises C1 under M1; V2 lets the oil off through a needle; N1 is the nut.
Bench jack_with_nut() {
  Bench b;
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 250 * si::bar, .rated_flow = 10 * si::litre_per_minute});
  b.part("V2", "check", {{"rated_flow", 10 * si::litre_per_minute}});
  b.part("V3", "shut_off", {{"position", 0.0}, {"rated_flow", 1 * si::litre_per_minute}});
  b.part(
      "C1", "single_acting_cylinder",
      {{"bore", 70 * si::mm}, {"stroke", 0.15}, {"friction", 0.0}, {"seal_friction", 0.0}, {"damping", 5e4}});
  b.part("M1", "mass", {{"mass", mass}});
  b.part("N1", "lock_nut", {{"clearance", clearance}, {"stiffness", stiffness}, {"turning_time", 2.0}});
  b.join({"P1.P", "V2.A"});
  b.join({"V2.B", "C1.A", "V3.A"});
  b.join({"V3.B", "T1.T"});
  b.join({"C1.rod", "M1.rod", "N1.rod"});
  return b;
}

double moment_of(const Trace& t, std::string_view sentence) {
  const auto found = std::ranges::find(t.events, sentence, &Event::sentence);
  return found == t.events.end() ? std::nan("") : found->time;
}

// Statics: with the oil gone the nut carries the whole weight, its give is weight over stiffness, and nothing
// moves from then on.
TEST(lock_nut, carries_the_load_when_the_oil_is_let_off_and_does_not_drift) {
  Bench b = jack_with_nut();
  b.step("raise", 6.0, {{"P1", "running", 1.0}});
  b.step("run the nut down", 4.0, {{"P1", "running", 0.0}, {"N1", "nut", 1.0, 2.0}});
  b.step("let the oil off", 10.0, {{"V3", "position", 1.0, 1.0}});
  b.step("stand", 600.0);
  const Trace t = b.run({"C1.position", "N1.force", "N1.height", "C1.A.pressure", "N1.locked"});
  expect_closed_books(t);
  const double raised = at(t, "C1.position", t.steps[1].end), let_off = t.steps[2].end;
  EXPECT_GT(raised, 40 * si::mm);
  EXPECT_EQ(at(t, "N1.force", t.steps[1].end), 0.0);
  const double held = mass * si::gravity;
  EXPECT_NEAR(last(t, "N1.force"), held, 1e-3 * held);
  EXPECT_NEAR(last(t, "C1.A.pressure"), 0.0, 0.01 * si::bar);
  EXPECT_NEAR(raised - last(t, "C1.position"), clearance + held / stiffness, 1 * si::micrometre);
  EXPECT_NEAR(last(t, "C1.position"), at(t, "C1.position", let_off), 0.1 * si::micrometre);
  EXPECT_EQ(last(t, "N1.locked"), 1.0);
  EXPECT_GT(moment_of(t, "N1 takes the load"), t.steps[1].end);
}

// Common practice: a nut under load cannot be turned; the jack lifts the load off it first.
TEST(lock_nut, comes_off_only_after_the_load_is_lifted_off_it) {
  Bench b = jack_with_nut();
  b.step("raise", 6.0, {{"P1", "running", 1.0}});
  b.step("run the nut down", 4.0, {{"P1", "running", 0.0}, {"N1", "nut", 1.0, 2.0}});
  b.step("let the oil off", 10.0, {{"V3", "position", 1.0, 1.0}});
  b.step("try to free it", 5.0, {{"N1", "nut", 0.0, 2.0}});
  b.step("lift off", 4.0, {{"V3", "position", 0.0, 0.5}, {"P1", "running", 1.0}});
  b.step("lower", 60.0, {{"P1", "running", 0.0}, {"V3", "position", 1.0, 1.0}});
  const Trace t = b.run({"C1.position", "N1.force", "N1.height", "N1.locked"});
  expect_closed_books(t);
  const double tried = t.steps[3].end, lifted = t.steps[4].end;
  EXPECT_EQ(at(t, "N1.locked", tried), 1.0);
  EXPECT_NEAR(at(t, "N1.force", tried), mass * si::gravity, 1e-3 * mass * si::gravity);
  const double refused = moment_of(t, "N1 cannot be turned while it carries the load");
  EXPECT_GT(refused, t.steps[2].end);
  EXPECT_LT(refused, tried);
  const double freed = moment_of(t, "N1 is run up and clear");
  EXPECT_GT(freed, tried);
  EXPECT_LT(freed, lifted);
  EXPECT_NEAR(last(t, "C1.position"), 0.0, 1 * si::mm);  // down to the stop: the nut went along
  EXPECT_EQ(last(t, "N1.force"), 0.0);
}

// The nut stands at its place from the start where the job says so: the load settles onto it without oil.
TEST(lock_nut, holds_from_the_start_at_its_stated_height) {
  Bench b = jack_with_nut();
  b.set("N1", "nut", 1.0);
  b.set("N1", "start_height", 60 * si::mm);
  b.set("C1", "start_position", 60 * si::mm);
  b.set("V3", "position", 1.0);
  b.step("stand", 10.0);
  const Trace t = b.run({"C1.position", "N1.force"});
  EXPECT_FALSE(t.halt);
  const double held = mass * si::gravity;
  EXPECT_NEAR(last(t, "N1.force"), held, 1e-3 * held);
  EXPECT_NEAR(last(t, "C1.position"), 60 * si::mm - held / stiffness, 1 * si::micrometre);
}

// The engine asks one part after another in one moment: what one does must not take the next one's inputs
// from it.
TEST(lock_nut, one_that_locks_leaves_another_on_its_way_where_it_is) {
  Bench b = jack_with_nut();
  b.part("N2", "lock_nut", {{"turning_time", 2.0}});
  b.join({"C1.rod", "N2.rod"});
  const Circuit circuit = build(b.plan);
  solve::Equations equations(circuit);
  const int first = circuit.find_part("N1"), second = circuit.find_part("N2");
  equations.drives()[second][0] = {.from = 0.0, .to = 1.0, .begin = 0.0, .duration = 2.0};
  const std::vector<double> y = equations.start();
  ASSERT_TRUE(equations.observe(1.5, y.data()));
  equations.turn_mode(first, 0);
  std::array<double, max_modes> turning{};
  equations.turning(second, turning);
  EXPECT_NEAR(turning[0], 0.75 - 0.95, 1e-12);  // the hand is three quarters down; it locks at 95 %
}

}  // namespace
}  // namespace poise
