// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include "support/one_part.hpp"

namespace poise::workshop {
namespace {

TEST(line, is_laid_in_whole_pieces) {
  for (const char* kind : {"hose", "tube"}) {
    OnePart line(kind, {{"segments", 8.0}});
    EXPECT_TRUE(line.kind().check(line.values()).empty()) << kind;
    line.set("segments", 8.67);
    const auto wrong = line.kind().check(line.values());
    ASSERT_EQ(wrong.size(), 1u) << kind;
    EXPECT_EQ(wrong[0].parameter, "segments");
    EXPECT_EQ(wrong[0].sentence, "a line is worked out in whole pieces; 9 is the nearest");
  }
}

}  // namespace
}  // namespace poise::workshop
