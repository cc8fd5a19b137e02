// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/drive_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Hand pump, one stage, as a mean flow: volume per stroke times stroke rate, less what slips back at each
/// stroke. Its own suction and delivery balls let nothing run back.
struct HandPump : RoomDefaults {
  static constexpr About about{
      .kind = "hand_pump",
      .sentence =
          "Pump worked by hand: volume per stroke times strokes per minute, with the effort at the handle.",
      .law =
          "w_P = density_S · rate·stroke_volume·(1 − (1 − volumetric_efficiency)·(p_P − "
          "p_S)/rated_pressure); "
          "handle force = (p_P − p_S)·stroke_volume/(handle_travel·handle_efficiency)",
      .source = "work balance over one stroke",
      .role = Role::source,
      .ramp = "hand_time",
      .beside = "{stroke_volume}"};
  static constexpr std::array parameters{
      Parameter{.name = "stroke_volume",
                .quantity = Quantity::stroke_volume,
                .low = 0.05 * si::cm3,
                .high = 200 * si::cm3,
                .meaning = "oil delivered per full stroke",
                .source = "the pump's datasheet",
                .tolerance = common::delivery_of_pumps},
      Parameter{.name = "rate",
                .quantity = Quantity::stroke_rate,
                .fallback = 0.0,
                .low = 0.0,
                .high = 120 * si::per_minute,
                .meaning = "strokes per minute while pumping",
                .set_by_steps = true},
      Parameter{.name = "volumetric_efficiency",
                .quantity = Quantity::share,
                .fallback = 0.95,
                .low = 0.3,
                .high = 1.0,
                .meaning = "share of the stroke still delivered at the rated pressure",
                .tolerance = common::loss_up_to_twice},
      Parameter{.name = "rated_pressure",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 1500 * si::bar,
                .meaning = "highest outlet pressure",
                .source = "the pump's datasheet"},
      Parameter{.name = "handle_travel",
                .quantity = Quantity::length,
                .fallback = 0.45,
                .low = 0.05,
                .high = 1.5,
                .meaning = "path of the hand in the delivering half of a stroke"},
      Parameter{.name = "handle_efficiency",
                .quantity = Quantity::share,
                .fallback = 0.85,
                .low = 0.3,
                .high = 1.0,
                .meaning = "share of the hand's work that reaches the oil"},
      Parameter{.name = "hand_time",
                .quantity = Quantity::time,
                .fallback = 0.5,
                .low = 0.0,
                .high = 10.0,
                .meaning = "time to get into and out of the rhythm"},
      common::port_volume(5 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "S", .meaning = "suction"},
      Port{.name = "P", .meaning = "pressure outlet"},
  };
  static constexpr std::array outputs{
      Output{"handle_force", Quantity::force, "effort at the handle in the delivering stroke"},
      Output{"delivery", Quantity::flow, "mean volume flow into the pressure line"},
  };
  static constexpr std::array faults{
      Fault{.name = "ball leaks",
            .sentence =
                "suction or delivery ball does not seat: part of each stroke is lost; the handle rises by "
                "itself (delivery) or the pump does not fill (suction)",
            .parameter = "stroke_volume",
            .slight = 0.8,
            .grave = 0.1},
      Fault{
          .name = "seal worn",
          .sentence = "oil slips past the piston the more the higher the pressure: more strokes near the top",
          .parameter = "volumetric_efficiency",
          .slight = 0.9,
          .grave = 0.6},
  };
  static constexpr std::array rules{

      Rule{.name = "hand-pump-position",
           .sentence = "used upright its hose end points down, else it pumps air",
           .source = "safety pages on lifting tools"},

  };
  static constexpr std::array care{upkeep::hand_pump_dry, upkeep::oil_level};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(pump_circle(0, 0), leads(0, 0), line(3, 0, 6, 0), line(5, -2, 7.25, 2.5),
                circle(7.45, 2.9, 0.45));
  }();
  static constexpr std::array anchors{Anchor{0, -4}, Anchor{0, 4}};
  static constexpr int oil_ports = 2, inputs = 1;

  double stroke, slip, lever, volume;

  HandPump(const Values& v, const Oil&)
      : stroke(v["stroke_volume"]),
        slip((1.0 - v["volumetric_efficiency"]) / v["rated_pressure"]),
        lever(v["stroke_volume"] / (v["handle_travel"] * v["handle_efficiency"])),
        volume(v["port_volume"]) {}

  template <class T>
  T delivery(const Here<HandPump, T>& here) const {
    return here.input[0].now() * stroke *
           positive(T(1.0 - slip * (here.oil[1].pressure - here.oil[0].pressure)));
  }
  template <class T>
  Answer<HandPump, T> law(const Here<HandPump, T>& here) const {
    Answer<HandPump, T> a;
    a.inflow[0] = here.oil[0].density * delivery(here);
    a.inflow[1] = -a.inflow[0];
    a.shaft = here.input[0].now() * stroke * value_of(here.oil[1].pressure - here.oil[0].pressure);
    return a;
  }
  template <class H>
  std::array<double, 2> report(const H& here) const {
    const bool pumping = here.input[0].now() > 0.0;
    return {pumping ? lever * (here.oil[1].pressure - here.oil[0].pressure) : 0.0, delivery(here)};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
