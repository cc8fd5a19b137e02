// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "draw/schematic.hpp"

namespace poise::drawing {

/// What is wrong with a drawing, a sentence each; empty if nothing is.
using Sentences = std::vector<std::string>;

/// A drawing and what it was made from.
struct Drawn {
  const Plan& plan;
  std::span<const draw::Words> words;
  std::span<const draw::Wish> wishes;
  const draw::Schematic& schematic;
};

/// Symbols and labels in the plan's order; anchors where the turned symbol has them, on the edge of the box;
/// every stroke of the symbol at rest inside its box; words have a label of their own, beside their part.
Sentences symbols_set_wrong(const Drawn& drawn);
/// Symbols, labels, tank marks and the labels of enclosures whose insides meet.
Sentences boxes_that_overlap(const Drawn& drawn);
/// Lines through the inside of any of these boxes, or over a port that is not theirs.
Sentences lines_through_boxes(const Drawn& drawn);
/// Pieces that are neither level nor upright, or have no length.
Sentences slanting_pieces(const Drawn& drawn);
/// Lines that are in pieces, run in a ring, lie on themselves, miss a port, or end nowhere.
Sentences lines_that_are_no_trees(const Drawn& drawn);
/// Lines of different wires that lie on each other, touch, or cross too near a corner, a junction or an end.
Sentences lines_that_mix(const Drawn& drawn);
/// Dots where fewer than three pieces meet, and meetings without a dot.
Sentences wrong_dots(const Drawn& drawn);
/// Ports that the plan joins and the drawing does not, or joins twice, or that only the drawing joins.
Sentences joints_drawn_wrong(const Drawn& drawn);
/// Assemblies whose members are not inside their enclosure, or share it with others.
Sentences enclosures_drawn_wrong(const Drawn& drawn);
/// What lies outside the drawing's box.
Sentences outside_the_drawing(const Drawn& drawn);

/// All of these.
Sentences broken_rules(const Drawn& drawn);

/// Of all pairs of parts that both plans have (by tag), the share whose order from left to right and from
/// below to above is the same in both drawings: none that stood wholly to the left of the other now stands
/// wholly to its right, none that stood wholly over it now stands under it.
double kept_order(const Plan& before, const draw::Schematic& first, const Plan& after,
                  const draw::Schematic& second);

}  // namespace poise::drawing
