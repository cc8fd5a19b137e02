// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/equations.hpp"

#include <algorithm>
#include <cmath>

#include "parts/warmed_oil.hpp"

namespace poise::solve {

Equations::Equations(const Circuit& circuit)
    : circuit_(&circuit),
      layout_(circuit),
      pattern_(circuit, layout_),
      places_(circuit, layout_),
      modes_(circuit.parts.size()),
      pressure_(circuit.nodes.size(), 0.0),
      density_(circuit.nodes.size()),
      softness_(circuit.nodes.size()),
      lane_(circuit.nodes.size()),
      near_(circuit.nodes.size(), circuit.oil.volume_ratio(0.0)),
      enthalpy_(circuit.nodes.size()),
      chain_(pattern_.chains(), 1.0),
      warmth_(circuit.nodes.size()) {
  for (const PlacedPart& part : circuit.parts) {
    auto& list = drives_.emplace_back();
    for (int parameter : part.kind->inputs) {
      const double value = part.values.all()[parameter];
      list.push_back({value, value, 0.0, 0.0});
    }
    for (const State& state : part.kind->states) state_noise_.push_back(state.noise);
    if (part.kind->warms) warming_.push_back(static_cast<int>(&part - circuit.parts.data()));
  }
}

std::vector<double> Equations::start() const {
  std::vector<double> y(layout_.size, 0.0);
  for (int b = 0; b < layout_.bodies; ++b) y[layout_.position(b)] = circuit_->bodies[b].start;
  for (int n = 0; n < layout_.nodes; ++n) {
    const OilNode& node = circuit_->nodes[n];
    double volume = node.volume;
    for (const auto& [body, area] : node.swept) volume += area * circuit_->bodies[body].start;
    y[layout_.mass(n)] = circuit_->oil.density_at_zero() * volume;
  }
  for (std::size_t p = 0; p < circuit_->parts.size(); ++p) {
    const PlacedPart& part = circuit_->parts[p];
    for (std::size_t s = 0; s < part.kind->states.size(); ++s) {
      y[layout_.first_state[p] + s] = part.laws.start(part.laws.numbers.get(), static_cast<int>(s));
    }
  }
  return y;
}

/// Trapped oil that is warmed keeps its mass: it is the density belonging to a pressure that falls.
void Equations::warm(double time) {
  if (time == warmed_time_) return;
  warmed_time_ = time;
  known_y_.clear();
  for (int p : warming_) warmth_[circuit_->parts[p].oil[0]] = {};
  for (int p : warming_) {
    const Drive& drive = drives_[p][0];
    const double rise = drive.at(time).now();
    const bool changing = time >= drive.begin && time < drive.begin + drive.duration;
    Warmth& warmth = warmth_[circuit_->parts[p].oil[0]];
    warmth.thinned -= circuit_->oil.expansion() * rise;
    warmth.widened += WarmedOil::steel_expansion * rise;
    warmth.rise_rate += changing ? (drive.to - drive.from) / drive.duration : 0.0;
  }
}

bool Equations::find_pressures(double time, const double* y) {
  if (!warming_.empty()) warm(time);
  if (std::equal(known_y_.begin(), known_y_.end(), y) && !known_y_.empty()) return true;
  known_y_.clear();
  const Oil& oil = circuit_->oil;
  for (int n = 0; n < layout_.nodes; ++n) {
    const NodePlace& node = places_.nodes[n];
    const double mass = y[layout_.mass(n)];
    if (node.free_surface) {
      // The lane of a free surface is its mass: the pressure stays 0, what is drawn thins out as the oil runs
      // out.
      const double full = oil.density_at_zero() * node.band;
      const double left = std::clamp(mass / full, 0.0, 1.0);
      density_[n] = oil.density_at_zero() * left;
      lane_[n] = {0.0, density_[n], 0.0, left > 0.0 && left < 1.0 ? oil.density_at_zero() / full : 0.0};
      softness_[n] = 0.0;
      continue;
    }
    double volume = node.volume;
    for (const Sweep& sweep : places_.swept_of(node)) volume += sweep.area * y[sweep.position];
    Oil::Density density;
    const Warmth& warmth = warmth_[n];
    volume *= warmth.widened;
    if (!oil.state_of(mass / warmth.thinned, volume, node.wall, near_[n], pressure_[n], density))
      return false;
    density.value *= warmth.thinned;
    density.slope *= warmth.thinned;
    density_[n] = density.value;
    lane_[n] = {pressure_[n], density.value, 1.0, density.slope};
    softness_[n] = density.slope * (volume + node.wall * pressure_[n]) + density.value * node.wall;
  }
  known_y_.assign(y, y + layout_.size);
  return true;
}

void Equations::find_chains() {
  for (int n = 0; n < layout_.nodes; ++n) {
    const NodePlace& node = places_.nodes[n];
    double* chain = &chain_[pattern_.chain_of(n)];
    const double by_mass = node.free_surface ? 1.0 : 1.0 / softness_[n];
    *chain++ = by_mass;
    for (const Sweep& sweep : places_.swept_of(node)) {
      *chain++ = node.free_surface ? 0.0 : -density_[n] * sweep.area * warmth_[n].widened * by_mass;
    }
  }
}

void Equations::gather(const PartPlace& place, int p, double time, const double* y) {
  const int* at = places_.where.data() + place.first;
  for (int i = 0; i < place.oil; ++i) here_.oil[i] = lane_[*at++];
  for (int i = 0; i < place.bodies; ++i, ++at) {
    here_.body[i] = {y[layout_.position(*at)], y[layout_.speed(*at)]};
  }
  for (int i = 0; i < place.states; ++i) here_.state[i] = y[place.first_state + i];
  if (place.drives > 0) {
    const Drive* drive = drives_[p].data();
    for (int i = 0; i < place.drives; ++i) here_.input[i] = drive[i].at(time);
  }
  if (place.modes > 0) here_.mode = modes_[p];
}

void Equations::fetch_ahead(int p) const {
  constexpr std::size_t ahead = 6;
  constexpr int line = 64;
  const std::size_t at = std::min(static_cast<std::size_t>(p) + ahead, places_.parts.size() - 1);
  const char* numbers = static_cast<const char*>(places_.parts[at].numbers);
  __builtin_prefetch(numbers);
  __builtin_prefetch(numbers + line);
}

const Neighbourhood& Equations::around(int p) {
  gather(places_.parts[p], p, observed_time_, known_y_.data());
  return here_;
}

bool Equations::observe(double time, const double* y) {
  if (!find_pressures(time, y)) return false;
  observed_time_ = time;
  return true;
}

bool Equations::rates(double time, const double* y, double* rate) {
  if (!observe(time, y)) return false;
  std::fill_n(rate, layout_.size, 0.0);
  for (int p = 0; p < static_cast<int>(places_.parts.size()); ++p) {
    const PartPlace& place = places_.parts[p];
    fetch_ahead(p);
    gather(place, p, time, y);
    Answers answers;
    place.answer(place.numbers, here_, answers);
    const double* row = answers.row.data();
    const int* at = places_.where.data() + place.first;
    for (int i = 0; i < place.oil; ++i) rate[layout_.mass(*at++)] -= *row++;
    for (int i = 0; i < place.bodies; ++i) rate[layout_.speed(*at++)] += *row++;
    for (int i = 0; i < place.states; ++i) rate[place.first_state + i] = *row++;
  }
  for (int b = 0; b < layout_.bodies; ++b) {
    rate[layout_.speed(b)] /= places_.masses[b];
    rate[layout_.position(b)] = y[layout_.speed(b)];
  }
  return true;
}

bool Equations::jacobian(double time, const double* y, double* values) {
  if (!observe(time, y)) return false;
  find_chains();
  std::fill_n(values, pattern_.nonzeros(), 0.0);
  for (int p = 0; p < static_cast<int>(places_.parts.size()); ++p) {
    const PartPlace& place = places_.parts[p];
    gather(place, p, time, y);
    LocalJacobian local;
    place.jacobian(place.numbers, here_, local);
    for (const Pattern::Scatter& s : pattern_.scatter(p)) {
      values[s.value] += local[s.slope] * chain_[s.chain] * s.factor;
    }
  }
  for (int at : pattern_.kinematic()) values[at] += 1.0;
  return true;
}

bool Equations::noise(const double* y, const Tolerances& tolerances, double* size) {
  // How warm it is hardly matters to the noise: the moment last known will do.
  if (!find_pressures(std::isnan(warmed_time_) ? 0.0 : warmed_time_, y)) return false;
  for (int n = 0; n < layout_.nodes; ++n) {
    const double mass = std::abs(y[layout_.mass(n)]);
    const double floor = tolerances.share_of_mass * mass;
    if (places_.nodes[n].free_surface) {
      size[layout_.mass(n)] = floor;
      continue;
    }
    const double pressure = tolerances.relative * std::abs(pressure_[n]) + tolerances.pressure;
    // A starved node is so soft that any mass has the same pressure: there the mass itself must be right.
    size[layout_.mass(n)] = 1.0 / (1.0 / (softness_[n] * pressure) + 1.0 / (100.0 * floor));
  }
  for (int b = 0; b < layout_.bodies; ++b) {
    size[layout_.position(b)] = tolerances.relative * std::abs(y[layout_.position(b)]) + tolerances.position;
    size[layout_.speed(b)] = tolerances.relative * std::abs(y[layout_.speed(b)]) + tolerances.speed;
  }
  for (std::size_t s = 0; s < state_noise_.size(); ++s) {
    const std::size_t at = static_cast<std::size_t>(layout_.nodes + 2 * layout_.bodies) + s;
    size[at] = tolerances.relative * (std::abs(y[at]) + state_noise_[s] * 1e5);
  }
  return true;
}

}  // namespace poise::solve
