// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "judge/verdict.hpp"

namespace poise::papers {

/// The job's answer in one word of the lists: "held", "broken", "not proven".
std::string answer_of(const Verdict& verdict);

/// What every page of a job says whose answer is not "held"; empty of one that holds.
std::string warning_of(const Verdict& verdict);

}  // namespace poise::papers
