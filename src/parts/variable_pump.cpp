// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/variable_pump.hpp"

namespace poise {

std::vector<Mismatch> VariablePump::check(const Values& v) {
  auto found = pumps::check_flow(v, false);
  if (v["band"] >= v["setting"]) {
    found.push_back({"band", "the band reaches below zero pressure; it lies below the setting"});
  }
  if (v["setting"] > v["rated_pressure"]) {
    found.push_back({"setting", "the compensator is set above the pump's rated pressure; set it no higher"});
  }
  return found;
}

}  // namespace poise
