// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnose/watch.hpp"

namespace poise::diagnose {

/// What an instrument showed.
struct Reading {
  std::size_t watch = 0;          ///< place in the list of watches
  std::optional<double> value{};  ///< SI; none: its moment did not come, or the actuator did not get there
  double accuracy = 0.0;          ///< SI; the reading is off by no more
  Place place{};                  ///< in the file it was read from
};

/// What was looked at before anything was measured.
enum class Looked { no, good, bad };

/// Readings of one machine on one occasion, with what people say of it.
struct Readings {
  std::vector<Reading> list{};
  std::vector<Watch>
      more{};  ///< moments that are asked for beside those listed; their places follow the list's
  std::optional<Comes> came{};  ///< how it has come about, where anybody knows: the first question
  Looked level = Looked::no;    ///< of the oil
  Looked filter = Looked::no;   ///< whether its indicator is down
  std::string since{}, after{}, date{}, by{};
};

}  // namespace poise::diagnose
