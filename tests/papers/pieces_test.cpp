// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/pieces.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <iterator>
#include <string>
#include <vector>

namespace poise::papers {
namespace {

using testing::Contains;
using testing::SizeIs;

/// A line all the way across, and a word every 10 mm.
draw::Sheet long_sheet() {
  draw::Sheet sheet{.width = 500.0, .height = 100.0, .title = "t", .description = "d", .groups = {{}}};
  auto& marks = sheet.groups.front().marks;
  marks.push_back({{}, draw::Polyline{{{0.0, 50.0}, {500.0, 50.0}}}});
  for (int i = 0; i < 49; ++i)
    marks.push_back({{}, draw::Text{.at = {10.0 * i, 20.0}, .words = "w" + std::to_string(i)}});
  return sheet;
}

std::vector<std::string> words_on(const draw::Sheet& sheet) {
  std::vector<std::string> words;
  for (const draw::Group& group : sheet.groups) {
    for (const draw::Mark& mark : group.marks) {
      if (const auto* text = std::get_if<draw::Text>(&mark.shape)) words.push_back(text->words);
    }
  }
  return words;
}

TEST(Pieces, a_sheet_with_room_is_one_piece_with_all_that_is_on_it) {
  const auto pieces = pieces_of(long_sheet(), 600.0, 200.0);
  ASSERT_THAT(pieces, SizeIs(1));
  EXPECT_DOUBLE_EQ(pieces.front().width, 500.0);
  EXPECT_DOUBLE_EQ(pieces.front().height, 100.0);
  EXPECT_THAT(words_on(pieces.front()), SizeIs(49));
}

TEST(Pieces, every_word_stands_whole_in_one_of_them_and_lines_run_through_all) {
  // 500 mm in pieces of 200 that share 60: (500 - 60) / (200 - 60), that is four.
  const auto pieces = pieces_of(long_sheet(), 200.0, 100.0);
  ASSERT_THAT(pieces, SizeIs(4));
  std::vector<std::string> all;
  for (const draw::Sheet& piece : pieces) {
    EXPECT_DOUBLE_EQ(piece.width, 200.0);
    EXPECT_TRUE(std::holds_alternative<draw::Polyline>(piece.groups.front().marks.front().shape));
    for (const draw::Mark& mark : piece.groups.front().marks) {
      if (const auto* text = std::get_if<draw::Text>(&mark.shape)) {
        EXPECT_GE(text->at.x, 0.0);
        EXPECT_LT(text->at.x, 200.0);
      }
    }
    std::ranges::move(words_on(piece), std::back_inserter(all));
  }
  for (int i = 0; i < 49; ++i) EXPECT_THAT(all, Contains("w" + std::to_string(i)));
}

TEST(Pieces, begin_at_the_upper_left_and_go_on_to_the_right) {
  draw::Sheet sheet{.width = 300.0, .height = 300.0, .title = {}, .description = {}, .groups = {{}}};
  sheet.groups.front().marks = {{{}, draw::Text{.at = {5.0, 290.0}, .words = "upper left"}},
                                {{}, draw::Text{.at = {280.0, 290.0}, .words = "right"}},
                                {{}, draw::Text{.at = {5.0, 5.0}, .words = "low"}}};
  const auto pieces = pieces_of(sheet, 200.0, 200.0);
  ASSERT_THAT(pieces, SizeIs(4));
  EXPECT_THAT(words_on(pieces[0]), testing::ElementsAre("upper left"));
  EXPECT_THAT(words_on(pieces[1]), testing::ElementsAre("right"));
  EXPECT_THAT(words_on(pieces[2]), testing::ElementsAre("low"));
  EXPECT_THAT(words_on(pieces[3]), testing::IsEmpty());
}

TEST(Pieces, a_word_across_an_edge_is_left_out_there) {
  draw::Sheet sheet{.width = 300.0, .height = 50.0, .title = {}, .description = {}, .groups = {{}}};
  sheet.groups.front().marks = {{{}, draw::Text{.at = {195.0, 20.0}, .words = "longer than five mm"}}};
  const auto pieces = pieces_of(sheet, 200.0, 50.0);
  ASSERT_THAT(pieces, SizeIs(2));
  EXPECT_THAT(words_on(pieces[0]), testing::IsEmpty());
  EXPECT_THAT(words_on(pieces[1]), testing::ElementsAre("longer than five mm"));
}

}  // namespace
}  // namespace poise::papers
