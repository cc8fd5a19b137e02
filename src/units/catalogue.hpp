// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string_view>

#include "quantity/quantity.hpp"

namespace poise::units {

/// How one quantity is spoken of, read and shown.
struct Kind {
  Quantity quantity = Quantity::none;
  std::string_view name;     ///< "pressure"
  std::string_view example;  ///< "210 bar"
  std::string_view si;       ///< the unit that the house computes in, with rev, stroke and turn as units
  std::string_view metric;
  std::string_view us;
  std::string_view offered;  ///< usual units, comma between, from which a mistyped one is guessed
};

/// In the order of Quantity, one each.
std::span<const Kind> kinds();
const Kind& kind(Quantity quantity);

/// A thing people write a value of although no field of a job takes it: named so that the complaint can name
/// it.
struct ForeignKind {
  std::string_view name;
  std::string_view si;
};
std::span<const ForeignKind> foreign_kinds();

/// A unit's symbol and its definition by units that stand before it.
struct Symbol {
  std::string_view symbol;
  std::string_view definition;  ///< empty: a base unit
};
std::span<const Symbol> symbols();

}  // namespace poise::units
