// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>

#include "parts/buckling.hpp"
#include "parts/table.hpp"

namespace poise {

/// A cylinder's rod as a strut that grows as it comes out.
struct Rod {
  Strut strut;         ///< with the rod fully in
  bool known = false;  ///< whether a diameter was given

  static constexpr Parameter ends_line() {
    return {.name = "ends",
            .fallback = 0.0,
            .low = 0.0,
            .high = static_cast<double>(Ends::words.size() - 1),
            .meaning =
                "how base and rod end are held against bowing sideways: base fixed and rod end free (a jack "
                "under a load that nothing guides), both pinned, and so on",
            .source = "Euler's cases: effective length 2, 1, 1, 0.699, 0.5 times the length",
            .words = Ends::words};
  }
  static constexpr Parameter closed_length_line() {
    return {.name = "closed_length",
            .quantity = Quantity::length,
            .fallback = 0.0,
            .low = 0.0,
            .high = 20.0,
            .meaning =
                "length that may bow with the rod fully in, from mount to mount or to the end of an "
                "extension; 0 where only the rod outside its guide can bow"};
  }
  static constexpr Parameter yield_line() {
    return {.name = "rod_yield",
            .quantity = Quantity::modulus,
            .fallback = 350e6,
            .low = 50e6,
            .high = 2e9,
            .meaning = "yield strength of the rod's steel",
            .source = "the rod's steel; default common practice for carbon steel"};
  }
  static constexpr Output load_output() {
    return {"buckling_load", Quantity::force,
            "push at which the rod would bow out this far extended, without safety factor; 0 where no rod "
            "diameter is given"};
  }
  static constexpr Output share_output() {
    return {
        "buckling_share", Quantity::share,
        "share of it that the rod is pushed with, at most 20 to 33 %; 100 % where it is pushed and no rod "
        "diameter is given, since nothing is known"};
  }

  static Rod from(const Values& v) {
    if (!v.given("rod")) return {};
    const double k = Ends::factors[static_cast<std::size_t>(v.word("ends"))];
    return {round_strut(v["rod"], v["hole"], v["closed_length"], k, steel_modulus, v["rod_yield"]), true};
  }
  /// Push it fails at when out by this much, N.
  double load_at(double position) const {
    if (!known) return 0.0;
    Strut now = strut;
    now.length += std::max(position, 0.0);
    return buckling_load(now);
  }
  double share_at(double position, double push) const {
    if (!(push > 0.0)) return 0.0;
    return known ? push / load_at(position) : 1.0;
  }
};

}  // namespace poise
