// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <set>
#include <vector>

#include "rules/sight.hpp"

namespace poise::rules {

/// A cylinder that carries weight on its rod.
struct LiftingPoint {
  int jack = -1;
  int load = -1;        ///< the mass or the rigid load
  int number = 0;       ///< of the rigid load's point; 0 of a mass
  double weight = 0.0;  ///< N, its share at rest, over points of one stiffness
  double area = 0.0;    ///< m2, of the side whose oil carries it
  PortOf oil{};         ///< the port of that side
  bool hangs = false;   ///< the weight pulls at the rod
  double pressure() const { return weight / area; }
};

/// Every cylinder that carries weight, in the job's order.
std::vector<LiftingPoint> lifting_points(const Sight& sight);
/// The cylinders alone.
std::set<int> lifting_jacks(const Sight& sight);

/// A place on a plan, from the load's centre of gravity.
struct PlanPoint {
  double x = 0.0, y = 0.0;
};
std::vector<PlanPoint> points_about_centre(const Sight& sight, int rigid_load);

}  // namespace poise::rules
