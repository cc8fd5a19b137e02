// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "desk/json.hpp"
#include "desk/proof.hpp"

namespace poise::desk {

/// The circuit of a job set down, whether it can be run or not, as far as it was understood
/// (job/reading.hpp).
draw::Schematic set_down(const Job& job);

/// The circuit at rest as SVG, without paper; empty where there are no parts.
std::string drawing(const Job& job, const draw::Schematic& schematic);
/// At one moment of its run.
std::string drawing(const Proof& proof, std::size_t frame);

/// What the colours of such a drawing mean, and the greatest flow that its arrows stand for.
Json legend(const Proof& proof);

/// The ports on either side of a place on a line, named as in a job. The line by its name on the drawing; the
/// place in the drawing's mm, y down. None where there is no such line.
std::optional<std::array<std::vector<std::string>, 2>> sides(const Job& job, const draw::Schematic& schematic,
                                                             const std::string& line, double x, double y);

}  // namespace poise::desk
