// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <Eigen/Core>
#include <limits>
#include <span>
#include <vector>

#include "diagnose/atlas.hpp"
#include "diagnose/reading.hpp"

namespace poise::diagnose {

/// What is known of a machine's own values and of the instruments on it before anybody reads them: deviations
/// in standard deviations, first of the loose values of the atlas, then of the circuit's gauges.
struct Machine {
  Eigen::VectorXd mean;
  Eigen::MatrixXd spread;  ///< their covariance
};

/// Nothing is known but the tolerances.
Machine unknown_machine(const Atlas& atlas);
/// The same machine as on the day of its commissioning, when it was sound: what its readings then say of it.
/// The oil's temperature is of the day and is forgotten.
Machine machine_of(const Atlas& atlas, std::span<const Reading> baseline);

/// One explanation of the readings and how well it does.
struct Suspect {
  static constexpr std::size_t sound = std::numeric_limits<std::size_t>::max();
  std::size_t course = sound;        ///< place in the atlas; `sound`: nothing is wrong
  double t = 0.0;                    ///< the size that fits best
  double fit = 0.0;                  ///< logarithm of the likelihood at that size
  double evidence = 0.0;             ///< the same over all sizes
  double share = 0.0;                ///< probability among all suspects, history included
  double t_low = 0.0, t_high = 1.0;  ///< sizes that fit nearly as well
};

/// Suspects that the readings cannot tell apart, the likeliest first.
struct Group {
  std::vector<Suspect> suspects;
  double share = 0.0;  ///< their probability together
};

/// One reading beside what one suspect makes one expect.
struct Expected {
  double value = 0.0;      ///< SI; NaN: its moment does not come
  double sigma = 0.0;      ///< standard deviation of the reading about it, tolerances and instrument together
  double by_others = 0.0;  ///< SI; what the suspect and all other readings foretell
  double off = 0.0;        ///< how far the reading is off that, in standard deviations
};

/// Readings weighed against everything that may be wrong.
class Belief {
 public:
  /// Views the atlas, which must outlive it.
  Belief(const Atlas& atlas, const Machine& machine, const Readings& readings);

  /// All suspects, the likeliest first.
  const std::vector<Suspect>& suspects() const { return suspects_; }
  /// The suspects in groups, the likeliest first. A suspect belongs to the first group whose leader explains
  /// the readings no better than by a factor that chance often gives.
  std::vector<Group> groups() const;
  /// Whether a suspect explains the readings at all: misses as large as these come about by chance once in
  /// ten thousand times (χ², by the approximation of E. B. Wilson and M. M. Hilferty, 1931).
  bool fits(const Suspect& suspect) const;
  /// What a suspect makes one expect of each reading, in their order.
  std::vector<Expected> expected(const Suspect& suspect) const;
  /// What a suspect makes one expect of another watch, after these readings: its mean and standard deviation,
  /// without the instrument's own; NaN where its moment does not come.
  Expected foretold(const Suspect& suspect, std::size_t watch) const;

  const Atlas& atlas() const { return atlas_; }
  std::span<const Reading> readings() const { return readings_; }

 private:
  struct Foretold {
    Eigen::VectorXd mean, own;  ///< by reading: of the sound tolerances; variance of the suspect's own
    std::vector<bool> present;
  };
  Foretold foretell(std::size_t course, double t) const;
  std::vector<Eigen::Index> both_of(const Foretold& foretold) const;  ///< readings foretold and taken
  Eigen::MatrixXd covariance_of(const Foretold& foretold) const;
  struct Likelihood {
    double log = 0.0, misses = 0.0,
           counted = 0.0;  ///< squares of the misses, in deviations, and of how many readings
  };
  Likelihood likelihood(const Foretold& foretold) const;
  Suspect weigh(std::size_t course) const;
  double prior(std::size_t course, const Readings& readings) const;

  const Atlas& atlas_;
  Machine machine_;
  std::vector<Reading> readings_;
  Eigen::MatrixXd strays_;  ///< readings × what is known of the machine
  Eigen::VectorXd shift_;   ///< by reading: what the machine's own mean makes of it
  Eigen::MatrixXd shared_;  ///< covariance of the readings by tolerances and gauges
  Eigen::VectorXd noise_;   ///< variance of each reading for itself
  std::vector<Suspect> suspects_;
};

}  // namespace poise::diagnose
