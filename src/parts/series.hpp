// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>
#include <vector>

namespace poise {

/// The sizes that a value is made in.
enum class Series {
  general,     ///< preferred numbers R20 of ISO 3: steps of about 12 %
  bores,       ///< of cylinders
  rods,        ///< of pistons
  strokes,     ///< of cylinders
  hose_bores,  ///< inner diameters of hoses
  tube_bores,  ///< inner diameters of precision tubes
};

/// The sizes of a series from `low` to `high`, both included, rising, SI. `inches`: as people make them who
/// measure in inches; of `general` there is one series for all, of round numbers in `unit` (SI of one unit
/// that people read it in). Empty where `low` and `high` hold none, or `low` of a general series is not above
/// zero. Sources: bores and rods ISO 3320, strokes ISO 4393 (check values TB-02 to TB-04); the others stand
/// beside their tables.
std::vector<double> sizes(Series series, bool inches, double low, double high, double unit);

/// "bores after ISO 3320": what a series is called where people read it.
std::string_view name_of(Series series, bool inches);

}  // namespace poise
