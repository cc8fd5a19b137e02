// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/crew.hpp"

#include <gtest/gtest.h>

#include <map>
#include <numeric>

namespace poise::study {
namespace {

std::vector<long> first(long count) {
  std::vector<long> items(static_cast<std::size_t>(count));
  std::iota(items.begin(), items.end(), 1L);
  return items;
}

void put_one(long item, const PutAway& put_away, const GoOn&) { put_away({.number = item}); }

TEST(crew, puts_every_row_away_once_whatever_the_cores) {
  for (const std::size_t cores : {1u, 2u, 7u}) {
    std::map<long, int> kept;
    const Came came = do_all(
        first(100), put_one,
        [&](const Row& row) {
          ++kept[row.number];
          return std::string();
        },
        [](long) { return true; }, cores);
    EXPECT_EQ(came.items, 100);
    EXPECT_EQ(kept.size(), 100u);
    EXPECT_FALSE(came.stopped);
  }
}

TEST(crew, ends_at_the_first_row_that_cannot_be_put_away) {
  int kept = 0;
  const Came came = do_all(
      first(1000), put_one, [&](const Row&) { return ++kept < 10 ? "" : "the disk is full"; },
      [](long) { return true; }, 3);
  EXPECT_EQ(came.complaint, "the disk is full");
  EXPECT_EQ(kept, 10);
}

TEST(crew, stops_when_told_and_what_was_under_way_may_leave_off) {
  int kept = 0;
  const Came came = do_all(
      first(1000),
      [](long item, const PutAway& put_away, const GoOn& go_on) {
        if (go_on()) put_away({.number = item});
      },
      [&](const Row&) {
        ++kept;
        return std::string();
      },
      [](long done) { return done < 20; }, 1);
  EXPECT_TRUE(came.stopped);
  EXPECT_EQ(kept, 20);
}

}  // namespace
}  // namespace poise::study
