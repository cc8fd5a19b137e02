// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "job/job.hpp"

namespace poise::compose {

using Goes = Move::Goes;

/// What moves, as a circuit sees it. Oil at A presses, oil at B, where there is such a port, presses back;
/// else a spring or the load does.
struct Actuator {
  int part = 0;
  std::string tag;
  bool both = false;                  ///< has a port B
  bool pulls = false;                 ///< oil at A brings it in
  bool swings = false;                ///< an arm that turns before it clamps
  double area_a = 0.0, area_b = 0.0;  ///< m2
  double stroke = 0.0;                ///< m
  double rating = 0.0;                ///< Pa; a usual one where none is given
  double weight = 0.0;                ///< N that loads put against A
  double springs = 0.0;               ///< N that its own return spring and friction take, at most
  double needs = 0.0;                 ///< Pa at A, for all that is asked of it
  double keeps = 0.0;                 ///< of that, what must stay once it is pressed
  double most = std::numeric_limits<double>::infinity();  ///< Pa at A that no requirement lets it pass
  std::string most_for;                                   ///< the requirement's name
  double way = 0.0;  ///< m that it comes out or goes in, as far as it is asked for; else its stroke
  double out_limit = 0.0, in_limit = 0.0;  ///< m/s that it must not pass; 0: none is asked for
  std::string out_limit_for, in_limit_for;
  double quick_in = 0.0;      ///< m/s that it must go back with; 0: not asked for
  std::vector<Goes> goes;     ///< in each step
  std::vector<bool> is_told;  ///< whether the step says so itself, or it goes on as before

  bool hangs() const { return weight < 0.0; }  ///< its load pulls its rod out
};

/// Of oil with a little air in it, Pa; common practice.
inline constexpr double oil_modulus = 1.4e9;

inline bool is_in(const std::vector<int>& members, int one) {
  return std::ranges::find(members, one) != members.end();
}

/// Members of a group that one requirement, or several that overlap, ask to stay level.
struct Levelled {
  std::string asked_for;  ///< the requirement's name
  std::vector<int> members;
};

/// Actuators that all steps move alike: one valve can work them.
struct Group {
  std::vector<int> members;              ///< of Wanted::actuators
  std::vector<std::vector<int>> stages;  ///< one after the other; one stage where no order is asked for
  std::string order_for;                 ///< the requirement that asks for the order
  std::vector<Levelled> levelled;        ///< those that are to stay level with one another
  bool lifts = false;                    ///< a load rests on them
  std::optional<int> held_in;            ///< the first step that asks them to stay as they are
  std::vector<int> weaker;               ///< members that the others' pressure would be too much for
};

/// What a job without a circuit asks for.
struct Wanted {
  Job job;
  std::vector<Actuator> actuators;
  std::vector<Group> groups;
  std::optional<int> pump, reservoir;  ///< parts of the job
  double pressure = 0.0;               ///< Pa that the strongest needs
  double flow = 0.0;                   ///< m3/s that the times asked for take, with some to spare
  double rating = 0.0;                 ///< Pa, lowest of all actuators

  const Actuator& first(const Group& group) const { return actuators[group.members.front()]; }
  const Step& step(int number) const { return job.steps[number]; }
  /// The greatest pressure that one of several needs, Pa.
  double needs_of(const std::vector<int>& members) const;
  /// "C1", "C1 and C2", "C1, C2 and C3"
  std::string names(const std::vector<int>& members) const;
  std::string show(double value, Quantity quantity) const;
};

/// Works out what is wanted; complaints where nothing can be composed.
std::variant<Wanted, std::vector<Remark>> wanted_from(Job job);

/// The actuators on whose rods a part sits, or that it is itself.
std::vector<int> actuators_of(const Wanted& wanted, int part);
/// Finds a group's stages, its weaker members and those that stay level; why that cannot be, or nothing.
std::string ask_within(const Wanted& wanted, Group& group);
/// Works out pressures, ways and speeds from steps and requirements.
void reckon_needs(Wanted& wanted);

}  // namespace poise::compose
