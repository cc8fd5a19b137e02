// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace poise::study {

/// A part of a study that one machine of a cluster does: the `number`-th of `of`.
struct Shard {
  long number = 1, of = 1;

  bool whole() const { return of == 1; }
  /// Items go round: 0 to the first shard, 1 to the second, ...
  bool has(long item) const { return item % of == number - 1; }
};

/// Reads "3/8"; none where it is not the K-th of N with 1 ≤ K ≤ N.
std::optional<Shard> read_shard(std::string_view text);

/// Those of the items from `first` to before `end` that belong to a shard and are not among the rising
/// `done`.
std::vector<long> left_to_do(long first, long end, const Shard& shard, const std::vector<long>& done);

}  // namespace poise::study
