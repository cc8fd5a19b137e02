// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/show.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "draw/fit.hpp"
#include "draw/hand_drawn.hpp"
#include "draw/label.hpp"
#include "draw/legend.hpp"

namespace poise::draw {
namespace {

using drawing::lift;
using drawing::lift_drawn;
using testing::HasSubstr;
using testing::SizeIs;
using workshop::Bench;

const std::vector<Words> words{{.code = "H1.1", .tag = "T1", .lines = {"10.0 L"}},
                               {.code = "H1.2", .tag = "P1", .lines = {"4.00 L/min"}},
                               {.code = "H1.3", .tag = "R1", .lines = {"180 bar"}},
                               {.code = "H2.1", .tag = "C1", .lines = {"40.0 × 300 mm", "lifts"}},
                               {.code = "", .tag = "M1", .lines = {"500 kg"}}};

Look look_at_rest() {
  Look look;
  look.block.job = "Lift";
  look.world = units::metric();
  return look;
}

Sheet at_rest() { return sheet_of(lift_drawn(), lift().plan, words, look_at_rest()); }

Sheet at_moment(double time) {
  const Bench b = lift();
  solve::RunOptions options;
  options.look_at = {time};
  const Trace trace = b.run({}, options);
  const DrawnMoment moment = drawn_moment(lift_drawn(), build(b.plan), trace.moments.at(0));
  Look look = look_at_rest();
  look.moment = &moment;
  look.scale = scale_up_to(highest_pressure(trace.moments[0]), look.world);
  return sheet_of(lift_drawn(), b.plan, words, look);
}

const Group& group(const Sheet& sheet, std::string_view kind, std::string_view name) {
  const auto found =
      std::ranges::find_if(sheet.groups, [&](const Group& g) { return g.kind == kind && g.name == name; });
  EXPECT_NE(found, sheet.groups.end()) << name;
  return *found;
}

std::vector<std::string> texts(const Group& group) {
  std::vector<std::string> all;
  for (const Mark& mark : group.marks) {
    if (const auto* text = std::get_if<Text>(&mark.shape)) all.push_back(text->words);
  }
  return all;
}

std::vector<Mark> on(const Group& group, Layer layer) {
  std::vector<Mark> all;
  std::ranges::copy_if(group.marks, std::back_inserter(all),
                       [&](const Mark& mark) { return mark.pen.layer == layer; });
  return all;
}

Box box_of(const Polyline& line) {
  Box all{line.points[0].x, line.points[0].y, line.points[0].x, line.points[0].y};
  for (const Point& p : line.points) all = hull(all, {p.x, p.y, p.x, p.y});
  return all;
}

TEST(Show, every_part_is_a_group_with_its_words_in_its_label) {
  const Sheet sheet = at_rest();
  EXPECT_THAT(texts(group(sheet, "part", "C1")),
              testing::ElementsAre("H2.1", "C1", "40.0 × 300 mm", "lifts"));
  EXPECT_THAT(group(sheet, "part", "C1").title, HasSubstr("single acting cylinder"));
  for (const char* tag : {"T1", "P1", "R1", "C1", "M1"})
    EXPECT_FALSE(on(group(sheet, "part", tag), Layer::symbols).empty()) << tag;
  EXPECT_THAT(texts(group(sheet, "part", "M1")), testing::ElementsAre("M1", "500 kg"));  // no empty frame
  EXPECT_EQ(on(group(sheet, "part", "M1"), Layer::labels).size(), 2U);
}

TEST(Show, lines_are_called_by_their_ports) {
  const Sheet sheet = at_rest();
  EXPECT_THAT(on(group(sheet, "line", "P1.P R1.P C1.A"), Layer::working), SizeIs(3));  // two paths and a dot
  EXPECT_THAT(on(group(sheet, "line", "C1.rod M1.rod"), Layer::mechanical), SizeIs(2));
  EXPECT_FALSE(on(group(sheet, "line", "R1.T T1"), Layer::working).empty());
}

TEST(Show, an_assembly_is_a_chain_line_with_its_name) {
  const Group edge = group(at_rest(), "enclosure", "power unit");
  EXPECT_THAT(texts(edge), testing::ElementsAre("power unit"));
  ASSERT_EQ(on(edge, Layer::enclosures).size(), 1U);
  EXPECT_EQ(on(edge, Layer::enclosures)[0].pen.dash, Dash::chain);
}

TEST(Show, at_rest_all_is_in_ink_and_nothing_needs_a_legend) {
  const Sheet sheet = at_rest();
  for (const Group& each : sheet.groups) {
    EXPECT_NE(each.kind, "legend");
    for (const Mark& mark : each.marks) EXPECT_FALSE(mark.pen.colour.has_value());
    EXPECT_TRUE(on(each, Layer::flow).empty());
  }
  EXPECT_EQ(sheet.title, "Lift, circuit at rest");
}

TEST(Show, at_a_moment_lines_have_the_colour_of_their_pressure_and_arrows_where_oil_runs) {
  const Sheet sheet = at_moment(1.5);
  // 500 kg on 12.57 cm2 are 39 bar: with friction the scale goes to 50 bar, and the line is near its top.
  const Group& line = group(sheet, "line", "P1.P R1.P C1.A");
  const Colour colour = *on(line, Layer::working)[0].pen.colour;
  EXPECT_LT(oklab_of(colour).lightness, oklab_of(colour_of(0.6)).lightness);
  EXPECT_GT(oklab_of(colour).lightness, oklab_of(colour_of(1.0)).lightness);
  EXPECT_THAT(on(line, Layer::flow), SizeIs(2));  // below and above the branch, not in it
  const Group& suction = group(sheet, "line", "T1.T P1.S");
  EXPECT_EQ(*on(suction, Layer::working)[0].pen.colour, colour_of(0.0));
  EXPECT_THAT(line.title, HasSubstr(" bar"));
  EXPECT_TRUE(on(group(sheet, "line", "C1.rod M1.rod"), Layer::flow).empty());
  EXPECT_EQ(sheet.title, "Lift, at 1.50 s in step lift");
}

TEST(Show, an_actuator_says_where_it_stands) {
  const std::vector<std::string> said = texts(group(at_moment(1.5), "part", "C1"));
  ASSERT_EQ(said.size(), 4U);
  EXPECT_THAT(said[2], testing::MatchesRegex("at [0-9.]+ mm"));
  EXPECT_EQ(said[3], "lifts");
}

TEST(Show, the_legend_has_round_pressures_with_their_unit_and_flows) {
  const std::vector<std::string> said = texts(group(at_moment(1.5), "legend", "legend"));
  EXPECT_THAT(said, testing::IsSupersetOf({"pressure, bar", "0", "10", "20", "30", "40", "50"}));
  EXPECT_THAT(said, testing::Contains(HasSubstr("L/min")));
}

TEST(Show, the_legend_lies_on_nothing) {
  Schematic s = lift_drawn();
  // Narrow, then grown until it fills the sheet: there the drawing must make room.
  for (const double more : {0.0, 20.0, 40.0, 60.0}) {
    s.box.right = 72 + more;
    s.enclosures[0].box.right = 70 + more;
    s.enclosures[0].box.high = 64;
    const Fit place = fit(s, "A4", true);
    ASSERT_TRUE(place.legend.has_value());
    const Box legend{place.legend->x, place.legend->y, place.legend->x + legend_width,
                     place.legend->y + legend_height};
    const Box area = drawing_area(place.paper);
    EXPECT_FALSE(overlap(legend, place.mapping.at(s.enclosures[0].box))) << more;
    EXPECT_GE(legend.low, area.low);
    EXPECT_LE(legend.right, area.right);
  }
}

TEST(Fit, takes_the_full_module_then_the_reduced_one_then_a_larger_sheet) {
  Schematic s;
  const auto of_width = [&](double wide) {
    s.box = {0, 0, wide, 20};
    return fit(s, "", false);
  };
  // A4 leaves 259 mm inside frame and clearance, A3 382 mm.
  EXPECT_DOUBLE_EQ(of_width(100).mapping.module, 2.5);
  EXPECT_DOUBLE_EQ(of_width(120).mapping.module, 2.0);
  EXPECT_EQ(of_width(120).paper, Paper::a4);
  EXPECT_EQ(of_width(150).paper, Paper::a3);
  EXPECT_DOUBLE_EQ(of_width(150).mapping.module, 2.5);
  EXPECT_DOUBLE_EQ(of_width(180).mapping.module, 2.0);
  EXPECT_LT(of_width(400).mapping.module, 2.0);
  EXPECT_EQ(of_width(400).paper, Paper::a3);
  s.box = {0, 0, 150, 20};
  EXPECT_EQ(fit(s, "Letter", false).paper, Paper::letter);
}

TEST(Fit, the_whole_drawing_lies_in_its_area) {
  Schematic s;
  for (const Box& box : {Box{-5, 3, 60, 50}, Box{0, 0, 300, 20}, Box{0, 0, 20, 300}}) {
    s.box = box;
    for (const char* paper : {"A4", "A3", "Letter"}) {
      const Fit place = fit(s, paper, false);
      const Box on_paper = place.mapping.at(box), area = drawing_area(place.paper);
      EXPECT_GE(on_paper.left, area.left - 1e-9);
      EXPECT_LE(on_paper.right, area.right + 1e-9);
      EXPECT_GE(on_paper.low, area.low - 1e-9);
      EXPECT_LE(on_paper.high, area.high + 1e-9);
    }
  }
}

TEST(Show, words_stay_in_the_box_that_the_layout_keeps_for_them) {
  Schematic s = lift_drawn();
  for (Label& label : s.labels) {
    const LabelSize size = label_size(words[label.part]);
    label.box.right = label.box.left + size.width;
    label.box.low = label.box.high - size.height;
  }
  const Sheet sheet = sheet_of(s, lift().plan, words, look_at_rest());
  const Mapping mapping = fit(s, "", false).mapping;
  for (const Label& label : s.labels) {
    const Box box = mapping.at(label.box);
    for (const Mark& mark : on(group(sheet, "part", words[label.part].tag), Layer::labels)) {
      if (const auto* text = std::get_if<Text>(&mark.shape)) {
        EXPECT_GE(text->at.x, box.left);
        EXPECT_GE(text->at.y, box.low);
        EXPECT_LE(text->at.y + text->height * 0.75, box.high);
      } else {
        const Box frame = box_of(std::get<Polyline>(mark.shape));
        EXPECT_GE(frame.left, box.left);
        EXPECT_LE(frame.high, box.high);
      }
    }
  }
}

}  // namespace
}  // namespace poise::draw
