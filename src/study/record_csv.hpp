// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <ostream>
#include <string>

#include "study/record.hpp"
#include "units/units.hpp"

namespace poise::study {

/// The runs of a study as CSV, a line for each: number, answer, then for each promise its answer and its
/// margin in the world's unit, last the detail where any run has one. Margins have all their digits: read
/// back they are the same double. Empty or the complaint.
std::string write_csv(std::ostream& out, const Record& record, long study, const units::World& world);

}  // namespace poise::study
