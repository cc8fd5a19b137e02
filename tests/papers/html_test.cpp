// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/html.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace poise::papers {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(html, shows_markup_in_words_as_it_is) {
  EXPECT_EQ(html::paragraph("<b> & \"</p>\""), "<p>&lt;b&gt; &amp; &quot;&lt;/p&gt;&quot;</p>\n");
}

// "K1" and ":" would stand apart if a line ended between them.
TEST(html, ends_no_line_within_a_line) {
  EXPECT_EQ(html::element("strong", "K1") + ":", "<strong>K1</strong>:");
}

TEST(html, has_a_table_with_heads_that_repeat_and_values_on_the_right) {
  const Table table{"t", {{"part", 1.0}, {"pressure", 3.0, true}}, {{{"V1 <x>"}, {"210 bar"}}}};
  const std::string text = html::table(table, "none");
  EXPECT_THAT(text, HasSubstr("<thead><tr><th>part</th><th class=\"measured\">pressure</th></tr>\n</thead>"));
  EXPECT_THAT(text, HasSubstr("<td>V1 &lt;x&gt;</td><td class=\"measured\">210 bar</td>"));
  EXPECT_THAT(text, HasSubstr("width:25.0%"));
}

TEST(html, says_a_sentence_instead_of_an_empty_table) {
  EXPECT_EQ(html::table({"t", {{"part"}}, {}}, "Nothing moves."), "<p>Nothing moves.</p>\n");
}

// 200 mm wide and 100 mm high in 100 by 100: half as large, and no wider.
TEST(html, has_a_figure_as_large_as_its_place_and_no_larger_than_it_was_drawn) {
  draw::Sheet sheet;
  sheet.width = 200.0;
  sheet.height = 100.0;
  EXPECT_THAT(html::figure(sheet, 100.0, 100.0), HasSubstr("width=\"100.00mm\" height=\"50.00mm\""));
  EXPECT_THAT(html::figure(sheet, 900.0, 900.0), HasSubstr("width=\"200.00mm\" height=\"100.00mm\""));
  EXPECT_THAT(html::figure(sheet, 100.0, 100.0), HasSubstr("viewBox=\"0 0 200 100\""));
}

}  // namespace
}  // namespace poise::papers
