// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cstdint>
#include <vector>

namespace poise::study {

/// Numbers from 0 to below 1 that fill a space of many dimensions more evenly than chance: Sobol's sequence
/// with the directions of S. Joe and F. Y. Kuo (2008), each coordinate's digits exchanged at random digit by
/// digit after all earlier ones (A. B. Owen, Randomly permuted (t,m,s)-nets, 1995), so that each number alone
/// is even and their means are without bias. Every point is known by its number; the same number and seed
/// give the same point on every machine. Safe from several threads.
class Draws {
 public:
  Draws(std::size_t dimensions, std::uint64_t seed) : dimensions_(dimensions), seed_(seed) {}

  /// The point of a number from 1 on.
  std::vector<double> at(long number) const;

 private:
  std::size_t dimensions_;
  std::uint64_t seed_;
};

}  // namespace poise::study
