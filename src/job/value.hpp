// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>

#include "job/node.hpp"
#include "job/section.hpp"
#include "parts/kind.hpp"
#include "units/units.hpp"

namespace poise::job {

/// Reads the value of one parameter: a word of its list, or a number with its unit inside its range. SI,
/// words as index; none after a complaint, which names the parameter, `owner`, and the range in the units of
/// `world`.
std::optional<double> read_value(const Node& node, const Parameter& parameter, const std::string& owner,
                                 const units::World& world, Remarks& remarks);

/// Whether the job leaves a value open: the word "find", where the parameter has no word of that name.
bool is_open(const Node& node, const Parameter& parameter);

/// Reads the points of a curve, [["5 L/min", "0.8 bar"], ...]: at least as many as the parameter wants, the
/// first of each pair inside the range and rising. None after a complaint.
std::optional<Points> read_points(const Node& node, const Parameter& parameter, const std::string& owner,
                                  const units::World& world, Remarks& remarks);

/// The kind of part by its word; null after a complaint with the nearest known one.
const Kind* known_kind(const Text& word, Remarks& remarks);

/// Reads a text that must be a quantity; none after a complaint that begins with `what`.
std::optional<double> read_quantity(const Text& text, Quantity quantity, const std::string& what,
                                    Remarks& remarks);

/// `a pressure such as "210 bar"`, or `one of "a", "b"`: what a parameter wants.
std::string wanted(const Parameter& parameter);

}  // namespace poise::job
