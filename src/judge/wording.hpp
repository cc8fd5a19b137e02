// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace poise::wording {

/// A value that the job states, as it was stated (to six figures): "1015 psi", where a result reads "1020
/// psi".
std::string stated(double value, Quantity quantity, const units::World& world);

/// As `stated`, for a difference of two values.
std::string stated_difference(double value, Quantity quantity, const units::World& world);

/// A result in three figures; in more, up to seven, where three would make it look equal to a limit that it
/// is not.
std::string beside(double value, double limit, Quantity quantity, const units::World& world);

/// "R1.A.pressure above 100 bar"
std::string of(const Condition& condition, const units::World& world);

/// The promise in plain words and the job's units: "C1.A.pressure never above 250 bar, during "hold"".
std::string of(const Requirement& requirement, const units::World& world);

/// "± 3 %", "−5 % … +3 %", "± 2.00 bar", "± 2 points" of a share; of what an efficiency lacks to 1, "its loss
/// up to 100 % more"; of a share that grows, "up to 66.7 % of the way to 100 %".
std::string of(const Tolerance& tolerance, Quantity quantity, const units::World& world);

/// "one, two and three" with the given last joint: " and ", " or ".
std::string joined(std::span<const std::string> words, std::string_view last);

}  // namespace poise::wording
