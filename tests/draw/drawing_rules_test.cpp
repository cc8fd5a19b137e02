// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The rules themselves: a small drawing set by hand keeps them all, and each way of spoiling it is found.
#include "support/drawing_rules.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "reference/picture.hpp"
#include "support/drawn_job.hpp"
#include "support/workshop.hpp"

namespace poise::drawing {
namespace {

using draw::Box;
using draw::Point;
using testing::HasSubstr;
using testing::IsEmpty;

/// Two checks from the reservoir; one feeds two gauges, the other one gauge, and their lines cross once.
class by_hand : public testing::Test {
 protected:
  workshop::Bench bench;
  std::vector<draw::Words> words;
  std::vector<draw::Wish> wishes;
  draw::Schematic s;
  enum : int { t1, v1, v2, g1, g2, g3 };

  by_hand() {
    bench.part("T1", "reservoir", {{"usable_oil", 0.01}});
    bench.part("V1", "check", {{"rated_flow", 1e-4}});
    bench.part("V2", "check", {{"rated_flow", 1e-4}});
    for (const char* tag : {"G1", "G2", "G3"}) bench.part(tag, "gauge", {{"range", 1e7}});
    bench.join({"T1.T", "V1.A", "V2.A"});
    bench.join({"V1.B", "G1.M", "G2.M"});
    bench.join({"V2.B", "G3.M"});
    words = words_of(bench.plan);
    put(t1, 0, {33, 3});
    put(v1, 1, {10, 14});
    put(v2, 1, {24, 14});
    put(g1, 0, {4, 20});
    put(g2, 0, {20, 20});
    put(g3, 0, {12, 20});
    for (const auto& symbol : s.symbols)
      s.labels.push_back(
          {symbol.part,
           {symbol.box.right + 0.2, symbol.box.low + 2.5, symbol.box.right + 3.7, symbol.box.high}});
    s.labels[t1].box = {30, 4, 34, 6};
    s.tanks = {{t1, {v1, 0}, {s.symbols[v1].anchors[0], {10, 6}}, {9, 5, 11, 6}},
               {t1, {v2, 0}, {s.symbols[v2].anchors[0], {24, 6}}, {23, 5, 25, 6}}};
    s.wires = {
        {.ports = {{v1, 1}, {g1, 0}, {g2, 0}},
         .segments = {{{10, 14}, {10, 17}}, {{4, 17}, {20, 17}}, {{4, 17}, {4, 20}}, {{20, 17}, {20, 20}}},
         .junctions = {{10, 17}}},
        {.ports = {{v2, 1}, {g3, 0}},
         .segments = {{{24, 14}, {24, 15.5}}, {{24, 15.5}, {12, 15.5}}, {{12, 15.5}, {12, 20}}},
         .junctions = {}}};
    s.box = {0, 0, 45, 30};
  }

  /// Sets a part down with one of its ports at a place, however its symbol is drawn.
  void put(int part, int port, Point where) {
    const Kind& kind = *bench.plan.parts[part].kind;
    const Point at{where.x - kind.anchors[port].x, where.y - kind.anchors[port].y};
    draw::PlacedSymbol symbol{.part = part, .turn = {}, .at = at, .anchors = {}, .box = {}};
    for (const Anchor& a : kind.anchors) symbol.anchors.push_back({at.x + a.x, at.y + a.y});
    symbol.box = reference::extent_of(kind.symbol, kind.anchors).moved(at);
    s.symbols.push_back(symbol);
  }

  std::string wrong() const { return listed(broken_rules({bench.plan, words, wishes, s})); }
};

TEST_F(by_hand, a_good_drawing_keeps_every_rule) { EXPECT_THAT(wrong(), IsEmpty()); }

TEST_F(by_hand, a_label_on_a_symbol_is_found) {
  s.labels[g1].box = Box{5, 22, 8, 24};
  EXPECT_THAT(wrong(), HasSubstr("symbol of G1 overlaps label of G1"));
}

TEST_F(by_hand, a_label_far_from_its_part_or_left_out_is_found) {
  s.labels[g1].box = Box{36, 20, 40, 22};
  EXPECT_THAT(wrong(), HasSubstr("the label of G1 is not beside it"));
  s.labels[g1].box = Box{};
  EXPECT_THAT(wrong(), HasSubstr("G1 has words and no room for them"));
}

TEST_F(by_hand, an_anchor_off_its_symbol_is_found) {
  s.symbols[g1].anchors[0].x += 0.5;
  EXPECT_THAT(wrong(), HasSubstr("G1.M is at 4.5, 20, its symbol has it at 4, 20"));
}

TEST_F(by_hand, a_symbol_that_is_said_to_be_turned_and_is_not_is_found) {
  s.symbols[v1].turn.quarters = 2;
  EXPECT_THAT(wrong(), HasSubstr("V1.A is at 10, "));
}

TEST_F(by_hand, a_box_that_does_not_cover_its_symbol_is_found) {
  s.symbols[g1].box.right -= 1;
  EXPECT_THAT(wrong(), HasSubstr("G1 has strokes outside its box"));
}

TEST_F(by_hand, a_line_through_a_label_is_found) {
  s.labels[v2].box = Box{20, 14.5, 23, 16};
  EXPECT_THAT(wrong(), HasSubstr("line V2.B G3.M runs through the label of V2"));
}

TEST_F(by_hand, a_line_through_a_tank_mark_is_found) {
  s.tanks[1].lead = {s.symbols[v2].anchors[0], {24, 5.5}, {10, 5.5}};
  EXPECT_THAT(wrong(), HasSubstr("lead of V2.A runs through the tank mark of V1.A"));
}

TEST_F(by_hand, a_slanting_piece_is_found) {
  s.wires[1].segments[1].to.y = 16;
  EXPECT_THAT(wrong(), HasSubstr("line V2.B G3.M has a piece from 24, 15.5 to 12, 16"));
}

TEST_F(by_hand, a_line_in_pieces_a_missed_port_and_a_loose_end_are_found) {
  s.wires[0].segments[3].from.y = 18;
  EXPECT_THAT(wrong(), HasSubstr("is in pieces"));
  s.wires[0].segments.pop_back();
  EXPECT_THAT(wrong(), HasSubstr("does not touch G2.M"));
  EXPECT_THAT(wrong(), HasSubstr("ends nowhere at 20, 17"));
}

TEST_F(by_hand, a_ring_is_found) {
  s.wires[0].segments.push_back({{6, 17}, {6, 18}});
  s.wires[0].segments.push_back({{6, 18}, {8, 18}});
  s.wires[0].segments.push_back({{8, 18}, {8, 17}});
  EXPECT_THAT(wrong(), HasSubstr("runs in a ring"));
}

TEST_F(by_hand, a_line_drawn_twice_is_found) {
  s.wires[0].segments.push_back({{5, 17}, {8, 17}});
  EXPECT_THAT(wrong(), HasSubstr("line V1.B G1.M G2.M lies on itself"));
}

TEST_F(by_hand, lines_on_each_other_are_found) {
  s.wires[1].segments = {{{24, 14}, {24, 17}}, {{24, 17}, {12, 17}}, {{12, 17}, {12, 20}}};
  EXPECT_THAT(wrong(), HasSubstr("lie on each other"));
}

TEST_F(by_hand, a_crossing_next_to_a_dot_is_found) {
  s.wires[1].segments = {{{24, 14}, {24, 15.5}},
                         {{24, 15.5}, {10.25, 15.5}},
                         {{10.25, 15.5}, {10.25, 18}},
                         {{10.25, 18}, {12, 18}},
                         {{12, 18}, {12, 20}}};
  EXPECT_THAT(wrong(), HasSubstr("cross too near an end, a corner or a dot at 10.25, 17"));
}

TEST_F(by_hand, a_missing_dot_and_one_too_many_are_found) {
  s.wires[0].junctions = {{12, 17}};
  EXPECT_THAT(wrong(), HasSubstr("lacks a dot at 10, 17"));
  EXPECT_THAT(wrong(), HasSubstr("has a dot too many at 12, 17"));
}

TEST_F(by_hand, a_line_over_a_foreign_port_is_found) {
  s.wires[1].segments = {
      {{24, 14}, {24, 15.5}}, {{24, 15.5}, {26, 15.5}}, {{26, 15.5}, {26, 20}}, {{26, 20}, {12, 20}}};
  EXPECT_THAT(wrong(), HasSubstr("line V2.B G3.M runs over G2.M"));
}

TEST_F(by_hand, joints_left_out_or_made_up_are_found) {
  std::swap(s.wires[0].ports[2], s.wires[1].ports[1]);
  EXPECT_THAT(wrong(), HasSubstr("a line joins V1.B and G3.M"));
  s.wires.pop_back();
  EXPECT_THAT(wrong(), HasSubstr("V2.B is on no line"));
  s.tanks.pop_back();
  EXPECT_THAT(wrong(), HasSubstr("T1.T and V2.A are not joined"));
}

TEST_F(by_hand, enclosures_keep_members_in_and_others_out) {
  wishes.resize(6);
  wishes[v1].assembly = "Block";
  EXPECT_THAT(wrong(), HasSubstr("V1 belongs to Block, which is not drawn once"));
  s.enclosures = {{"Block", {8, 4, 18, 16}, {16, 14.5, 18, 15.2}}};
  EXPECT_THAT(wrong(), IsEmpty());
  s.enclosures[0].box.right = 12;
  EXPECT_THAT(wrong(), HasSubstr("label of V1 is not in Block"));
  s.enclosures[0].box.right = 30;
  EXPECT_THAT(wrong(), HasSubstr("symbol of V2 is in Block"));
}

TEST_F(by_hand, what_lies_outside_the_drawing_is_found) {
  s.box.right = 35;
  EXPECT_THAT(wrong(), HasSubstr("symbol of T1 is outside the drawing"));
}

TEST_F(by_hand, order_is_kept_by_what_only_moves_and_lost_by_what_changes_places) {
  draw::Schematic other = s;
  for (auto& symbol : other.symbols) symbol.box = symbol.box.moved({7, 3});
  EXPECT_EQ(kept_order(bench.plan, s, bench.plan, other), 1.0);
  std::swap(other.symbols[g1].box, other.symbols[g3].box);
  EXPECT_DOUBLE_EQ(kept_order(bench.plan, s, bench.plan, other), 14.0 / 15.0);  // G1 and G3
}

}  // namespace
}  // namespace poise::drawing
