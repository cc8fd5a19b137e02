// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// What an actuator moves. A load is joined to a cylinder's rod by a line; several may sit on one rod.
inline constexpr std::array load_ports{
    Port{.name = "rod", .domain = Domain::motion, .meaning = "the rod it sits on"},
};

/// A mass with its weight.
struct MassLoad : RoomDefaults {
  static constexpr About about{
      .kind = "mass",
      .sentence = "A mass on a rod, with its weight: lifted, pushed along a slope, or hanging.",
      .law = "adds its mass to the rod; force = −mass·g·sin(slope)",
      .source = "standard gravity 9.80665 m/s2 (ISO 80000-3)",
      .beside = "{mass}\n[{note}]"};
  static constexpr std::array parameters{
      Parameter{.name = "mass",
                .quantity = Quantity::mass,
                .low = 0.001,
                .high = 2e6,
                .meaning = "mass that moves",
                .tolerance = 0.05},
      Parameter{.name = "slope",
                .quantity = Quantity::angle,
                .fallback = 90 * si::degree,
                .low = -90 * si::degree,
                .high = 90 * si::degree,
                .meaning = "way of extension: 90 deg lifts, 0 moves level, −90 deg lets down"},
  };
  static constexpr auto ports = load_ports;
  static constexpr std::array faults{
      Fault{
          .name = "heavier than stated",
          .sentence =
              "the load weighs more than its papers say, or has shifted towards this point: its gauge reads "
              "more",
          .parameter = "mass",
          .slight = 1.1,
          .grave = 1.5,
          .comes = Comes::after_work},
      Fault{.name = "lighter than stated",
            .sentence = "the load has shifted away from this point: its gauge reads less, it rises first",
            .parameter = "mass",
            .slight = 0.9,
            .grave = 0.5,
            .comes = Comes::after_work},
  };
  static constexpr std::array rules{

      Rule{.name = "follow-with-blocks",
           .sentence = "blocks follow a lifted load all the way, 10 to 25 mm below it; nobody goes under it"},
  };
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(box(0, 0, 4, 4), line(-1, 2, 0, 2), dot(2, 2), arrow(2, 2, 2, -2));
  }();
  static constexpr std::array anchors{Anchor{-1, 2}};
  static constexpr int oil_ports = 0, motion_ports = 1;

  double mass, weight;

  MassLoad(const Values& v, const Oil&)
      : mass(v["mass"]), weight(mass * si::gravity * std::sin(v["slope"])) {}

  template <class T>
  Answer<MassLoad, T> law(const Here<MassLoad, T>&) const {
    Answer<MassLoad, T> a;
    a.force[0] = T(-weight);
    return a;
  }
  template <class H>
  double stored(const H& here) const {
    return weight * here.body[0].position;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {}; }
  Body body(int) const { return {.mass = mass}; }
};

/// A force from outside, against extension; steps may change it.
struct ForceLoad : RoomDefaults {
  static constexpr About about{
      .kind = "force",
      .sentence = "A force from outside on a rod: cutting, pressing, a weight that is put on.",
      .law = "force = −force, positive against extension",
      .source = "definition",
      .ramp = "change_time",
      .beside = "[{note}]"};
  static constexpr std::array parameters{
      Parameter{.name = "force",
                .quantity = Quantity::force,
                .low = -1e8,
                .high = 1e8,
                .meaning = "force against extension; negative pulls the rod out",
                .set_by_steps = true,
                .tolerance = 0.05},
      Parameter{.name = "change_time",
                .quantity = Quantity::time,
                .fallback = 0.05,
                .low = 0.0,
                .high = 1000.0,
                .meaning = "time that a change of the force takes"},
  };
  static constexpr auto ports = load_ports;
  static constexpr std::array outputs{Output{"force", Quantity::force, "the force at this moment"}};
  static constexpr std::array faults{
      Fault{.name = "greater than reckoned",
            .sentence =
                "blunt tool, hard spot or wrong feed: the force from outside is greater than the sheet says",
            .parameter = "force",
            .slight = 1.1,
            .grave = 2.0,
            .comes = Comes::after_work}};
  static constexpr std::array rules{Rule{
      .name = "clamp-force-margin",
      .sentence = "forces of cutting are taken at their worst, and what holds them has at least twice that",
      .source = "workholding design pages: safety factor of 2 or more"}};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(line(-1, 2, 0, 2), line(0, 0.5, 0, 3.5), arrow(5, 2, 0, 2));
  }();
  static constexpr std::array anchors{Anchor{-1, 2}};
  static constexpr int oil_ports = 0, motion_ports = 1, inputs = 1;

  ForceLoad(const Values&, const Oil&) {}

  template <class T>
  Answer<ForceLoad, T> law(const Here<ForceLoad, T>& here) const {
    Answer<ForceLoad, T> a;
    a.force[0] = T(-here.input[0].now());
    a.delivered = here.input[0].now() * value_of(here.body[0].speed);
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {here.input[0].now()};
  }
  Space space(int) const { return {}; }
};

/// A spring that the rod runs into: a workpiece, a stop, a stack of discs.
struct SpringLoad : RoomDefaults {
  static constexpr About about{
      .kind = "spring",
      .sentence = "A spring or stiff stop that the rod meets after some free travel; it only pushes back.",
      .law =
          "force = −max(0, rate·depth + damping·v), depth = x − free_travel; preload acts from the first "
          "touch over "
          "0.01 mm",
      .source = "one-sided spring",
      .beside = "{rate}\n[{note}]"};
  static constexpr std::array parameters{
      Parameter{.name = "rate",
                .quantity = Quantity::spring_rate,
                .low = 1.0,
                .high = 1e11,
                .meaning = "stiffness",
                .tolerance = 0.05},
      Parameter{.name = "free_travel",
                .quantity = Quantity::length,
                .fallback = 0.0,
                .low = 0.0,
                .high = 20.0,
                .meaning = "extension before the rod meets it"},
      Parameter{.name = "preload",
                .quantity = Quantity::force,
                .fallback = 0.0,
                .low = 0.0,
                .high = 1e8,
                .meaning = "force at the first touch",
                .tolerance = 0.05},
      Parameter{.name = "damping",
                .quantity = Quantity::damping,
                .fallback = 1000.0,
                .low = 0.0,
                .high = 1e9,
                .meaning = "force per speed while it is being pressed"},
  };
  static constexpr auto ports = load_ports;
  static constexpr std::array outputs{Output{"force", Quantity::force, "what it pushes back with"}};
  static constexpr std::array happenings{Happening{"is met"}};
  static constexpr std::array faults{
      Fault{.name = "softer than reckoned",
            .sentence = "a thin wall, a chip or a broken disc: it gives more than the drawing says",
            .parameter = "rate",
            .slight = 0.7,
            .grave = 0.1,
            .comes = Comes::after_work},
      Fault{.name = "not where it should be",
            .sentence = "the workpiece lies low or is missing: the rod meets it late or runs to its end",
            .parameter = "free_travel",
            .change = Fault::Change::plus,
            .slight = 1 * si::mm,
            .grave = 20 * si::mm,
            .comes = Comes::after_work},
  };
  static constexpr std::array rules{
      Rule{.name = "not-at-full-stroke",
           .sentence =
               "what is met is met before the end of the stroke, with some to spare: a rod on its own stop "
               "presses on nothing",
           .source = "workholding design pages: never at full stroke"}};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(line(-1, 2, 0, 2), line(0, 0.75, 0, 3.25), spring(0, 2, 4, 2), line(4, 0, 4, 4),
                line(4, 4, 5, 3), line(4, 3, 5, 2), line(4, 2, 5, 1), line(4, 1, 5, 0));
  }();
  static constexpr std::array anchors{Anchor{-1, 2}};
  static constexpr int oil_ports = 0, motion_ports = 1;
  static constexpr double seating = 0.01 * si::mm;

  double rate, free_travel, preload, damping;

  SpringLoad(const Values& v, const Oil&)
      : rate(v["rate"]), free_travel(v["free_travel"]), preload(v["preload"]), damping(v["damping"]) {}

  template <class T>
  T push(const MotionHere<T>& rod) const {
    const T depth = rod.position - free_travel;
    return contact(depth, rod.speed, rate, damping) + preload * share_of_band(depth, seating);
  }
  template <class T>
  Answer<SpringLoad, T> law(const Here<SpringLoad, T>& here) const {
    Answer<SpringLoad, T> a;
    a.force[0] = -push(here.body[0]);
    const auto rod = values_of(here.body[0]);
    a.friction = contact_heat(rod.position - free_travel, rod.speed, rate, damping);
    // The seating of the preload is a spring too; over its hundredth of a millimetre its work counts as
    // delivered.
    a.delivered = preload * share_of_band(rod.position - free_travel, seating) * rod.speed;
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {push(here.body[0])};
  }
  template <class H>
  std::array<double, 1> passing(const H& here) const {
    return {here.body[0].position - free_travel};
  }
  template <class H>
  double stored(const H& here) const {
    const double depth = std::max(here.body[0].position - free_travel, 0.0);
    return 0.5 * rate * depth * depth;
  }
  Space space(int) const { return {}; }
};

}  // namespace poise
