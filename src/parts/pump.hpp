// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Fixed-displacement pump on an electric motor: w = ρ_suction·(n·D − k·Δp), with ρ_outlet while that is
/// negative. k from the volumetric efficiency at the rated pressure. Shaft power n·D·Δp.
struct Pump : RoomDefaults {
  static constexpr std::array<std::string_view, 2> off_on{"off", "on"};
  static constexpr About about{
      .kind = "pump",
      .sentence =
          "Fixed-displacement pump driven by an electric motor: a flow that hardly minds the pressure.",
      .law = "w_P = density_S · (flow − k·(p_P − p_S)), k = flow·(1 − volumetric_efficiency)/rated_pressure",
      .source = "common form, e.g. Merritt, Hydraulic Control Systems (from memory)",
      .role = Role::source,
      .ramp = "start_time"};
  static constexpr std::array parameters{
      Parameter{.name = "flow",
                .quantity = Quantity::flow,
                .low = 1 * si::cm3_per_minute,
                .high = 500 * si::litre_per_minute,
                .meaning = "delivery at no load: displacement times speed",
                .source = "the pump's datasheet",
                .optional = true},
      Parameter{.name = "displacement",
                .quantity = Quantity::displacement,
                .low = 0.01 * si::cm3,
                .high = 1 * si::litre,
                .meaning = "instead of flow: oil moved per revolution",
                .source = "the pump's datasheet",
                .optional = true},
      Parameter{.name = "speed",
                .quantity = Quantity::rotation,
                .fallback = 1450 * si::per_minute,
                .low = 1 * si::per_minute,
                .high = 6000 * si::per_minute,
                .meaning = "shaft speed, counted only with displacement"},
      Parameter{.name = "volumetric_efficiency",
                .quantity = Quantity::share,
                .fallback = 0.93,
                .low = 0.3,
                .high = 1.0,
                .meaning = "share of the no-load flow still delivered at the rated pressure"},
      Parameter{.name = "rated_pressure",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 1500 * si::bar,
                .meaning = "highest continuous outlet pressure",
                .source = "the pump's datasheet"},
      Parameter{.name = "running",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "motor off or on",
                .words = off_on,
                .set_by_steps = true},
      Parameter{.name = "start_time",
                .quantity = Quantity::time,
                .fallback = 0.3,
                .low = 0.0,
                .high = 30.0,
                .meaning = "time from off to full speed and back"},
      common::port_volume(5 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "S", .meaning = "suction"},
      Port{.name = "P", .meaning = "pressure outlet"},
  };
  static constexpr std::array outputs{
      Output{"shaft_power", Quantity::power, "power at the shaft, without mechanical losses"},
      Output{"delivery", Quantity::flow, "volume flow into the pressure line, at suction density"},
  };
  static constexpr int oil_ports = 2, inputs = 1;

  double full_flow, slip, volume;

  Pump(const Values& v, const Oil&)
      : full_flow(v.given("flow") ? v["flow"] : v["displacement"] * v["speed"]),
        slip(full_flow * (1.0 - v["volumetric_efficiency"]) / v["rated_pressure"]),
        volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) {
    if (v.given("flow") && v.given("displacement")) {
      return {{"displacement", "flow and displacement are both given; state one of them"}};
    }
    if (!v.given("flow") && !v.given("displacement")) {
      return {{"flow", "the pump's flow is missing; state flow, or displacement and speed"}};
    }
    return {};
  }

  template <class T>
  T delivery(const Here<Pump, T>& here) const {
    return full_flow * here.input[0].now() - slip * (here.oil[1].pressure - here.oil[0].pressure);
  }
  template <class T>
  Answer<Pump, T> law(const Here<Pump, T>& here) const {
    Answer<Pump, T> a;
    a.inflow[0] = mass_flow(delivery(here), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    a.shaft = full_flow * here.input[0].now() * value_of(here.oil[1].pressure - here.oil[0].pressure);
    return a;
  }
  template <class H>
  std::array<double, 2> report(const H& here) const {
    return {full_flow * here.input[0].now() * (here.oil[1].pressure - here.oil[0].pressure), delivery(here)};
  }
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
