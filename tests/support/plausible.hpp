// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "parts/kind.hpp"

namespace poise::workshop {

/// Plausible values where a part has no default: the geometric middle of the range, so that every law is
/// exercised.
inline Values plausible(const Kind& kind) {
  std::vector<double> numbers;
  for (const Parameter& p : kind.parameters) {
    double v =
        p.fallback.value_or(p.low > 0.0 ? std::sqrt(p.low * std::min(p.high, 1e12)) : 0.5 * (p.low + p.high));
    if (p.optional) v = std::nan("");
    numbers.push_back(v);
  }
  const auto set = [&](std::string_view name, double value) {
    if (const auto i = find_parameter(kind.parameters, name)) numbers[*i] = value;
  };
  set("rated_flow", 12 * si::litre_per_minute);
  set("setting", 150 * si::bar);
  if (kind.about.kind == "pump" || kind.about.kind == "variable_pump") set("flow", 4 * si::litre_per_minute);
  set("low_pressure_flow", 6 * si::litre_per_minute);
  set("high_pressure_flow", 1 * si::litre_per_minute);
  if (kind.about.kind != "flow_divider") set("ratio", 4.0);  // there it is a share of the flow
  if (kind.about.kind == "air_driven_pump") set("ratio", 60.0);
  if (kind.about.kind == "electric_motor") set("rated_power", 2200.0);
  if (kind.about.kind == "accumulator") set("gas_volume", 1 * si::litre);
  set("precharge", 60 * si::bar);
  set("plunger", 20 * si::mm);
  set("rated_pressure", 250 * si::bar);
  set("bore", kind.about.kind.find("cylinder") != std::string_view::npos ? 50 * si::mm : 4 * si::mm);
  set("rod", 28 * si::mm);
  set("stroke", 12 * si::mm);
  set("turns", 3.0);
  set("length", 2.0);
  set("capacity", 10 * si::kN);
  set("capacity_pressure", 350 * si::bar);
  set("leakage", 10 * si::cm3_per_minute);
  set("force", 2 * si::kN);
  set("unclamp_area", 7 * si::cm2);
  set("centre", 1.0);
  set("trip_flow", 15 * si::litre_per_minute);
  set("reset", 130 * si::bar);
  set("reverse_check", 1.0);
  Values values(kind.parameters, numbers);
  if (const auto i = find_parameter(kind.parameters, "sections")) {
    const double small = 2 * si::cm3, leak = 20 * si::cm3_per_minute;
    values.set_points(*i, {{small, leak}, {2 * small, leak}, {small, leak}, {small, leak}});
  }
  if (kind.about.kind == "rigid_load") {
    values.set_points(*find_parameter(kind.parameters, "points"),
                      {{-1.5, -0.8}, {1.5, -0.8}, {1.4, 0.9}, {-1.6, 0.7}});
    values.set(*find_parameter(kind.parameters, "centre_height"), 0.7);
  }
  return values;
}

}  // namespace poise::workshop
