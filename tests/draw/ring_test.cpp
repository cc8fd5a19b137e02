// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Circuits that nobody would draw are drawn all the same.
#include <gtest/gtest.h>

#include "support/drawn_job.hpp"
#include "support/workshop.hpp"

namespace poise::drawing {
namespace {

// From the reservoir through N1 one comes in by the pilot port, and from there round and round.
TEST(rings, of_a_valve_and_a_needle_behind_its_pilot_port_are_drawn) {
  workshop::Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 0.01}});
  b.part("N1", "needle", {{"bore", 1e-3}, {"turns", 2.0}});
  b.part("N2", "needle", {{"bore", 1e-3}, {"turns", 2.0}});
  b.part("V1", "pilot_operated_check", {{"ratio", 4.0}, {"rated_flow", 1e-4}});
  b.join({"T1.T", "N1.A"});
  b.join({"N1.B", "V1.X"});
  b.join({"V1.A", "N2.A"});
  b.join({"N2.B", "V1.B"});
  const Arranged job(b.plan);
  EXPECT_EQ(job.schematic.symbols.size(), 4U);
}

}  // namespace
}  // namespace poise::drawing
