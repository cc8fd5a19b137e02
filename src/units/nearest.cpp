// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "units/nearest.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

namespace poise::units {
namespace {

constexpr double moved = 1.0;  // added, missing or transposed
constexpr double changed = 1.5;
constexpr double near_share = 0.4;
constexpr std::size_t longest = 64;  // no word of a job is longer, and the work grows with the square

std::string lower(std::string_view word) {
  std::string result(word);
  for (char& c : result)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return result;
}

double distance(std::string_view a, std::string_view b) {
  std::vector<double> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = moved * static_cast<double>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = moved * static_cast<double>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const double swap_in = last[j - 1] + (a[i - 1] == b[j - 1] ? 0.0 : changed);
      row[j] = std::min({swap_in, last[j] + moved, row[j - 1] + moved});
      const bool transposed = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (transposed) row[j] = std::min(row[j], before_last[j - 2] + moved);
    }
  }
  return row[b.size()];
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string> known) {
  if (word.empty() || word.size() > longest) return std::nullopt;
  const std::string wanted = lower(word);
  std::optional<std::string> nearest;
  double least = 0.0;
  for (const std::string& each : known) {
    if (each.empty() || each.size() > longest) continue;
    const double length = static_cast<double>(std::max(wanted.size(), each.size()));
    const double found = distance(wanted, lower(each));
    const bool near = found <= std::max(moved, near_share * length);
    if (!near || (nearest && found >= least)) continue;
    nearest = each;
    least = found;
  }
  return nearest;
}

}  // namespace poise::units
