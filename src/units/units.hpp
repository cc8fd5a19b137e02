// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "quantity/quantity.hpp"

namespace poise::units {

inline constexpr std::size_t quantity_count = static_cast<std::size_t>(Quantity::conductance) + 1;

/// What came of reading a value with its unit: either an SI value or a complaint in a practitioner's words.
struct Reading {
  std::optional<double> value;  ///< SI, in the convention of Quantity
  std::string complaint;        ///< empty when value is set
};

/// Reads one number and one unit, such as "210 bar", "150 in3/min", "10 t" or "-5 degC", into SI of the
/// quantity. A mass given for a force is its weight under standard gravity; 1/min given for a rotation or a
/// stroke rate counts revolutions or strokes. A bare number is read only for Quantity::none and, from 0 to 1,
/// for Quantity::share. Safe from several threads.
Reading read(std::string_view text, Quantity quantity);

/// The units in which people see results: one unit text for each quantity, empty for Quantity::none.
struct World {
  std::string name;
  std::array<std::string, quantity_count> unit;

  const std::string& operator[](Quantity quantity) const { return unit[static_cast<std::size_t>(quantity)]; }
};

/// bar, L/min, kN, mm.
const World& metric();

/// psi, in3/min, lbf, in.
const World& us();

/// Gives a quantity another unit in this world; false, and nothing changed, when the unit does not measure
/// it.
bool set_unit(World& world, Quantity quantity, std::string_view unit);

/// An SI value as the plain number that stands before the world's unit.
double in_unit(double value, Quantity quantity, const World& world);

/// As in_unit for a difference of two values: a temperature difference does not take the offset of its scale.
double difference_in_unit(double value, Quantity quantity, const World& world);

/// Three significant figures with the unit: "187 bar", "0.0214 L/min", "-3.00 mm"; plain zero is "0 bar".
/// Powers of ten appear only below 1e-4 and from 1e7 on. A value that is not finite reads "no value".
std::string show(double value, Quantity quantity, const World& world);

/// As show, for a difference of two values: 10 K is "18.0 degF".
std::string show_difference(double value, Quantity quantity, const World& world);

/// What the quantity is called in messages: "pressure", "flow".
std::string_view name(Quantity quantity);

/// A text that read() takes, for messages: "210 bar".
std::string_view example(Quantity quantity);

}  // namespace poise::units
