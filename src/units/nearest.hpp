// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace poise::units {

/// The known word that a mistyped word most likely meant, whatever its capitals, or nothing when none is
/// near. Words are compared letter by letter (Damerau-Levenshtein, optimal string alignment): an added,
/// missing or transposed letter costs 1, a changed letter 1.5, for people drop and double letters more often
/// than they mistake them. Near is up to 40 % of the longer word's length, and always one slip. The first of
/// equals wins.
std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string> known);

}  // namespace poise::units
