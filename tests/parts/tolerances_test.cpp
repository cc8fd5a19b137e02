// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The tolerances that rooms give their values: wherever in it a value stands, its room takes it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "parts/kind.hpp"
#include "support/plausible.hpp"

namespace poise {
namespace {

class tolerances : public testing::TestWithParam<int> {
 protected:
  const Kind& kind = all_kinds()[GetParam()];
  const Values sound = workshop::plausible(kind);
};

/// A value off, kept within its range as a machine's is.
Values with(const Values& values, int index, double u) {
  const Parameter& line = values.table()[index];
  Values changed = values;
  changed.set(index, std::clamp(line.tolerance.at(values.all()[index], u), line.low, line.high));
  return changed;
}

TEST_P(tolerances, end_at_values_that_the_room_takes) {
  ASSERT_TRUE(kind.check(sound).empty()) << kind.about.kind;
  for (int i = 0; i < static_cast<int>(kind.parameters.size()); ++i) {
    const Parameter& line = kind.parameters[i];
    if (line.tolerance.exact() || line.against || std::isnan(sound.all()[i])) continue;
    for (const double u : {-1.0, -0.5, 0.5, 1.0}) {
      for (const Mismatch& wrong : kind.check(with(sound, i, u)))
        ADD_FAILURE() << kind.about.kind << "." << line.name << " at " << u << ": " << wrong.sentence;
    }
  }
}

// Only what is at the end of its range already may be kept by it.
TEST_P(tolerances, lead_out_of_the_range_only_where_the_value_stands_at_its_end) {
  for (int i = 0; i < static_cast<int>(kind.parameters.size()); ++i) {
    const Parameter& line = kind.parameters[i];
    const double stated = sound.all()[i];
    if (line.tolerance.exact() || line.against || std::isnan(stated)) continue;
    if (stated > line.low) {
      EXPECT_GE(line.tolerance.at(stated, -1.0), line.low) << line.name;
    }
    if (stated < line.high) {
      EXPECT_LE(line.tolerance.at(stated, 1.0), line.high) << line.name;
    }
  }
}

TEST_P(tolerances, belong_to_values_that_can_be_off_by_a_little) {
  for (const Parameter& line : kind.parameters) {
    if (line.tolerance.exact()) continue;
    EXPECT_TRUE(line.words.empty()) << kind.about.kind << "." << line.name << " is a word";
    EXPECT_GE(line.tolerance.below, 0.0) << kind.about.kind << "." << line.name;
    EXPECT_GE(line.tolerance.above, 0.0) << kind.about.kind << "." << line.name;
    if (line.tolerance.of != Tolerance::Of::absolute) {
      EXPECT_LE(line.tolerance.below, 1.0)
          << kind.about.kind << "." << line.name << " would change its sign, or its loss more than double";
    }
  }
}

INSTANTIATE_TEST_SUITE_P(of, tolerances, testing::Range(0, static_cast<int>(all_kinds().size())),
                         [](const auto& of) { return std::string(all_kinds()[of.param].about.kind); });

const Parameter& line_of(std::string_view kind, std::string_view name) {
  const Kind& found = *find_kind(kind);
  return found.parameters[*find_parameter(found.parameters, name)];
}

// A volumetric efficiency of 93 % loses 7 %; worn it loses up to 14 %.
TEST(tolerance, doubles_the_loss_of_a_worn_pump) {
  for (const std::string_view kind : {"pump", "variable_pump", "two_stage_pump", "hand_pump", "shaft_pump"}) {
    const Tolerance& tolerance = line_of(kind, "volumetric_efficiency").tolerance;
    EXPECT_DOUBLE_EQ(tolerance.at(0.93, -1.0), 0.86) << kind;
    EXPECT_DOUBLE_EQ(tolerance.at(0.93, 1.0), 0.93) << kind;
  }
}

// The drop of a filter's element goes with 1/(1 − clogging), whatever is clogged already.
TEST(tolerance, lets_a_filter_age_to_three_times_its_drop) {
  const Tolerance& tolerance = line_of("filter", "clogging").tolerance;
  for (const double stated : {0.0, 0.3, 0.8})
    EXPECT_NEAR((1.0 - stated) / (1.0 - tolerance.at(stated, 1.0)), 3.0, 1e-9) << stated;
}

TEST(tolerance, lets_a_seat_leak_anything_up_to_what_is_stated) {
  for (const Kind& kind : all_kinds()) {
    const auto index = find_parameter(kind.parameters, "leakage");
    if (!index) continue;
    const Tolerance& tolerance = kind.parameters[*index].tolerance;
    EXPECT_EQ(tolerance.at(3e-7, -1.0), 0.0) << kind.about.kind;
    EXPECT_EQ(tolerance.at(3e-7, 1.0), 3e-7) << kind.about.kind;
  }
}

}  // namespace
}  // namespace poise
