// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "compose/circuits.hpp"
#include "search/find.hpp"

namespace poise::search {

/// A circuit that was composed, with the values that were found for it.
struct Proposal {
  compose::Composed circuit;
  Job job;  ///< as its text with the found values reads
  Found found;
  double cost = 0.0;      ///< of its models, in the lists' currency; 0 without a stock
  std::size_t parts = 0;  ///< in the plan, lines as well
};

/// How circuits are looked for.
struct ProposeWish {
  FindWish find;
  std::size_t most = 5;    ///< proposals
  std::size_t tried = 20;  ///< of the circuits that are composed, the first so many are worked out
  /// Told the share done and the name of the circuit in work; says false to stop. May be empty.
  std::function<bool(double share, std::string_view name)> progress{};
};

/// Composes circuits for a job without one, finds their values and proves them. Those that hold stand first;
/// of these the one with more room up to what is ample, then fewer rules not kept, then the cheaper, then the
/// one of fewer parts. Complaints about the job, or about a text of ours that does not read (then the
/// composing is at fault, and the complaint says so).
std::variant<std::vector<Proposal>, Complaints> propose(std::string_view text, std::string_view file_name,
                                                        const ProposeWish& wish);

}  // namespace poise::search
