// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What holds for the symbol of every kind in the list.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "parts/kind.hpp"
#include "reference/picture.hpp"

namespace poise {
namespace {

constexpr double same = 1e-9;

bool at_end_of(const Stroke& s, const Anchor& a) {
  if (s.form != Stroke::Form::line) return false;
  return std::hypot(s.x - a.x, s.y - a.y) < same || std::hypot(s.x2 - a.x, s.y2 - a.y) < same;
}

bool on_edge_of(const Stroke& s, const Anchor& a) {
  if (s.form != Stroke::Form::box) return false;
  const bool inside = a.x > s.x - same && a.x < s.x2 + same && a.y > s.y - same && a.y < s.y2 + same;
  const double from_edge =
      std::min({std::abs(a.x - s.x), std::abs(a.x - s.x2), std::abs(a.y - s.y), std::abs(a.y - s.y2)});
  return inside && from_edge < same;
}

bool on_quarter_grid(double value) { return std::abs(4 * value - std::round(4 * value)) < same; }

TEST(symbol, every_kind_has_one_with_an_anchor_for_each_port) {
  for (const Kind& kind : all_kinds()) {
    EXPECT_FALSE(kind.symbol.empty()) << kind.about.kind;
    EXPECT_EQ(kind.anchors.size(), kind.ports.size()) << kind.about.kind;
  }
}

TEST(symbol, anchors_lie_on_the_quarter_module_grid_and_touch_the_drawing) {
  for (const Kind& kind : all_kinds()) {
    for (const Anchor& a : kind.anchors) {
      EXPECT_TRUE(on_quarter_grid(a.x) && on_quarter_grid(a.y))
          << kind.about.kind << ' ' << a.x << ' ' << a.y;
      EXPECT_TRUE(std::ranges::any_of(kind.symbol,
                                      [&](const Stroke& s) { return at_end_of(s, a) || on_edge_of(s, a); }))
          << kind.about.kind << ' ' << a.x << ' ' << a.y;
    }
  }
}

TEST(symbol, no_two_ports_meet_at_one_place) {
  for (const Kind& kind : all_kinds()) {
    for (std::size_t i = 0; i < kind.anchors.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        const Anchor &a = kind.anchors[i], &b = kind.anchors[k];
        EXPECT_GE(std::hypot(a.x - b.x, a.y - b.y), 1.0) << kind.about.kind << ' ' << i << ' ' << k;
      }
    }
  }
}

TEST(symbol, every_one_fits_into_24_by_24_modules) {
  for (const Kind& kind : all_kinds()) {
    const reference::Extent all = reference::extent_of(kind.symbol, kind.anchors);
    EXPECT_LE(all.width(), 24.0) << kind.about.kind;
    EXPECT_LE(all.height(), 24.0) << kind.about.kind;
  }
}

TEST(symbol, no_two_kinds_share_one) {
  const auto alike = [](const Stroke& a, const Stroke& b) {
    return a.form == b.form && a.style == b.style && a.x == b.x && a.y == b.y && a.x2 == b.x2 && a.y2 == b.y2;
  };
  for (const Kind& kind : all_kinds()) {
    for (const Kind& other : all_kinds()) {
      if (&kind == &other) break;
      EXPECT_FALSE(std::ranges::equal(kind.symbol, other.symbol, alike))
          << kind.about.kind << " and " << other.about.kind;
    }
  }
}

}  // namespace
}  // namespace poise
