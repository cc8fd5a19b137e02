// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <vector>

#include "diagnose/atlas.hpp"

namespace poise::diagnose {

/// Places in the list of what a commissioning sheet asks for: the oil's temperature; each gauge and contact
/// at the end of each step; gauges as the next group of actuators starts; how long each motion takes and
/// where it ends. `sound` is what the sound machine shows.
std::vector<std::size_t> usual_sheet(const std::vector<Watch>& watches, const std::vector<double>& sound);

/// What a sound machine may show, SI.
struct Band {
  double low = 0.0, middle = 0.0, high = 0.0;
};
/// The band in which nineteen of twenty sound machines read at this watch with the usual instrument: twice
/// the standard deviation of tolerances and instrument together. NaN where the moment does not come.
Band band_of(const Atlas& atlas, std::size_t watch);

/// Where a reading lies beside its band; of one without a value whether its moment ought to have come.
enum class Beside { within, above, below, missing, unexpected };
Beside beside(const Band& band, std::optional<double> value);

}  // namespace poise::diagnose
