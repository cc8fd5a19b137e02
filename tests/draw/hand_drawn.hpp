// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A lift set down by hand, for tests of what is made of a schematic. Invented data.
#pragma once

#include <numbers>

#include "draw/schematic.hpp"
#include "support/workshop.hpp"

namespace poise::drawing {

inline constexpr int tank = 0, pump = 1, relief = 2, ram = 3, weight = 4;
inline constexpr double bore = 40 * si::mm, area = std::numbers::pi / 4 * bore * bore;

/// A pump that lifts a weight; the relief is on a branch of its line.
inline workshop::Bench lift() {
  workshop::Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  b.part("P1", "pump", {{"flow", 4 * si::litre_per_minute}, {"rated_pressure", 250 * si::bar}});
  b.part("R1", "relief", {{"setting", 180 * si::bar}, {"rated_flow", 10 * si::litre_per_minute}});
  b.part("C1", "single_acting_cylinder", {{"bore", bore}, {"stroke", 0.3}});
  b.part("M1", "mass", {{"mass", 500.0}});
  b.join({"T1.T", "P1.S", "R1.T"});
  b.join({"P1.P", "R1.P", "C1.A"});
  b.join({"C1.rod", "M1.rod"});
  b.step("lift", 2.0, {{"P1", "running", 1.0, 0.3}});
  return b;
}

/// As a draughtsman may set it down: the relief's branch leaves the upright line half way up, without a joint
/// of segments there.
inline draw::Schematic lift_drawn() {
  draw::Schematic s;
  const auto symbol = [&](int part, draw::Point at, std::vector<draw::Point> anchors) {
    const draw::Box box{at.x - 3, at.y - 3, at.x + 3, at.y + 3};
    s.symbols.push_back({.part = part, .turn = {}, .at = at, .anchors = std::move(anchors), .box = box});
    s.labels.push_back({.part = part, .box = {at.x + 4, at.y - 3, at.x + 20, at.y + 5}});
  };
  symbol(tank, {20, 5}, {{20, 5}});
  symbol(pump, {20, 20}, {{20, 15}, {20, 25}});
  symbol(relief, {45, 30}, {{45, 33}, {45, 27}});
  symbol(ram, {20, 45}, {{20, 45}, {20, 55}});
  symbol(weight, {20, 62}, {{20, 60}});
  s.wires = {{.ports = {{pump, 1}, {relief, 0}, {ram, 0}},
              .segments = {{{20, 25}, {20, 45}}, {{20, 35}, {45, 35}}, {{45, 35}, {45, 33}}},
              .junctions = {{20, 35}}},
             {.ports = {{tank, 0}, {pump, 0}}, .segments = {{{20, 15}, {20, 5}}}, .junctions = {}},
             {.ports = {{ram, 1}, {weight, 0}},
              .segments = {{{20, 55}, {20, 60}}},
              .junctions = {},
              .mechanical = true}};
  s.tanks = {
      {.reservoir = tank, .port = {relief, 1}, .lead = {{45, 27}, {45, 23}}, .box = {44, 22.5, 46, 23.5}}};
  s.enclosures = {{.name = "power unit", .box = {10, 2, 70, 40}, .label = {11, 37, 30, 39.5}}};
  s.box = {8, 0, 72, 66};
  return s;
}

}  // namespace poise::drawing
