// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>

#include "desk/json.hpp"
#include "desk/proof.hpp"

namespace poise::desk {

/// One part of a run: its curve with the operating points at the ends of steps (SVG, where its kind has one),
/// and what it does at a moment. None where that run had no such part.
std::optional<Json> part_at_work(const Proof& proof, const std::string& tag, std::size_t frame);

}  // namespace poise::desk
