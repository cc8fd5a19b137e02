// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/sheet.hpp"

#include <algorithm>
#include <cmath>

namespace poise::diagnose {
namespace {

bool moves(const std::vector<Watch>& watches, const Watch& rule) {
  return std::ranges::any_of(watches, [&](const Watch& other) {
    return other.instrument == Instrument::stop_watch && other.step == rule.step &&
           other.signal.name == rule.signal.name;
  });
}

/// Whether an actuator is the first of its group to start in a step, as its gauge tells: another gauge
/// reading of the same moment stands earlier in the list.
bool is_told_already(const std::vector<Watch>& watches, const std::vector<double>& sound, std::size_t at,
                     const std::vector<std::size_t>& taken) {
  return std::ranges::any_of(taken, [&](std::size_t other) {
    const Watch &a = watches[other], &b = watches[at];
    return a.when == When::starts && a.at == b.at && a.step == b.step &&
           std::abs(sound[other] - sound[at]) < b.accuracy;
  });
}

}  // namespace

std::vector<std::size_t> usual_sheet(const std::vector<Watch>& watches, const std::vector<double>& sound) {
  std::vector<std::size_t> taken;
  for (std::size_t w = 0; w < watches.size(); ++w) {
    const Watch& watch = watches[w];
    if (std::isnan(sound[w])) continue;
    switch (watch.instrument) {
      case Instrument::gauge:
        if (watch.when == When::starts ? !is_told_already(watches, sound, w, taken) : watch.when == When::end)
          taken.push_back(w);
        break;
      case Instrument::contact:
      case Instrument::rule:
        // What has not left its place yet is not worth a look.
        if (std::abs(sound[w]) >= watch.accuracy || moves(watches, watch)) taken.push_back(w);
        break;
      case Instrument::stop_watch:
      case Instrument::thermometer:
        taken.push_back(w);
        break;
      default:
        break;
    }
  }
  return taken;
}

Band band_of(const Atlas& atlas, std::size_t watch) {
  const auto row = static_cast<Eigen::Index>(watch);
  const double instrument = atlas.watches[watch].accuracy / std::sqrt(3.0);
  const double half = 2.0 * std::sqrt(atlas.strays.row(row).squaredNorm() +
                                      atlas.rest[row] * atlas.rest[row] + instrument * instrument);
  const double middle = atlas.sound[watch];
  return {middle - half, middle, middle + half};
}

Beside beside(const Band& band, std::optional<double> value) {
  const bool comes = !std::isnan(band.middle);
  if (!value) return comes ? Beside::missing : Beside::within;
  if (!comes) return Beside::unexpected;
  if (*value > band.high) return Beside::above;
  return *value < band.low ? Beside::below : Beside::within;
}

}  // namespace poise::diagnose
