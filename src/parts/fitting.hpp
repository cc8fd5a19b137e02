// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/line_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Fitting: elbow, tee, banjo, reducer, as a loss coefficient on a bore with a laminar tail:
/// Δp = (K + K_1/Re)·ρ·v²/2.
struct Fitting : RoomDefaults {
  static constexpr About about{
      .kind = "fitting",
      .sentence = "Fitting: a bend, tee or reducer that resists the flow by its loss coefficient.",
      .law = "drop = (loss + laminar_loss/Re)·density·v²/2, v = Q/(π/4·bore²), Re = v·bore/viscosity",
      .source =
          "loss coefficients; laminar tail of Hooper's two-K form, Chemical Engineering 1981 (from memory)",
      .role = Role::line,
      .beside = "bore {bore}"};
  static constexpr std::array parameters{
      Parameter{.name = "bore",
                .quantity = Quantity::length,
                .low = 0.3 * si::mm,
                .high = 200 * si::mm,
                .meaning = "inner diameter that the loss coefficient counts on"},
      Parameter{.name = "loss",
                .fallback = 1.0,
                .low = 0.01,
                .high = 1000.0,
                .meaning = "loss coefficient K at high Reynolds numbers",
                .source = "tables of fittings; a drilled or screwed elbow about 1 (from memory)"},
      Parameter{.name = "laminar_loss",
                .fallback = 800.0,
                .low = 1.0,
                .high = 1e5,
                .meaning = "K_1: the loss coefficient at low Reynolds numbers is K_1/Re",
                .source = "Hooper: 800 for elbows (from memory)"},
      common::rated_pressure(),
      common::port_volume(0.5 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "one end"},
      Port{.name = "B", .meaning = "other end"},
  };
  static constexpr std::array faults{
      Fault{.name = "wrong or blocked fitting",
            .sentence = "A reducer, a thread tape or a plug remnant in the bore: slow from the first day.",
            .parameter = "bore",
            .change = Fault::Change::times,
            .slight = 0.7,
            .grave = 0.3,
            .comes = Comes::after_work},
  };
  static constexpr std::array rules{

      Rule{.name = "no cracked fittings",
           .sentence = "Never loosen a fitting to let pressure off: oil under the skin is an emergency, to "
                       "hospital at "
                       "once. Bleed by a valve, and local rules for stored energy apply.",
           .source = "fluid power safety alerts; safety article on injection"},
  };
  static constexpr std::array care{upkeep::joint_dry};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(line(-3, 0, -1.5, 0), bow(-1.5, 0, 0, 1.5, -0.5), line(0, 1.5, 0, 3),
                line(-2, -0.75, -2, 0.75), line(-1.5, -0.75, -1.5, 0.75), line(-0.75, 2, 0.75, 2),
                line(-0.75, 1.5, 0.75, 1.5));
  }();
  static constexpr std::array anchors{Anchor{-3, 0}, Anchor{0, 3}};
  static constexpr int oil_ports = 2;

  double loss_per_density;  ///< a/ρ, 1/m4
  double laminar_flow;      ///< Q at which both terms are equal, per viscosity
  Viscosity viscosity;      ///< that of the upstream side counts
  double volume;

  Fitting(const Values& v, const Oil& oil)
      : loss_per_density(0.5 * v["loss"] / (circle(v["bore"]) * circle(v["bore"]))),
        laminar_flow(v["laminar_loss"] / v["loss"] * circle(v["bore"]) / v["bore"]),
        viscosity(oil.viscosity_law()),
        volume(v["port_volume"]) {}

  template <class T>
  Answer<Fitting, T> law(const Here<Fitting, T>& here) const {
    const auto& [in, out] = here.oil;
    const T drop = in.pressure - out.pressure;
    const T a = loss_per_density * (drop > 0.0 ? in.density : out.density);
    const T b = a * laminar_flow * viscosity_at(drop > 0.0 ? in.pressure : out.pressure, viscosity);
    const T flow = 2.0 * drop / (b + sqrt(4.0 * a * magnitude(drop) + b * b));
    Answer<Fitting, T> answer;
    answer.inflow[0] = mass_flow(flow, in, out);
    answer.inflow[1] = -answer.inflow[0];
    return answer;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
