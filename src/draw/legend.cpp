// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/legend.hpp"

#include <fmt/format.h>

#include <array>

#include "draw/words.hpp"

namespace poise::draw {
namespace {

constexpr double letters = 2.5, small_letters = 2.2;
constexpr double bar_left = 1.0, bar_width = 70.0, bar_low = 11.0, bar_height = 3.0;
constexpr int shades = 35;
const Pen ink{.layer = Layer::frame, .width = 0.18};

void add_text(Group& group, Point at, std::string words, double height, Text::Stands stands) {
  group.marks.push_back({ink, Text{.at = at, .words = std::move(words), .height = height, .stands = stands}});
}

void add_bar(Group& group, Point corner, const PressureScale& scale) {
  const double left = corner.x + bar_left, right = left + bar_width, low = corner.y + bar_low,
               high = low + bar_height;
  // Each shade reaches to the end, under the next ones: no seams where a screen rounds their edges.
  for (int i = 0; i < shades; ++i) {
    const double from = left + bar_width * i / shades;
    const Pen pen{.layer = Layer::frame,
                  .width = 0.05,
                  .filled = true,
                  .colour = scale.at(scale.top * (i + 0.5) / shades)};
    group.marks.push_back({pen, Polyline{{{from, low}, {right, low}, {right, high}, {from, high}}, true}});
  }
}

void add_steps(Group& group, Point corner, const PressureScale& scale, const units::World& world) {
  for (const double pressure : scale.steps) {
    const double x = corner.x + bar_left + bar_width * pressure / scale.top, low = corner.y + bar_low;
    group.marks.push_back({ink, Polyline{{{x, low - 0.8}, {x, low}}, false}});
    // Steps are round in the job's unit: what is beyond six figures comes from the conversion.
    const double number = units::in_unit(pressure, Quantity::pressure, world);
    add_text(group, {x, low - 3.6}, fmt::format("{:.6g}", number), small_letters, Text::Stands::middle);
  }
}

/// The greatest flow and a quarter of it, whose arrow is half as long.
void add_flows(Group& group, Point corner, const ArrowScale& arrows, double module,
               const units::World& world) {
  if (arrows.greatest <= 0.0) {
    add_text(group, {corner.x, corner.y + 1.5}, "no oil runs", letters, Text::Stands::left);
    return;
  }
  double x = corner.x;
  for (const double share : {1.0, 0.25}) {
    const double flow = share * arrows.greatest, length = arrows.length(flow) * module;
    const Pen pen{.layer = Layer::frame, .width = 0.1, .filled = true};
    group.marks.push_back({ink, Polyline{{{x, corner.y + 2.4}, {x + length + 3.0, corner.y + 2.4}}, false}});
    add_arrow(group.marks, {x + 0.5 * length + 1.5, corner.y + 2.4}, 0.0, length, pen);
    add_text(group, {x + length + 4.0, corner.y + 1.5}, shown(flow, Quantity::flow, world), letters,
             Text::Stands::left);
    x += 38.0;
  }
}

}  // namespace

Group legend(Point corner, const PressureScale& scale, const ArrowScale& arrows, double module,
             const units::World& world) {
  Group group{.kind = "legend", .name = "legend", .title = "what colours and arrows mean", .marks = {}};
  add_text(group, {corner.x, corner.y + bar_low + bar_height + 1.6},
           fmt::format("pressure, {}", world[Quantity::pressure]), letters, Text::Stands::left);
  add_bar(group, corner, scale);
  add_steps(group, corner, scale, world);
  add_flows(group, corner, arrows, module, world);
  return group;
}

}  // namespace poise::draw
