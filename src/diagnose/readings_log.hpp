// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "diagnose/readings_forms.hpp"

namespace poise::diagnose {

inline constexpr int no_step = -1;

/// What one instrument was logged to show, SI.
struct LogColumn {
  std::size_t watch = 0;  ///< one of those of what it shows
  std::string name{}, unit{};
  Place place{};
  std::vector<double> values{};
};

/// A log as read: rows that rise in time.
struct Log {
  std::vector<double> time{};  ///< s
  std::vector<int> step{};     ///< of each row; `no_step` where none is named
  std::vector<int> line{};
  std::vector<LogColumn> columns{};
  bool has_steps = false;       ///< whether a column says which step it is
  double usual_distance = 0.0;  ///< s between rows
};

/// Takes the readings that people would take from a log: gauges at the ends of steps, all along them and as
/// actuators start and move; where actuators stand and how long they take; contacts.
void take_log(const Log& log, Intake& intake);

}  // namespace poise::diagnose
