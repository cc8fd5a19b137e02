// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "judge/verdict.hpp"

namespace poise::papers {

/// Whether papers may be built on: all held, the run came to its end, the books close.
bool is_proven(const Verdict& verdict);

/// The answer in one word: "held", "broken", "not proven".
std::string answer_of(const Verdict& verdict);

/// "all 11 requirements hold", "2 of 11 requirements are broken", "the run ended early".
std::string answer(const Verdict& verdict);

/// What stands on every page: "proven: all 11 requirements hold", "NOT PROVEN: 2 of 11 requirements are
/// broken".
std::string mark_of(const Verdict& verdict);
/// The same where it is not proven; else empty.
std::string warning_of(const Verdict& verdict);

}  // namespace poise::papers
