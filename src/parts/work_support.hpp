// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/actuator_care.hpp"
#include "parts/monotone_curve.hpp"
#include "parts/piston.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Work support: a lift piston (or a spring alone) raises a plunger on a soft contact spring against the
/// workpiece; then the oil locks the plunger, whose holding capacity grows with pressure and acts on it as
/// friction of that size. Positions: `lift` of the piston 0…stroke; `plunger` 0…; contact with the workpiece
/// at `gap`.
struct WorkSupport : RoomDefaults {
  static constexpr std::array<std::string_view, 2> advances{"oil", "spring"};
  static constexpr About about{
      .kind = "work_support",
      .sentence = "Support that rises to the workpiece, touches it softly, and then is locked by oil.",
      .law =
          "plunger: contact_spring·(x_lift − x) + contact_preload − workpiece − (own friction + "
          "capacity(p_A))·tanh(v/creep_speed) − load; capacity = grip·max(0, p_A − "
          "lock_pressure)·capacity_slope, "
          "or grip times capacity_curve, zero below where the line through its first two points meets zero",
      .source = "capacity from the maker's curve, zero at the locking pressure (common practice)",
      .role = Role::actuator,
      .beside = "{stroke}\n[{capacity}]\n[{note}]"};
  static constexpr std::array parameters{
      Parameter{
          .name = "advance",
          .fallback = 0.0,
          .low = 0.0,
          .high = 1.0,
          .meaning = "what raises the plunger: oil, or a spring alone (then it stands up from the start)",
          .words = advances},
      Parameter{.name = "lift_area",
                .quantity = Quantity::area,
                .fallback = 0.8 * si::cm2,
                .low = 0.05 * si::cm2,
                .high = 100 * si::cm2,
                .meaning = "area of the lift piston, with oil advance",
                .tolerance = 0.005},
      Parameter{.name = "stroke",
                .quantity = Quantity::length,
                .fallback = 12 * si::mm,
                .low = 1 * si::mm,
                .high = 100 * si::mm,
                .meaning = "full rise of the lift piston"},
      Parameter{.name = "gap",
                .quantity = Quantity::length,
                .fallback = 8 * si::mm,
                .low = 0.0,
                .high = 100 * si::mm,
                .meaning = "rise of the plunger before it touches the workpiece"},
      Parameter{.name = "contact_preload",
                .quantity = Quantity::force,
                .fallback = 20.0,
                .low = 0.0,
                .high = 5000.0,
                .meaning = "force of the contact spring that holds the plunger up on its piston",
                .tolerance = 0.1},
      Parameter{.name = "contact_rate",
                .quantity = Quantity::spring_rate,
                .fallback = 8000.0,
                .low = 10.0,
                .high = 1e6,
                .meaning = "stiffness of the contact spring",
                .tolerance = 0.1},
      Parameter{.name = "lock_pressure",
                .quantity = Quantity::pressure,
                .fallback = 40 * si::bar,
                .low = 1 * si::bar,
                .high = 400 * si::bar,
                .meaning = "pressure at which the plunger begins to be held",
                .source = "the support's capacity curve; default common practice",
                .tolerance = 0.15},
      Parameter{.name = "capacity",
                .quantity = Quantity::force,
                .low = 100.0,
                .high = 1e6,
                .meaning = "load it holds at capacity_pressure",
                .source = "the support's capacity curve",
                .instead = "capacity_curve",
                .tolerance = 0.1},
      Parameter{.name = "capacity_pressure",
                .quantity = Quantity::pressure,
                .low = 2 * si::bar,
                .high = 1000 * si::bar,
                .meaning = "pressure at which the capacity is stated",
                .source = "the support's capacity curve",
                .instead = "capacity_curve"},
      Parameter{.name = "capacity_curve",
                .quantity = Quantity::pressure,
                .low = 0.0,
                .high = 1000 * si::bar,
                .meaning =
                    "instead of capacity, capacity_pressure and lock_pressure: points of pressure and of the "
                    "load it holds there",
                .source = "the support's datasheet",
                .optional = true,
                .against = Quantity::force,
                .tolerance = 0.1},
      Parameter{.name = "grip",
                .quantity = Quantity::share,
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.5,
                .meaning = "capacity over that of the datasheet: below 1 where oil film or dirt spoils it"},
      Parameter{.name = "part_stiffness",
                .quantity = Quantity::spring_rate,
                .fallback = 5e7,
                .low = 1e5,
                .high = 1e11,
                .meaning = "stiffness of the workpiece above the plunger"},
      Parameter{.name = "plunger_friction",
                .quantity = Quantity::force,
                .fallback = 3.0,
                .low = 0.0,
                .high = 1000.0,
                .meaning = "dry friction of the plunger while it is not locked",
                .tolerance = common::friction_of_seals},
      Piston::spring_preload(25.0),
      Piston::spring_rate(1000.0),
      Piston::friction(),
      Piston::seal_friction(),
      Piston::damping_line(),
      Piston::moving_mass(0.3),
      Parameter{.name = "dead_volume",
                .quantity = Quantity::volume,
                .fallback = 4 * si::cm3,
                .low = 0.1 * si::cm3,
                .high = 1 * si::litre,
                .meaning = "oil in the support when the piston is down"},
      common::rated_pressure(),
      Piston::creep_speed_line(),
      Piston::stop_stiffness_line(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "oil that raises and locks"},
      Port{.name = "plunger",
           .domain = Domain::motion,
           .meaning = "what stands under the workpiece",
           .may_stay_free = true},
      Port{.name = "lift",
           .domain = Domain::motion,
           .meaning = "the lift piston inside",
           .may_stay_free = true},
  };
  static constexpr std::array outputs{
      Output{"capacity", Quantity::force, "load that the locked plunger holds"},
      Output{"touch_force", Quantity::force, "force between plunger and workpiece"},
  };
  static constexpr std::array happenings{Happening{"touches the workpiece"}};
  static constexpr std::array faults{
      Fault{.name = "sleeve does not lock",
            .sentence = "An oil film or dirt between sleeve and plunger: the part sinks under the clamp "
                        "while the gauge "
                        "reads right; a dial indicator shows it.",
            .parameter = "grip",
            .change = Fault::Change::becomes,
            .slight = 0.8,
            .grave = 0.2,
            .comes = Comes::suddenly},
      Fault{
          .name = "plunger stuck down",
          .sentence = "Chips or coolant hold the plunger: it never touches, and the part bends when clamped.",
          .parameter = "plunger_friction",
          .change = Fault::Change::becomes,
          .slight = 20.0,
          .grave = 1000.0,
          .comes = Comes::suddenly},
      Fault{.name = "contact spring weak or lost",
            .sentence = "The plunger touches late or not at all: it locks in the air.",
            .parameter = "contact_preload",
            .change = Fault::Change::times,
            .slight = 0.5,
            .grave = 0.0,
            .comes = Comes::suddenly},
  };
  static constexpr std::array rules{

      Rule{.name = "support along its axis",
           .sentence = "Load along the plunger only; a side force makes it slip.",
           .source = "workholding design page"},
      Rule{.name = "light part",
           .sentence =
               "The contact springs together push less than the part weighs, or than its locators hold."},
  };
  static constexpr std::array care{upkeep::clamp_clean, upkeep::support_rises, upkeep::support_holds};
  static constexpr auto sketch = [](bool by_spring, double lifted, double risen) {
    using namespace stroke;
    using namespace pieces;
    const double piston = 1 + 1.25 * lifted, plunger = 3.5 + risen;
    Sketch s;
    s.add(box(0, 0, 4, 7), box(1.25, plunger, 2.75, 9), filled(1.25, 5.5, 1, 0), filled(2.75, 5.5, 1, 180));
    if (by_spring) {
      s.add(spring(2, 0, 2, plunger), path(1, -2, 1, -1, -1, -1, -1, 5.5, 0, 5.5));
    } else {
      s.add(box(0, piston, 4, piston + 0.75), spring(2, piston + 0.75, 2, plunger), line(1, -2, 1, 0),
            path(1, -1, -1, -1, -1, 5.5, 0, 5.5), dot(1, -1));
    }
    return s;
  };
  static constexpr auto symbol = sketch(false, 0.0, 0.0);
  static constexpr std::array anchors{Anchor{1, -2}, Anchor{2, 9}, Anchor{4, 1}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    const bool by_spring = v.word("advance") == 1;
    const double at_rest = by_spring ? 1.0 : 0.0;
    return pieces::strokes(
        sketch(by_spring, pose.share(1, v["stroke"], at_rest), pose.share(0, v["stroke"], at_rest)));
  }
  static constexpr int oil_ports = 1, motion_ports = 2;

  bool by_spring;
  double area, gap, plunger_friction, contact_preload, contact_rate, lock_pressure, capacity_slope,
      part_stiffness, mass, dead;
  double grip;
  MonotoneCurve capacity_points;  ///< empty: the straight line from the locking pressure
  Piston piston;

  WorkSupport(const Values& v, const Oil&)
      : by_spring(v.word("advance") == 1),
        area(by_spring ? 0.0 : v["lift_area"]),
        gap(v["gap"]),
        plunger_friction(v["plunger_friction"]),
        contact_preload(v["contact_preload"]),
        contact_rate(v["contact_rate"]),
        lock_pressure(locks_at(v)),
        capacity_slope(v["grip"] * v["capacity"] / (v["capacity_pressure"] - v["lock_pressure"])),
        part_stiffness(v["part_stiffness"]),
        mass(v["moving_mass"]),
        dead(v["dead_volume"]),
        grip(v["grip"]),
        capacity_points(capacity_from(v)),
        piston(Piston::from(v, v["stroke"], !by_spring)) {
    // Standing on its spring alone, the lift piston is a fixed seat at full height.
    if (by_spring) piston.dry = 1e5;
  }

  static std::vector<Mismatch> check(const Values& v);

  /// Pressure at which the plunger begins to be held.
  static double locks_at(const Values& v);
  static MonotoneCurve capacity_from(const Values& v);
  static std::vector<CurveFit> curves(const Values& v, const Oil&);

  template <class T>
  T capacity(const T& pressure) const {
    if (!capacity_points.empty()) {
      return pressure > lock_pressure ? T(grip * capacity_points.at(pressure)) : T(0.0);
    }
    return positive(T(pressure - lock_pressure)) * capacity_slope;
  }
  template <class T>
  T touch(const MotionHere<T>& plunger) const {
    return contact(T(plunger.position - gap), plunger.speed, part_stiffness, part_stiffness * si::ms);
  }
  /// The contact spring between lift piston and plunger: pushes the plunger up to its seat on the piston,
  /// one-sided stop there. Positive lifts the plunger.
  template <class T>
  T spring_between(const MotionHere<T>& plunger, const MotionHere<T>& lift) const {
    const T squeezed = lift.position - plunger.position;
    return contact_preload + contact_rate * squeezed -
           contact(T(-squeezed), T(plunger.speed - lift.speed), seat_stiffness(), seat_stiffness() * si::ms);
  }
  double seat_stiffness() const { return 0.1 * piston.stop_stiffness; }

  template <class T>
  Answer<WorkSupport, T> law(const Here<WorkSupport, T>& here) const {
    const auto& [plunger, lift] = here.body;
    const T p = here.oil[0].pressure;
    const T lift_rub = piston.rub(lift, T(positive(p) * area));
    const T hold = rubbing(T(plunger_friction + capacity(p)), plunger.speed, piston.creep_speed, 0.0);
    const T between = spring_between(plunger, lift);
    Answer<WorkSupport, T> a;
    a.force[0] = between - touch(plunger) - hold;
    a.force[1] = p * area - between - lift_rub + piston.ends(lift);
    const auto up = values_of(plunger), below = values_of(lift);
    a.friction = value_of(lift_rub) * below.speed + value_of(hold) * up.speed + piston.stop_heat(below) +
                 contact_heat(up.position - gap, up.speed, part_stiffness, part_stiffness * si::ms) +
                 contact_heat(up.position - below.position, up.speed - below.speed, seat_stiffness(),
                              seat_stiffness() * si::ms);
    return a;
  }
  template <class H>
  std::array<double, 2> report(const H& here) const {
    return {capacity(here.oil[0].pressure), touch(here.body[0])};
  }
  template <class H>
  std::array<double, 1> passing(const H& here) const {
    return {here.body[0].position - gap};
  }
  template <class H>
  double stored(const H& here) const {
    const double squeezed = here.body[1].position - here.body[0].position;
    const double pressed = std::max(here.body[0].position - gap, 0.0), seated = std::max(-squeezed, 0.0);
    return piston.stored(here.body[1].position) + contact_preload * squeezed +
           0.5 * contact_rate * squeezed * squeezed + 0.5 * part_stiffness * pressed * pressed +
           0.5 * seat_stiffness() * seated * seated;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = dead, .swept = {0.0, area}}; }
  Body body(int port) const {
    if (port == 0) return {.mass = mass, .start = by_spring ? std::min(gap, piston.stroke) : 0.0};
    return {.mass = mass, .start = by_spring ? piston.stroke : 0.0};
  }
};

}  // namespace poise
