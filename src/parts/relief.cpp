// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/relief.hpp"

namespace poise {
namespace {

double flow_at(double pressure, double cracking, double override_share, double rated_flow) {
  const double band = override_share * cracking;
  const double opening = share_of_band(pressure - cracking, band);
  return Restriction::through(rated_flow, cracking + band).flow(pressure, opening);
}

}  // namespace

double Relief::cracking_of(const Values& v) {
  const double reading = v["setting"];
  if (!v.given("setting_flow")) return reading;
  // The more the valve must pass at the reading, the further below it the valve cracks.
  double low = reading / (1.0 + 2.0 * v["override"]), high = reading;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (flow_at(reading, middle, v["override"], v["rated_flow"]) > v["setting_flow"] ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

std::vector<Mismatch> Relief::check(const Values& v) {
  if (v.given("setting_flow") && v["setting_flow"] > v["rated_flow"]) {
    return {{"setting_flow",
             "the valve was set at more than its rated flow; it cannot be relied on to limit the pressure "
             "there"}};
  }
  return {};
}

}  // namespace poise
