// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json.hpp>

#include "judge/verdict.hpp"

namespace poise {

/// The verdict for other programs, as docs/schema/verdict.schema.json describes it. A measured value is an
/// object with the number in the job's unit, that unit, and the number in SI; what is not there is null,
/// never left out.
nlohmann::json to_json(const Verdict& verdict, const Job& job);

}  // namespace poise
