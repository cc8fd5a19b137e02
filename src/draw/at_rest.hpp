// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <vector>

#include "circuit/plan.hpp"

namespace poise::draw {

/// What stands around one part: gauge pressures at its oil ports, Pa; its motions, m and m/s; its inputs.
struct Around {
  std::vector<double> pressure, position, speed;
  std::vector<Input> input;
};

/// One part's law with its own states at rest: what it passes for as long as nothing around it changes.
/// Ports that these values do not have are shut: what stands in them settles as well.
class AtRest {
 public:
  AtRest(const PlannedPart& part, const Oil& oil);

  /// Volume flow into the part at each oil port, m3/s; none where no rest is found. The rest that was found
  /// last is where the search begins.
  std::optional<std::vector<double>> flows(const Around& around);

 private:
  void surround(const Around& around);
  bool settle();

  const Kind* kind_;
  Oil oil_;
  Laws laws_;
  std::vector<int> shut_;        ///< ports without anything behind them
  std::vector<double> unknown_;  ///< states, then pressures of shut ports
  Neighbourhood here_{};
};

}  // namespace poise::draw
