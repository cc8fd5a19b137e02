// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <variant>

#include "study/crew.hpp"
#include "study/fault_order.hpp"
#include "study/record.hpp"
#include "study/shard.hpp"

namespace poise::study {

/// What is asked of a study of faults.
struct FaultWish {
  Shard shard{};
  std::size_t cores = search::cores_allowed();
};

/// A study of a job's faults about to be run: the sound machine has been.
struct FaultStudy {
  FaultWish wish;
  Nominal nominal;
  FaultList list;
  Heading heading;  ///< runs are numbered by `runs_per_fault`; how many there will be is not known beforehand
  long most_steps = 0;
};

/// Runs the sound machine; why its faults cannot be studied where that ends without an answer. `text` is the
/// job's. Nothing where `go_on` stopped it.
std::variant<std::monostate, FaultStudy, std::string> prepare_faults(const Job& job, const std::string& text,
                                                                     const std::string& version,
                                                                     const FaultWish& wish,
                                                                     const GoOn& go_on);

/// The heading under which it is kept which faults are through, by their places in the list.
Heading heading_of_through(const FaultStudy& study);

/// Runs what the record does not have yet of every fault of the shard, size by size. An item is a fault.
Came run_faults(const FaultStudy& study, Record& record, long id, const std::function<bool(long done)>& told);
/// The faults as recorded.
std::vector<FaultResult> faults_recorded(const FaultStudy& study, const Record& record, long id,
                                         std::string& complaint);
/// The heading under which pairs are kept.
Heading heading_of_pairs(const FaultStudy& study, const std::vector<FaultPair>& pairs);
/// Runs the pairs of the shard that the record does not have yet.
Came run_pairs(const FaultStudy& study, const std::vector<FaultPair>& pairs, Record& record, long id,
               const std::function<bool(long done)>& told);

}  // namespace poise::study
