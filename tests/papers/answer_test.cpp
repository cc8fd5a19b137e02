// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/answer.hpp"

#include <gtest/gtest.h>

namespace poise::papers {
namespace {

Verdict with_closed_books(bool held) {
  Verdict verdict;
  verdict.books_close = true;
  verdict.findings.push_back({.name = "a promise", .held = held, .margin = held ? 1.0 : -1.0});
  return verdict;
}

TEST(Answer, is_one_word_and_only_held_is_without_a_warning) {
  EXPECT_EQ(answer_of(with_closed_books(true)), "held");
  EXPECT_EQ(warning_of(with_closed_books(true)), "");
  EXPECT_EQ(answer_of(with_closed_books(false)), "broken");
  EXPECT_EQ(warning_of(with_closed_books(false)), "NOT PROVEN: 1 of 1 requirements is broken");
}

TEST(Answer, without_closed_books_nothing_is_proven_not_even_a_failure) {
  for (const bool held : {true, false}) {
    Verdict verdict = with_closed_books(held);
    verdict.books_close = false;
    EXPECT_EQ(answer_of(verdict), "not proven");
    EXPECT_EQ(warning_of(verdict), "NOT PROVEN: the books of oil and energy do not close");
  }
}

}  // namespace
}  // namespace poise::papers
