// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "job/job.hpp"
#include "search/loose.hpp"
#include "study/draws.hpp"
#include "study/machine.hpp"
#include "study/row.hpp"

namespace poise::study {

/// The machines that a job may become: each loose value anywhere within its tolerance, all alike likely, each
/// independent of the others. Machine 0 is the job as stated; the others are numbered from 1, and each can be
/// made alone. Safe from several threads.
class Spread {
 public:
  Spread(Job job, std::uint64_t seed);

  const Job& job() const { return job_; }
  const std::vector<search::Loose>& loose() const { return loose_; }
  /// How far off each loose value of a machine is, from −1 (its lower end) to 1.
  std::vector<double> off(long number) const;
  Job machine(long number) const;
  /// The job with its loose values off by these.
  Job with(const std::vector<double>& off) const;

 private:
  Job job_;
  std::vector<search::Loose> loose_;
  Draws draws_;
};

/// Where a loose value stands in its tolerance, from −1 to 1 with every place alike likely; what `u` is
/// measured from the stated value on, which need not be the middle.
double place_of(const search::Loose& loose, double u);
double off_at(const search::Loose& loose, double place);

}  // namespace poise::study
