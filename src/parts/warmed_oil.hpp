// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Oil of one volume, warmed from outside together with the steel around it. Its port marks the volume.
struct WarmedOil : RoomDefaults {
  static constexpr About about{
      .kind = "warmed_oil",
      .sentence =
          "Sun, weather or a warm machine on one trapped volume: its oil and steel get warmer than the rest.",
      .law =
          "density of the volume's oil · (1 − β_T·rise), β_T = expansivity/(1 − expansivity·(T − 15 °C)); "
          "its steel grows by 3·12e-6/K·rise; trapped between stiff walls dp/dT = (β_T − 3.6e-5/K)·K_e",
      .source = "conservation of mass; expansion of steel 12e-6/K: common engineering value, from memory",
      .ramp = "change_time"};
  static constexpr std::array parameters{
      Parameter{.name = "rise",
                .quantity = Quantity::warming,
                .fallback = 0.0,
                .low = -80.0,
                .high = 120.0,
                .meaning = "how much warmer the volume is than the job's oil",
                .set_by_steps = true},
      Parameter{.name = "change_time",
                .quantity = Quantity::time,
                .fallback = 60.0,
                .low = 0.01,
                .high = 1e5,
                .meaning = "time that a change of the temperature takes"},
  };
  static constexpr std::array ports{Port{.name = "A", .meaning = "the volume that is warmed"}};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(path(0, -2.83, 2.83, 0, 0, 2.83, -2.83, 0, 0, -2.83), line(0, -4, 0, -2.83),
                arrow(4.25, 0, 0.75, 0), arrow(-4.25, 0, -0.75, 0));
  }();
  static constexpr std::array anchors{Anchor{0, -4}};
  static constexpr int oil_ports = 1, inputs = 1;
  static constexpr bool warms = true;
  static constexpr double steel_expansion = 3 * 12e-6;  ///< of a volume, 1/K

  WarmedOil(const Values&, const Oil&) {}

  template <class T>
  Answer<WarmedOil, T> law(const Here<WarmedOil, T>&) const {
    return {};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {}; }
};

}  // namespace poise
