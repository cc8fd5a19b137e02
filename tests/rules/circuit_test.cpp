// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the rules say of a circuit without running it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/all.hpp"
#include "rules/chapters.hpp"
#include "support/pump_and_cylinder.hpp"

namespace poise {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using workshop::add_relief;
using workshop::Bench;
using workshop::pump_and_cylinder;

/// What the rules about the circuit as a whole say of it.
std::vector<std::string> said_of(const Bench& b) {
  const Schedule no_steps;
  const Controls no_controls;
  const rules::Sight sight(b.plan, no_steps, no_controls, units::metric());
  std::vector<std::string> all;
  for (const rules::TradeRule& rule : rules::circuit_rules()) {
    rules::Report report;
    rule.look(sight, report);
    for (const rules::Found& found : report.found()) all.push_back(found.sentence);
  }
  return all;
}

TEST(circuit_rules, a_pump_without_a_relief_is_named) {
  EXPECT_THAT(said_of(pump_and_cylinder()),
              ElementsAre(HasSubstr("P1 has no relief valve with an open way to it")));
}

TEST(circuit_rules, a_relief_at_the_outlet_or_behind_a_hose_is_enough) {
  Bench direct = pump_and_cylinder();
  add_relief(direct);
  direct.join({"P1.P", "V1.P"});
  EXPECT_THAT(said_of(direct), IsEmpty());

  Bench behind_hose = pump_and_cylinder();
  add_relief(behind_hose);
  behind_hose.part("L1", "hose", {{"bore", 8 * si::mm}, {"length", 1.0}});
  behind_hose.join({"P1.P", "L1.A"});
  behind_hose.join({"L1.B", "V1.P"});
  EXPECT_THAT(said_of(behind_hose), IsEmpty());
}

// Common practice: no shut-off, check or filter between a pump and its relief.
TEST(circuit_rules, a_relief_behind_a_check_or_a_shut_off_does_not_guard_the_pump) {
  for (const char* between : {"check", "shut_off"}) {
    Bench b = pump_and_cylinder();
    add_relief(b);
    b.part("V2", between, {{"rated_flow", 10 * si::litre_per_minute}});
    b.join({"P1.P", "V2.A"});
    b.join({"V2.B", "V1.P"});
    EXPECT_THAT(said_of(b), ElementsAre(HasSubstr("P1 has no relief"))) << between;
  }
}

TEST(circuit_rules, a_relief_whose_outlet_is_shut_off_does_not_guard_the_pump) {
  Bench b = pump_and_cylinder();
  b.part("V1", "relief", {{"setting", 200 * si::bar}, {"rated_flow", 10 * si::litre_per_minute}});
  b.part("V2", "shut_off", {{"rated_flow", 10 * si::litre_per_minute}});
  b.join({"P1.P", "V1.P"});
  b.join({"V1.T", "V2.A"});
  b.join({"V2.B", "T1.T"});
  EXPECT_THAT(said_of(b), ElementsAre(HasSubstr("P1 has no relief")));
}

TEST(circuit_rules, a_ring_of_checks_is_shown_part_by_part) {
  Bench b = pump_and_cylinder();
  add_relief(b);
  b.join({"P1.P", "V1.P"});
  for (const char* tag : {"V2", "V3", "V4"})
    b.part(tag, "check", {{"rated_flow", 10 * si::litre_per_minute}});
  b.join({"C1.A", "V2.A"});
  b.join({"V2.B", "V3.A"});
  b.join({"V3.B", "V4.A"});
  b.join({"V4.B", "V2.A"});
  EXPECT_THAT(said_of(b), ElementsAre(HasSubstr("V2 → V3 → V4 → V2 is a ring of 3 checks")));
}

TEST(circuit_rules, checks_that_point_at_each_other_are_no_ring) {
  Bench b = pump_and_cylinder();
  add_relief(b);
  b.join({"P1.P", "V1.P"});
  for (const char* tag : {"V2", "V3"}) b.part(tag, "check", {{"rated_flow", 10 * si::litre_per_minute}});
  b.join({"C1.A", "V2.A", "V3.A"});
  b.join({"V2.B", "V3.B"});
  EXPECT_THAT(said_of(b), IsEmpty());
}

TEST(circuit_rules, two_reservoirs_apart_are_named) {
  Bench shared = pump_and_cylinder();
  add_relief(shared);
  shared.join({"P1.P", "V1.P"});
  shared.part("T2", "reservoir", {{"usable_oil", 5 * si::litre}});
  shared.part("N1", "needle", {{"bore", 1 * si::mm}, {"turns", 1.0}});
  shared.join({"C1.A", "N1.A"});
  shared.join({"N1.B", "T2.T"});
  EXPECT_THAT(
      said_of(shared),
      ElementsAre(HasSubstr("T1 (5000 cm3) and T2 (5000 cm3) are two reservoirs apart in one circuit")));

  Bench separate = pump_and_cylinder();
  add_relief(separate);
  separate.join({"P1.P", "V1.P"});
  separate.part("T2", "reservoir", {{"usable_oil", 5 * si::litre}});
  separate.part("G1", "gauge", {{"range", 400 * si::bar}});
  separate.join({"T2.T", "G1.M"});
  EXPECT_THAT(said_of(separate), ElementsAre(HasSubstr("share no oil")));
}

TEST(circuit_rules, cylinders_on_one_rod_that_start_apart_are_named) {
  Bench b = pump_and_cylinder();
  add_relief(b);
  b.join({"P1.P", "V1.P"});
  b.part("C2", "single_acting_cylinder", {{"bore", 40 * si::mm}, {"stroke", 0.1}, {"start_position", 0.05}});
  b.join({"C1.A", "C2.A"});
  b.join({"C1.rod", "C2.rod"});
  EXPECT_THAT(said_of(b),
              ElementsAre(HasSubstr("C1.rod and C2.rod are one rod but start in different positions")));
  b.set("C2", "start_position", 0.0);
  EXPECT_THAT(said_of(b), IsEmpty());
}

}  // namespace
}  // namespace poise
