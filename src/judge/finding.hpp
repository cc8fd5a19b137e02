// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "judge/verdict.hpp"

namespace poise {

/// A difference of two values of about `size`, without what is only round-off: 0.1 + 0.2 is no more than 0.3.
double margin_of(double difference, double size);

/// A finding with a number. Held if the margin is not negative.
Finding measured(std::string found, double margin, Quantity quantity, std::optional<double> share);

/// A finding that is broken and has no number to say by how much.
Finding broken(std::string found);

}  // namespace poise
