// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "circuit/plan.hpp"

namespace poise {

/// Something that can be watched while a circuit runs.
/// Names: "C1.A.pressure", "C1.A.flow" (volume flow into the part), "C1.position", "C1.speed"
/// ("S1.plunger.speed" where a part has several motions), "V1.opening" (a state), "S1.made" (a mode: 1 or 0),
/// "K1.clamp_force" (an output). A part with one oil port also answers to "G1.pressure".
struct Signal {
  enum class What { pressure, flow, position, speed, state, mode, output };
  What what = What::pressure;
  int part = 0;
  int index = 0;  ///< of the oil port, motion port, state, mode or output
  Quantity quantity = Quantity::none;
  std::string name;
};

/// All signals of one part of a plan, by their shortest names.
std::vector<Signal> signals_of(const Plan& plan, int part);

/// The signal by name, or none.
std::optional<Signal> find_signal(const Plan& plan, std::string_view name);

}  // namespace poise
