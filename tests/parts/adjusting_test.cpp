// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Every part says how its settings are brought to their values, and what of it is looked after.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "parts/kind.hpp"

namespace poise {
namespace {

class every_part : public testing::TestWithParam<int> {
 protected:
  const Kind& kind = all_kinds()[GetParam()];
  const Port* port(std::string_view name) const {
    const auto found = std::ranges::find(kind.ports, name, &Port::name);
    return found == kind.ports.end() ? nullptr : &*found;
  }
};

TEST_P(every_part, says_once_how_each_of_its_settings_is_set_and_of_nothing_else) {
  std::multiset<std::string_view> settings, told;
  for (const Parameter& p : kind.parameters) {
    if (p.adjusted) settings.insert(p.name);
  }
  for (const Adjusting& a : kind.adjusting) told.insert(a.parameter);
  EXPECT_EQ(told, settings);
}

TEST_P(every_part, tells_where_it_begins_in_which_state_it_is_set_and_at_which_port_it_is_read) {
  for (const Adjusting& a : kind.adjusting) {
    EXPECT_FALSE(a.begin.empty()) << a.parameter;
    EXPECT_FALSE(a.while_setting.empty()) << a.parameter;
    EXPECT_FALSE(a.source.empty()) << a.parameter;
    const bool by_gauge =
        kind.parameters[*find_parameter(kind.parameters, a.parameter)].quantity == Quantity::pressure;
    EXPECT_EQ(a.port.empty(), !by_gauge)
        << a.parameter << ": pressures are read at a gauge, others are timed";
    if (by_gauge) {
      EXPECT_TRUE(port(a.port)) << a.port;
    }
  }
}

// Counterbalance cartridges are often raised the other way round than reliefs: no text may say how to turn
// (trade article on setting counterbalance valves).
TEST_P(every_part, never_says_which_way_an_adjuster_turns) {
  const auto says = [](std::string_view text) { return text.find("clockwise") != std::string_view::npos; };
  for (const Adjusting& a : kind.adjusting)
    EXPECT_FALSE(says(a.begin) || says(a.while_setting)) << a.parameter;
  for (const Care& c : kind.care) EXPECT_FALSE(says(c.what) || says(c.limit)) << c.what;
}

TEST_P(every_part, is_looked_after_if_oil_passes_or_presses_it) {
  // It only marks a volume that gets warm: no part that one could touch.
  const bool marks = kind.about.kind == "warmed_oil";
  if (kind.oil_ports > 0 && !marks) {
    EXPECT_FALSE(kind.care.empty());
  }
  std::set<std::string_view> whats;
  for (const Care& c : kind.care) {
    EXPECT_FALSE(c.what.empty());
    EXPECT_FALSE(c.interval.empty()) << c.what;
    EXPECT_FALSE(c.limit.empty()) << c.what;
    EXPECT_FALSE(c.source.empty()) << c.what;
    EXPECT_TRUE(whats.insert(c.what).second) << "said twice: " << c.what;
  }
}

INSTANTIATE_TEST_SUITE_P(adjusting, every_part, testing::Range(0, static_cast<int>(all_kinds().size())),
                         [](const auto& entry) { return std::string(all_kinds()[entry.param].about.kind); });

const Adjusting& told_of(std::string_view kind) { return find_kind(kind)->adjusting[0]; }

// The order of commissioning: reliefs, then reducing valves shut off, then sequence valves, then flows
// (commissioning article of a lubrication magazine for the outline; order common practice).
TEST(adjusting, goes_in_the_order_of_commissioning) {
  constexpr std::array order{"accumulator", "relief", "variable_pump",  "reducing",
                             "sequence",    "needle", "counterbalance", "pressure_switch"};
  for (std::size_t i = 1; i < order.size(); ++i)
    EXPECT_LT(told_of(order[i - 1]).turn, told_of(order[i]).turn) << order[i];
}

// Settings are rounded to the safe side: reliefs and reducing valves down, sequence and counterbalance valves
// up (common practice).
TEST(adjusting, knows_the_side_on_which_an_error_hurts_nobody) {
  using Safe = Adjusting::Safe;
  for (std::string_view kind : {"relief", "pilot_operated_relief", "externally_drained_relief", "reducing",
                                "reducing_non_relieving", "unloading_valve", "variable_pump"})
    EXPECT_EQ(told_of(kind).safe, Safe::lower) << kind;
  for (std::string_view kind : {"sequence", "counterbalance", "pressure_switch"})
    EXPECT_EQ(told_of(kind).safe, Safe::higher) << kind;
  for (std::string_view kind : {"needle", "one_way_flow_control", "compensated_flow_control", "accumulator"})
    EXPECT_EQ(told_of(kind).safe, Safe::neither) << kind;
}

TEST(adjusting, leaves_loads_alone) {
  for (std::string_view kind : {"mass", "force", "spring", "rigid_load"}) {
    EXPECT_TRUE(find_kind(kind)->care.empty()) << kind;
    EXPECT_TRUE(find_kind(kind)->adjusting.empty()) << kind;
  }
}

}  // namespace
}  // namespace poise
