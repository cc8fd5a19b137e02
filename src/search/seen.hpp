// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "search/bench.hpp"
#include "search/shelf.hpp"

namespace poise::search {

/// What the part of each open value sees in a run with these values; nothing where the value is no model.
std::vector<Seen> seen_by_models(const Job& job, const std::vector<OpenValue>& values, const Point& point);

/// "P1.model: rated pressure 70.0 bar, sees 198 bar": the models of a trial that are too weak for what their
/// parts see.
std::vector<std::string> models_too_weak(const Bench& bench, const Job& job, const Trial& found);

/// Why each item that a model is not was passed over: by closed forms, since it is too weak for what the part
/// sees, since something breaks with it, or since it fits and costs more or leaves less room.
std::vector<std::vector<Rejected>> passed_over(Bench& bench, const Job& job, const Trial& found);

}  // namespace poise::search
