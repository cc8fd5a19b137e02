// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/seen.hpp"

#include <cmath>

namespace poise::papers {

std::optional<Point> greatest(const Trace& trace, std::string_view signal, Window window) {
  const int column = trace.column(signal);
  if (column < 0) return std::nullopt;
  std::optional<Point> found;
  for (std::size_t row = 0; row < trace.time.size(); ++row) {
    const Point here{trace.time[row], trace.values[column][row]};
    if (here.time < window.begin || here.time > window.end || !std::isfinite(here.value)) continue;
    if (!found || std::abs(here.value) > std::abs(found->value)) found = here;
  }
  return found;
}

Window whole(const Trace& trace) {
  if (trace.time.empty()) return {};
  return {trace.time.front(), trace.time.back()};
}

}  // namespace poise::papers
