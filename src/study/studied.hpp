// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "study/fault_table.hpp"
#include "study/spread_answer.hpp"

namespace poise::study {

/// A spread that was run to its end.
struct SpreadStudied {
  Spread spread;
  SpreadAnswer answer;
  std::vector<std::optional<Nearest>> nearest;  ///< one for each promise, or none at all
};

/// What has been studied of a job as it now is.
struct Studied {
  std::optional<SpreadStudied> spread;             ///< the one with the most machines
  std::optional<std::vector<FaultLine>> faults{};  ///< with pairs, where they were run to their end
};

/// What a file has of studies of this very job, with this version of Poise, that were run to their end;
/// `nominal` is the job's run with every signal. Nothing where there is no such file; a complaint where it
/// does not read.
Studied studied(const std::filesystem::path& file, const Job& job, const std::string& text,
                const std::string& version, const Trace& nominal, std::string& complaint);

}  // namespace poise::study
