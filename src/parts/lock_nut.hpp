// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/actuator_care.hpp"
#include "parts/loads.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Lock nut on a jack's thread: run down onto the jack's body it carries the load, oil or no oil. Off, it
/// stands clear and goes with the rod; its height is the rod's position at which it would bear.
struct LockNut : RoomDefaults {
  static constexpr std::array<std::string_view, 2> off_on{"off", "on"};
  static constexpr About about{
      .kind = "lock_nut",
      .sentence = "Nut on a jack's thread that is run down by hand and then carries the load without oil.",
      .law =
          "off: height = x − clearance, no force; on: height stays, force = max(0, stiffness·(height − x) + "
          "damping·"
          "speed of approach); it comes off only where it bears nothing (x > height)",
      .source = "one-sided contact; nobody turns a nut under load (common practice)",
      .ramp = "turning_time"};
  static constexpr std::array parameters{
      Parameter{.name = "nut",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning =
                    "off: standing clear; on: run down. Told to come off under load, it stays until the rod "
                    "is lifted off it",
                .words = off_on,
                .set_by_steps = true},
      Parameter{.name = "turning_time",
                .quantity = Quantity::time,
                .fallback = 5.0,
                .low = 0.1,
                .high = 600.0,
                .meaning = "time that a hand takes to run it down or up"},
      Parameter{.name = "clearance",
                .quantity = Quantity::length,
                .fallback = 0.5 * si::mm,
                .low = 0.0,
                .high = 20 * si::mm,
                .meaning = "way that the load sinks before the nut bears, once it is run down"},
      Parameter{.name = "start_height",
                .quantity = Quantity::length,
                .fallback = 0.0,
                .low = 0.0,
                .high = 20.0,
                .meaning = "rod's position at which it bears, where it is on when the job begins"},
      Parameter{.name = "stiffness",
                .quantity = Quantity::spring_rate,
                .fallback = 1e9,
                .low = 1e5,
                .high = 1e12,
                .meaning = "stiffness of thread, nut and jack body"},
      Parameter{.name = "damping",
                .quantity = Quantity::damping,
                .low = 0.0,
                .high = 1e10,
                .meaning = "force per speed of approach; left out, stiffness times 1 ms",
                .optional = true},
  };
  static constexpr auto ports = load_ports;
  static constexpr std::array state_list{State{.name = "height",
                                               .noise = 1e-8,
                                               .meaning = "rod's position at which the nut bears",
                                               .quantity = Quantity::length}};
  static constexpr std::array mode_list{Mode{.name = "locked",
                                             .meaning = "whether the nut is run down",
                                             .on = "is run down",
                                             .off = "is run up and clear"}};
  static constexpr std::array outputs{Output{"force", Quantity::force, "what the nut carries"}};
  static constexpr std::array happenings{Happening{"takes the load"}, Happening{"is free of load"},
                                         Happening{"cannot be turned while it carries the load"}};
  static constexpr std::array faults{Fault{
      .name = "not run down to the body",
      .sentence = "the nut is left high on its thread: nothing shows until oil is lost, then the load drops "
                  "onto it",
      .parameter = "clearance",
      .change = Fault::Change::becomes,
      .slight = 2 * si::mm,
      .grave = 20 * si::mm,
      .comes = Comes::after_work}};
  static constexpr std::array rules{

      Rule{.name = "lift-before-freeing",
           .sentence =
               "the nut comes off only after the jack has lifted the load off it: keep stroke and pressure "
               "for that"}};
  static constexpr std::array care{upkeep::nut_thread};
  static constexpr auto sketch = [](bool locked) {
    using namespace stroke;
    using namespace pieces;
    const double nut = locked ? 0.0 : 1.0;
    return join(box(-1, 1.5, 7, 2.5), box(nut, 0, nut + 2, 4), line(0, -1, 0, 5), line(0, 5, -1, 4),
                line(0, 3.5, -1, 2.5), line(0, 0.75, -1, -0.25), line(3.5, 1.5, 4, 2.5),
                line(4.25, 1.5, 4.75, 2.5), line(5, 1.5, 5.5, 2.5), line(5.75, 1.5, 6.25, 2.5));
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{7, 2}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    return pieces::strokes(sketch(pose.mode_or(0, false)));
  }
  static constexpr int oil_ports = 0, motion_ports = 1, states = 1, inputs = 1, modes = 1;
  /// Time constant with which a nut that is off goes with its rod, s.
  static constexpr double going_along = 1 * si::ms;

  double clearance, start_height, stiffness, damping;

  LockNut(const Values& v, const Oil&)
      : clearance(v["clearance"]),
        start_height(v["start_height"]),
        stiffness(v["stiffness"]),
        damping(v.given("damping") ? v["damping"] : stiffness * si::ms) {}

  /// How far the rod has pressed the nut into its seat, m; negative: clear of it.
  template <class T>
  static T depth(const Here<LockNut, T>& here) {
    return here.state[0] - here.body[0].position;
  }
  template <class T>
  T carried(const Here<LockNut, T>& here) const {
    if (!here.mode[0]) return T(0.0);
    return contact(depth(here), T(-here.body[0].speed), stiffness, damping);
  }
  template <class T>
  Answer<LockNut, T> law(const Here<LockNut, T>& here) const {
    Answer<LockNut, T> a;
    a.force[0] = carried(here);
    if (here.mode[0]) {
      a.friction = contact_heat(value_of(depth(here)), -value_of(here.body[0].speed), stiffness, damping);
    } else {
      a.rate[0] = (here.body[0].position - clearance - here.state[0]) * (1.0 / going_along);
    }
    return a;
  }
  /// Run down once the hand is nearly done; up again once it has begun and nothing bears.
  template <class H>
  std::array<double, 1> turning(const H& here) const {
    constexpr double done = 0.95, begun = 0.5;
    const double hand = here.input[0].now();
    if (!here.mode[0]) return {hand - done};
    return {std::min(begun - hand, -depth(here) / (0.1 * si::mm))};
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {carried(here)};
  }
  template <class H>
  std::array<double, 3> passing(const H& here) const {
    if (!here.mode[0]) return {-1.0, -1.0, -1.0};
    const double deep = depth(here);
    return {deep, -deep, std::min(0.5 - here.input[0].now(), deep)};
  }
  template <class H>
  double stored(const H& here) const {
    const double deep = here.mode[0] ? std::max(depth(here), 0.0) : 0.0;
    return 0.5 * stiffness * deep * deep;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {}; }
  double start(int) const { return start_height; }
};

}  // namespace poise
