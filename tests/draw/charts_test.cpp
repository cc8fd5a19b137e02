// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Charts of the example jobs and of the independent circuits: what the geometry must keep to on paper.
#include "draw/chart.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>

#include "draw/chart_scene.hpp"
#include "draw/marks.hpp"
#include "draw/svg.hpp"

namespace poise::draw {
namespace {

using testing::HasSubstr;

constexpr std::array files{"jobs/drilling-stand.toml",
                           "jobs/drilling-stand-sequence-too-low.toml",
                           "jobs/axle-box-lift.toml",
                           "jobs/axle-box-lift-needle-too-far-open.toml",
                           "tests/independent/bogie_lift.toml",
                           "tests/independent/support_and_swing_clamp.toml",
                           "tests/independent/accumulator_lifts.toml",
                           "tests/independent/lowering_by_counterbalance.toml"};

std::string words_at(const Sheet& sheet, const Box& box) {
  for (const Group& group : sheet.groups) {
    for (const Mark& mark : group.marks) {
      const auto* text = std::get_if<Text>(&mark.shape);
      if (text && box_of(*text) == box) return "\"" + text->words + "\"";
    }
  }
  return "";
}

void expect_texts_apart_and_on_paper(const Sheet& sheet) {
  const std::vector<Box> boxes = text_boxes(sheet);
  const ChartWish wish;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    EXPECT_GE(boxes[i].left, wish.content.left - 0.5) << sheet.title << ": " << words_at(sheet, boxes[i]);
    EXPECT_LE(boxes[i].right, wish.content.right + 0.5) << sheet.title << ": " << words_at(sheet, boxes[i]);
    for (std::size_t k = 0; k < i; ++k) {
      EXPECT_FALSE(overlap(boxes[i], boxes[k]))
          << sheet.title << ": " << words_at(sheet, boxes[i]) << " over " << words_at(sheet, boxes[k]);
    }
  }
}

class charts : public testing::TestWithParam<const char*> {};

TEST_P(charts, have_texts_that_do_not_overlap) {
  const scene::Run run = scene::run_of(GetParam());
  for (const Sheet& sheet : scene::charts_of(run)) expect_texts_apart_and_on_paper(sheet);
}

/// The upright line at the left end of a panel, from its lowest to its highest number.
Box frame_of(const Group& panel) {
  Box box;
  for (const Mark& mark : panel.marks) {
    const auto* shape = std::get_if<Polyline>(&mark.shape);
    if (!shape || shape->points.size() != 2) continue;
    const Point a = shape->points[0], b = shape->points[1];
    if (a.x == b.x && mark.pen.width == pens::ink.width && !mark.pen.colour) {
      box = {a.x, a.y, box.right, b.y};
    } else if (a.y == b.y && (mark.pen.width == pens::grid.width || mark.pen.width == pens::thin.width)) {
      box.right = std::max(box.right, b.x);
    }
  }
  return box;
}

TEST_P(charts, have_curves_inside_their_panels) {
  const scene::Run run = scene::run_of(GetParam());
  const Sheet sheet = cycle_chart(run.job, run.trace, {});
  int curves = 0;
  for (const Group& group : sheet.groups) {
    if (group.kind != "panel") continue;
    const Box frame = frame_of(group).grown(1e-6);
    ASSERT_GT(frame.height(), 5.0) << group.name;
    for (const Mark& mark : group.marks) {
      const auto* shape = std::get_if<Polyline>(&mark.shape);
      if (!shape || mark.pen.width != style_of(0).pen.width || shape->points.front().x > frame.right - 1.0)
        continue;
      ++curves;
      for (const Point& p : shape->points) {
        EXPECT_TRUE(p.x >= frame.left && p.x <= frame.right && p.y >= frame.low && p.y <= frame.high)
            << group.name << " at " << p.x << ", " << p.y;
      }
    }
  }
  EXPECT_GE(curves, 4);
}

INSTANTIATE_TEST_SUITE_P(jobs, charts, testing::ValuesIn(files));

// A small sheet and many steps, some of a millisecond, with long names.
TEST(charts_of_one_job, keep_their_texts_apart_where_room_is_short) {
  scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const double end = run.trace.time.back();
  run.trace.steps.clear();
  for (int i = 0; i < 18; ++i) {
    const double begin = i == 0 ? 0.0 : run.trace.steps.back().end;
    const double lasts = i % 3 == 1 ? 1e-3 : (end - 6e-3) / 12.0;
    run.trace.steps.push_back(
        {"let the seating rams come home, part " + std::to_string(i), begin, begin + lasts, true});
  }
  for (const double height : {80.0, 120.0, 186.0}) {
    ChartWish wish;
    wish.content.low = wish.content.high - height;
    expect_texts_apart_and_on_paper(cycle_chart(run.job, run.trace, wish));
    expect_texts_apart_and_on_paper(motion_chart(run.job, run.trace, wish));
    expect_texts_apart_and_on_paper(
        way_chart(run.job, run.circuit, run.trace, run.trace.moments.front(), wish));
    wish.part = "V3";
    expect_texts_apart_and_on_paper(valve_chart(run.job, run.trace, wish));
  }
}

TEST(charts_of_one_job, are_the_same_bytes_twice) {
  const auto drawn = [] {
    std::string all;
    for (const Sheet& sheet : scene::charts_of(scene::run_of("jobs/axle-box-lift.toml"))) all += svg(sheet);
    return all;
  };
  EXPECT_EQ(drawn(), drawn());
}

/// All words of the groups of one kind, one after the other.
std::string words_of(const Sheet& sheet, const std::string& kind) {
  std::string all;
  for (const Group& group : sheet.groups) {
    if (group.kind != kind) continue;
    for (const Mark& mark : group.marks) {
      if (const auto* text = std::get_if<Text>(&mark.shape)) all += text->words + "\n";
    }
  }
  return all;
}

TEST(cycle_chart, has_a_panel_for_each_quantity_with_its_unit_and_the_jobs_limits) {
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const std::string text = words_of(cycle_chart(run.job, run.trace, {}), "panel");
  for (const char* expected :
       {"pressure, bar", "flow, L/min", "position, mm", "force, kN", "P1 delivery", "K1, K2, K3 clamp force",
        "pump line below 225 bar (P1.P ≤ 225 bar)", "clamps firm while drilling (K2 ≥ 7.5 kN)"}) {
    EXPECT_THAT(text, HasSubstr(expected));
  }
}

TEST(cycle_chart, shows_the_signals_that_were_asked_for_and_no_others) {
  ChartWish wish;
  wish.names = {"P1.P.pressure", "R1.speed"};
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml", wish);
  const std::string text = words_of(cycle_chart(run.job, run.trace, wish), "panel");
  EXPECT_THAT(text, HasSubstr("pressure, bar"));
  EXPECT_THAT(text, HasSubstr("speed, mm/s"));
  EXPECT_THAT(text, testing::Not(HasSubstr("force")));
}

TEST(motion_chart, tells_each_state_by_the_words_of_its_input) {
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const std::string text = words_of(motion_chart(run.job, run.trace, {}), "band");
  for (const char* expected : {"V1\ndirectional 4/3\ncentre\na\nb\n", "P1\npump\noff\non\n",
                               "R1\ndouble acting cylinder\n0 mm\n25.0 mm\n",
                               "V3\nrelief\nshut\nopen\nP to T\n", "F1\nforce\n0 kN\n6.00 kN\n"}) {
    EXPECT_THAT(text, HasSubstr(expected));
  }
}

}  // namespace
}  // namespace poise::draw
