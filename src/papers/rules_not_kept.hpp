// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "papers/subject.hpp"

namespace poise::papers {

enum class Waived { no, yes };

/// The rules that the job does not keep, as HTML: those that nobody waived with what to do, or the waived
/// ones with the reason.
std::string rules_not_kept(const Subject& subject, Waived which);

}  // namespace poise::papers
