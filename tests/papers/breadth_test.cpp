// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/breadth.hpp"

#include <gtest/gtest.h>

namespace poise::papers {
namespace {

TEST(Breadth, is_that_of_the_longest_line_in_letters_and_two_for_the_broad_ones) {
  EXPECT_EQ(breadth_of(""), 0.0);
  EXPECT_EQ(breadth_of("12.0 cm³"), 8.0);
  EXPECT_EQ(breadth_of("日本"), 4.0);
  EXPECT_EQ(breadth_of("one\nthree\nsix"), 5.0);
}

TEST(Breadth, a_text_takes_as_many_lines_as_its_words_need) {
  EXPECT_EQ(lines_of("", 10.0), 1);
  EXPECT_EQ(lines_of("lets the clamps", 15.0), 1);
  EXPECT_EQ(lines_of("lets the clamps", 14.0), 2);
  EXPECT_EQ(lines_of("lets the clamps come down", 8.0), 4);  // "come down" is one letter too long
  EXPECT_EQ(lines_of("one\ntwo\nthree", 10.0), 3);
}

TEST(Breadth, a_word_that_is_longer_than_its_column_is_broken) {
  EXPECT_EQ(lines_of("Achslagergehäuse", 8.0), 2);
  EXPECT_EQ(lines_of("am Achslagergehäuse", 8.0), 3);
  EXPECT_EQ(lines_of("x", 0.0), 1);
}

}  // namespace
}  // namespace poise::papers
