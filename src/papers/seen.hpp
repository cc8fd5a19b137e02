// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string_view>

#include "judge/curve.hpp"

namespace poise::papers {

/// The value of a signal that lies furthest from zero within a stretch of the run, with its sign; none where
/// the trace does not show it there.
std::optional<Point> greatest(const Trace& trace, std::string_view signal, Window window);

/// From the first row of a run to its last.
Window whole(const Trace& trace);

}  // namespace poise::papers
