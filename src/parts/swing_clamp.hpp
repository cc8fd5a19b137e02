// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/actuator_care.hpp"
#include "parts/cylinder.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Swing clamp: oil at A pulls the rod in; over the first part of the stroke the arm swings over the
/// workpiece, over the rest it comes down until it meets the workpiece. Back by oil at B, or by a spring.
/// Position runs from 0 (up, swung away) to swing_stroke + clamp_stroke.
struct SwingClamp : RoomDefaults {
  static constexpr std::array<std::string_view, 2> returns{"spring", "oil"};
  static constexpr About about{
      .kind = "swing_clamp",
      .sentence = "Clamp whose arm swings over the workpiece and then presses down on it.",
      .law =
          "force on the piston = p_A·clamp_area − p_B·unclamp_area − spring − friction − stops − workpiece; "
          "the "
          "workpiece pushes back by part_stiffness·(x − part_at); clamp force = that push · arm_factor, "
          "times "
          "1/(1 + k·arm_length) where arm_curve is given, k by least squares through its points; the piston "
          "leaks leakage·(p_A − p_B)/rated_pressure from A to B",
      .source =
          "force balance of the piston; force at the arm by the maker's table (common practice; a published "
          "table of swing clamps fits 1/(1 + 0.0026·length/mm))",
      .role = Role::actuator,
      .beside = "{swing_stroke} + {clamp_stroke}\n{clamp_area}\n[{note}]"};
  static constexpr std::array parameters{
      Parameter{.name = "clamp_area",
                .quantity = Quantity::area,
                .low = 0.1 * si::cm2,
                .high = 500 * si::cm2,
                .meaning = "piston area that pulls the arm down (around the rod)",
                .source = "the clamp's datasheet",
                .tolerance = 0.005},
      Parameter{.name = "return",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "what brings the arm back: a spring, or oil at B",
                .words = returns},
      Parameter{.name = "unclamp_area",
                .quantity = Quantity::area,
                .low = 0.1 * si::cm2,
                .high = 600 * si::cm2,
                .meaning = "piston area that lifts the arm, with oil return (the whole bore)",
                .source = "the clamp's datasheet",
                .optional = true,
                .tolerance = 0.005},
      Parameter{.name = "swing_stroke",
                .quantity = Quantity::length,
                .low = 1 * si::mm,
                .high = 100 * si::mm,
                .meaning = "first part of the stroke, while the arm swings",
                .source = "the clamp's datasheet"},
      Parameter{.name = "clamp_stroke",
                .quantity = Quantity::length,
                .low = 1 * si::mm,
                .high = 200 * si::mm,
                .meaning = "rest of the stroke, straight down",
                .source = "the clamp's datasheet"},
      Parameter{
          .name = "gap",
          .quantity = Quantity::length,
          .low = 0.0,
          .high = 200 * si::mm,
          .meaning =
              "way down after the swing before the arm meets the workpiece; default: half the clamp stroke",
          .optional = true},
      Parameter{.name = "part_stiffness",
                .quantity = Quantity::spring_rate,
                .fallback = 5e7,
                .low = 1e5,
                .high = 1e11,
                .meaning = "stiffness of workpiece and arm under the clamp"},
      Parameter{
          .name = "arm_factor",
          .quantity = Quantity::share,
          .fallback = 1.0,
          .low = 0.1,
          .high = 1.0,
          .meaning =
              "force at the arm's tip over the force of the piston, for this arm's length; leave it at 1 "
              "where arm_curve says so",
          .source = "the clamp's table of force against arm length",
          .tolerance = 0.1},
      Parameter{
          .name = "arm_curve",
          .quantity = Quantity::length,
          .low = 0.0,
          .high = 2.0,
          .meaning = "instead of arm_factor: points of arm length and clamping force, all at one pressure",
          .source = "the clamp's table of force against arm length",
          .optional = true,
          .against = Quantity::force,
          .tolerance = 0.1},
      Parameter{.name = "arm_length",
                .quantity = Quantity::length,
                .low = 0.0,
                .high = 2.0,
                .meaning = "length of this clamp's arm, from the rod's middle to the contact, with arm_curve",
                .optional = true},
      Parameter{.name = "greatest_flow",
                .quantity = Quantity::flow,
                .low = 0.01 * si::litre_per_minute,
                .high = 500 * si::litre_per_minute,
                .meaning = "greatest flow into it while this arm swings; left out, a swing of 0.5 s counts "
                           "as the quickest",
                .source = "the clamp's table of flow against arm length",
                .optional = true},
      common::leakage("flow past the piston from A to B at the rated pressure (350 bar if none is given), "
                      "with oil return"),
      Piston::spring_preload(60.0),
      Piston::spring_rate(1000.0),
      Piston::friction(),
      Piston::seal_friction(),
      Piston::damping_line(),
      Piston::moving_mass(1.0),
      cylinder_dead_volume(),
      common::rated_pressure(),
      Piston::creep_speed_line(),
      Piston::stop_stiffness_line(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "clamp"},
      Port{.name = "B", .meaning = "unclamp", .needed_if_parameter = "return", .needed_if_word = 1},
      Port{.name = "arm", .domain = Domain::motion, .meaning = "the arm itself", .may_stay_free = true},
  };
  static constexpr std::array outputs{
      Output{"clamp_force", Quantity::force, "what the arm's tip presses on the workpiece with"},
      Output{"swung", Quantity::share, "share of the swing that is done"},
  };
  static constexpr std::array happenings{Happening{"has swung"}, Happening{"touches the workpiece"},
                                         Happening{"reaches the end of its stroke"},
                                         Happening{"is fully up"}};
  static constexpr std::array faults{
      Fault{.name = "arm too long or bent",
            .sentence = "A longer arm than the table was read for: less force at the part, and it slams.",
            .parameter = "arm_factor",
            .change = Fault::Change::times,
            .slight = 0.9,
            .grave = 0.5,
            .source = "swing-clamp instructions",
            .comes = Comes::after_work},
      Fault{.name = "friction has grown",
            .sentence = "Bent rod, dry or torn seals: more pressure to move, judder, less force.",
            .parameter = "friction",
            .change = Fault::Change::times,
            .slight = 2.0,
            .grave = 10.0},
      Fault{.name = "return spring weak or broken",
            .sentence = "The arm comes back slowly or not at all, though the line is empty.",
            .parameter = "spring_preload",
            .change = Fault::Change::times,
            .slight = 0.7,
            .grave = 0.0,
            .comes = Comes::suddenly},
      Fault{.name = "piston seal leaks",
            .sentence = "Oil passes from the clamp side to the other: warm, slow, weak once pressed.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 5 * si::cm3_per_minute,
            .grave = 500 * si::cm3_per_minute},
  };
  static constexpr std::array rules{

      Rule{.name = "vent breathes",
           .sentence = "The spring side of a single-acting clamp breathes: pipe its vent out of the coolant.",
           .source = "swing-clamp instructions"},

      Rule{
          .name = "hands out",
          .sentence =
              "Gaps at a clamp of 6 mm at most, or two-hand control or a guard: fingers. Local rules decide.",
          .source = "workholding design page; figure from memory"},
  };
  static constexpr std::array care{upkeep::clamp_clean, upkeep::clamp_arm, upkeep::clamp_force,
                                   upkeep::rod_seal};
  static constexpr auto sketch = [](bool by_oil, double down) {
    using namespace stroke;
    using namespace pieces;
    const double piston = 4.25 - 2.75 * down;
    Sketch s;
    s.add(box(0, 0, 4, 7), box(0, piston, 4, piston + 1), box(1.5, piston + 1, 2.5, 9), box(1, 9, 6, 10),
          box(5, 8, 6, 9), path(4, 6, 5, 6, 5, -1), bow(0.25, 8.5, 3.25, 8, -0.75),
          filled(3.9, 8.4, 0.75, 35));
    if (by_oil) {
      s.add(line(1, -1, 1, 0));
    } else {
      s.add(spring(2, 0, 2, piston));
    }
    return s;
  };
  static constexpr auto symbol = sketch(true, 0.0);
  static constexpr std::array anchors{Anchor{5, -1}, Anchor{1, -1}, Anchor{6, 9}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    const double stroke = v["swing_stroke"] + v["clamp_stroke"];
    return pieces::strokes(sketch(v.word("return") == 1, pose.share(0, stroke, 0.0)));
  }
  static constexpr int oil_ports = 2, motion_ports = 1;

  bool by_oil;
  double area, back_area, swing, part_at, part_stiffness, arm_factor, mass, dead;
  Leak leak;
  Piston piston;

  SwingClamp(const Values& v, const Oil&)
      : by_oil(v.word("return") == 1),
        area(v["clamp_area"]),
        back_area(by_oil ? v["unclamp_area"] : 0.0),
        swing(v["swing_stroke"]),
        part_at(swing + (v.given("gap") ? v["gap"] : 0.5 * v["clamp_stroke"])),
        part_stiffness(v["part_stiffness"]),
        arm_factor(v["arm_factor"] * derating(v)),
        mass(v["moving_mass"]),
        dead(v["dead_volume"]),
        leak(Leak::at(by_oil ? v["leakage"] : 0.0, common::leakage_pressure(v))),
        piston(Piston::from(v, v["swing_stroke"] + v["clamp_stroke"], !by_oil)) {}

  static std::vector<Mismatch> check(const Values& v);
  /// Force at the tip of this arm over that of an arm of no length, by the clamp's table; 1 without one.
  static double derating(const Values& v);
  static std::vector<CurveFit> curves(const Values& v, const Oil&);

  double part_damping() const { return part_stiffness * si::ms; }

  template <class T>
  T rub(const Here<SwingClamp, T>& here) const {
    const T pressing = positive(here.oil[0].pressure) * area + positive(here.oil[1].pressure) * back_area;
    return piston.rub(here.body[0], pressing);
  }
  template <class T>
  T press(const MotionHere<T>& arm) const {
    return contact(T(arm.position - part_at), arm.speed, part_stiffness, part_damping());
  }
  template <class T>
  Answer<SwingClamp, T> law(const Here<SwingClamp, T>& here) const {
    const T friction = rub(here);
    Answer<SwingClamp, T> a;
    a.force[0] = here.oil[0].pressure * area - here.oil[1].pressure * back_area - friction +
                 piston.ends(here.body[0]) - press(here.body[0]);
    a.inflow[0] =
        mass_flow(leak.flow(T(here.oil[0].pressure - here.oil[1].pressure)), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    const auto arm = values_of(here.body[0]);
    a.friction = value_of(friction) * arm.speed + piston.stop_heat(arm) +
                 contact_heat(arm.position - part_at, arm.speed, part_stiffness, part_damping());
    return a;
  }
  template <class H>
  std::array<double, 2> report(const H& here) const {
    return {press(here.body[0]) * arm_factor, std::clamp(here.body[0].position / swing, 0.0, 1.0)};
  }
  template <class H>
  std::array<double, 4> passing(const H& here) const {
    const double x = here.body[0].position;
    return {x - swing, x - part_at, x - piston.stroke, -x};
  }
  template <class H>
  double stored(const H& here) const {
    const double deep = std::max(here.body[0].position - part_at, 0.0);
    return piston.stored(here.body[0].position) + 0.5 * part_stiffness * deep * deep;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int port) const {
    if (port == 0) return {.volume = dead, .swept = {area, 0.0}};
    return {.volume = dead + back_area * piston.stroke, .swept = {-back_area, 0.0}};
  }
  Body body(int) const { return {.mass = mass, .start = 0.0}; }
};

}  // namespace poise
