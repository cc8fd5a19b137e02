// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <string_view>

namespace poise::reference {

/// Kinds that stand together in the list of kinds, under one heading; a family goes from its first kind to
/// the first of the next, so that a new kind belongs where it is put in the list.
struct Family {
  std::string_view title;
  std::string_view first_kind;
};

inline constexpr std::array families{
    Family{"Power: tank, pumps, motors that drive them", "reservoir"},
    Family{"Storage and intensifiers", "accumulator"},
    Family{"Motors turned by oil", "hydraulic_motor"},
    Family{"Pressure", "relief"},
    Family{"Checks and load holding", "check"},
    Family{"Flow", "needle"},
    Family{"Direction", "shut_off"},
    Family{"Lines, couplings, filter, cooler", "hose"},
    Family{"Instruments", "snubber"},
    Family{"Actuators", "single_acting_cylinder"},
    Family{"Loads", "mass"},
};

}  // namespace poise::reference
