// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/work_support.hpp"

namespace poise {

std::vector<Mismatch> WorkSupport::check(const Values& v) {
  std::vector<Mismatch> found;
  if (v["capacity_pressure"] <= v["lock_pressure"]) {
    found.push_back(
        {"capacity_pressure", "the capacity is stated at a pressure at which the plunger is not yet held"});
  }
  if (v["gap"] >= v["stroke"]) {
    found.push_back({"gap", "the plunger does not reach the workpiece within its stroke"});
  }
  return found;
}

}  // namespace poise
