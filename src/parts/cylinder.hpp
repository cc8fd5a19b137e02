// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/actuator_care.hpp"
#include "parts/cylinder_tables.hpp"
#include "parts/piston.hpp"
#include "parts/rod.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

constexpr Parameter cylinder_bore() {
  return {.name = "bore",
          .quantity = Quantity::length,
          .low = 3 * si::mm,
          .high = 2.0,
          .meaning = "piston diameter",
          .source = "the cylinder's datasheet",
          .series = Series::bores,
          .tolerance = 0.0025};
}
constexpr Parameter cylinder_dead_volume() {
  return {.name = "dead_volume",
          .quantity = Quantity::volume,
          .fallback = 5 * si::cm3,
          .low = 0.1 * si::cm3,
          .high = 50 * si::litre,
          .meaning = "oil behind the piston at the end of its stroke, on each side with oil"};
}

constexpr Parameter cylinder_hole() {
  return {.name = "hole",
          .quantity = Quantity::length,
          .fallback = 0.0,
          .low = 0.0,
          .high = 2.0,
          .meaning =
              "hollow plunger: outer diameter of the sealed tube around the through hole, which comes off "
              "the bore; 0 for a full plunger",
          .source = "the cylinder's datasheet"};
}

constexpr Parameter cylinder_frame_rating() {
  return {.name = "frame_rating",
          .quantity = Quantity::force,
          .low = 1.0,
          .high = 1e9,
          .meaning = "push that the frame or floor it stands in may take; left out, that cannot be checked",
          .source = "the plate of the press or frame",
          .optional = true};
}

/// What does not go together about a rod and a through hole.
std::vector<Mismatch> check_rod(const Values& v);

/// Single-acting cylinder: pushes out by oil, comes back by its spring or its load; or pulls in by oil.
struct SingleActingCylinder : RoomDefaults {
  static constexpr std::array<std::string_view, 2> ways{"push", "pull"};
  static constexpr About about{
      .kind = "single_acting_cylinder",
      .sentence = "Cylinder that oil pushes out, or pulls in; a spring or the load brings it back.",
      .law =
          "push: force = p_A·A − (spring_preload + spring_rate·x) − friction − stops, A = π/4·(bore² − "
          "hole²); "
          "pull: force = −p_A·A + spring_preload + spring_rate·(stroke − x) − friction − stops, A = "
          "π/4·(bore² − "
          "rod²); friction = (friction + seal_friction·p_A·A)·tanh(v/creep_speed) + damping·v; "
          "buckling_load = π²·E·I/(K·L)² where slender, else A_rod·rod_yield·(1 − λ²/(2·λ_c²)), L = "
          "closed_length + x",
      .source = "force balance of the piston; buckling after Euler and J. B. Johnson (parts/buckling.hpp)",
      .role = Role::actuator,
      .beside = "{bore}[/{rod}] × {stroke}\n[{note}]"};
  static constexpr std::array parameters{
      cylinder_bore(),
      Parameter{.name = "acts",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "whether oil at A pushes the rod out or, around the rod, pulls it in (then "
                           "spring_preload is its spring's force with the rod out)",
                .words = ways},
      cylinder_hole(),
      Parameter{.name = "rod",
                .quantity = Quantity::length,
                .low = 2 * si::mm,
                .high = 2.0,
                .meaning = "rod or plunger diameter: for buckling, and for the area of a cylinder that pulls",
                .source = "the cylinder's datasheet",
                .optional = true,
                .series = Series::rods},
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
      cylinder_frame_rating(),
      Rod::ends_line(),
      Rod::closed_length_line(),
      Rod::yield_line(),
      Piston::creep_speed_line(),
      Piston::stop_stiffness_line(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "oil behind the piston; around the rod where it pulls"},
      Port{.name = "rod", .domain = Domain::motion, .meaning = "what it moves", .may_stay_free = true},
  };
  static constexpr std::array outputs{
      Output{"force", Quantity::force,
             "push on what it moves: pressure force less spring and friction; negative pulls"},
      Rod::load_output(), Rod::share_output()};
  static constexpr std::array happenings{Happening{"reaches the end of its stroke"},
                                         Happening{"is fully in"}};
  static constexpr std::array faults{cylinder::friction_up, cylinder::weak_spring, cylinder::wrong_size};
  static constexpr std::array rules{cylinder::marked, cylinder::side_load, cylinder::base_bearing,
                                    cylinder::extension_halves, cylinder::saddle};
  static constexpr std::array care{upkeep::saddle_and_base, upkeep::rod_surface,     upkeep::rod_seal,
                                   upkeep::drift,           upkeep::jack_inspection, upkeep::air_out};
  static constexpr auto sketch = [](bool pulls, bool spring, double out) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(lying_cylinder(out));
    const double piston = 2 + 4 * out;
    if (pulls) {
      s.add(path(1, -1, 1, -0.5, 8, -0.5, 8, 0));
      if (spring) s.add(stroke::spring(0, 2, piston, 2));
    } else {
      s.add(line(1, -1, 1, 0));
      if (spring) s.add(stroke::spring(piston + 1, 3.25, 9, 3.25), stroke::spring(piston + 1, 0.75, 9, 0.75));
    }
    return s;
  };
  static constexpr auto symbol = sketch(false, true, 0.0);
  static constexpr std::array anchors{Anchor{1, -1}, Anchor{12, 2}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    const bool pulls = v.word("acts") == 1, spring = v["spring_preload"] > 0.0 || v["spring_rate"] > 0.0;
    return pieces::strokes(sketch(pulls, spring, pose.share(0, v["stroke"], pulls ? 1.0 : 0.0)));
  }
  static constexpr int oil_ports = 1, motion_ports = 1;

  bool pulls;
  double area, mass, start_at, dead;
  Rod rod;
  Piston piston;

  SingleActingCylinder(const Values& v, const Oil&)
      : pulls(v.word("acts") == 1),
        area(pulls ? circle(v["bore"]) - circle(v["rod"]) : circle(v["bore"]) - circle(v["hole"])),
        mass(v["moving_mass"]),
        start_at(v["start_position"]),
        dead(v["dead_volume"]),
        rod(Rod::from(v)),
        piston(Piston::from(v, v["stroke"], true)) {
    // The spring of one that pulls stands at its preload when the rod is out, and pushes outwards.
    if (pulls) piston.preload = -(piston.preload + piston.rate * piston.stroke);
  }

  static std::vector<Mismatch> check(const Values& v);

  /// Push of the oil on the piston per pressure, m2; negative pulls.
  double reach() const { return pulls ? -area : area; }
  template <class T>
  T rub(const Here<SingleActingCylinder, T>& here) const {
    return piston.rub(here.body[0], T(positive(here.oil[0].pressure) * area));
  }
  template <class T>
  Answer<SingleActingCylinder, T> law(const Here<SingleActingCylinder, T>& here) const {
    const T friction = rub(here);
    Answer<SingleActingCylinder, T> a;
    a.force[0] = here.oil[0].pressure * reach() - friction + piston.ends(here.body[0]);
    const auto body = values_of(here.body[0]);
    a.friction = value_of(friction) * body.speed + piston.stop_heat(body);
    return a;
  }
  template <class H>
  std::array<double, 3> report(const H& here) const {
    const double x = here.body[0].position, spring = piston.preload + piston.rate * x;
    const double push = here.oil[0].pressure * reach() - spring - rub(here);
    return {push, rod.load_at(x), rod.share_at(x, push)};
  }
  template <class H>
  std::array<double, 2> passing(const H& here) const {
    return piston.at_ends(here.body[0].position);
  }
  template <class H>
  double stored(const H& here) const {
    return piston.stored(here.body[0].position);
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const {
    return {.volume = dead + (pulls ? area * piston.stroke : 0.0), .swept = {reach(), 0.0}};
  }
  Body body(int) const { return {.mass = mass, .start = start_at}; }
};

/// Double-acting cylinder: A behind the piston pushes out, B around the rod pulls in.
struct DoubleActingCylinder : RoomDefaults {
  static constexpr About about{
      .kind = "double_acting_cylinder",
      .sentence = "Cylinder that oil pushes both ways.",
      .law =
          "force = p_A·A_A − p_B·A_B − friction − stops, A_A = π/4·(bore² − hole²), A_B = π/4·(bore² − "
          "rod²); "
          "friction = (friction + seal_friction·(p_A·A_A + p_B·A_B))·tanh(v/creep_speed) + damping·v; "
          "the piston seal leaks leakage·(p_A − p_B)/rated_pressure, a gap "
          "π·bore·piston_gap³·(p_A − p_B)/(12·μ·piston_length); "
          "buckling_load = π²·E·I/(K·L)² where slender, else A_rod·rod_yield·(1 − λ²/(2·λ_c²)), L = "
          "closed_length + x",
      .source =
          "force balance of the piston; buckling after Euler and J. B. Johnson (parts/buckling.hpp); "
          "gap: Fox and McDonald, Introduction to Fluid Mechanics, 5th ed.",
      .role = Role::actuator,
      .beside = "{bore}/{rod} × {stroke}\n[{note}]"};
  static constexpr std::array parameters{
      cylinder_bore(),
      Parameter{.name = "rod",
                .quantity = Quantity::length,
                .low = 1 * si::mm,
                .high = 1.9,
                .meaning = "rod diameter",
                .source = "the cylinder's datasheet",
                .series = Series::rods},
      cylinder_hole(),
      Piston::stroke_line(),
      Piston::friction(),
      Piston::seal_friction(),
      Piston::damping_line(),
      Piston::moving_mass(),
      Piston::start_position(),
      cylinder_dead_volume(),
      common::rated_pressure(),
      cylinder_frame_rating(),
      Parameter{
          .name = "rod_side_rated_pressure",
          .quantity = Quantity::pressure,
          .low = 1 * si::bar,
          .high = 1500 * si::bar,
          .meaning = "highest pressure that the rod side may ever see, where the datasheet rates it lower",
          .source = "the cylinder's datasheet",
          .optional = true},
      common::leakage("flow past the piston seal at the rated pressure (350 bar if none is given)"),
      Parameter{
          .name = "piston_gap",
          .quantity = Quantity::length,
          .fallback = 0.0,
          .low = 0.0,
          .high = 2 * si::mm,
          .meaning =
              "clearance all round a piston without a seal, or with one worn away; leaks beside leakage"},
      Parameter{.name = "piston_length",
                .quantity = Quantity::length,
                .fallback = 20 * si::mm,
                .low = 0.5 * si::mm,
                .high = 1.0,
                .meaning = "length of the piston, counted only with piston_gap"},
      Rod::ends_line(),
      Rod::closed_length_line(),
      Rod::yield_line(),
      Piston::creep_speed_line(),
      Piston::stop_stiffness_line(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "oil behind the piston"},
      Port{.name = "B", .meaning = "oil around the rod"},
      Port{.name = "rod", .domain = Domain::motion, .meaning = "what it moves", .may_stay_free = true},
  };
  static constexpr std::array outputs{
      Output{"force", Quantity::force,
             "push on what it moves: pressure forces less friction; negative pulls"},
      Rod::load_output(), Rod::share_output()};
  static constexpr std::array happenings{Happening{"reaches the end of its stroke"},
                                         Happening{"is fully in"}};
  static constexpr std::array faults{cylinder::piston_leak, cylinder::friction_up, cylinder::wrong_size};
  static constexpr std::array rules{cylinder::side_load};
  static constexpr std::array care{upkeep::rod_surface, upkeep::rod_seal, upkeep::drift,
                                   upkeep::mounting_tight, upkeep::air_out};
  static constexpr auto sketch = [](double out) {
    using namespace stroke;
    using namespace pieces;
    return join(lying_cylinder(out), line(1, -1, 1, 0), line(8, -1, 8, 0));
  };
  static constexpr auto symbol = sketch(0.0);
  static constexpr std::array anchors{Anchor{1, -1}, Anchor{8, -1}, Anchor{12, 2}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(pose.share(0, v["stroke"], 0.0)));
  }
  static constexpr int oil_ports = 2, motion_ports = 1;

  double area_a, area_b, mass, start_at, dead;
  Rod rod;
  Piston piston;
  Leak leak;

  DoubleActingCylinder(const Values& v, const Oil& oil)
      : area_a(circle(v["bore"]) - circle(v["hole"])),
        area_b(circle(v["bore"]) - circle(v["rod"])),
        mass(v["moving_mass"]),
        start_at(v["start_position"]),
        dead(v["dead_volume"]),
        rod(Rod::from(v)),
        piston(Piston::from(v, v["stroke"], false)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))) {
    const double viscosity = oil.viscosity() * oil.density_at_zero();
    leak.k += Leak::past(v["bore"], v["piston_gap"], v["piston_length"], viscosity).k;
  }

  static std::vector<Mismatch> check(const Values& v);

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
  std::array<double, 3> report(const H& here) const {
    const double x = here.body[0].position;
    const double push = here.oil[0].pressure * area_a - here.oil[1].pressure * area_b - rub(here);
    return {push, rod.load_at(x), rod.share_at(x, push)};
  }
  template <class H>
  std::array<double, 2> passing(const H& here) const {
    return piston.at_ends(here.body[0].position);
  }
  template <class H>
  double stored(const H& here) const {
    return piston.stored(here.body[0].position);
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int port) const {
    if (port == 0) return {.volume = dead, .swept = {area_a, 0.0}};
    return {.volume = dead + area_b * piston.stroke, .swept = {-area_b, 0.0}};
  }
  Body body(int) const { return {.mass = mass, .start = start_at}; }
};

}  // namespace poise
