// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "diagnose/watch.hpp"

namespace poise::diagnose {

/// Places in the list of what a commissioning sheet asks for: the oil's temperature; each gauge and contact at
/// the end of each step; gauges as the next group of actuators starts; how long each motion takes and where it
/// ends. `sound` is what the sound machine shows.
std::vector<std::size_t> usual_sheet(const std::vector<Watch>& watches, const std::vector<double>& sound);

}  // namespace poise::diagnose
