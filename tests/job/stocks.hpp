// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <gtest/gtest.h>

#include "job/stock.hpp"

namespace poise::stocks {

/// Whether the same values are given, and the same curves.
inline void expect_same_values(const StockItem& a, const StockItem& b) {
  for (const Parameter& parameter : a.kind->parameters) {
    EXPECT_EQ(a.given.given(parameter.name), b.given.given(parameter.name)) << parameter.name;
    if (a.given.given(parameter.name)) {
      EXPECT_EQ(a.given[parameter.name], b.given[parameter.name]) << parameter.name;
    }
    const auto here = a.given.points(parameter.name), there = b.given.points(parameter.name);
    ASSERT_EQ(here.size(), there.size());
    for (std::size_t k = 0; k < here.size(); ++k) {
      EXPECT_EQ(here[k].x, there[k].x);
      EXPECT_EQ(here[k].y, there[k].y);
    }
  }
}

/// Whether the same may be set and be off by as much.
inline void expect_same_room(const StockItem& a, const StockItem& b) {
  ASSERT_EQ(a.adjustable.size(), b.adjustable.size());
  for (std::size_t k = 0; k < a.adjustable.size(); ++k) {
    EXPECT_EQ(a.adjustable[k].parameter, b.adjustable[k].parameter);
    EXPECT_EQ(a.adjustable[k].from, b.adjustable[k].from);
    EXPECT_EQ(a.adjustable[k].to, b.adjustable[k].to);
  }
  ASSERT_EQ(a.tolerances.size(), b.tolerances.size());
  for (std::size_t k = 0; k < a.tolerances.size(); ++k) {
    EXPECT_EQ(a.tolerances[k].first, b.tolerances[k].first);
    EXPECT_EQ(a.tolerances[k].second.of, b.tolerances[k].second.of);
    EXPECT_EQ(a.tolerances[k].second.below, b.tolerances[k].second.below);
    EXPECT_EQ(a.tolerances[k].second.above, b.tolerances[k].second.above);
  }
}

/// Whether two lists say the same of the same items in the same order.
inline void expect_same(const Stock& one, const Stock& other) {
  ASSERT_EQ(one.items.size(), other.items.size());
  for (std::size_t i = 0; i < one.items.size(); ++i) {
    const StockItem &a = one.items[i], &b = other.items[i];
    EXPECT_EQ(a.model, b.model);
    EXPECT_EQ(a.kind, b.kind);
    EXPECT_EQ(a.cost, b.cost);
    EXPECT_EQ(a.note, b.note);
    expect_same_values(a, b);
    expect_same_room(a, b);
  }
}

}  // namespace poise::stocks
