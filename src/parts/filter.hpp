// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/line_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Filter: a housing (turbulent) and an element (laminar, since its pores are tiny) whose open face shrinks
/// as it clogs, and past it a bypass check where one is fitted.
struct Filter : RoomDefaults {
  static constexpr About about{
      .kind = "filter",
      .sentence = "Filter: holds back dirt, resists the more the fuller it is, and has a bypass if fitted.",
      .law =
          "drop = a·Q² + b·(1 − torn)/(1 − clogging)·Q, b from element_share of the clean drop; the bypass "
          "opens "
          "over half its bypass_pressure above that and passes the rated flow there",
      .source = "Darcy's law through the open part of the element; the bypass as one law of opening, no lag",
      .beside = "[{rated_flow}]\n[bypass {bypass_pressure}]"};
  static constexpr std::array parameters{
      common::rated_flow_or_curve(),
      common::pressure_drop(1 * si::bar),
      Parameter{.name = "element_share",
                .quantity = Quantity::share,
                .fallback = 0.7,
                .low = 0.05,
                .high = 1.0,
                .meaning =
                    "share of the clean drop at the rated flow that the element takes, laminar; not counted "
                    "with drop_curve, which shows it by its shape"},
      common::drop_curve(),
      common::measured_viscosity(),
      // Until its flag comes up the element's drop grows to three times that of the clean one.
      Parameter{
          .name = "clogging",
          .quantity = Quantity::share,
          .fallback = 0.0,
          .low = 0.0,
          .high = 0.995,
          .meaning =
              "share of the element's face that dirt has closed: 0.8 makes its drop five times as great",
          .set_by_steps = true,
          .tolerance = {0.0, 2.0 / 3.0, Tolerance::Of::rest}},
      Parameter{.name = "torn",
                .quantity = Quantity::share,
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "share of the element that is torn or missing"},
      Parameter{.name = "bypass_pressure",
                .quantity = Quantity::pressure,
                .low = 0.2 * si::bar,
                .high = 20 * si::bar,
                .meaning = "pressure difference at which the bypass cracks; left out, there is none",
                .source = "the filter's datasheet; 1.7 to 3.5 bar for return filters (from memory)",
                .optional = true},
      Parameter{.name = "collapse_pressure",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 500 * si::bar,
                .meaning = "pressure difference at which the element gives way; left out, it is not watched",
                .source = "the filter's datasheet; 10 to 210 bar common practice",
                .optional = true},
      common::rated_pressure(),
      common::port_volume(50 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "dirty side"},
      Port{.name = "B", .meaning = "clean side"},
  };
  static constexpr std::array outputs{
      Output{"drop", Quantity::pressure, "pressure difference, as its indicator shows it"},
      Output{"unfiltered", Quantity::flow, "flow past the element through the bypass"},
  };
  static constexpr std::array happenings{
      Happening{"bypass opens"},
      Happening{"element is pressed flat"},
  };
  static constexpr std::array faults{
      Fault{.name = "clogged",
            .sentence = "The element is full: slow when cold, its drop flag up; in a tank line the back "
                        "pressure raises every relief and holds springs back.",
            .parameter = "clogging",
            .change = Fault::Change::becomes,
            .slight = 0.8,
            .grave = 0.98,
            .source = "idea: notes on filter bypass; sizes common practice"},
      Fault{.name = "element has collapsed",
            .sentence = "A torn element or one left out: nothing shows at once, valves stick weeks later.",
            .parameter = "torn",
            .change = Fault::Change::becomes,
            .slight = 0.3,
            .grave = 1.0,
            .source = "notes on filter bypass and a collapsed return filter",
            .comes = Comes::suddenly},
  };
  static constexpr std::array rules{
      Rule{.name = "filter bypass cold",
           .sentence =
               "The drop with the coldest oil and the greatest return flow stays below the bypass pressure, "
               "and a clogging indicator is fitted.",
           .source = "notes on filter bypass; 1.7 to 3.5 bar from memory"},

      Rule{.name = "no filter before the relief",
           .sentence =
               "No filter between a pump and its relief valve: clogged, it leaves the pump without one.",
           .source = "ISO 4413 in principle"},

  };
  static constexpr std::array care{upkeep::filter_flag, upkeep::filter_element};
  static constexpr auto sketch = [](bool bypass) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(diamond(), dashed(line(-2.83, 0, 2.83, 0)));
    if (bypass)
      s.add(sprung_check_up(4, -0.5), path(0, -3.5, 4, -3.5, 4, -2.5), path(4, 2, 4, 3.5, 0, 3.5),
            dot(0, -3.5), dot(0, 3.5));
    return s;
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{0, -4}, Anchor{0, 4}};
  static std::vector<Stroke> drawn(const Values& v, const Pose&) {
    return pieces::strokes(sketch(v.given("bypass_pressure")));
  }
  static constexpr int oil_ports = 2, inputs = 1;

  Restriction clean;
  double whole;             ///< share of the element that is not torn
  double bypass, collapse;  ///< no_limit where there is none
  double volume;
  Restriction past;

  Filter(const Values& v, const Oil& oil)
      : clean(clean_in(v, oil)),
        whole(std::max(1.0 - v["torn"], 1e-3)),  // a little is left, so that the flow is smooth about zero
        bypass(v.given("bypass_pressure") ? v["bypass_pressure"] : no_limit),
        collapse(v.given("collapse_pressure") ? v["collapse_pressure"] : no_limit),
        volume(v["port_volume"]) {
    const auto curve = v.points("drop_curve");
    const double flow = curve.empty() ? v["rated_flow"] : curve.back().x;
    if (bypass != no_limit) past = Restriction::through(flow, 1.5 * bypass);
  }

  static Restriction clean_in(const Values& v, const Oil& oil) {
    if (v.given("drop_curve")) return common::drop_of(v, oil);
    const double flow = v["rated_flow"], drop = v["pressure_drop"], linear = v["element_share"];
    const double thicker = v.given("measured_viscosity") ? oil.viscosity() / v["measured_viscosity"] : 1.0;
    return {std::max(1.0 - linear, 1e-3) * drop / (flow * flow), thicker * linear * drop / flow};
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  T past_element(const T& drop) const {
    if (bypass == no_limit) return T(0.0);
    return past.flow(drop, share_of_band(T(drop - bypass), 0.5 * bypass));
  }
  template <class T>
  Answer<Filter, T> law(const Here<Filter, T>& here) const {
    const auto& [in, out] = here.oil;
    const T drop = in.pressure - out.pressure;
    const double open_face = 1.0 - std::clamp(here.input[0].now(), 0.0, 0.995);
    const Restriction element{clean.a, clean.b * whole / open_face};
    Answer<Filter, T> a;
    a.inflow[0] = mass_flow(T(element.flow(drop, 1.0) + past_element(drop)), in, out);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  template <class H>
  std::array<double, 2> report(const H& here) const {
    const double drop = here.oil[0].pressure - here.oil[1].pressure;
    return {drop, past_element(drop)};
  }
  template <class H>
  std::array<double, 2> passing(const H& here) const {
    const double drop = here.oil[0].pressure - here.oil[1].pressure;
    const auto past_limit = [&](double limit) { return limit == no_limit ? -1.0 : drop / limit - 1.0; };
    return {past_limit(bypass), past_limit(collapse)};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
