// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"

namespace poise::search {

/// A value of a machine that may be off its stated one.
struct Loose {
  enum class Of { part, oil_viscosity, oil_air, oil_modulus, oil_temperature };
  enum class From { kind, list, job, usual };  ///< who says how far
  Of of = Of::part;
  int part = -1, parameter = -1;  ///< of the plan, of its kind's table; of a part only
  double stated = 0.0;            ///< SI; of a curve the greatest of its second values
  Tolerance tolerance;
  From from = From::kind;

  /// The value where it is off by `u` of what is allowed: −1 the lower end, 0 as stated, 1 the upper end.
  double at(double u) const { return tolerance.at(stated, u); }
};

/// Every value of the job that may be off: the oil's temperature, viscosity, air and modulus, then those of
/// the parts in the plan's order. The job's word goes before the list's, and that before the kind's. Usual
/// where nobody says: temperature ± 10 K; viscosity ± 10 % (the limits of a grade, ISO 3448); air a fifth to
/// twice of it, modulus ± 5 % (common practice).
std::vector<Loose> loose_values(const Job& job);

/// "V2.setting", "oil temperature"
std::string name_of(const Loose& loose, const Job& job);
Quantity quantity_of(const Loose& loose, const Job& job);

/// The value that a machine has which is off by `u`: it stays within the range of its table.
double value_off(const Loose& loose, const Job& job, double u);

/// Puts a value off by `u` of what is allowed, also where steps and controls set it (but for zero: shut is
/// shut). It stays within the range of its table, and goes only as far as its kind takes it beside the part's
/// other values. A curve is off in the second values of its points.
void put_off(Job& job, const Loose& loose, double u);

}  // namespace poise::search
