// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/piston.hpp"

namespace poise {

constexpr Parameter cylinder_bore() {
  return {.name = "bore",
          .quantity = Quantity::length,
          .low = 3 * si::mm,
          .high = 2.0,
          .meaning = "piston diameter",
          .source = "the cylinder's datasheet"};
}
constexpr Parameter cylinder_dead_volume() {
  return {.name = "dead_volume",
          .quantity = Quantity::volume,
          .fallback = 5 * si::cm3,
          .low = 0.1 * si::cm3,
          .high = 50 * si::litre,
          .meaning = "oil behind the piston at the end of its stroke, on each side with oil"};
}

/// Single-acting cylinder: pushes out by oil, comes back by its spring or its load.
struct SingleActingCylinder : RoomDefaults {
  static constexpr About about{
      .kind = "single_acting_cylinder",
      .sentence = "Cylinder that oil pushes out; a spring or the load brings it back.",
      .law =
          "force = p_A·A − (spring_preload + spring_rate·x) − friction − stops; "
          "friction = (friction + seal_friction·p_A·A)·tanh(v/creep_speed) + damping·v",
      .source = "force balance of the piston"};
  static constexpr std::array parameters{
      cylinder_bore(),
      Piston::stroke_line(),
      Piston::spring_preload(),
      Piston::spring_rate(),
      Piston::friction(),
      Piston::seal_friction(),
      Piston::damping_line(),
      Piston::moving_mass(),
      Piston::start_position(),
      cylinder_dead_volume(),
      common::rated_pressure(),
      Piston::creep_speed_line(),
      Piston::stop_stiffness_line(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "oil behind the piston"},
      Port{.name = "rod", .domain = Domain::motion, .meaning = "what it moves", .may_stay_free = true},
  };
  static constexpr std::array outputs{
      Output{"force", Quantity::force, "push on what it moves: pressure force less spring and friction"}};
  static constexpr std::array happenings{Happening{"reaches the end of its stroke"},
                                         Happening{"is fully in"}};
  static constexpr int oil_ports = 1, motion_ports = 1;

  double area, mass, start_at, dead;
  Piston piston;

  SingleActingCylinder(const Values& v, const Oil&)
      : area(circle(v["bore"])),
        mass(v["moving_mass"]),
        start_at(v["start_position"]),
        dead(v["dead_volume"]),
        piston(Piston::from(v, v["stroke"], true)) {}

  static std::vector<Mismatch> check(const Values& v) { return Piston::check(v); }

  template <class T>
  T rub(const Here<SingleActingCylinder, T>& here) const {
    return piston.rub(here.body[0], T(positive(here.oil[0].pressure) * area));
  }
  template <class T>
  Answer<SingleActingCylinder, T> law(const Here<SingleActingCylinder, T>& here) const {
    const T friction = rub(here);
    Answer<SingleActingCylinder, T> a;
    a.force[0] = here.oil[0].pressure * area - friction + piston.ends(here.body[0]);
    const auto body = values_of(here.body[0]);
    a.friction = value_of(friction) * body.speed + piston.stop_heat(body);
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    const double spring = piston.preload + piston.rate * here.body[0].position;
    return {here.oil[0].pressure * area - spring - rub(here)};
  }
  template <class H>
  std::array<double, 2> passing(const H& here) const {
    return piston.at_ends(here.body[0].position);
  }
  template <class H>
  double stored(const H& here) const {
    return piston.stored(here.body[0].position);
  }
  Space space(int) const { return {.volume = dead, .swept = {area, 0.0}}; }
  Body body(int) const { return {.mass = mass, .start = start_at}; }
};

/// Double-acting cylinder: A behind the piston pushes out, B around the rod pulls in.
struct DoubleActingCylinder : RoomDefaults {
  static constexpr About about{
      .kind = "double_acting_cylinder",
      .sentence = "Cylinder that oil pushes both ways.",
      .law =
          "force = p_A·A_A − p_B·A_B − friction − stops, A_B = π/4·(bore² − rod²); "
          "friction = (friction + seal_friction·(p_A·A_A + p_B·A_B))·tanh(v/creep_speed) + damping·v; "
          "the piston seal leaks leakage·(p_A − p_B)/rated_pressure",
      .source = "force balance of the piston"};
  static constexpr std::array parameters{
      cylinder_bore(),
      Parameter{.name = "rod",
                .quantity = Quantity::length,
                .low = 1 * si::mm,
                .high = 1.9,
                .meaning = "rod diameter",
                .source = "the cylinder's datasheet"},
      Piston::stroke_line(),
      Piston::friction(),
      Piston::seal_friction(),
      Piston::damping_line(),
      Piston::moving_mass(),
      Piston::start_position(),
      cylinder_dead_volume(),
      common::rated_pressure(),
      common::leakage("flow past the piston seal at the rated pressure (350 bar if none is given)"),
      Piston::creep_speed_line(),
      Piston::stop_stiffness_line(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "oil behind the piston"},
      Port{.name = "B", .meaning = "oil around the rod"},
      Port{.name = "rod", .domain = Domain::motion, .meaning = "what it moves", .may_stay_free = true},
  };
  static constexpr std::array outputs{Output{
      "force", Quantity::force, "push on what it moves: pressure forces less friction; negative pulls"}};
  static constexpr std::array happenings{Happening{"reaches the end of its stroke"},
                                         Happening{"is fully in"}};
  static constexpr int oil_ports = 2, motion_ports = 1;

  double area_a, area_b, mass, start_at, dead;
  Piston piston;
  Leak leak;

  DoubleActingCylinder(const Values& v, const Oil&)
      : area_a(circle(v["bore"])),
        area_b(circle(v["bore"]) - circle(v["rod"])),
        mass(v["moving_mass"]),
        start_at(v["start_position"]),
        dead(v["dead_volume"]),
        piston(Piston::from(v, v["stroke"], false)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))) {}

  static std::vector<Mismatch> check(const Values& v) {
    auto found = Piston::check(v);
    if (v["rod"] >= v["bore"]) found.push_back({"rod", "the rod is not thinner than the bore"});
    return found;
  }

  template <class T>
  T rub(const Here<DoubleActingCylinder, T>& here) const {
    const T pressing = positive(here.oil[0].pressure) * area_a + positive(here.oil[1].pressure) * area_b;
    return piston.rub(here.body[0], pressing);
  }
  template <class T>
  Answer<DoubleActingCylinder, T> law(const Here<DoubleActingCylinder, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    const T friction = rub(here);
    Answer<DoubleActingCylinder, T> a;
    a.inflow[0] = mass_flow(leak.flow(drop), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    a.force[0] =
        here.oil[0].pressure * area_a - here.oil[1].pressure * area_b - friction + piston.ends(here.body[0]);
    const auto body = values_of(here.body[0]);
    a.friction = value_of(friction) * body.speed + piston.stop_heat(body);
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {here.oil[0].pressure * area_a - here.oil[1].pressure * area_b - rub(here)};
  }
  template <class H>
  std::array<double, 2> passing(const H& here) const {
    return piston.at_ends(here.body[0].position);
  }
  template <class H>
  double stored(const H& here) const {
    return piston.stored(here.body[0].position);
  }
  Space space(int port) const {
    if (port == 0) return {.volume = dead, .swept = {area_a, 0.0}};
    return {.volume = dead + area_b * piston.stroke, .swept = {-area_b, 0.0}};
  }
  Body body(int) const { return {.mass = mass, .start = start_at}; }
};

}  // namespace poise
