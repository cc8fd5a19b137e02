// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "study/crew.hpp"
#include "study/nearest.hpp"
#include "study/record.hpp"
#include "study/shard.hpp"
#include "study/spread.hpp"
#include "study/spread_answer.hpp"

namespace poise::study {

/// What is asked of a spread.
struct SpreadWish {
  long machines = 1000;
  std::uint64_t seed = 1;
  Shard shard{};
  std::size_t cores = search::cores_allowed();
};

/// A spread about to be run: the machine as stated has been.
struct SpreadStudy {
  SpreadWish wish;
  Spread spread;
  Heading heading;
  Row nominal;
  long most_steps = 0;  ///< after which a machine is given up
};

/// The options of a spread's heading: the seed, and a fingerprint of the values that are off and how far.
std::string spread_options(const Spread& spread, std::uint64_t seed);

/// Runs the job as stated; why it cannot be spread where that ends without an answer. `text` is the job's.
/// None where `go_on` stopped it.
std::variant<std::monostate, SpreadStudy, std::string> prepare(const Job& job, const std::string& text,
                                                               const std::string& version,
                                                               const SpreadWish& wish, const GoOn& go_on);

/// Runs the machines that the record does not have yet and records them under its study `id`.
Came run_spread(const SpreadStudy& study, Record& record, long id,
                const std::function<bool(long done)>& told);

/// The heading under which the nearest machines that break a promise are kept.
Heading heading_of_nearest(const SpreadStudy& study);

/// Looks for them, one for each promise, and records them; `answer` is that of all machines.
Came run_nearest(const SpreadStudy& study, const SpreadAnswer& answer, Record& record, long id,
                 const std::function<bool(long done)>& told);

/// Those that are recorded, one entry for each promise.
std::vector<std::optional<Nearest>> nearest_recorded(const SpreadStudy& study, const Record& record,
                                                     std::string& complaint);

}  // namespace poise::study
