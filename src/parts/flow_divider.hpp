// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/rounded.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Spool flow divider: a spool compares the flows to A and B and throttles the one that runs ahead. Its
/// travel is proportional to the deviation, so the outlet with the lower pressure keeps a little more, up to
/// `error`; below the minimum flow it is too weak to move.
struct FlowDivider : RoomDefaults {
  static constexpr std::array<std::string_view, 2> no_yes{"no", "yes"};
  static constexpr About about{
      .kind = "flow_divider",
      .sentence = "Flow divider with a spool: splits the flow at P between A and B in a fixed ratio.",
      .law =
          "Q_A = ratio·u_A, Q_B = (1 − ratio)·u_B, drop_i = (a·u_i² + b·u_i)/x_i², x_A = 1 − max(y, 0), x_B "
          "= "
          "1 − max(−y, 0); response_time·dy/dt = clamp((u_A² − u_B²)/(4·error·√(ū⁴ + minimum_flow⁴)), −1, 1) "
          "− "
          "y, ū = (u_A + u_B)/2; backwards the same where it combines, else y = 0",
      .source =
          "spool that balances the drops of two fixed orifices, e.g. Merritt, Hydraulic Control Systems "
          "(from "
          "memory); the window below the minimum flow is our own form",
      .beside = "{ratio} to A"};
  static constexpr std::array parameters{
      Parameter{.name = "ratio",
                .quantity = Quantity::share,
                .fallback = 0.5,
                .low = 0.05,
                .high = 0.95,
                .meaning = "share of the flow that goes to A",
                .source = "the valve's datasheet; usual tolerance as the usual error",
                .tolerance = 0.05},
      Parameter{.name = "error",
                .quantity = Quantity::share,
                .fallback = 0.05,
                .low = 0.002,
                .high = 0.5,
                .meaning = "greatest deviation of an outlet's flow, as a share of it, inside the flow window",
                .source = "5 % in print (trade magazine's e-book on fluid-power circuits, book 2)"},
      Parameter{.name = "minimum_flow",
                .quantity = Quantity::flow,
                .low = 1 * si::cm3_per_minute,
                .high = 500 * si::litre_per_minute,
                .meaning = "least flow at P that it divides within its error",
                .source = "the valve's datasheet"},
      Parameter{.name = "combining",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "whether it also holds the ratio of the flows that come back from A and B to P",
                .words = no_yes},
      common::rated_flow_or_curve(),
      common::pressure_drop(10 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      common::response_time(),
      common::leakage(
          "flow past the shut spool to each outlet at the rated pressure (350 bar if none is given)"),
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "inlet"},
      Port{.name = "A", .meaning = "outlet that gets the share `ratio`"},
      Port{.name = "B", .meaning = "outlet that gets the rest"},
  };
  static constexpr std::array state_list{State{"spool", 1e-5, "−1 shuts B, 0 is the middle, 1 shuts A"}};
  static constexpr std::array faults{
      Fault{.name = "split has shifted",
            .sentence = "Wear or dirt at the spool: one side runs ahead, the two are out of level.",
            .parameter = "ratio",
            .change = Fault::Change::plus,
            .slight = 0.05,
            .grave = 0.2,
            .source = "idea: trade magazine's e-book on fluid-power circuits, book 2; sizes common practice"},
      Fault{.name = "spool is sluggish",
            .sentence = "Dirt makes the spool stick: the split wanders after each change of load.",
            .parameter = "error",
            .change = Fault::Change::times,
            .slight = 2.0,
            .grave = 6.0},
  };
  static constexpr std::array care{upkeep::level_checked};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(box(0, 0, 8, 4), line(4, -1, 4, 0.75), path(2, 5, 2, 0.75, 6, 0.75, 6, 5), dot(4, 0.75),
                restriction(2, 2.5), restriction(6, 2.5), arrow(4, 2.5, 5, 2.5), arrow(4, 2.5, 3, 2.5));
  }();
  static constexpr std::array anchors{Anchor{4, -1}, Anchor{2, 5}, Anchor{6, 5}};
  static constexpr int oil_ports = 3, states = 1;

  std::array<double, 2> share;
  double error, least, response, volume;
  bool combines;
  Restriction open;
  Leak leak;

  FlowDivider(const Values& v, const Oil& oil)
      : share{v["ratio"], 1.0 - v["ratio"]},
        error(v["error"]),
        least(v["minimum_flow"]),
        response(v["response_time"]),
        volume(v["port_volume"]),
        combines(v.word("combining") == 1),
        open(common::drop_of(v, oil)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))) {}

  static std::vector<Mismatch> check(const Values& v) {
    if (!v.given("rated_flow") || v["minimum_flow"] < v["rated_flow"]) return {};
    return {{"minimum_flow", "the least flow it divides must be below its rated flow"}};
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  /// Where the spool wants to stand, −1…1, for flows that are each scaled to the whole valve.
  template <class T>
  T wanted(const T& to_a, const T& to_b) const {
    const T u_a = combines ? to_a : positive(to_a), u_b = combines ? to_b : positive(to_b);
    const T mean = 0.5 * (u_a + u_b), square = mean * mean;
    const T z =
        0.25 / error * (u_a * u_a - u_b * u_b) / sqrt(square * square + least * least * least * least);
    return 2.0 * share_of_band(T(z + 1.0), 2.0) - 1.0;
  }
  template <class T>
  Answer<FlowDivider, T> law(const Here<FlowDivider, T>& here) const {
    constexpr double rounding = 0.01;  // of the spool's way, about its middle
    const OilHere<T>& in = here.oil[0];
    const T& spool = here.state[0];
    std::array<T, 2> scaled;
    Answer<FlowDivider, T> a;
    for (int i = 0; i < 2; ++i) {
      const T shut = rounded_positive(T(i == 0 ? spool : -spool), rounding);
      const OilHere<T>& out = here.oil[1 + i];
      const T drop = in.pressure - out.pressure;
      scaled[i] = open.flow(drop, positive(T(1.0 - shut)));
      a.inflow[1 + i] = -mass_flow(T(share[i] * scaled[i] + leak.flow(drop)), in, out);
    }
    a.inflow[0] = -(a.inflow[1] + a.inflow[2]);
    a.rate[0] = (wanted(scaled[0], scaled[1]) - spool) * (1.0 / response);
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
