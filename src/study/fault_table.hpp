// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <ostream>
#include <span>
#include <string>
#include <vector>

#include "study/fault_order.hpp"

namespace poise::study {

/// One line of the table of faults, all in words and the job's units.
struct FaultLine {
  std::string name, part, size, breaks_from;
  bool pair = false;  ///< two at once
  Severity severity = Severity::not_proven;
  std::vector<std::string> happens;  ///< what breaks; empty: nothing
  std::string shown_by, shown_text;
  Shown::By by = Shown::By::nothing;
  std::vector<std::string> protects, left_pressed;
};

/// The worst first; of these what nothing shows before what is shown; then by name.
std::vector<FaultLine> fault_lines(const Job& job, std::span<const FaultResult> faults,
                                   std::span<const PairResult> pairs = {});

/// For a terminal, at most 100 columns wide: by severity, what breaks under each; what breaks nothing in
/// short.
std::string show_faults(std::span<const FaultLine> lines, bool colour);

/// For a risk assessment: fault, part, size, what happens, severity, shown by, protected by, breaks from,
/// left pressed. RFC 4180, lines ended by \n.
void write_fault_csv(std::ostream& out, std::span<const FaultLine> lines);

/// How far a study has got, in runs.
struct Progress {
  long wanted = 0, done = 0;
};

/// The answer for programs and the page.
nlohmann::json faults_to_json(const Job& job, std::span<const FaultResult> faults,
                              std::span<const PairResult> pairs,
                              std::span<const NotApplicable> not_applicable, Progress progress);

}  // namespace poise::study
