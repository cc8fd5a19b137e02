// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

namespace poise::study {

/// A share of machines and between what it lies with a confidence of 95 %.
struct Share {
  long of = 0, all = 0;
  double value = 0.0, low = 0.0, high = 1.0;
};

/// The share and its interval after C. J. Clopper and E. S. Pearson (Biometrika 26, 1934), as for machines
/// drawn one by one; an even sequence does better than this says. Nothing seen: 0 … 1.
Share share_of(long count, long all);

/// "97.3 % (96.9 … 97.6 %)"; with as many digits as the interval bears. None or all of them reads
/// "none of 1,000 (below 0.368 %)" or "all of 1,000 (above 99.6 %)".
std::string words_of(const Share& share);

/// "12,345": a count with its thousands parted.
std::string count(long number);

/// The value below which a share of the sorted, non-empty values lies; between two of them a straight line.
double quantile(const std::vector<double>& sorted, double share);

/// How many values lie in each of equal bins from the least to the greatest.
struct Histogram {
  double from = 0.0, to = 0.0;
  std::vector<long> counts;
};
Histogram histogram(const std::vector<double>& sorted, std::size_t bins);

}  // namespace poise::study
