// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the faults of valves, lines and gauges do to their laws.
#include <gtest/gtest.h>

#include <cmath>

#include "support/one_part.hpp"

namespace poise::workshop {
namespace {

constexpr double rated = 10 * si::litre_per_minute;

/// Every fault of every kind changes its parameter to something that a job could also say.
TEST(faults, stay_within_what_their_parameter_may_be) {
  for (const Kind& kind : all_kinds()) {
    for (const Fault& fault : kind.faults) {
      const Parameter& p = kind.parameters[*find_parameter(kind.parameters, fault.parameter)];
      for (double size : {fault.slight, fault.grave}) {
        double value = size;
        if (fault.change != Fault::Change::becomes) {
          if (!p.fallback) continue;
          value = fault.change == Fault::Change::times ? *p.fallback * size : *p.fallback + size;
        }
        EXPECT_GE(value, p.low) << kind.about.kind << ": " << fault.name;
        EXPECT_LE(value, p.high) << kind.about.kind << ": " << fault.name;
      }
    }
  }
}

TEST(directional, that_does_not_respond_stays_where_it_was) {
  const auto open_path = [](double responds) {
    OnePart v("directional_2_2", {{"rated_flow", rated}, {"position", 0.0}, {"responds", responds}});
    v.here.input[0] = {0.0, 1.0, 1.0};  // commanded open
    v.press(0, 5 * si::bar);
    return v.flow(0);
  };
  EXPECT_NEAR(open_path(1.0), rated, 1e-6 * rated);
  EXPECT_EQ(open_path(0.0), 0.0);
}

TEST(directional, that_is_not_fully_shifted_opens_a_share_of_its_area) {
  OnePart v("directional_2_2", {{"rated_flow", rated}, {"position", 1.0}, {"path_opening", 0.5}});
  EXPECT_NEAR(v.drop_for(0.5 * rated), 5 * si::bar * (0.25 + 0.05) / 1.1 / 0.25, 1.0);
}

TEST(needle, that_is_half_clogged_passes_what_half_its_turns_do) {
  OnePart clogged("needle", {{"bore", 2 * si::mm}, {"turns", 4.0}, {"area_factor", 0.5}});
  OnePart closed("needle", {{"bore", 2 * si::mm}, {"turns", 2.0}});
  clogged.press(0, 50 * si::bar);
  closed.press(0, 50 * si::bar);
  EXPECT_DOUBLE_EQ(clogged.flow(0), closed.flow(0));
}

TEST(one_way_flow_control, with_its_check_stuck_loses_one_of_its_two_ways) {
  const auto flow = [](int from, double least, double most) {
    OnePart v("one_way_flow_control", {{"bore", 1 * si::mm},
                                       {"turns", 0.0},
                                       {"rated_flow", rated},
                                       {"check_least", least},
                                       {"check_most", most}});
    v.press(from, 5 * si::bar);
    return v.flow(from);
  };
  EXPECT_NEAR(flow(0, 0.0, 1.0), rated, 1e-6 * rated);
  EXPECT_EQ(flow(1, 0.0, 1.0), 0.0);
  EXPECT_EQ(flow(0, 0.0, 0.0), 0.0);                    // stuck shut: nothing but the needle
  EXPECT_NEAR(flow(1, 1.0, 1.0), rated, 1e-6 * rated);  // stuck open: free both ways
}

TEST(gauge, that_is_off_shows_something_else_and_disturbs_nothing) {
  OnePart g("gauge", {{"range", 250 * si::bar}, {"zero_error", 0.02}, {"gain", 0.95}});
  EXPECT_DOUBLE_EQ(g.report(0), 5 * si::bar);
  g.press(0, 100 * si::bar);
  EXPECT_DOUBLE_EQ(g.report(0), 100 * si::bar);  // right by chance: 5 + 95
  g.press(0, 200 * si::bar);
  EXPECT_DOUBLE_EQ(g.report(0), 195 * si::bar);
}

TEST(hose, that_is_soft_swells_more) {
  const auto wall = [](double softening) {
    OnePart h("hose", {{"bore", 6 * si::mm}, {"length", 2.0}, {"softening", softening}});
    const Laws laws = h.kind().make(h.values(), h.oil());
    return laws.space(laws.numbers.get(), 0).wall;
  };
  EXPECT_DOUBLE_EQ(wall(4.0), 4.0 * wall(1.0));
}

TEST(swing_clamp, with_a_leaking_piston_loses_oil_to_its_other_side) {
  OnePart clamp("swing_clamp", {{"clamp_area", 6 * si::cm2},
                                {"swing_stroke", 10 * si::mm},
                                {"clamp_stroke", 10 * si::mm},
                                {"return", 1.0},
                                {"unclamp_area", 9 * si::cm2},
                                {"rated_pressure", 350 * si::bar},
                                {"leakage", 35 * si::cm3_per_minute}});
  clamp.press(0, 100 * si::bar);
  EXPECT_NEAR(clamp.flow(0), 10 * si::cm3_per_minute, 1e-6 * si::cm3_per_minute);
  EXPECT_NEAR(clamp.row(0) + clamp.row(1), 0.0, 1e-18);
}

}  // namespace
}  // namespace poise::workshop
