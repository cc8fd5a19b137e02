// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/line_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Manifold: a drilled block. P is its gallery; A to D are drilled off it, each with its own drop, so that
/// oil from A to B passes two drillings. Half of its oil is in the gallery, the rest spread over the ports.
struct Manifold : RoomDefaults {
  static constexpr About about{
      .kind = "manifold",
      .sentence = "Manifold: a drilled block that joins up to five lines.",
      .law = "from the gallery P to each of A, B, C, D: drop = a·Q² + b·Q; all their flows meet at P",
      .source = "a restriction per drilling (sharp bends of drillings are turbulent, the bore is laminar)",
      .role = Role::line};
  static constexpr std::array parameters{
      common::rated_flow_or_curve(),
      common::pressure_drop(1 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      Parameter{.name = "volume",
                .quantity = Quantity::volume,
                .fallback = 20 * si::cm3,
                .low = 0.5 * si::cm3,
                .high = 50 * si::litre,
                .meaning = "oil in all its drillings"},
      common::rated_pressure(),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "gallery"},
      Port{.name = "A", .meaning = "first drilling"},
      Port{.name = "B", .meaning = "second drilling; plugged where nothing is joined", .may_stay_free = true},
      Port{.name = "C", .meaning = "third drilling; plugged where nothing is joined", .may_stay_free = true},
      Port{.name = "D", .meaning = "fourth drilling; plugged where nothing is joined", .may_stay_free = true},
  };
  static constexpr std::array faults{
      Fault{.name = "chips in the drillings",
            .sentence = "Swarf left from drilling, or a plug set too deep: everything behind it is slow.",
            .parameter = "pressure_drop",
            .change = Fault::Change::times,
            .slight = 3.0,
            .grave = 50.0},
  };
  static constexpr std::array rules{
      Rule{.name = "lowest part rules the block",
           .sentence = "A block joins lines of several pressure classes: its plugs and gauges count too.",
           .source = "workholding design page: lowest rating"},
      Rule{.name = "parallel ways",
           .sentence =
               "From one gallery the oil goes to the lowest pressure first: without flow controls actuators "
               "move one after the other.",
           .source = "trade magazine's e-book on fluid-power circuits, book 1"},
  };
  static constexpr std::array care{upkeep::block_dry};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(chain(box(0, 0, 8, 3)), line(4, 0, 4, 1.5), path(1, 3, 1, 1.5, 7, 1.5, 7, 3),
                line(3, 1.5, 3, 3), line(5, 1.5, 5, 3), dot(3, 1.5), dot(4, 1.5), dot(5, 1.5));
  }();
  static constexpr std::array anchors{Anchor{4, 0}, Anchor{1, 3}, Anchor{3, 3}, Anchor{5, 3}, Anchor{7, 3}};
  static constexpr int oil_ports = 5;

  Restriction open;
  double volume;

  Manifold(const Values& v, const Oil& oil) : open(common::drop_of(v, oil)), volume(v["volume"]) {}

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  Answer<Manifold, T> law(const Here<Manifold, T>& here) const {
    const OilHere<T>& gallery = here.oil[0];
    Answer<Manifold, T> a;
    for (int i = 1; i < oil_ports; ++i) {
      const T drop = gallery.pressure - here.oil[i].pressure;
      const T w = mass_flow(open.flow(drop, T(1.0)), gallery, here.oil[i]);
      a.inflow[0] += w;
      a.inflow[i] = -w;
    }
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int port) const { return {.volume = volume * (port == 0 ? 0.5 : 0.125)}; }
};

}  // namespace poise
