// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include "compose/built_in.hpp"
#include "compose/change.hpp"

namespace poise::compose {
namespace {

Start start(std::string_view name, std::string_view title, std::string_view sentence) {
  return {name, title, sentence, built_in(fmt::format("starts/{}.toml", name)),
          built_in(fmt::format("starts/{}.us.toml", name))};
}

}  // namespace

const std::vector<Start>& starts() {
  static const std::vector<Start> list{
      start("empty", "New job", "Nothing but a title."),
      start("single-lift", "Single lift",
            "One cylinder lifts a load, a check and then a nut hold it, a needle meters it down."),
      start("multi-point-lift", "Multi-point lift",
            "Four cylinders lift a frame level: a gear flow divider shares the oil, a pilot-operated check "
            "holds each."),
      start("sequenced-fixture", "Sequenced fixture",
            "Two rams seat the workpiece; a sequence valve lets three swing clamps follow."),
      start("two-pressure-clamp", "Two-pressure clamp",
            "Two cylinders clamp with the full pressure, one with less behind a reducing valve; a switch "
            "stops the pump."),
      start("press-with-holding", "Press with holding",
            "Closes fast on a two-stage pump, presses until a switch is made, and holds behind a check."),
      start(
          "gauge-line", "Gauge line",
          "A hand pump sets the pressure; a gauge behind shut-off and snubber is compared with a good one."),
  };
  return list;
}

}  // namespace poise::compose
