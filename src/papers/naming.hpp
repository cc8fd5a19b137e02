// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "job/job.hpp"

namespace poise::papers {

/// The code of each part as the drawing shows it; empty texts where the job wants none there.
std::vector<std::string> codes_shown(const Job& job);

/// What a part is called that is to be ordered or set: "Sequence valve", "Double acting cylinder".
std::string called(const Kind& kind);

/// The name of a parameter for people: "rated flow" for "rated_flow".
std::string in_words(std::string_view name);

}  // namespace poise::papers
