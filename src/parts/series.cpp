// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/series.hpp"

#include <array>
#include <cmath>
#include <span>

namespace poise {
namespace {

constexpr double millimetre = 1e-3, inch = 25.4e-3;
constexpr double rounding = 1e-9;  // a bound that is one of the sizes holds it

struct Table {
  std::string_view name;
  double unit;  ///< m
  std::span<const double> sizes;
};

// ISO 3320:2013, the sizes of the second choice left out (check values TB-02).
constexpr std::array bores{8.0,  10.0,  12.0,  16.0,  20.0,  25.0,  32.0,  40.0,  50.0, 63.0,
                           80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 320.0, 400.0, 500.0};
// ISO 3320:2013 (check values TB-03).
constexpr std::array rods{4.0,   5.0,   6.0,   8.0,   10.0,  12.0,  14.0,  16.0,  18.0,  20.0,  22.0, 25.0,
                          28.0,  32.0,  36.0,  40.0,  45.0,  50.0,  56.0,  63.0,  70.0,  80.0,  90.0, 100.0,
                          110.0, 125.0, 140.0, 160.0, 180.0, 200.0, 220.0, 250.0, 280.0, 320.0, 360.0};
// ISO 4393, first series (check values TB-04).
constexpr std::array strokes{25.0, 50.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 320.0, 400.0, 500.0};
// Nominal hose sizes of ISO 4397, from memory.
constexpr std::array hose_bores{3.2, 5.0, 6.3, 8.0, 10.0, 12.5, 16.0, 19.0, 25.0, 31.5, 38.0, 51.0};
// What is left inside usual precision steel tubes (outer diameter and wall after EN 10305-4), from memory.
constexpr std::array tube_bores{3.0,  4.0,  5.0,  6.0,  7.0,  8.0,  9.0,  10.0, 12.0, 13.0,
                                15.0, 16.0, 19.0, 20.0, 24.0, 25.0, 30.0, 32.0, 36.0};

// Usual inch sizes of tie-rod cylinders (NFPA), hoses by their dash number, and tubes; from memory.
constexpr std::array inch_bores{1.0, 1.125, 1.5,  2.0,  2.5,  3.25, 4.0,  5.0, 6.0,
                                7.0, 8.0,   10.0, 12.0, 14.0, 16.0, 18.0, 20.0};
constexpr std::array inch_rods{0.5, 0.625, 1.0, 1.375, 1.75, 2.0, 2.5, 3.0, 3.5,
                               4.0, 4.5,   5.0, 5.5,   7.0,  8.0, 9.0, 10.0};
constexpr std::array inch_strokes{1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0};
constexpr std::array inch_hoses{0.125, 0.1875, 0.25, 0.3125, 0.375, 0.5, 0.625, 0.75, 1.0, 1.25, 1.5, 2.0};
constexpr std::array inch_tubes{0.12,  0.18, 0.245, 0.305, 0.37, 0.43, 0.495,
                                0.555, 0.62, 0.745, 0.87,  1.12, 1.37};

// ISO 3: preferred numbers of the series R20.
constexpr std::array r20{1.0,  1.12, 1.25, 1.4, 1.6, 1.8, 2.0, 2.24, 2.5, 2.8,
                         3.15, 3.55, 4.0,  4.5, 5.0, 5.6, 6.3, 7.1,  8.0, 9.0};

Table table_of(Series series, bool inches) {
  switch (series) {
    case Series::bores:
      return inches ? Table{"usual bores in inches", inch, inch_bores}
                    : Table{"bores after ISO 3320", millimetre, bores};
    case Series::rods:
      return inches ? Table{"usual rods in inches", inch, inch_rods}
                    : Table{"rods after ISO 3320", millimetre, rods};
    case Series::strokes:
      return inches ? Table{"usual strokes in inches", inch, inch_strokes}
                    : Table{"strokes after ISO 4393", millimetre, strokes};
    case Series::hose_bores:
      return inches ? Table{"hose sizes by dash number", inch, inch_hoses}
                    : Table{"hose sizes after ISO 4397", millimetre, hose_bores};
    case Series::tube_bores:
      return inches ? Table{"bores of usual tubes in inches", inch, inch_tubes}
                    : Table{"bores of usual precision tubes", millimetre, tube_bores};
    case Series::general:
      break;
  }
  return {"preferred numbers R20 of ISO 3", 1.0, r20};
}

bool within(double size, double low, double high) {
  return size >= low * (1.0 - rounding) && size <= high * (1.0 + rounding);
}

}  // namespace

std::string_view name_of(Series series, bool inches) { return table_of(series, inches).name; }

std::vector<double> sizes(Series series, bool inches, double low, double high, double unit) {
  std::vector<double> found;
  const Table table = table_of(series, inches);
  if (series != Series::general) {
    for (const double size : table.sizes) {
      if (within(size * table.unit, low, high)) found.push_back(size * table.unit);
    }
    return found;
  }
  if (!(low > 0.0) || !std::isfinite(high)) return found;
  const int first = static_cast<int>(std::floor(std::log10(low / unit) - rounding));
  const int last = static_cast<int>(std::floor(std::log10(high / unit) + rounding));
  for (int decade = first; decade <= last; ++decade) {
    for (const double size : table.sizes) {
      const double value = size * std::pow(10.0, decade) * unit;
      if (within(value, low, high)) found.push_back(value);
    }
  }
  return found;
}

}  // namespace poise
