// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>

#include "draw/lines.hpp"
#include "draw/moment.hpp"
#include "draw/paper.hpp"
#include "draw/pressure_colours.hpp"
#include "draw/schematic.hpp"
#include "draw/sheet.hpp"

namespace poise::draw {

/// How a schematic is put on paper.
struct Look {
  std::string paper{};   ///< "A4", "A3", "Letter"; empty: A4, or A3 where that would be too small
  TitleBlock block{};    ///< without what the drawing shows and its scale
  units::World world{};  ///< in which pressures, flows and positions are told
  const DrawnMoment* moment = nullptr;  ///< colours, arrows, parts as they stood; else parts at rest
  PressureScale scale{};                ///< of the colours
};

/// A schematic on paper: symbols, lines, words, edges of assemblies, frame and title block; with a moment
/// also its pressures and flows, and a legend. One group for each part and each line.
Sheet sheet_of(const Schematic& schematic, const Plan& plan, std::span<const Words> words, const Look& look);

/// The same without paper, for a screen: as large as the circuit is at the full module with a margin about
/// it, no frame, no title block, no legend. `unframed` says where it lies on that sheet.
Sheet unframed_sheet_of(const Schematic& schematic, const Plan& plan, std::span<const Words> words,
                        const Look& look);
Mapping unframed(const Schematic& schematic);

}  // namespace poise::draw
