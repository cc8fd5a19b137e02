// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "units/nearest.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <vector>

namespace poise::units {
namespace {

const std::vector<std::string> parts = {"check",     "cylinder", "gauge",       "hand_pump",
                                        "line",      "needle",   "pump",        "relief",
                                        "reservoir", "sequence", "swing_clamp", "work_support"};

TEST(NearestWord, finds_one_slip_of_the_keyboard) {
  EXPECT_EQ(nearest_word("cilinder", parts), "cylinder");  // changed
  EXPECT_EQ(nearest_word("relif", parts), "relief");       // missing
  EXPECT_EQ(nearest_word("neeedle", parts), "needle");     // doubled
  EXPECT_EQ(nearest_word("gaueg", parts), "gauge");        // transposed
  EXPECT_EQ(nearest_word("pupm", parts), "pump");
  EXPECT_EQ(nearest_word("pumps", parts), "pump");
}

TEST(NearestWord, capitals_do_not_count) {
  EXPECT_EQ(nearest_word("Relief", parts), "relief");
  EXPECT_EQ(nearest_word("RESERVOIR", parts), "reservoir");
}

TEST(NearestWord, a_changed_letter_is_farther_than_a_missing_one) {
  const std::vector<std::string> known = {"lone", "lines"};
  EXPECT_EQ(nearest_word("line", known), "lines");
}

TEST(NearestWord, nothing_is_better_than_a_wild_guess) {
  EXPECT_EQ(nearest_word("accumulator", parts), std::nullopt);
  EXPECT_EQ(nearest_word("x", parts), std::nullopt);
  EXPECT_EQ(nearest_word("", parts), std::nullopt);
  EXPECT_EQ(nearest_word("pump", {}), std::nullopt);
  EXPECT_EQ(nearest_word(std::string(100000, 'a'), parts), std::nullopt);
  // Two changed letters of four cost 3, more than 40 % of 4.
  EXPECT_EQ(nearest_word("punk", std::vector<std::string>{"puma"}), std::nullopt);
}

TEST(NearestWord, two_slips_in_a_long_word_are_forgiven) {
  EXPECT_EQ(nearest_word("work_suport_", parts), "work_support");
  EXPECT_EQ(nearest_word("swingclmp", parts), "swing_clamp");
}

RC_GTEST_PROP(NearestWord, a_known_word_finds_itself, ()) {
  const std::string word = *rc::gen::elementOf(parts);
  RC_ASSERT(nearest_word(word, parts) == word);
}

RC_GTEST_PROP(NearestWord, one_missing_letter_of_a_long_word_finds_it, ()) {
  const std::string word =
      *rc::gen::suchThat(rc::gen::elementOf(parts), [](const auto& w) { return w.size() > 4; });
  std::string typed = word;
  typed.erase(*rc::gen::inRange<std::size_t>(0, word.size()), 1);
  RC_ASSERT(nearest_word(typed, parts) == word);
}

}  // namespace
}  // namespace poise::units
