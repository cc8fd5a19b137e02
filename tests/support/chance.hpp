// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cmath>
#include <cstdint>
#include <initializer_list>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

namespace poise::made_up {

/// Numbers that look drawn by lot and are the same for the same seed on every machine and compiler, which
/// the distributions of the standard library do not promise. SplitMix64: G. L. Steele, D. Lea, C. H. Flood,
/// Fast splittable pseudorandom number generators (OOPSLA 2014).
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : state_(seed) {}

  std::uint64_t bits() {
    std::uint64_t z = state_ += 0x9E3779B97F4A7C15U;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  /// From 0 up to, and without, 1.
  double share() { return static_cast<double>(bits() >> 11U) * 0x1.0p-53; }
  /// 0 … count − 1.
  int below(int count) { return static_cast<int>(share() * count); }
  int from_to(int least, int most) { return least + below(most - least + 1); }
  double between(double low, double high) { return low + (high - low) * share(); }
  /// Alike likely in every decade; both ends above zero.
  double decades(double low, double high) { return low * std::pow(high / low, share()); }
  bool one_in(int count) { return below(count) == 0; }
  bool likely(double share_of_cases) { return share() < share_of_cases; }

  template <class T>
  T of(std::initializer_list<T> list) {
    return list.begin()[below(static_cast<int>(list.size()))];
  }
  std::string_view of(std::initializer_list<const char*> list) {
    return list.begin()[below(static_cast<int>(list.size()))];
  }
  template <class List>
  const auto& any(const List& list) {
    return list[static_cast<std::size_t>(below(static_cast<int>(list.size())))];
  }
  template <class T>
  void shuffle(std::vector<T>& list) {
    for (int i = static_cast<int>(list.size()) - 1; i > 0; --i)
      std::swap(list[static_cast<std::size_t>(i)], list[static_cast<std::size_t>(below(i + 1))]);
  }

 private:
  std::uint64_t state_;
};

}  // namespace poise::made_up
