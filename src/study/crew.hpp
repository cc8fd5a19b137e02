// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <span>
#include <string>

#include "search/cores.hpp"
#include "study/row.hpp"

namespace poise::study {

/// Puts a row away; false when the work is to end. What is put away is safe.
using PutAway = std::function<bool(const Row&)>;
/// False when the work is to end; asked now and then by whoever runs something.
using GoOn = std::function<bool()>;
/// Does one item of a study: runs what belongs to it and puts the rows away, or leaves off where told to.
using Item = std::function<void(long item, const PutAway&, const GoOn&)>;

/// What came of a crew's work.
struct Came {
  long items = 0;  ///< done to their end
  bool stopped = false;
  std::string complaint;  ///< why a row could not be put away; empty: all were
};

/// Does the items of a study on several cores, in any order; what each leaves behind does not hang on the
/// others. `keep` puts a row away, one at a time, and says what is wrong where it could not: the work then
/// ends. `told` hears, in the calling thread, how many items are done, and says false to stop.
Came do_all(std::span<const long> items, const Item& item, const std::function<std::string(const Row&)>& keep,
            const std::function<bool(long done)>& told, std::size_t cores = search::cores_allowed());

}  // namespace poise::study
