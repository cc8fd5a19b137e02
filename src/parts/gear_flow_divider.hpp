// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/rounded.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Gear flow divider: two to four pairs of gears on one shaft, which therefore all turn at one speed. A
/// section whose outlet is at a lower pressure than the inlet drives, one whose outlet is at a higher
/// pressure is driven and intensifies. The gears have no mass here: the torque left over after dry friction
/// is what the published pressure drop takes at that speed.
struct GearFlowDivider : RoomDefaults {
  static constexpr About about{
      .kind = "gear_flow_divider",
      .sentence =
          "Flow divider of gears on one shaft: splits the flow in the ratio of its sections, and raises the "
          "pressure at one outlet where the others have little.",
      .law =
          "shares s_i = displacement_i/sum; net = Σ s_i·(p_P − p_i), less friction·Σ s_i·|p_P − p_i| against "
          "it; "
          "net = a·Q² + b·Q; Q_i = s_i·Q + leakage_i·(p_P − p_i)/rated_pressure; shaft speed = Q/sum",
      .source =
          "torque balance of positive-displacement sections on one shaft; that an outlet can reach inlet "
          "pressure × number of sections: troubleshooting story on gear dividers in a trade magazine's "
          "e-book"};
  static constexpr std::array parameters{
      Parameter{.name = "sections",
                .quantity = Quantity::displacement,
                .low = 0.05 * si::cm3,
                .high = 1 * si::litre,
                .meaning =
                    "one point per section, A first: its displacement, and what it leaks between inlet and "
                    "outlet at the rated pressure (350 bar if none is given); two to four",
                .source = "the divider's datasheet",
                .against = Quantity::flow,
                .rising = false},
      common::rated_flow_or_curve(),
      common::pressure_drop(10 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      Parameter{
          .name = "friction",
          .quantity = Quantity::share,
          .fallback = 0.03,
          .low = 0.0,
          .high = 0.5,
          .meaning = "dry friction of each section, as a share of the torque of its pressure difference",
          .tolerance = common::friction_of_seals},
      Parameter{.name = "extra_leakage",
                .quantity = Quantity::flow,
                .fallback = 0.0,
                .low = 0.0,
                .high = 50 * si::litre_per_minute,
                .meaning = "what section A leaks beyond its datasheet, at the rated pressure"},
      common::rated_pressure(),
      common::port_volume(5 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "inlet of all sections"},
      Port{.name = "A", .meaning = "outlet of the first section"},
      Port{.name = "B", .meaning = "outlet of the second section"},
      Port{.name = "C",
           .meaning = "outlet of the third section",
           .needed_if_parameter = "sections",
           .needed_if_word = 2},
      Port{.name = "D",
           .meaning = "outlet of the fourth section",
           .needed_if_parameter = "sections",
           .needed_if_word = 3},
  };
  static constexpr std::array outputs{
      Output{"shaft_speed", Quantity::rotation, "speed of the common shaft, positive from P to the outlets"}};
  static constexpr std::array faults{
      Fault{.name = "first section is worn",
            .sentence = "Section A slips: its side lags behind, the more the higher its pressure.",
            .parameter = "extra_leakage",
            .change = Fault::Change::becomes,
            .slight = 50 * si::cm3_per_minute,
            .grave = 2 * si::litre_per_minute},
      Fault{.name = "gears are stiff",
            .sentence = "Dirt or overheating: it takes pressure to turn, and the inlet stands higher.",
            .parameter = "friction",
            .change = Fault::Change::times,
            .slight = 2.0,
            .grave = 10.0},
  };
  static constexpr std::array rules{

      Rule{.name = "divider accuracy",
           .sentence =
               "Leakage of the sections adds up over a stroke: let each side reach its end and catch up."},
  };
  static constexpr std::array care{upkeep::level_checked};
  static constexpr auto sketch = [](std::size_t sections) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    const double last = 5.0 * static_cast<double>(sections - 1);
    for (std::size_t i = 0; i < sections; ++i) {
      const double x = 5.0 * static_cast<double>(i);
      s.add(circle(x, 0, 2), filled(x, 2, 1, 90), filled(x, -0.92, 1, 90), line(x, 2, x, 3),
            line(x, -3, x, -2));
      if (x < last) s.add(shaft(x + 2, x + 3, 0));
      if (x > 0 && x < last) s.add(dot(x, -3));
    }
    s.add(line(0, -3, last, -3), line(5, -4, 5, -3), dot(5, -3), chain(box(-3, -4, last + 3, 3)));
    return s;
  };
  static constexpr auto symbol = sketch(4);
  static constexpr std::array anchors{Anchor{5, -4}, Anchor{0, 3}, Anchor{5, 3}, Anchor{10, 3},
                                      Anchor{15, 3}};
  static std::vector<Stroke> drawn(const Values& v, const Pose&) {
    return pieces::strokes(sketch(v.points("sections").size()));
  }
  static constexpr int oil_ports = 5;
  static constexpr int most_sections = 4;

  int count;
  std::array<double, most_sections> share{};
  std::array<Leak, most_sections> leak{};
  double displacement = 0.0, friction, volume;
  Restriction open;

  GearFlowDivider(const Values& v, const Oil& oil)
      : count(std::min(static_cast<int>(v.points("sections").size()), most_sections)),
        friction(v["friction"]),
        volume(v["port_volume"]),
        open(common::drop_of(v, oil)) {
    const auto points = v.points("sections");
    for (int i = 0; i < count; ++i) displacement += points[i].x;
    for (int i = 0; i < count; ++i) {
      share[i] = points[i].x / displacement;
      const double worn = i == 0 ? v["extra_leakage"] : 0.0;
      leak[i] = Leak::at(points[i].y + worn, common::leakage_pressure(v));
    }
  }

  static std::vector<Mismatch> check(const Values& v) {
    if (v.points("sections").size() <= most_sections) return {};
    return {{"sections", "a divider here has four sections at most; use two dividers in a row for more"}};
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  /// Flow of all sections together, m3/s, positive from P to the outlets.
  template <class H>
  auto turning_flow(const H& here) const {
    using T = std::remove_cvref_t<decltype(here.oil[0].pressure)>;
    constexpr double rounding = 0.05 * si::bar, corner = 1 * si::bar;
    T net(0.0), rub(0.0);
    for (int i = 0; i < count; ++i) {
      const T drop = here.oil[0].pressure - here.oil[1 + i].pressure;
      net += share[i] * drop;
      rub += friction * share[i] * sqrt(drop * drop + T(corner * corner));
    }
    const T left = rounded_positive(T(net - rub), rounding) - rounded_positive(T(-net - rub), rounding);
    return T(open.flow(left, 1.0));
  }
  template <class T>
  Answer<GearFlowDivider, T> law(const Here<GearFlowDivider, T>& here) const {
    const OilHere<T>& in = here.oil[0];
    const T flow = turning_flow(here);
    Answer<GearFlowDivider, T> a;
    for (int i = 0; i < count; ++i) {
      const OilHere<T>& out = here.oil[1 + i];
      const T w = mass_flow(T(share[i] * flow), in, out) +
                  mass_flow(leak[i].flow(T(in.pressure - out.pressure)), in, out);
      a.inflow[0] += w;
      a.inflow[1 + i] = -w;
    }
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {turning_flow(here) / displacement};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
