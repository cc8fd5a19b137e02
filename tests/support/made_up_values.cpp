// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "support/made_up_values.hpp"

#include <algorithm>
#include <cmath>

#include "job/oil_table.hpp"
#include "support/plausible.hpp"

namespace poise::made_up {
namespace {

constexpr double largest = 1e12;
/// More pieces of a line cost more time than they find.
constexpr double most_pieces = 12.0;

double any_number(Chance& chance, const Parameter& p) {
  const double low = std::max(p.low, -largest);
  const double high = p.name == "segments" ? most_pieces : std::min(p.high, largest);
  const int which = chance.below(12);
  if (which == 0) return low;
  if (which == 1) return high;
  if (which == 2 && low < 0.0 && high > 0.0) return 0.0;
  if (low > 0.0) return chance.decades(low, high);
  if (high > 0.0 && low == 0.0 && chance.likely(0.8)) return high * chance.decades(1e-6, 1.0);
  return chance.between(low, high);
}

/// What people write as an example of the quantity, SI.
double usual_size(Quantity quantity) {
  if (quantity == Quantity::none) return 1.0;
  return units::read(units::example(quantity), quantity).value.value_or(1.0);
}

Points any_points(Chance& chance, const Parameter& p) {
  const int fewest = static_cast<int>(p.fewest_points), count = chance.from_to(fewest, fewest + 3);
  const double low = std::max(p.low, -1e3), high = std::min(p.high, largest);
  const double top = low > 0.0 ? chance.decades(low, high) : high * chance.decades(1e-4, 1.0);
  const double bottom = low < 0.0 ? -top : std::max(low, 0.01 * top);
  const double size = usual_size(*p.against) * chance.decades(1e-3, 1e1);
  std::vector<double> ys;
  Points points;
  for (int i = 0; i < count; ++i) {
    points.push_back({chance.between(bottom, top), 0.0});
    ys.push_back(size * chance.share());
  }
  if (p.rising) std::ranges::sort(points, {}, &CurvePoint::x);
  if (!chance.one_in(4)) std::ranges::sort(ys);
  if (chance.one_in(2)) std::ranges::reverse(ys);
  for (std::size_t i = 0; i < ys.size(); ++i) points[i].y = ys[i];
  return points;
}

bool stands_for_another(const Kind& kind, const Parameter& p) {
  return std::ranges::any_of(kind.parameters, [&](const Parameter& q) { return q.instead == p.name; });
}

/// `stated`: how likely it is that a value is stated that may be left out.
Sheet drawn_sheet(Chance& chance, const Kind& kind, double stated) {
  std::string_view other;  // a curve that stands for the values which it makes needless
  for (const Parameter& p : kind.parameters) {
    if (!p.instead.empty() && chance.one_in(6)) other = p.instead;
  }
  Sheet sheet;
  for (const Parameter& p : kind.parameters) {
    if (!p.instead.empty() && p.instead == other) continue;
    const bool needed = (!p.fallback && !p.optional) || p.name == other;
    if (!needed && (stands_for_another(kind, p) || !chance.likely(stated))) continue;
    sheet.emplace_back(p.name, any_value(chance, p));
  }
  return sheet;
}

/// Where nothing that is drawn goes together: what the tests of the laws take.
Sheet plausible_sheet(const Kind& kind) {
  const Values values = workshop::plausible(kind);
  Sheet sheet;
  for (const Parameter& p : kind.parameters) {
    if (!values.given(p.name)) continue;
    const auto points = values.points(p.name);
    if (!points.empty()) {
      sheet.emplace_back(p.name, Points(points.begin(), points.end()));
    } else if (!p.against) {
      sheet.emplace_back(p.name, values[p.name]);
    }
  }
  return sheet;
}

}  // namespace

Said any_value(Chance& chance, const Parameter& p) {
  if (!p.words.empty())
    return p.words[static_cast<std::size_t>(chance.below(static_cast<int>(p.words.size())))];
  if (p.against) return any_points(chance, p);
  const double number = any_number(chance, p);
  return p.name == "segments" ? std::round(number) : number;
}

double any_threshold(Chance& chance, Quantity quantity) {
  if (chance.one_in(10)) return 0.0;
  const double size = usual_size(quantity) * chance.decades(1e-3, 10.0);
  return quantity != Quantity::temperature && chance.one_in(4) ? -size : size;
}

Sheet any_sheet(Chance& chance, const Kind& kind) {
  constexpr int attempts = 40;
  if (chance.one_in(40)) return drawn_sheet(chance, kind, 0.6);
  for (int i = 0; i < attempts; ++i) {
    Sheet sheet = drawn_sheet(chance, kind, 0.6 * (1.0 - static_cast<double>(i) / attempts));
    if (kind.check(values_of(kind, sheet)).empty()) return sheet;
  }
  return plausible_sheet(kind);
}

void any_oil(Chance& chance, MadeUpJob& job) {
  const auto parameters = oil_parameters();
  const auto state = [&](std::string_view name) {
    job.oil(name, any_value(chance, parameters[static_cast<std::size_t>(*find_parameter(parameters, name))]));
  };
  const bool custom = chance.one_in(8);
  if (custom) {
    job.oil("fluid", "custom");
  } else if (chance.one_in(2)) {
    job.oil("fluid", chance.of({"mineral oil", "water glycol", "biodegradable ester"}));
  }
  if (chance.one_in(3)) {
    const double at_40 = chance.decades(2.0, 2000.0) * si::mm2_per_s;
    job.oil("viscosity_40", at_40);
    job.oil("viscosity_100", std::clamp(at_40 * chance.decades(0.02, 0.9), 0.5e-6, 5e-4));
  } else {
    state("grade");
    if (custom || chance.one_in(3)) state("viscosity_index");
  }
  for (const char* key : {"density", "expansivity", "modulus", "modulus_slope", "heat_capacity"}) {
    if (custom || chance.one_in(6)) state(key);
  }
  for (const char* key : {"temperature", "air", "air_exponent"}) {
    if (chance.one_in(2)) state(key);
  }
  if (!chance.one_in(4)) return;
  job.oil("pressure_viscosity", chance.of({"Barus", "Roelands"}));
  if (custom || chance.one_in(2)) state("pressure_viscosity_coefficient");
}

}  // namespace poise::made_up
