// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// A check built in beside a flow valve, so that the way back is nearly free. It may be missing.
struct ReverseCheck {
  static constexpr std::array<std::string_view, 2> no_yes{"no", "yes"};
  static constexpr Parameter fitted_line() {
    return {.name = "reverse_check",
            .fallback = 0.0,
            .low = 0.0,
            .high = 1.0,
            .meaning = "whether a check lets oil pass freely from B to A",
            .source = "the valve's datasheet",
            .words = no_yes};
  }

  bool fitted;
  common::CheckOpening opening;
  Restriction open;

  /// Volume flow from B to A, m3/s, for p_B − p_A.
  template <class T>
  T flow(const T& back) const {
    return fitted ? open.flow(back, opening.share(back)) : T(0.0);
  }
};

}  // namespace poise
