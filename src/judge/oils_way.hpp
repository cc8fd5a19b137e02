// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "circuit/circuit.hpp"
#include "trace/trace.hpp"

namespace poise {

/// The parts of a circuit in the order in which the oil meets them at a moment: from the reservoir along the
/// flow, the greater branch first, parts without flow behind the last part they hang on; what no oil gets to
/// comes last.
std::vector<int> along_the_oils_way(const Circuit& circuit, const Moment& moment);

}  // namespace poise
