// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "circuit/plan.hpp"

namespace poise::draw {

/// What a port is joined to on the drawing: a wire, or a mark of a reservoir of its own, or nothing.
struct PortLink {
  int wire = -1;
  int reservoir = -1;
};

/// The lines of a plan as they are drawn. A reservoir is joined by a line to the pump that sucks from it and
/// to no other port: each of the others ends in a mark of the reservoir, so that returns do not run all over
/// the sheet.
struct Links {
  std::vector<std::vector<PortLink>> of;   ///< by part and port
  std::vector<std::vector<PortOf>> wires;  ///< two or more ports each, in the order of the plan
};
Links links_of(const Plan& plan);

}  // namespace poise::draw
