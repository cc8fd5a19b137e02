// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/swing_clamp.hpp"

namespace poise {

std::vector<Mismatch> SwingClamp::check(const Values& v) {
  std::vector<Mismatch> found;
  if (v.word("return") == 1 && !v.given("unclamp_area")) {
    found.push_back({"unclamp_area", "the arm comes back by oil, so the area that lifts it is needed"});
  }
  if (v.given("gap") && v["gap"] >= v["clamp_stroke"]) {
    found.push_back({"gap", "the arm reaches the end of its stroke before it meets the workpiece"});
  }
  return found;
}

}  // namespace poise
