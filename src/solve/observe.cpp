// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <array>
#include <cmath>

#include "parts/warmed_oil.hpp"
#include "solve/equations.hpp"

namespace poise::solve {

void Equations::find_enthalpies() {
  for (int n = 0; n < layout_.nodes; ++n) {
    const NodePlace& node = places_.nodes[n];
    enthalpy_[n] =
        node.free_surface ? 0.0 : circuit_->oil.enthalpy(near_[n], pressure_[n]) / warmth_[n].thinned;
  }
}

Equations::Powers Equations::powers() { return powers({}); }

Equations::Powers Equations::powers(std::span<double> heat_of_part) {
  Powers total{};
  find_enthalpies();
  for (int n = 0; !warming_.empty() && n < layout_.nodes; ++n) {
    const double work = thermal_work(n);
    total.shaft += work;
    total.put_in += std::max(work, 0.0);
  }
  for (int p = 0; p < static_cast<int>(places_.parts.size()); ++p) {
    const PartPlace& place = places_.parts[p];
    Answers answers;
    fetch_ahead(p);
    place.answer(place.numbers, around(p), answers);
    double flow_power = 0.0;
    const int* node = places_.where.data() + place.first;
    for (int i = 0; i < place.oil; ++i, ++node) {
      flow_power += answers.row[i] * enthalpy_[*node];
      if (places_.nodes[*node].free_surface && answers.row[i] > 0.0) total.drawn += answers.row[i];
    }
    const double flow_heat = flow_power + answers.shaft - answers.gained;
    total.shaft += answers.shaft;
    total.flow_heat += flow_heat;
    total.put_in += std::max(answers.shaft, 0.0) + std::max(-answers.delivered, 0.0);
    total.friction += answers.friction;
    total.delivered += answers.delivered;
    if (!heat_of_part.empty()) heat_of_part[circuit_->parts[p].owner] += flow_heat + answers.friction;
  }
  return total;
}

std::vector<PartMoment> Equations::look() {
  std::vector<PartMoment> all(static_cast<std::size_t>(circuit_->planned));
  find_enthalpies();
  for (int p = 0; p < static_cast<int>(circuit_->parts.size()); ++p) {
    const PlacedPart& part = circuit_->parts[p];
    PartMoment& m = all[part.owner];
    Answers answers;
    part.laws.answer(part.laws.numbers.get(), around(p), answers);
    m.shaft += answers.shaft;
    m.delivered += answers.delivered;
    m.heat += answers.shaft - answers.gained + answers.friction;
    for (std::size_t i = 0; i < part.oil.size(); ++i) m.heat += answers.row[i] * enthalpy_[part.oil[i]];
    if (p >= circuit_->planned) continue;
    for (int i = 0; i < part.kind->oil_ports; ++i) {
      m.pressure.push_back(signal({Signal::What::pressure, p, i, Quantity::pressure, {}}));
      m.flow.push_back(signal({Signal::What::flow, p, i, Quantity::flow, {}}));
    }
    for (int i = 0; i < part.kind->motion_ports; ++i) {
      m.position.push_back(here_.body[i].position);
      m.speed.push_back(here_.body[i].speed);
      m.force.push_back(answers.row[part.kind->oil_ports + i]);
    }
    m.input.assign(here_.input.begin(),
                   here_.input.begin() + static_cast<std::ptrdiff_t>(part.kind->inputs.size()));
    m.mode = here_.mode;
    m.outputs.resize(max_outputs);
    part.laws.report(part.laws.numbers.get(), around(p), m.outputs);
    m.outputs.resize(part.kind->outputs.size());
  }
  return all;
}

/// Warmth makes a volume's oil swell against its pressure, and its steel give way: m·h·β_T·dT/dt less
/// p·V·α·dT/dt.
double Equations::thermal_work(int n) const {
  const Warmth& warmth = warmth_[n];
  if (circuit_->nodes[n].free_surface || warmth.rise_rate == 0.0) return 0.0;
  const double mass = known_y_[layout_.mass(n)];
  double cold_volume = circuit_->nodes[n].volume;
  for (const auto& [body, area] : circuit_->nodes[n].swept)
    cold_volume += area * known_y_[layout_.position(body)];
  return warmth.rise_rate * (mass * enthalpy_[n] * circuit_->oil.expansion() / warmth.thinned -
                             pressure_[n] * cold_volume * WarmedOil::steel_expansion);
}

/// The oil's strain energy is m·h − p·V with the V that it has: in a deep vacuum the digits of p no longer
/// say how large that is.
Equations::Stores Equations::stores(const double* y) {
  Stores energy;
  find_enthalpies();
  for (int n = 0; n < layout_.nodes; ++n) {
    if (circuit_->nodes[n].free_surface) continue;
    const double mass = y[layout_.mass(n)], p = pressure_[n];
    energy.oil_and_walls +=
        mass * enthalpy_[n] - p * mass / density_[n] + 0.5 * circuit_->nodes[n].wall * p * p;
  }
  for (int b = 0; b < layout_.bodies; ++b) {
    const double v = y[layout_.speed(b)];
    energy.motion += 0.5 * circuit_->bodies[b].mass * v * v;
  }
  for (int p = 0; p < static_cast<int>(places_.parts.size()); ++p) {
    const Laws& laws = circuit_->parts[p].laws;
    energy.parts += laws.stored(laws.numbers.get(), around(p));
  }
  return energy;
}

double Equations::exchanged(const Stores& before, const Stores& after) {
  const double gains[] = {after.oil_and_walls - before.oil_and_walls, after.motion - before.motion,
                          after.parts - before.parts};
  double gained = 0.0, lost = 0.0;
  for (const double gain : gains) (gain > 0.0 ? gained : lost) += std::abs(gain);
  return std::min(gained, lost);
}

double Equations::signal(const Signal& signal) {
  const bool oil = signal.what == Signal::What::pressure || signal.what == Signal::What::flow;
  const int far_end = circuit_->parts[signal.part].far_end;
  const int p = oil && signal.index == 1 && far_end >= 0 ? far_end : signal.part;
  const PlacedPart& part = circuit_->parts[p];
  const Neighbourhood& here = around(p);
  switch (signal.what) {
    case Signal::What::pressure:
      return here.oil[signal.index].pressure;
    case Signal::What::position:
      return here.body[signal.index].position;
    case Signal::What::speed:
      return here.body[signal.index].speed;
    case Signal::What::state:
      return here.state[signal.index];
    case Signal::What::mode:
      return here.mode[signal.index] ? 1.0 : 0.0;
    case Signal::What::flow: {
      Answers answers;
      part.laws.answer(part.laws.numbers.get(), here, answers);
      return flow(p, signal.index, answers);
    }
    case Signal::What::output: {
      std::array<double, max_outputs> outputs{};
      part.laws.report(part.laws.numbers.get(), here, outputs);
      return outputs[signal.index];
    }
  }
  return 0.0;
}

void Equations::signals(std::span<const Signal> of_one_part, std::span<double> values) {
  using What = Signal::What;
  const int p = of_one_part.front().part;
  const PlacedPart& part = circuit_->parts[p];
  const auto is = [&](What what) {
    return std::ranges::find(of_one_part, what, &Signal::what) != of_one_part.end();
  };
  std::array<double, max_outputs> outputs{};
  Answers answers;
  if (is(What::output)) part.laws.report(part.laws.numbers.get(), around(p), outputs);
  if (is(What::flow)) part.laws.answer(part.laws.numbers.get(), around(p), answers);
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Signal& wanted = of_one_part[i];
    const bool at_far_end = wanted.index == 1 && part.far_end >= 0;
    if (wanted.what == What::output)
      values[i] = outputs[wanted.index];
    else if (wanted.what == What::flow && !at_far_end)
      values[i] = flow(p, wanted.index, answers);
    else
      values[i] = signal(wanted);
  }
}

/// Volume flow into the part at a port. What a piston makes room for is no part of its law: the volume at the
/// port grows by it.
double Equations::flow(int p, int port, const Answers& answers) {
  const Neighbourhood& here = around(p);
  const Laws& laws = circuit_->parts[p].laws;
  const double density = here.oil[port].density;
  double flow = density > 0.0 ? answers.row[port] / density : 0.0;
  const Space space = laws.space(laws.numbers.get(), port);
  for (int i = 0; i < circuit_->parts[p].kind->motion_ports; ++i) flow += space.swept[i] * here.body[i].speed;
  return flow;
}

void Equations::passing(int p, std::span<double> values) {
  const Laws& laws = circuit_->parts[p].laws;
  laws.passing(laws.numbers.get(), around(p), values);
}

void Equations::turning(int p, std::span<double> values) {
  const Laws& laws = circuit_->parts[p].laws;
  laws.turning(laws.numbers.get(), around(p), values);
}

std::string Equations::name_of(int unknown) const {
  if (unknown < layout_.nodes) return "the pressure at " + circuit_->nodes[unknown].name;
  if (unknown < layout_.nodes + 2 * layout_.bodies) {
    const int body = (unknown - layout_.nodes) / 2;
    const bool speed = unknown == layout_.speed(body);
    return (speed ? "the speed of " : "the position of ") + circuit_->bodies[body].name;
  }
  int p = 0;
  while (p + 1 < static_cast<int>(circuit_->parts.size()) && layout_.first_state[p + 1] <= unknown) ++p;
  const PlacedPart& part = circuit_->parts[p];
  const auto& state = part.kind->states[unknown - layout_.first_state[p]];
  return "the " + std::string(state.name) + " of " + part.tag + " (" + std::string(part.kind->about.kind) +
         ")";
}

}  // namespace poise::solve
