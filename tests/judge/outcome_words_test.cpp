// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include "judge/outcome.hpp"

namespace poise {
namespace {

TEST(outcome_words, each_word_is_read_back_as_what_it_was_written_for) {
  for (const Outcome each : {Outcome::held, Outcome::broken, Outcome::not_proven})
    EXPECT_EQ(outcome_of(word(each)), each);
  for (const Mark each : {Mark::held, Mark::broken, Mark::unseen}) EXPECT_EQ(mark_of(word(each)), each);
}

TEST(outcome_words, a_word_of_the_other_list_is_none) {
  EXPECT_EQ(outcome_of("not seen"), std::nullopt);
  EXPECT_EQ(mark_of("not proven"), std::nullopt);
  EXPECT_EQ(mark_of(""), std::nullopt);
}

}  // namespace
}  // namespace poise
