// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/sheet.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace poise::diagnose {
namespace {

const Band band{.low = 90e5, .middle = 100e5, .high = 110e5};
const double nan = std::numeric_limits<double>::quiet_NaN();
const Band never{.low = nan, .middle = nan, .high = nan};

TEST(Beside, a_reading_is_within_its_band_up_to_both_ends) {
  EXPECT_EQ(beside(band, 90e5), Beside::within);
  EXPECT_EQ(beside(band, 110e5), Beside::within);
  EXPECT_EQ(beside(band, 89.9e5), Beside::below);
  EXPECT_EQ(beside(band, 110.1e5), Beside::above);
}

TEST(Beside, what_never_comes_on_a_sound_machine_is_right_where_it_did_not_come) {
  EXPECT_EQ(beside(never, std::nullopt), Beside::within);
  EXPECT_EQ(beside(never, 100e5), Beside::unexpected);
  EXPECT_EQ(beside(band, std::nullopt), Beside::missing);
}

}  // namespace
}  // namespace poise::diagnose
