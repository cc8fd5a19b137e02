// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <vector>

#include "job/draft.hpp"

namespace poise::job {

/// Reads the table `set` of a step: TAG = value, "TAG.parameter" = value. `over`, where given, is how long
/// every change takes; else the part's own time does. In a step (`may_be_open`) a number may read "find".
std::vector<Command> read_commands(Draft& draft, const Node& set, const std::string& step,
                                   std::optional<double> over, bool may_be_open);

}  // namespace poise::job
