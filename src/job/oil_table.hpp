// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <span>
#include <string_view>

#include "parts/table.hpp"

namespace poise {

/// What a job may say about its oil, as a part's datasheet lists it; read by the job and printed by the
/// reference.
std::span<const Parameter> oil_parameters();

/// A value of the oil that may be off, NAME_tolerance, and the line of the table that it is.
struct LooseOil {
  std::string_view name, line;
};
inline constexpr std::array loose_oil{LooseOil{"viscosity", "viscosity_40"}, LooseOil{"air", "air"},
                                      LooseOil{"modulus", "modulus"}};
/// Their lines, called as their tolerances call them.
std::span<const Parameter> loose_oil_parameters();

}  // namespace poise
