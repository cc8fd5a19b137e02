// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What holds for the symbol of every kind in the list.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "parts/kind.hpp"
#include "reference/picture.hpp"
#include "support/strokes.hpp"

namespace poise {
namespace {

using workshop::same;
using workshop::sides_of;
using workshop::touches;

bool on_grid(double value) { return std::abs(value - std::round(value)) < same; }

TEST(symbol, every_kind_has_one_with_an_anchor_for_each_port) {
  for (const Kind& kind : all_kinds()) {
    EXPECT_FALSE(kind.symbol.empty()) << kind.about.kind;
    EXPECT_EQ(kind.anchors.size(), kind.ports.size()) << kind.about.kind;
  }
}

TEST(symbol, anchors_lie_on_the_module_grid_and_touch_the_drawing) {
  for (const Kind& kind : all_kinds()) {
    for (const Anchor& a : kind.anchors) {
      EXPECT_TRUE(on_grid(a.x) && on_grid(a.y)) << kind.about.kind << ' ' << a.x << ' ' << a.y;
      EXPECT_TRUE(std::ranges::any_of(kind.symbol, [&](const Stroke& s) { return touches(s, a); }))
          << kind.about.kind << ' ' << a.x << ' ' << a.y;
    }
  }
}

// A line that leaves straight away from that side touches nothing of the symbol.
TEST(symbol, every_anchor_lies_on_just_one_side_of_what_the_symbol_covers) {
  for (const Kind& kind : all_kinds()) {
    const draw::Box all = reference::extent_of(kind.symbol, kind.anchors);
    for (const Anchor& a : kind.anchors) {
      EXPECT_EQ(sides_of(a, all).size(), 1U) << kind.about.kind << ' ' << a.x << ' ' << a.y;
    }
  }
}

TEST(symbol, two_ports_on_the_same_side_are_two_modules_apart) {
  for (const Kind& kind : all_kinds()) {
    const draw::Box all = reference::extent_of(kind.symbol, kind.anchors);
    for (std::size_t i = 0; i < kind.anchors.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        const Anchor &a = kind.anchors[i], &b = kind.anchors[k];
        if (sides_of(a, all) != sides_of(b, all)) continue;
        EXPECT_GE(std::hypot(a.x - b.x, a.y - b.y), 2.0 - same) << kind.about.kind << ' ' << i << ' ' << k;
      }
    }
  }
}

TEST(symbol, every_one_fits_into_24_by_24_modules) {
  for (const Kind& kind : all_kinds()) {
    const draw::Box all = reference::extent_of(kind.symbol, kind.anchors);
    EXPECT_LE(all.width(), 24.0) << kind.about.kind;
    EXPECT_LE(all.height(), 24.0) << kind.about.kind;
  }
}

TEST(symbol, no_two_kinds_share_one) {
  for (const Kind& kind : all_kinds()) {
    for (const Kind& other : all_kinds()) {
      if (&kind == &other) break;
      EXPECT_FALSE(std::ranges::equal(kind.symbol, other.symbol, workshop::alike))
          << kind.about.kind << " and " << other.about.kind;
    }
  }
}

}  // namespace
}  // namespace poise
