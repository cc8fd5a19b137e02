// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/spread.hpp"

namespace poise::study {

Spread::Spread(Job job, std::uint64_t seed)
    : job_(std::move(job)), loose_(search::loose_values(job_)), draws_(loose_.size(), seed) {}

std::vector<double> Spread::off(long number) const {
  if (number == 0) return std::vector<double>(loose_.size(), 0.0);
  std::vector<double> off = draws_.at(number);
  for (std::size_t i = 0; i < off.size(); ++i) off[i] = off_at(loose_[i], 2.0 * off[i] - 1.0);
  return off;
}

Job Spread::machine(long number) const { return with(off(number)); }

Job Spread::with(const std::vector<double>& off) const {
  Job job = job_;
  for (std::size_t i = 0; i < loose_.size(); ++i) {
    if (off[i] != 0.0) search::put_off(job, loose_[i], off[i]);
  }
  return job;
}

double place_of(const search::Loose& loose, double u) {
  const auto& [below, above, of] = loose.tolerance;
  const double from_lower_end = u < 0.0 ? (1.0 + u) * below : below + u * above;
  return 2.0 * from_lower_end / (below + above) - 1.0;
}

double off_at(const search::Loose& loose, double place) {
  const auto& [below, above, of] = loose.tolerance;
  const double off = (place + 1.0) / 2.0 * (below + above) - below;
  if (off < 0.0) return off / below;
  return above > 0.0 ? off / above : 0.0;
}

}  // namespace poise::study
