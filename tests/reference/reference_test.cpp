// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The written reference is what the tables say today.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "reference/families.hpp"
#include "reference/page.hpp"
#include "reference/picture.hpp"
#include "reference/rules_page.hpp"
#include "reference/wording.hpp"

namespace poise::reference {
namespace {

using testing::HasSubstr;

const std::filesystem::path written = std::filesystem::path(POISE_SOURCE_DIR) / "docs/parts";

std::string contents(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(reference, docs_parts_is_what_the_tables_say) {
  for (const File& file : files()) {
    EXPECT_TRUE(contents(written / file.name) == file.text)
        << "docs/parts/" << file.name
        << " is not what the tables say: run build/release/poise parts --write docs/parts";
  }
}

TEST(reference, docs_rules_is_what_the_catalogue_says) {
  EXPECT_TRUE(contents(std::filesystem::path(POISE_SOURCE_DIR) / "docs/rules.md") == rules_page())
      << "docs/rules.md is not what the catalogue says: run build/release/poise rules --write docs/rules.md";
}

TEST(reference, docs_parts_holds_nothing_else) {
  std::set<std::string> named;
  for (const File& file : files()) named.insert(file.name);
  for (const auto& entry : std::filesystem::directory_iterator(written)) {
    EXPECT_TRUE(named.contains(entry.path().filename().string()))
        << entry.path() << " belongs to no kind: remove it";
  }
}

TEST(reference, the_page_on_symbols_shows_every_kind_and_no_other) {
  const std::string text = contents(std::filesystem::path(POISE_SOURCE_DIR) / "docs/symbols.md");
  std::size_t shown = 0;
  for (std::size_t at = 0; (at = text.find(".svg\"", at)) != std::string::npos; ++at) ++shown;
  EXPECT_EQ(shown, all_kinds().size());
  for (const Kind& kind : all_kinds()) {
    EXPECT_THAT(text, HasSubstr("\"parts/" + std::string(kind.about.kind) + ".svg\""));
  }
}

TEST(reference, every_family_begins_with_a_kind_of_the_list_in_its_order) {
  auto next = families.begin();
  for (const Kind& kind : all_kinds()) {
    if (next != families.end() && next->first_kind == kind.about.kind) ++next;
  }
  EXPECT_EQ(next, families.end()) << next->first_kind;
  EXPECT_EQ(all_kinds().front().about.kind, families.front().first_kind);
}

TEST(reference, a_page_says_all_that_the_tables_say) {
  for (const Kind& kind : all_kinds()) {
    const std::string text = page(kind);
    for (const Port& p : kind.ports) EXPECT_THAT(text, HasSubstr(cell(p.meaning))) << kind.about.kind;
    for (const Parameter& p : kind.parameters) {
      EXPECT_THAT(text, HasSubstr("`" + std::string(p.name) + "`")) << kind.about.kind;
      EXPECT_THAT(text, HasSubstr(cell(p.meaning))) << kind.about.kind;
    }
    for (const Output& o : kind.outputs) EXPECT_THAT(text, HasSubstr(cell(o.meaning))) << kind.about.kind;
    for (const Fault& f : kind.faults) EXPECT_THAT(text, HasSubstr(cell(f.sentence))) << kind.about.kind;
    for (const Rule& r : kind.rules) EXPECT_THAT(text, HasSubstr(running(r.sentence))) << kind.about.kind;
    for (const Adjusting& a : kind.adjusting) {
      EXPECT_THAT(text, HasSubstr(cell(a.while_setting))) << kind.about.kind;
      EXPECT_THAT(text, HasSubstr(cell(a.begin))) << kind.about.kind;
    }
    for (const Care& c : kind.care) {
      EXPECT_THAT(text,
                  HasSubstr("| " + cell(c.what) + " | " + cell(c.interval) + " | " + cell(c.limit) + " |"))
          << kind.about.kind;
    }
    EXPECT_THAT(text, HasSubstr(std::string(kind.about.source))) << kind.about.kind;
  }
}

TEST(wording, a_value_stands_in_metric_and_us_units) {
  EXPECT_EQ(both(200 * si::bar, Quantity::pressure), "200 bar (2900 psi)");  // 1 bar = 14.5038 psi
  EXPECT_EQ(both(0.05, Quantity::time), "0.0500 s");
}

TEST(wording, a_faults_size_is_a_factor_a_difference_or_a_value) {
  const Parameter setting{.name = "setting", .quantity = Quantity::pressure};
  Fault fault{.name = "f", .parameter = "setting", .slight = 0.97, .grave = 0.6};
  EXPECT_EQ(size_of(fault, setting), "× 0.97 … × 0.6");
  fault = {.change = Fault::Change::plus, .slight = 1 * si::bar, .grave = 2 * si::bar};
  EXPECT_EQ(size_of(fault, setting), "+1.00 bar (14.5 psi) … +2.00 bar (29.0 psi)");
  fault.change = Fault::Change::becomes;
  EXPECT_EQ(size_of(fault, setting), "1.00 bar (14.5 psi) … 2.00 bar (29.0 psi)");
}

TEST(wording, a_settings_turn_gauge_and_side_are_told_in_words) {
  Adjusting a{
      .parameter = "setting", .turn = Adjusting::Turn::reducing, .port = "A", .safe = Adjusting::Safe::lower};
  EXPECT_EQ(turn_of(a), "4th of 8, with the reducing valves");
  EXPECT_EQ(read_by(a), "the gauge at A");
  EXPECT_EQ(safe_side(a), "down");
  a = {.parameter = "turns", .turn = Adjusting::Turn::flow};
  EXPECT_EQ(turn_of(a), "6th of 8, with the flows");
  EXPECT_EQ(read_by(a), "a stop-watch");
  EXPECT_EQ(safe_side(a), "neither");
}

// A part without settings or without anything to look after has no empty heading.
TEST(reference, a_page_has_no_heading_without_anything_below_it) {
  EXPECT_THAT(page(*find_kind("relief")), HasSubstr("## How it is set"));
  EXPECT_THAT(page(*find_kind("hose")), HasSubstr("## What is looked after"));
  EXPECT_THAT(page(*find_kind("hose")), testing::Not(HasSubstr("## How it is set")));
  EXPECT_THAT(page(*find_kind("mass")), testing::Not(HasSubstr("## What is looked after")));
}

TEST(wording, ports_and_positions_of_a_valve_are_written_as_the_trade_does) {
  EXPECT_EQ(title_of("directional_4_3"), "Directional 4/3");
  EXPECT_EQ(title_of("pilot_operated_check"), "Pilot operated check");
}

TEST(wording, signs_of_markdown_stand_for_themselves) { EXPECT_EQ(cell("a|b_c*d"), "a\\|b\\_c\\*d"); }

TEST(picture, the_extent_is_that_of_strokes_and_anchors) {
  const std::array strokes{stroke::box(0, 0, 4, 4), stroke::circle(6, 2, 1)};
  const std::array anchors{Anchor{2, -2}};
  const draw::Box all = extent_of(strokes, anchors);
  EXPECT_DOUBLE_EQ(all.left, 0.0);
  EXPECT_DOUBLE_EQ(all.low, -2.0);
  EXPECT_DOUBLE_EQ(all.right, 7.0);
  EXPECT_DOUBLE_EQ(all.high, 4.0);
}

TEST(picture, it_stands_by_itself_with_the_names_of_its_ports_as_text) {
  const std::array strokes{stroke::line(0, -2, 0, 0)};
  const std::array anchors{Anchor{0, -2}};
  const std::array<std::string_view, 1> names{"P"};
  const std::string text = svg(strokes, anchors, names, "A stub");
  EXPECT_THAT(text, testing::StartsWith("<svg xmlns=\"http://www.w3.org/2000/svg\""));
  EXPECT_THAT(text, HasSubstr("d=\"M0 2V0\""));  // up is towards smaller y in a picture
  EXPECT_THAT(text, HasSubstr(">P</text>"));
  EXPECT_THAT(text, HasSubstr("<title>A stub</title>"));
  EXPECT_THAT(text, HasSubstr("prefers-color-scheme:dark"));
}

}  // namespace
}  // namespace poise::reference
