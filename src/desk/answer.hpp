// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "desk/json.hpp"
#include "desk/proof.hpp"

namespace poise::desk {

/// A proof for the page: its verdict in one line and in full, steps, events, the moments that can be drawn,
/// and the curves, no finer than a screen shows them.
Json answer(const Proof& proof, long revision);

/// The verdict in one line: the answer, and what decides it.
std::string in_one_line(const Verdict& verdict, const Job& job);

}  // namespace poise::desk
