// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/shard.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace poise::study {
namespace {

using testing::ElementsAre;

TEST(shard, reads_the_kth_of_n_and_nothing_else) {
  const auto shard = read_shard("3/8");
  ASSERT_TRUE(shard);
  EXPECT_EQ(shard->number, 3);
  EXPECT_EQ(shard->of, 8);
  for (const char* wrong : {"", "3", "0/8", "9/8", "3/8 ", "a/b", "-1/4", "3/0", "1/99999999999999999999"})
    EXPECT_FALSE(read_shard(wrong)) << wrong;
}

TEST(shard, every_item_belongs_to_exactly_one) {
  for (long item = 0; item < 50; ++item) {
    int owners = 0;
    for (long k = 1; k <= 7; ++k) owners += Shard{k, 7}.has(item);
    EXPECT_EQ(owners, 1);
  }
}

TEST(left_to_do, is_what_belongs_to_the_shard_and_is_not_done) {
  EXPECT_THAT(left_to_do(1, 11, {2, 3}, {4}), ElementsAre(1, 7, 10));
  EXPECT_THAT(left_to_do(1, 4, {}, {1, 2, 3}), ElementsAre());
}

}  // namespace
}  // namespace poise::study
