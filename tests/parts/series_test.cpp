// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/series.hpp"

#include <gmock/gmock.h>

#include "parts/kind.hpp"

namespace poise {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::IsEmpty;

constexpr double bit = 1e-12;

// ISO 3320:2013, check values TB-02 and TB-03; the sizes of the second choice (60, 90, 110 mm ...) are left
// out.
TEST(series, bores_between_two_sizes_are_those_of_iso_3320_with_both_ends) {
  EXPECT_THAT(sizes(Series::bores, false, 40e-3, 100e-3, 1.0),
              ElementsAre(DoubleNear(40e-3, bit), DoubleNear(50e-3, bit), DoubleNear(63e-3, bit),
                          DoubleNear(80e-3, bit), DoubleNear(100e-3, bit)));
  EXPECT_THAT(sizes(Series::rods, false, 21e-3, 29e-3, 1.0),
              ElementsAre(DoubleNear(22e-3, bit), DoubleNear(25e-3, bit), DoubleNear(28e-3, bit)));
}

// ISO 4393, first series: check values TB-04.
TEST(series, strokes_are_those_of_iso_4393) {
  EXPECT_THAT(sizes(Series::strokes, false, 90e-3, 170e-3, 1.0),
              ElementsAre(DoubleNear(100e-3, bit), DoubleNear(125e-3, bit), DoubleNear(160e-3, bit)));
}

TEST(series, people_who_measure_in_inches_get_inches) {
  EXPECT_THAT(sizes(Series::hose_bores, true, 6e-3, 10e-3, 1.0),
              ElementsAre(DoubleNear(0.25 * 25.4e-3, bit), DoubleNear(0.3125 * 25.4e-3, bit),
                          DoubleNear(0.375 * 25.4e-3, bit)));
}

// ISO 3, R20: twenty steps of 10^(1/20) = 1.122 a decade.
TEST(series, what_has_no_series_of_its_own_comes_in_preferred_numbers_of_the_unit_it_is_read_in) {
  constexpr double litre_per_minute = 1e-3 / 60.0;
  EXPECT_THAT(
      sizes(Series::general, false, 9 * litre_per_minute, 12.5 * litre_per_minute, litre_per_minute),
      ElementsAre(DoubleNear(9 * litre_per_minute, bit), DoubleNear(10 * litre_per_minute, bit),
                  DoubleNear(11.2 * litre_per_minute, bit), DoubleNear(12.5 * litre_per_minute, bit)));
  EXPECT_THAT(sizes(Series::general, false, 1.0, 1e3, 1.0), testing::SizeIs(61));
}

TEST(series, a_range_without_a_size_has_none) {
  EXPECT_THAT(sizes(Series::bores, false, 51e-3, 62e-3, 1.0), IsEmpty());
  EXPECT_THAT(sizes(Series::general, false, 0.0, 1.0, 1.0), IsEmpty());
  EXPECT_THAT(sizes(Series::general, false, 1.0, no_limit, 1.0), IsEmpty());
}

// A setting is brought to any value; what it may be off by is less than what it is.
TEST(series, tolerances_are_shares_below_one_and_settings_have_no_words) {
  for (const Kind& kind : all_kinds()) {
    for (const Parameter& parameter : kind.parameters) {
      EXPECT_GE(parameter.tolerance.below, 0.0) << kind.about.kind << parameter.name;
      EXPECT_GE(parameter.tolerance.above, 0.0) << kind.about.kind << parameter.name;
      if (parameter.tolerance.of == Tolerance::Of::value) {
        EXPECT_LE(parameter.tolerance.below, 1.0) << kind.about.kind << parameter.name;
      }
      EXPECT_FALSE(parameter.adjusted && !parameter.words.empty()) << kind.about.kind << parameter.name;
    }
  }
}

}  // namespace
}  // namespace poise
