// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <memory>
#include <span>
#include <vector>

#include "oil/oil.hpp"
#include "parts/dual.hpp"
#include "parts/pose.hpp"
#include "parts/symbol.hpp"
#include "parts/table.hpp"
#include "parts/working.hpp"

namespace poise {

struct Kind;

/// A value that steps may change: on its way from `from` to `to`, of which the share `s` (0…1) is done.
struct Input {
  double from = 0.0;
  double to = 0.0;
  double s = 1.0;
  double now() const { return from + (to - from) * s; }
};

/// Oil at a port: gauge pressure, Pa, and density, kg/m3.
template <class T>
struct OilHere {
  T pressure{};
  T density{};
};

/// The body that a motion port is fixed to: position from retracted, m, and speed, m/s; positive extends.
template <class T>
struct MotionHere {
  T position{};
  T speed{};
};

/// What a law sees: the neighbourhood of one part.
template <class Room, class T>
struct Here {
  std::array<OilHere<T>, Room::oil_ports> oil{};
  std::array<MotionHere<T>, Room::motion_ports> body{};
  std::array<T, Room::states> state{};
  std::array<Input, Room::inputs> input{};
  std::array<bool, Room::modes> mode{};
};

/// What a law returns. Powers are for the energy book, W, plain numbers.
template <class Room, class T>
struct Answer {
  std::array<T, Room::oil_ports> inflow{};    ///< mass flow from the node into the part, kg/s
  std::array<T, Room::motion_ports> force{};  ///< on the body, N, positive extends
  std::array<T, Room::states> rate{};         ///< of the states, 1/s
  double shaft = 0.0;                         ///< mechanical power put in
  double friction = 0.0;                      ///< heat of rubbing and of stops
  double delivered = 0.0;                     ///< power given to the outside world by forces
  double gained = 0.0;  ///< growth of what the part's own states store; power given to its bodies by what
                        ///< flows through it or by a motor, rather than by oil that they sweep
};

inline constexpr int max_oil_ports = 5;
inline constexpr int max_motion_ports = 11;
inline constexpr int max_states = 2;
inline constexpr int max_inputs = 2;
inline constexpr int max_modes = 2;
inline constexpr int max_outputs = 12;
inline constexpr int max_happenings = 4;
inline constexpr int max_answers = max_oil_ports + max_motion_ports + max_states;

/// The spaces of a part: what it adds to the volume and give of the nodes at its oil ports.
struct Space {
  double volume = 0.0;                           ///< at position 0, m3
  double wall = 0.0;                             ///< give of the walls, m3/Pa
  std::array<double, max_motion_ports> swept{};  ///< m3 per metre of each motion port
};

/// What starts where, and how heavy the part's own bodies are.
struct Body {
  double mass = 0.0;              ///< kg that moves with the port
  std::optional<double> start{};  ///< position at the start, m; only the part that owns the body says so
};

/// A reservoir's free surface: its port has p = 0 and the oil in it can run out.
struct FreeSurface {
  double usable = 0.0;  ///< oil that can be drawn, m3, at the start
  double band = 0.0;    ///< last part of it over which the delivery fades, m3
};

/// One room per part kind. A room is a struct of plain numbers made from its parameters, with
///   `about`, `parameters`, `ports`, `state_list`, `mode_list`, `outputs`, `happenings` (static tables),
///   `faults`, `rules`, `adjusting`, `care`, `symbol`, `anchors` (static tables), `drawn(const Values&, const
///   Pose&)` where the drawing differs from `symbol` with the values or the moment, `oil_ports`,
///   `motion_ports`, `states`, `inputs`, `modes` (static counts), `Room(const Values&, const Oil&)`,
///   `check(const Values&)`, `law(Here) → Answer` (templated on the scalar), `report(Here<double>)`,
///   `passing(Here<double>)`, `turning(Here<double>)`, `stored(Here<double>)`, `curves(const Values&, const
///   Oil&)`, `workings(const Values&, const Oil&, const Duty&)`: how its sizes follow from what it went
///   through, `space(port)`, `body(port)`, `start(state)`.
/// `RoomDefaults` supplies the ones that most parts do not need.
struct RoomDefaults {
  static constexpr int motion_ports = 0;
  static constexpr int states = 0;
  static constexpr int inputs = 0;
  static constexpr int modes = 0;
  static constexpr bool warms =
      false;  ///< its first input is a rise of temperature of the volume at its port
  static constexpr std::array<Mode, 0> mode_list{};
  static constexpr std::array<State, 0> state_list{};
  static constexpr std::array<Output, 0> outputs{};
  static constexpr std::array<Happening, 0> happenings{};
  static constexpr std::array<Fault, 0> faults{};
  static constexpr std::array<Rule, 0> rules{};
  static constexpr std::array<Adjusting, 0> adjusting{};
  static constexpr std::array<Care, 0> care{};
  static constexpr std::array<Stroke, 0> symbol{};
  static constexpr std::array<Anchor, 0> anchors{};  ///< one per port
  static std::vector<Mismatch> check(const Values&) { return {}; }
  template <class H>
  std::array<double, 0> report(const H&) const {
    return {};
  }
  template <class H>
  std::array<double, 0> passing(const H&) const {
    return {};
  }  ///< one per happening: it happens as this turns positive
  template <class H>
  std::array<double, 0> turning(const H&) const {
    return {};
  }  ///< one per mode: it turns from what it is as this turns positive; then it must be well negative
  static HeatPath heat_path(const Values&) { return {}; }
  static std::vector<CurveFit> curves(const Values&, const Oil&) { return {}; }
  static std::vector<Working> workings(const Values&, const Oil&, const Duty&) { return {}; }
  /// Parts of one law in a row that this part is made of, and the Kind of each where it is another.
  static int pieces(const Values&) { return 1; }
  static const Kind* as_built(const Values&) { return nullptr; }
  template <class H>
  double stored(const H&) const {
    return 0.0;
  }  ///< springs and height, J
  Body body(int) const { return {}; }
  double start(int) const { return 0.0; }
  FreeSurface free_surface() const { return {}; }
};

}  // namespace poise
