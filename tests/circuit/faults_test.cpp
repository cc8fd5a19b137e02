// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What can be said of a circuit without running it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/pump_and_cylinder.hpp"

namespace poise {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using workshop::add_relief;
using workshop::Bench;
using workshop::pump_and_cylinder;

std::vector<std::string> faults(const Bench& b) {
  std::vector<std::string> all;
  for (const Remark& r : faults_of(b.plan)) all.push_back(r.sentence);
  return all;
}

TEST(faults, an_open_port_is_named_with_what_to_do) {
  Bench b = pump_and_cylinder();
  add_relief(b);
  EXPECT_THAT(faults(b),
              ElementsAre(testing::AllOf(HasSubstr("V1.P (the line it guards) is connected to nothing"),
                                         HasSubstr("plugged = [\"V1.P\"]"))));
  b.plug("V1.P");
  EXPECT_THAT(faults(b), IsEmpty());
}

TEST(faults, oil_is_not_joined_to_a_rod) {
  Bench b = pump_and_cylinder();
  b.join({"P1.P", "C1.rod"});
  EXPECT_THAT(faults(b), ElementsAre(HasSubstr("P1.P carries oil and C1.rod carries motion")));
}

TEST(faults, a_port_that_the_part_has_not_got_is_named_with_the_word_that_gives_it) {
  Bench b = pump_and_cylinder();
  b.part("V2", "pilot_operated_check", {{"ratio", 4.0}, {"rated_flow", 1e-4}});
  b.join({"C1.A", "V2.A", "V2.B", "V2.X"});
  b.join({"T1.T", "V2.Y"});
  EXPECT_THAT(faults(b), ElementsAre(HasSubstr("only with drain = \"external\"")));
}

TEST(build, ports_joined_directly_or_through_others_share_one_volume) {
  Bench b = pump_and_cylinder();
  b.part("G1", "gauge", {{"range", 400 * si::bar}, {"port_volume", 3 * si::cm3}});
  b.join({"C1.A", "G1.M"});
  const Circuit c = build(b.plan);
  ASSERT_EQ(c.nodes.size(), 2u);
  EXPECT_EQ(c.parts[1].oil[1], c.parts[3].oil[0]);
  // Pump port 5 cm3, cylinder's dead volume 5 cm3, gauge 3 cm3.
  EXPECT_NEAR(c.nodes[c.parts[3].oil[0]].volume, 13 * si::cm3, 1e-12);
}

}  // namespace
}  // namespace poise
