// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/label.hpp"

#include <gtest/gtest.h>

#include "draw/letters.hpp"

namespace poise::draw {
namespace {

const Words relief{.code = "1-H1.3", .tag = "V1", .lines = {"210 bar", "at 2.30 L/min"}};

TEST(Label, a_row_for_code_and_tag_and_one_for_each_line) {
  Words more = relief;
  more.lines.emplace_back("40.0 L/min");
  EXPECT_DOUBLE_EQ(label_size(more).height - label_size(relief).height, line_pitch);
  EXPECT_GE(label_size(relief).height, 3 * line_pitch);
}

TEST(Label, nothing_to_say_takes_no_room) { EXPECT_EQ(label_size({}), LabelSize{}); }

TEST(Label, the_longest_row_decides_the_width) {
  const Words one_line{.code = {}, .tag = {}, .lines = {"at 2.30 L/min"}};
  EXPECT_DOUBLE_EQ(label_size(relief).width, label_size(one_line).width);
  Words long_tag = relief;
  long_tag.tag = "left-rear-corner";
  EXPECT_GT(label_size(long_tag).width, label_size(relief).width);
}

TEST(Label, a_line_takes_the_width_of_its_letters_and_a_quarter_module_of_air_on_both_sides) {
  const Words words{.code = {}, .tag = {}, .lines = {"10.0 µm"}};
  EXPECT_DOUBLE_EQ(label_size(words).width, text_width("10.0 µm", letter_size) + 0.5);
}

TEST(Label, rows_stand_in_the_box_from_above_down_and_left_aligned) {
  const LabelSize size = label_size(relief);
  const Box box{10.0, 20.0, 10.0 + size.width, 20.0 + size.height};
  const LabelText text = set_label(relief, box);
  ASSERT_EQ(text.lines.size(), 4U);
  EXPECT_EQ(text.lines[0].words, "1-H1.3");
  EXPECT_TRUE(text.lines[1].bold);
  EXPECT_DOUBLE_EQ(text.lines[0].at.y, text.lines[1].at.y);
  EXPECT_DOUBLE_EQ(text.lines[1].at.y - text.lines[2].at.y, line_pitch);
  EXPECT_DOUBLE_EQ(text.lines[2].at.x, text.lines[3].at.x);
  EXPECT_DOUBLE_EQ(text.lines[2].at.x, text.frame.left);
  EXPECT_GT(text.lines[3].at.y, box.low);
  EXPECT_LT(text.frame.high, box.high);
  EXPECT_GT(text.lines[1].at.x, text.frame.right);
}

}  // namespace
}  // namespace poise::draw
