// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "draw/marks.hpp"

namespace poise::draw {

/// Which of the places for one text is best: inside `frame`, clear of everything taken, and crossed by the
/// fewest pieces of the paths; the first of equals. None where every place is taken.
std::optional<std::size_t> best_place(std::span<const Text> places, const Box& frame,
                                      std::span<const Box> taken, std::span<const std::vector<Point>> paths);

}  // namespace poise::draw
