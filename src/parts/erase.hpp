// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>

#include "parts/kind.hpp"

namespace poise {

/// What turns a room's struct into a Kind: the only place where a part's type is erased.
namespace erase {

template <class Room>
Here<Room, double> plain(const Neighbourhood& n) {
  Here<Room, double> here;
  for (int i = 0; i < Room::oil_ports; ++i) here.oil[i] = {n.oil[i].pressure, n.oil[i].density};
  for (int i = 0; i < Room::motion_ports; ++i) here.body[i] = n.body[i];
  for (int i = 0; i < Room::states; ++i) here.state[i] = n.state[i];
  for (int i = 0; i < Room::inputs; ++i) here.input[i] = n.input[i];
  for (int i = 0; i < Room::modes; ++i) here.mode[i] = n.mode[i];
  return here;
}

template <class Room>
inline constexpr int lanes = Room::oil_ports + 2 * Room::motion_ports + Room::states;

template <class Room>
Here<Room, Dual<lanes<Room>>> with_lanes(const Neighbourhood& n) {
  using D = Dual<lanes<Room>>;
  Here<Room, D> here;
  int lane = 0;
  for (int i = 0; i < Room::oil_ports; ++i, ++lane) {
    here.oil[i].pressure = D::lane(n.oil[i].pressure, lane, n.oil[i].pressure_slope);
    here.oil[i].density = D::lane(n.oil[i].density, lane, n.oil[i].density_slope);
  }
  for (int i = 0; i < Room::motion_ports; ++i) {
    here.body[i].position = D::lane(n.body[i].position, lane++);
    here.body[i].speed = D::lane(n.body[i].speed, lane++);
  }
  for (int i = 0; i < Room::states; ++i) here.state[i] = D::lane(n.state[i], lane++);
  for (int i = 0; i < Room::inputs; ++i) here.input[i] = n.input[i];
  for (int i = 0; i < Room::modes; ++i) here.mode[i] = n.mode[i];
  return here;
}

template <class Room>
void answer(const void* numbers, const Neighbourhood& n, Answers& out) {
  const auto a = static_cast<const Room*>(numbers)->law(plain<Room>(n));
  int row = 0;
  for (double w : a.inflow) out.row[row++] = w;
  for (double f : a.force) out.row[row++] = f;
  for (double r : a.rate) out.row[row++] = r;
  out.shaft = a.shaft;
  out.friction = a.friction;
  out.delivered = a.delivered;
  out.gained = a.gained;
}

template <class Room>
void jacobian(const void* numbers, const Neighbourhood& n, LocalJacobian& out) {
  const auto a = static_cast<const Room*>(numbers)->law(with_lanes<Room>(n));
  double* at = out.data();
  const auto copy = [&](const auto& values) {
    for (const auto& v : values) at = std::copy(v.slope.begin(), v.slope.end(), at);
  };
  copy(a.inflow);
  copy(a.force);
  copy(a.rate);
}

template <class Room>
Laws make(const Values& values, const Oil& oil) {
  return {
      .numbers = std::make_shared<const Room>(values, oil),
      .answer = &answer<Room>,
      .jacobian = &jacobian<Room>,
      .report =
          [](const void* numbers, const Neighbourhood& n, std::span<double> outputs) {
            std::ranges::copy(static_cast<const Room*>(numbers)->report(plain<Room>(n)), outputs.begin());
          },
      .passing =
          [](const void* numbers, const Neighbourhood& n, std::span<double> passed) {
            std::ranges::copy(static_cast<const Room*>(numbers)->passing(plain<Room>(n)), passed.begin());
          },
      .turning =
          [](const void* numbers, const Neighbourhood& n, std::span<double> turned) {
            std::ranges::copy(static_cast<const Room*>(numbers)->turning(plain<Room>(n)), turned.begin());
          },
      .stored =
          [](const void* numbers, const Neighbourhood& n) {
            return static_cast<const Room*>(numbers)->stored(plain<Room>(n));
          },
      .space = [](const void* numbers, int port) { return static_cast<const Room*>(numbers)->space(port); },
      .body = [](const void* numbers, int port) { return static_cast<const Room*>(numbers)->body(port); },
      .start = [](const void* numbers, int state) { return static_cast<const Room*>(numbers)->start(state); },
      .free_surface = [](const void* numbers) { return static_cast<const Room*>(numbers)->free_surface(); },
  };
}

/// The symbol with these values at this moment; most rooms have one drawing for all of them.
template <class Room>
std::vector<Stroke> drawn(const Values& values, const Pose& pose) {
  if constexpr (requires { Room::drawn(values, pose); }) {
    return Room::drawn(values, pose);
  } else {
    return {Room::symbol.begin(), Room::symbol.end()};
  }
}

}  // namespace erase

/// The Kind of a room; opens its door in the one list (`parts/all.cpp`).
template <class Room>
Kind kind_of() {
  static_assert(Room::oil_ports <= max_oil_ports && Room::motion_ports <= max_motion_ports);
  static_assert(Room::states <= max_states && Room::inputs <= max_inputs && Room::modes <= max_modes);
  Kind kind{.about = Room::about,
            .parameters = Room::parameters,
            .ports = Room::ports,
            .states = Room::state_list,
            .modes = Room::mode_list,
            .outputs = Room::outputs,
            .happenings = Room::happenings,
            .faults = Room::faults,
            .rules = Room::rules,
            .adjusting = Room::adjusting,
            .care = Room::care,
            .symbol = Room::symbol,
            .anchors = Room::anchors,
            .drawn = &erase::drawn<Room>,
            .inputs = {},
            .oil_ports = Room::oil_ports,
            .motion_ports = Room::motion_ports,
            .warms = Room::warms,
            .check = &Room::check,
            .heat_path = &Room::heat_path,
            .curves = &Room::curves,
            .workings = &Room::workings,
            .pieces = &Room::pieces,
            .as_built = &Room::as_built,
            .make = &erase::make<Room>};
  for (int i = 0; i < static_cast<int>(kind.parameters.size()); ++i) {
    if (kind.parameters[i].set_by_steps) kind.inputs.push_back(i);
  }
  return kind;
}

}  // namespace poise
