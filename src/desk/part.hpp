// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>

#include "desk/json.hpp"
#include "desk/proof.hpp"

namespace poise::desk {

/// One part in full: what it is, its law, what to keep to, what goes wrong; with a proof also its curve with
/// the operating points at the ends of steps (SVG, where its kind has one) and what it does at a moment. None
/// where the job has no such part.
std::optional<Json> part_in_full(const Job& job, const std::string& tag, const Proof* proof,
                                 std::size_t frame);

}  // namespace poise::desk
