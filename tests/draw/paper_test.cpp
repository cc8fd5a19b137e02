// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/paper.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <string>
#include <variant>
#include <vector>

#include "draw/letters.hpp"
#include "draw/sample_sheet.hpp"

namespace poise::draw {
namespace {

constexpr std::array papers{Paper::a4, Paper::a3, Paper::letter};

/// What the letters of a line cover.
Box box_of(const Text& t) {
  return {t.at.x, t.at.y - tail_share * t.height, t.at.x + text_width(t.words, t.height, t.bold),
          t.at.y + capital_share * t.height};
}
bool within(const Box& inner, const Box& outer) {
  constexpr double rounding = 1e-9;
  return inner.left >= outer.left - rounding && inner.right <= outer.right + rounding &&
         inner.low >= outer.low - rounding && inner.high <= outer.high + rounding;
}

struct Block {
  std::vector<Box> cells;  ///< smallest first
  std::vector<Text> texts;
};
Block block_of(const Sheet& sheet) {
  Block block;
  for (const Mark& m : sheet.groups.back().marks) {
    if (const Text* text = std::get_if<Text>(&m.shape)) block.texts.push_back(*text);
    if (const Polyline* way = std::get_if<Polyline>(&m.shape)) {
      block.cells.push_back({way->points[0].x, way->points[0].y, way->points[2].x, way->points[2].y});
    }
  }
  const auto area = [](const Box& b) { return b.width() * b.height(); };
  std::sort(block.cells.begin(), block.cells.end(),
            [&](const Box& a, const Box& b) { return area(a) < area(b); });
  return block;
}

/// The first text that leaves its cell or touches another one; empty if there is none.
std::string stray_text(const Block& block) {
  for (const Text& text : block.texts) {
    const Box box = box_of(text);
    const auto holds_start = [&](const Box& cell) {
      return within({text.at.x, text.at.y, text.at.x, text.at.y}, cell);
    };
    const auto cell = std::find_if(block.cells.begin(), block.cells.end(), holds_start);
    if (cell == block.cells.end() || !within(box, *cell)) return text.words;
    for (const Text& other : block.texts) {
      if (&other != &text && overlap(box, box_of(other))) return text.words + " over " + other.words;
    }
  }
  return "";
}

TEST(paper, has_the_size_of_its_standard) {
  // ISO 216: A4 is 297 × 210, A3 is 420 × 297. ANSI/ASME Y14.1: Letter is 11 in × 8.5 in.
  EXPECT_EQ(blank(Paper::a4).width, 297);
  EXPECT_EQ(blank(Paper::a4).height, 210);
  EXPECT_EQ(blank(Paper::a3).width, 420);
  EXPECT_EQ(blank(Paper::a3).height, 297);
  EXPECT_DOUBLE_EQ(blank(Paper::letter).width, 11 * 25.4);
  EXPECT_DOUBLE_EQ(blank(Paper::letter).height, 8.5 * 25.4);
}

TEST(paper, leaves_20_mm_to_file_it_and_10_mm_elsewhere) {
  // Margins of ISO 5457 (from memory).
  for (const Paper paper : papers) {
    Sheet sheet = blank(paper);
    add_frame(sheet, paper, {});
    const Box frame = block_of(sheet).cells.back();
    EXPECT_EQ(frame, (Box{20, 10, sheet.width - 10, sheet.height - 10}));
  }
}

TEST(paper, the_drawing_stands_clear_of_frame_and_title_block) {
  for (const Paper paper : papers) {
    Sheet sheet = blank(paper);
    add_frame(sheet, paper, {});
    const Block block = block_of(sheet);
    const Box area = drawing_area(paper);
    EXPECT_TRUE(within(area.grown(1.0), block.cells.back()));
    for (std::size_t i = 0; i + 1 < block.cells.size(); ++i) EXPECT_FALSE(overlap(area, block.cells[i]));
  }
}

TEST(title_block, says_what_it_is_given_and_warns) {
  const Block block = block_of(sample::sheet(Paper::a4));
  const auto says = [&](std::string_view words) {
    return std::any_of(block.texts.begin(), block.texts.end(),
                       [&](const Text& t) { return t.words.find(words) != std::string::npos; });
  };
  for (const std::string_view words :
       {"at 2.40 s, step clamp", "11 of 12 held", "ISO VG 32", "bar, L/min", "invented", "2026-11-25",
        "1 M = 2 mm", "1 of 1", "Poise 0.1.0 from jobs/frame_lift.toml", "Drawn by (name", "Checked by (name",
        "licensed person", "Local codes decide"}) {
    EXPECT_TRUE(says(words)) << words;
  }
}

TEST(title_block, no_text_leaves_its_place_on_any_paper) {
  for (const Paper paper : papers) EXPECT_EQ(stray_text(block_of(sample::sheet(paper))), "");
}

RC_GTEST_PROP(title_block, no_text_leaves_its_place_however_long, ()) {
  const auto words = [] {
    const auto length = static_cast<std::size_t>(*rc::gen::inRange(0, 400));
    return *rc::gen::container<std::string>(length, rc::gen::elementOf(std::string("WMil a.,-/@ ")));
  };
  const Paper paper = *rc::gen::elementOf(std::vector<Paper>(papers.begin(), papers.end()));
  Sheet sheet = blank(paper);
  add_frame(
      sheet, paper,
      {words(), words(), words(), words(), words(), words(), words(), words(), words(), words(), words()});
  RC_ASSERT(stray_text(block_of(sheet)) == std::string());
}

TEST(title_block, is_the_same_on_any_day) {
  Sheet first = blank(Paper::a4), second = blank(Paper::a4);
  add_frame(first, Paper::a4, {.job = "Bush press"});
  add_frame(second, Paper::a4, {.job = "Bush press"});
  const auto texts = [](const Sheet& s) {
    std::string all;
    for (const Text& t : block_of(s).texts) all += t.words + "\n";
    return all;
  };
  EXPECT_EQ(texts(first), texts(second));
  EXPECT_EQ(texts(first).find("20"), std::string::npos);  // no year where no date is given
}

}  // namespace
}  // namespace poise::draw
