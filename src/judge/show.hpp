// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "judge/verdict.hpp"

namespace poise {

/// The verdict for a person at a terminal, at most 100 columns wide, in the job's units: the answer, what
/// broke and by how much, when and at which part; then the steps, cautions and books. Words carry the
/// meaning; colour, in terminal codes, only underlines it.
std::string show(const Verdict& verdict, const Job& job, bool colour);

}  // namespace poise
