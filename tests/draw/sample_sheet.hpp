// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "draw/paper.hpp"
#include "draw/sheet.hpp"
#include "draw/strokes.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise::draw::sample {

/// Signs that XML or DXF could take for its own, and signs outside ASCII.
inline constexpr std::string_view hard_words =
    R"(<&>"' 700 bar ± 5 %, 40 °C, ø 32, a^b, \U+0041, {x}, äµΩ → ²)";

/// A title far too long for its place. Invented.
inline constexpr std::string_view long_title =
    "Frame lift for bogies, bay 3: two work supports and four swing clamps after the rebuild, second stage "
    "with the slow lowering valve and everything else that makes this title too long for its place by far";

inline Group symbols(Point at) {
  Group group{.kind = "part", .name = "V1 & \"V2\"", .title = "Relief valve <V1>", .marks = {}};
  const auto set = [&](auto strokes, double right, Turn turn = {}) {
    for (Stroke& s : strokes) s = turned(s, turn);
    add_strokes(group.marks, strokes, {at.x + right, at.y}, 2.0, {});
  };
  set(pieces::opens_by_inlet(false), 0);
  set(pieces::motor_pump(), 30);
  set(pieces::diamond(), 75);
  set(pieces::opens_by_inlet(false), 100, {.mirrored = true, .quarters = 1});
  set(pieces::join(stroke::arc(0, 0, 2, 270), stroke::arc(0, -4, 2, 90), stroke::open(0, 0, 1.5, 270),
                   stroke::dot(6, 0), stroke::chain(stroke::box(-3, -7, 8, 4)),
                   stroke::dashed(stroke::circle(5, -3, 2))),
      130);
  return group;
}

inline Group lines(Point at) {
  const auto p = [&](double x, double y) { return Point{at.x + x, at.y + y}; };
  const Colour blue{30, 90, 160}, orange{200, 60, 30};
  Group group{.kind = "line", .name = "", .title = "", .marks = {}};
  group.marks = {
      {{.layer = Layer::working, .width = 0.6, .colour = blue}, Polyline{{p(5, 25), p(55, 25), p(55, 5)}}},
      {{.layer = Layer::pilot, .dash = Dash::dashed}, Polyline{{p(5, 20), p(45, 20)}}},
      {{.layer = Layer::mechanical}, Polyline{{p(5, 15), p(45, 15)}}},
      {{.layer = Layer::enclosures, .dash = Dash::chain},
       Polyline{{p(0, 0), p(70, 0), p(70, 35), p(0, 35)}, true}},
      {{.layer = Layer::flow, .width = 0, .filled = true, .colour = orange},
       Polyline{{p(80, 18), p(90, 18), p(90, 15), p(96, 20), p(90, 25), p(90, 22), p(80, 22)}, true}},
      {{.layer = Layer::chart, .filled = true}, Circle{p(110, 20), 4}},
      {{.layer = Layer::chart, .width = 0.3}, Circle{p(110, 20), 6}},
      {{.layer = Layer::chart, .width = 0.3}, Arc{p(130, 20), 8, 300, 60}}};
  return group;
}

inline Group words(Point at) {
  using enum Text::Stands;
  const Pen pen{.layer = Layer::labels};
  Group group{.kind = "part", .name = "words", .title = "", .marks = {}};
  group.marks = {{pen, Text{.at = {at.x, at.y + 10}, .words = std::string(hard_words)}},
                 {pen, Text{.at = {at.x, at.y + 5}, .words = "in the middle", .stands = middle}},
                 {pen, Text{.at = at, .words = "ends here", .height = 3.5, .stands = right, .bold = true}},
                 {pen, Text{.at = {at.x + 10, at.y - 20}, .words = "upright", .upright = true}}};
  return group;
}

/// Every kind of mark on every layer, with frame and title block.
inline Sheet sheet(Paper paper) {
  Sheet all = blank(paper);
  all.title = "Sample <of> a \"sheet\" & more";
  all.description = "Every kind of mark on every layer";
  const Box area = drawing_area(paper);
  const auto at = [&](double x, double y) { return Point{area.left + x, area.low + y}; };
  all.groups = {symbols(at(20, 25)), lines(at(10, 70)), words(at(170, 110))};
  add_frame(all, paper,
            {.job = std::string(long_title),
             .subject = "at 2.40 s, step clamp",
             .verdict = "11 of 12 held; broken: pressure at C2 never above 350 bar (362 bar at 2.41 s)",
             .oil = "ISO VG 32, 40 °C",
             .units = "bar, L/min, mm, kN",
             .note = "invented",
             .file = "jobs/frame_lift.toml",
             .version = "0.1.0",
             .date = "2026-11-25",
             .scale = "1 M = 2 mm"});
  return all;
}

}  // namespace poise::draw::sample
