// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/common.hpp"

namespace poise::common {
namespace {

Restriction as_measured(const Values& v) {
  const auto points = v.points("drop_curve");
  if (!points.empty()) return Restriction::fitted(points);
  return Restriction::through(v["rated_flow"], v["pressure_drop"]);
}

}  // namespace

Restriction drop_of(const Values& v, const Oil& oil) {
  Restriction open = as_measured(v);
  if (v.given("measured_viscosity")) open.b *= oil.viscosity() / v["measured_viscosity"];
  return open;
}

std::vector<CurveFit> drop_fit(const Values& v, const Oil&) {
  const auto points = v.points("drop_curve");
  if (points.empty()) return {};
  const Restriction open = as_measured(v);
  CurveFit fit{"drop_curve", {}};
  for (const CurvePoint& p : points) fit.rows.push_back({p.x, p.y, open.drop(p.x)});
  return {fit};
}

std::vector<Mismatch> check_opens_below_drop(const Values& values) {
  const CheckOpening opening(values["cracking_pressure"]);
  const double open_at = opening.cracking + opening.band;
  const auto points = values.points("drop_curve");
  if (points.empty() ? values["pressure_drop"] >= open_at : points.back().y >= open_at) return {};
  return {{"pressure_drop",
           "the check is fully open only at twice its cracking pressure (or a little above, where that is "
           "small); the "
           "pressure drop at rated flow cannot be below that"}};
}

Leak leak_of(const Values& v) {
  const double by_class =
      v.given("leakage_class") ? leakage_flows[static_cast<std::size_t>(v.word("leakage_class"))] : 0.0;
  return Leak::at(v["leakage"] + by_class, leakage_pressure(v));
}

std::vector<Mismatch> together(std::initializer_list<std::vector<Mismatch>> lists) {
  std::vector<Mismatch> all;
  for (const auto& list : lists) all.insert(all.end(), list.begin(), list.end());
  return all;
}

std::vector<Mismatch> leakage_stated_once(const Values& v) {
  if (!v.given("leakage_class") || v["leakage"] == 0.0) return {};
  return {{"leakage_class", "leakage is given as well; state one of them"}};
}

}  // namespace poise::common
