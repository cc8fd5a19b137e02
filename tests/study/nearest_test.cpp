// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/nearest.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>

namespace poise::study {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::IsEmpty;

constexpr double bit = 1e-6;

Kept kept(double margin) {
  return {.mark = margin < 0.0 ? Mark::broken : Mark::held, .margin = margin, .share = margin};
}

/// A promise whose margin falls along straight lines from `margin`.
RunPromise straight(double margin, const std::vector<double>& slopes) {
  return [=](const std::vector<double>& off) {
    return kept(margin - std::inner_product(off.begin(), off.end(), slopes.begin(), 0.0));
  };
}

// The shortest way to the plane Σ sᵢ·uᵢ = m goes along s: u = m·s/|s|².
TEST(foretold, goes_along_the_slopes) {
  EXPECT_THAT(foretold(0.5, {{.up = 0.5}, {.down = 0.25, .up = -0.25}}),
              ElementsAre(DoubleNear(0.8, bit), DoubleNear(-0.4, bit)));
}

// A value at the end of its tolerance stays there; the others take the rest: 0.5·1 + 0.25·u = 0.7.
TEST(foretold, keeps_within_the_tolerances_where_that_suffices) {
  EXPECT_THAT(foretold(0.7, {{.up = 0.5}, {.up = 0.25}}),
              ElementsAre(DoubleNear(1.0, bit), DoubleNear(0.8, bit)));
}

TEST(foretold, takes_all_bad_ends_where_nothing_suffices) {
  EXPECT_THAT(foretold(2.0, {{.down = 0.5}, {.up = 0.25}, {}}), ElementsAre(-1.0, 1.0, 0.0));
  EXPECT_THAT(foretold(2.0, {{}, {.down = -1.0, .up = -1.0}}), IsEmpty());
}

// A value that can only be off to one side, on which it gives room, is no way to break.
TEST(foretold, leaves_values_that_only_give_room) {
  EXPECT_THAT(foretold(0.2, {{.up = 0.5}, {.down = -0.25, .up = 0.0}}),
              ElementsAre(DoubleNear(0.4, bit), 0.0));
}

TEST(foretold, names_few_values_where_few_take_nearly_all) {
  std::vector<Pull> pulls(30, {.up = 0.01});
  pulls[7].up = 1.0;
  const std::vector<double> off = foretold(0.5, pulls);
  EXPECT_EQ(std::ranges::count_if(off, [](double each) { return each != 0.0; }), 1);
  EXPECT_NEAR(off[7], 0.5, bit);
}

// Also where nothing suffices only those are moved that matter.
TEST(foretold, outside_of_the_tolerances_moves_what_matters_alone) {
  EXPECT_THAT(foretold(2.0, {{.up = 1.0}, {.up = 0.01}, {.down = 0.02}}), ElementsAre(1.0, 0.0, 0.0));
}

TEST(nearest, is_where_the_promise_just_breaks) {
  const auto found = nearest(0.5, {{.up = 0.5}, {.up = 0.25}}, nullptr, straight(0.5, {0.5, 0.25}));
  ASSERT_TRUE(found && found->found);
  EXPECT_NEAR(found->reach, 0.8, 0.8 / 16);
  EXPECT_LE(*found->kept.margin, 0.0);
  EXPECT_GE(*found->kept.margin, -0.5 / 16);
}

// Twice the margin that the tolerances can take: the reach is 2.
TEST(nearest, may_lie_outside_of_the_tolerances) {
  const auto found = nearest(1.5, {{.up = 0.5}, {.up = 0.25}}, nullptr, straight(1.5, {0.5, 0.25}));
  ASSERT_TRUE(found && found->found);
  EXPECT_NEAR(found->reach, 2.0, 0.05);
}

TEST(nearest, is_not_found_where_nothing_breaks_out_to_three_times_the_tolerances) {
  const auto found = nearest(9.0, {{.up = 0.5}}, nullptr, straight(9.0, {0.5}));
  ASSERT_TRUE(found);
  EXPECT_FALSE(found->found);
}

// A promise that breaks at an edge no straight line foretells: the broken machine that was run leads there,
// and what has nothing to do with it is put back.
TEST(nearest, comes_from_a_broken_machine_where_straight_lines_see_nothing) {
  const RunPromise edge = [](const std::vector<double>& off) {
    return off[2] > 0.6 ? kept(-1.0) : kept(1.0 - 0.01 * off[0]);
  };
  const std::vector<double> known{0.3, -0.9, 0.9, 0.2};
  const auto found = nearest(1.0, {{.up = 0.01}, {}, {}, {}}, &known, edge);
  ASSERT_TRUE(found && found->found);
  EXPECT_THAT(found->off, ElementsAre(0.0, 0.0, DoubleNear(0.6, 0.03), 0.0));
}

TEST(nearest, leaves_off_where_it_is_stopped) {
  EXPECT_FALSE(nearest(0.5, {{.up = 0.5}}, nullptr, [](const auto&) { return std::optional<Kept>(); }));
}

}  // namespace
}  // namespace poise::study
