// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "judge/verdict.hpp"

namespace poise {

/// The verdict in one word. Without closed books nothing is proven, not even a failure; a run that ended
/// early proves only what it broke before it ended.
enum class Outcome { held, broken, not_proven };
Outcome outcome(const Verdict& verdict);

/// The same for one finding: `unseen` is one that the run ended too early for.
enum class Mark { held, broken, unseen };
Mark mark(const Finding& finding, const Verdict& verdict);
/// How many findings are broken.
std::size_t count_broken(const Verdict& verdict);

std::string_view word(Outcome outcome);  ///< "held", "broken", "not proven"
std::string_view word(Mark mark);        ///< "held", "broken", "not seen"
/// What a word stands for; none where it is no such word.
std::optional<Outcome> outcome_of(std::string_view word);
std::optional<Mark> mark_of(std::string_view word);

/// What every verdict says to whoever acts on it.
inline constexpr std::string_view notice =
    "Calculated from the data given. Local codes and a licensed person decide. Keep clear of held "
    "loads.";

}  // namespace poise
