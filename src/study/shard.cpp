// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/shard.hpp"

#include <algorithm>
#include <charconv>

namespace poise::study {
namespace {

std::optional<long> whole_number(std::string_view text) {
  long value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

}  // namespace

std::optional<Shard> read_shard(std::string_view text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto number = whole_number(text.substr(0, slash)), of = whole_number(text.substr(slash + 1));
  if (!number || !of || *number < 1 || *number > *of) return std::nullopt;
  return Shard{*number, *of};
}

std::vector<long> left_to_do(long first, long end, const Shard& shard, const std::vector<long>& done) {
  std::vector<long> left;
  for (long item = first; item < end; ++item) {
    if (shard.has(item) && !std::ranges::binary_search(done, item)) left.push_back(item);
  }
  return left;
}

}  // namespace poise::study
