// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Valves as they stand at a moment: which box meets the leads, where arrows and balls are.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include <initializer_list>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "parts/kind.hpp"
#include "support/plausible.hpp"
#include "support/strokes.hpp"

namespace poise {
namespace {

constexpr double some = 1e-4;   // m3/s: 6 L/min passes
constexpr double drops = 1e-8;  // m3/s: 0.6 cm3/min is leakage

std::vector<Stroke> drawn(std::string_view kind_name, const Pose& pose,
                          std::initializer_list<std::pair<std::string_view, double>> numbers = {}) {
  const Kind& kind = *find_kind(kind_name);
  Values values = workshop::plausible(kind);
  for (const auto& [name, number] : numbers) values.set(*find_parameter(kind.parameters, name), number);
  return kind.drawn(values, pose);
}

bool has(std::span<const Stroke> all, const Stroke& wanted) {
  return std::ranges::any_of(all, [&](const Stroke& s) { return workshop::alike(s, wanted); });
}

/// The left edges of the boxes of a directional valve's positions.
std::vector<double> left_edges(std::span<const Stroke> all) {
  std::vector<double> edges;
  for (const Stroke& s : all) {
    if (s.form != Stroke::Form::box) continue;
    if (std::abs(s.x2 - s.x - 4.0) < 1e-9 && std::abs(s.y2 - s.y - 4.0) < 1e-9) edges.push_back(s.x);
  }
  std::ranges::sort(edges);
  return edges;
}

std::vector<Stroke> in_position(std::string_view kind, double word, double centre = 0.0) {
  const std::array input{word};
  const Pose pose{.input = input};
  return kind == "directional_4_3" ? drawn(kind, pose, {{"centre", centre}}) : drawn(kind, pose);
}

TEST(directional_valve, the_box_in_use_stands_at_the_leads) {
  // a: straight across; b: crossed. P is at 1, 0; T at 3, 0; A at 1, 4; B at 3, 4 of the box at the leads.
  for (double centre : {0.0, 1.0, 2.0, 3.0, 4.0}) {
    const auto a = in_position("directional_4_3", 1.0, centre),
               b = in_position("directional_4_3", 2.0, centre);
    EXPECT_TRUE(has(a, stroke::arrow(1, 0, 1, 4)) && has(a, stroke::arrow(3, 4, 3, 0)));
    EXPECT_TRUE(has(b, stroke::arrow(1, 0, 3, 4)) && has(b, stroke::arrow(1, 4, 3, 0)));
    EXPECT_EQ(left_edges(a), (std::vector<double>{0, 4, 8}));
    EXPECT_EQ(left_edges(b), (std::vector<double>{-8, -4, 0}));
  }
  EXPECT_TRUE(has(in_position("directional_4_2", 0.0), stroke::arrow(1, 0, 3, 4)));
  EXPECT_TRUE(has(in_position("directional_4_2", 1.0), stroke::arrow(1, 0, 1, 4)));
  EXPECT_TRUE(has(in_position("directional_3_2", 0.0), stroke::arrow(1, 4, 3, 0)));
  EXPECT_TRUE(has(in_position("directional_3_2", 1.0), stroke::arrow(1, 0, 1, 4)));
  EXPECT_TRUE(has(in_position("directional_2_2", 1.0), stroke::arrow(2, 0, 2, 4)));
  EXPECT_FALSE(has(in_position("directional_2_2", 0.0), stroke::arrow(2, 0, 2, 4)));
}

TEST(directional_valve, the_centre_is_drawn_as_it_is) {
  const auto rail = stroke::line(1, 2, 3, 2);
  const auto to_rail = [](double x, double y) { return stroke::line(x, y, x, 2); };
  const auto bar = [](double x, double y) {
    const double at = y > 0 ? 3.25 : 0.75;
    return stroke::line(x - 0.5, at, x + 0.5, at);
  };
  struct Row {
    double word;                 // closed, open, tandem, float, regenerative
    std::vector<Anchor> joined;  // the others are shut
  };
  const Anchor p{1, 0}, t{3, 0}, a{1, 4}, b{3, 4};
  for (const Row& row :
       {Row{0, {}}, Row{1, {p, t, a, b}}, Row{2, {p, t}}, Row{3, {t, a, b}}, Row{4, {p, a, b}}}) {
    const auto centre = in_position("directional_4_3", 0.0, row.word);
    EXPECT_EQ(has(centre, rail), !row.joined.empty()) << row.word;
    for (const Anchor& port : {p, t, a, b}) {
      const bool joined =
          std::ranges::any_of(row.joined, [&](const Anchor& j) { return j.x == port.x && j.y == port.y; });
      EXPECT_EQ(has(centre, to_rail(port.x, port.y)), joined) << row.word << ' ' << port.x << ' ' << port.y;
      EXPECT_EQ(has(centre, bar(port.x, port.y)), !joined) << row.word << ' ' << port.x << ' ' << port.y;
    }
  }
}

// Boxes are 4 M wide and stand side by side: half way between two words the row stands half a box over.
RC_GTEST_PROP(directional_valve, the_row_of_boxes_runs_in_proportion, ()) {
  const double s = *rc::gen::map(rc::gen::inRange(0, 1001), [](int i) { return i / 1000.0; });
  for (const char* kind : {"directional_2_2", "directional_3_2", "directional_4_2"}) {
    RC_ASSERT(std::abs(left_edges(in_position(kind, s)).back() - 4 * s) < 1e-9);
  }
  RC_ASSERT(std::abs(left_edges(in_position("directional_4_3", s)).front() - (-4 + 4 * s)) < 1e-9);
  RC_ASSERT(std::abs(left_edges(in_position("directional_4_3", 1 + s)).front() - (0 - 8 * s)) < 1e-9);
}

TEST(directional_valve, its_leads_stay_where_they_are) {
  for (double word : {0.0, 0.5, 1.0, 2.0}) {
    const auto all = in_position("directional_4_3", word);
    for (double x : {1.0, 3.0}) {
      EXPECT_TRUE(has(all, stroke::line(x, 0, x, -2)) && has(all, stroke::line(x, 4, x, 6))) << word;
    }
  }
}

TEST(pressure_valve, its_arrow_stands_on_the_line_while_oil_passes) {
  const Stroke aside = stroke::arrow(1, 0, 1, 4), on = stroke::arrow(2, 0, 2, 4);
  for (const char* kind :
       {"relief", "externally_drained_relief", "pilot_operated_relief", "sequence", "unloading_valve"}) {
    const std::size_t ports = find_kind(kind)->oil_ports;
    std::vector<double> passing(ports, 0.0), leaking(ports, 0.0);
    passing[0] = some;
    leaking[0] = drops;
    EXPECT_TRUE(has(drawn(kind, {.flow = passing}), on)) << kind;
    EXPECT_TRUE(has(drawn(kind, {.flow = leaking}), aside)) << kind;
    EXPECT_TRUE(has(drawn(kind, {}), aside)) << kind;
  }
  const std::array down{some, -some, 0.0, 0.0}, up{-some, some, 0.0, 0.0};
  EXPECT_TRUE(has(drawn("counterbalance", {.flow = down}), stroke::arrow(2, 4, 2, 0)));
  EXPECT_TRUE(has(drawn("counterbalance", {.flow = up}), stroke::arrow(1, 4, 1, 0)));
}

TEST(reducing_valve, it_is_open_at_rest_and_lets_off_through_its_other_box) {
  EXPECT_TRUE(has(drawn("reducing_non_relieving", {}), stroke::arrow(2, 0, 2, 4)));
  const std::array still{0.0, 0.0, 0.0}, relieving{0.0, some, -some};
  EXPECT_TRUE(has(drawn("reducing_non_relieving", {.flow = still}), stroke::arrow(1, 0, 1, 4)));
  EXPECT_TRUE(has(drawn("reducing", {}), stroke::arrow(1, 0, 1, 4)));
  EXPECT_TRUE(has(drawn("reducing", {.flow = relieving}), stroke::arrow(1, 4, 3, 0)));
}

/// How far the first circle's middle stands from where it is at rest.
double ball_off(std::string_view kind, const Pose& pose, double resting_word = 0.0) {
  const auto middle = [&](const Pose& at) {
    const auto all = drawn(kind, at, {{"reverse_check", resting_word}});
    const auto ball = std::ranges::find(all, Stroke::Form::circle, &Stroke::form);
    return Anchor{ball->x, ball->y};
  };
  const Anchor here = middle(pose), rest = middle({});
  return std::hypot(here.x - rest.x, here.y - rest.y);
}

TEST(check_valve, its_ball_stands_off_the_seat_while_oil_passes_its_free_way) {
  const std::array a_to_b{some, -some, 0.0, 0.0}, b_to_a{-some, some, 0.0, 0.0}, still{0.0, 0.0, 0.0, 0.0};
  struct Row {
    const char* kind;
    bool forth, back;  // which way its ball leaves the seat
  };
  const auto check = [&](const Row& row, auto off) {
    EXPECT_EQ(off(Pose{.flow = a_to_b}) > 0.4, row.forth) << row.kind;
    EXPECT_EQ(off(Pose{.flow = b_to_a}) > 0.4, row.back) << row.kind;
    EXPECT_EQ(off(Pose{.flow = still}), 0.0) << row.kind;
  };
  // A pilot-operated check that passes backwards is held open by its pilot.
  for (const Row& row : {Row{"check", true, false}, Row{"pilot_operated_check", true, true},
                         Row{"one_way_flow_control", true, false}, Row{"counterbalance", false, true}}) {
    check(row, [&](const Pose& pose) {
      const auto middle = [&](const Pose& at) {
        const auto all = drawn(row.kind, at);
        return std::ranges::find(all, Stroke::Form::circle, &Stroke::form)->y;
      };
      return std::abs(middle(pose) - middle({}));
    });
  }
  for (const Row& row : {Row{"sequence", false, true}, Row{"reducing_non_relieving", false, true},
                         Row{"compensated_flow_control", false, true}}) {
    check(row, [&](const Pose& pose) { return ball_off(row.kind, pose, 1.0); });
  }
}

TEST(shuttle_valve, its_ball_shuts_the_side_that_does_not_feed) {
  const std::array from_a{some, 0.0, -some}, from_b{0.0, some, -some};
  const auto ball = [](std::span<const double> flow) {
    const auto all = drawn("shuttle", {.flow = flow});
    return std::ranges::find(all, Stroke::Form::circle, &Stroke::form)->x;
  };
  EXPECT_GT(ball(from_a), 0.5);
  EXPECT_LT(ball(from_b), -0.5);
}

TEST(two_way_states, the_drawing_shows_them) {
  const std::array off{false, false}, on{true, true};
  for (const char* kind : {"pressure_switch", "hose_burst_valve", "lock_nut", "unloading_valve"}) {
    const auto rest = drawn(kind, {.mode = off}), turned = drawn(kind, {.mode = on});
    EXPECT_FALSE(std::ranges::equal(rest, turned, workshop::alike)) << kind;
    EXPECT_TRUE(std::ranges::equal(rest, drawn(kind, {}), workshop::alike)) << kind;
  }
}

TEST(sequence_valve, what_is_not_fitted_is_not_drawn) {
  const auto count = [](std::span<const Stroke> all, Stroke::Form form) {
    return std::ranges::count(all, form, &Stroke::form);
  };
  const auto bare = drawn("sequence", {}, {{"reverse_check", 0.0}}),
             checked = drawn("sequence", {}, {{"reverse_check", 1.0}});
  EXPECT_EQ(count(bare, Stroke::Form::circle), 0);
  EXPECT_EQ(count(checked, Stroke::Form::circle), 1);
  const Stroke inside = stroke::dashed(stroke::line(2, -1, -1, -1)),
               outside = stroke::dashed(stroke::line(-2, 2, 0, 2));
  const auto own = drawn("sequence", {}, {{"pilot", 0.0}}), other = drawn("sequence", {}, {{"pilot", 1.0}});
  EXPECT_TRUE(has(own, inside) && !has(own, outside));
  EXPECT_TRUE(has(other, outside) && !has(other, inside));
}

TEST(springs, they_are_drawn_where_there_is_one) {
  const auto springs = [](std::span<const Stroke> all) {
    return std::ranges::count(all, Stroke::Form::spring, &Stroke::form);
  };
  EXPECT_EQ(springs(drawn("single_acting_cylinder", {}, {{"spring_preload", 0.0}, {"spring_rate", 0.0}})), 0);
  EXPECT_GT(springs(drawn("single_acting_cylinder", {}, {{"spring_preload", 200.0}})), 0);
  EXPECT_EQ(springs(drawn("check", {}, {{"cracking_pressure", 0.0}})), 0);
  EXPECT_EQ(springs(drawn("check", {}, {{"cracking_pressure", 1 * si::bar}})), 1);
  EXPECT_EQ(springs(drawn("swing_clamp", {}, {{"return", 1.0}})), 0);
  EXPECT_EQ(springs(drawn("swing_clamp", {}, {{"return", 0.0}})), 1);
  EXPECT_EQ(springs(drawn("filter", {})), 0);
  EXPECT_EQ(springs(drawn("filter", {}, {{"bypass_pressure", 2 * si::bar}})), 1);  // of the bypass check
}

TEST(shut_off_valve, it_is_filled_while_shut) {
  const auto filled = [](double position) {
    const std::array input{position};
    return std::ranges::count(drawn("shut_off", {.input = input}), Stroke::Form::filled, &Stroke::form);
  };
  EXPECT_EQ(filled(0.0), 2);
  EXPECT_EQ(filled(1.0), 0);
}

TEST(cam_valve, the_cam_pushes_the_boxes_in_proportion) {
  const Values values = workshop::plausible(*find_kind("cam_valve"));
  for (double share : {0.0, 0.25, 0.5, 1.0}) {
    const std::array position{values["acts_from"] + share * values["acts_over"]};
    EXPECT_NEAR(left_edges(drawn("cam_valve", {.position = position})).back(), 4 * share, 1e-9);
  }
}

TEST(cam_valve, rests_open_or_shut_at_the_leads_until_the_cam_comes) {
  const Values values = workshop::plausible(*find_kind("cam_valve"));
  const auto meets = [&](double rest, double share) {
    const std::array position{values["acts_from"] + share * values["acts_over"]};
    return has(drawn("cam_valve", {.position = position}, {{"rest", rest}}), stroke::arrow(2, 0, 2, 4));
  };
  EXPECT_TRUE(meets(0.0, 0.0));  // under the cam it is a narrow way: an arrow too
  EXPECT_FALSE(meets(1.0, 0.0));
  EXPECT_TRUE(meets(1.0, 1.0));
}

TEST(rigid_load, it_has_as_many_supports_as_points) {
  const Kind& kind = *find_kind("rigid_load");
  Values values = workshop::plausible(kind);
  for (int count = 2; count <= 8; ++count) {
    values.set_points(*find_parameter(kind.parameters, "points"), Points(count, {0.0, 0.0}));
    const auto all = kind.drawn(values, {});
    EXPECT_EQ(std::ranges::count_if(
                  all, [](const Stroke& s) { return s.form == Stroke::Form::filled && s.x2 == 0.75; }),
              count);
  }
}

}  // namespace
}  // namespace poise
