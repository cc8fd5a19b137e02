// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise {

/// The operating point as a page of text: every part along the oil's way with pressures, flow, drop, power,
/// motion and force, in the job's units; then where the power goes.
std::string show_point(const Moment& moment, const Circuit& circuit, const Job& job);

/// The same for programs: values in SI and in the job's units.
nlohmann::json point_to_json(const Moment& moment, const Circuit& circuit, const Job& job);

}  // namespace poise
