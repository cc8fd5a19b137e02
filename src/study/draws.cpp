// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/draws.hpp"

#include <algorithm>
#include <boost/random/sobol.hpp>
#include <stdexcept>

namespace poise::study {
namespace {

constexpr int digits = 53;           // of a double
constexpr std::size_t table = 3667;  // dimensions that the directions are known for

/// A number that looks like chance: the finalizer of splitmix64 (G. L. Steele, D. Lea, C. H. Flood, Fast
/// splittable pseudorandom number generators, 2014).
std::uint64_t mixed(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15u;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

/// Turns each binary digit over or not, by chance that hangs on the coordinate and on all digits before it.
std::uint64_t scrambled(std::uint64_t x, std::uint64_t key) {
  std::uint64_t turned = 0;
  for (int d = 0; d < digits; ++d) {
    const std::uint64_t before = d == 0 ? 0 : x >> (64 - d);
    const std::uint64_t turn = mixed(key ^ mixed(before * 64 + static_cast<std::uint64_t>(d))) >> 63;
    turned |= ((x >> (63 - d) & 1) ^ turn) << (63 - d);
  }
  return turned;
}

double share_of(std::uint64_t x) { return static_cast<double>(x >> (64 - digits)) * 0x1p-53; }

}  // namespace

std::vector<double> Draws::at(long number) const {
  if (number < 1) throw std::logic_error("draws are numbered from 1");
  std::vector<double> point(dimensions_);
  if (dimensions_ == 0) return point;
  const std::size_t even = std::min(dimensions_, table);
  // The library leaves out the sequence's first point, the origin; the evenness is that of all of them.
  const auto behind_origin = static_cast<std::uint64_t>(number) - 1;
  boost::random::sobol sequence(even);
  if (behind_origin > 0) sequence.seed(behind_origin - 1);
  for (std::size_t d = 0; d < dimensions_; ++d) {
    const std::uint64_t key = mixed(seed_ ^ mixed(d + 1));
    if (d >= even)
      point[d] = share_of(mixed(key ^ mixed(static_cast<std::uint64_t>(number))));
    else
      point[d] = share_of(scrambled(behind_origin == 0 ? 0 : sequence(), key));
  }
  return point;
}

}  // namespace poise::study
