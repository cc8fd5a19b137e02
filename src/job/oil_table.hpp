// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>

#include "parts/table.hpp"

namespace poise {

/// What a job may say about its oil, as a part's datasheet lists it; read by the job and printed by the
/// reference.
std::span<const Parameter> oil_parameters();

}  // namespace poise
