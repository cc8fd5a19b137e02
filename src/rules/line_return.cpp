// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/line_return.hpp"

#include <fmt/format.h>

#include <set>

#include "rules/lifting_point.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

/// What passes more quickly than this is a pulse, not a pressure, s.
constexpr double pulse = 0.1;

constexpr double most_in_tank_line = 5.0 * si::bar;

/// A single-acting cylinder that its spring alone brings home, and the pressure that it makes at the end.
struct Spring {
  int part = -1;
  double pressure = most_in_tank_line;
};

/// The one that gives way first; part −1 where none does before the tank line has its most.
Spring weakest_spring(const Sight& sight) {
  Spring weakest;
  const std::set<int> loaded = lifting_jacks(sight);
  for (int p : sight.all({"single_acting_cylinder"})) {
    const Values& v = sight.values(p);
    if (v["spring_preload"] <= 0.0 || v.word("acts") != 0 || loaded.contains(p)) continue;
    const double pressure = v["spring_preload"] / area_behind(sight, p);
    if (pressure < weakest.pressure) weakest = {p, pressure};
  }
  return weakest;
}

/// What a return line keeps above a limit, Pa; a spring's counts only while its cylinder goes in. 0: nothing.
double kept_above(const Sight& sight, PortOf at, const Spring& limit) {
  const Course pressure = sight.pressure(at);
  if (limit.part < 0) return pressure.held_beyond(1.02 * limit.pressure, pulse);
  if (sight.highest(at).value <= 1.02 * limit.pressure) return 0.0;
  const Course speed = sight.speed(limit.part);
  constexpr double goes_in = -1e-5;  // m/s
  return lasting_while(pressure, pulse, 1.02 * limit.pressure,
                       [&](std::size_t row) { return speed && speed.value()[row] < goes_in; })
      .value;
}

/// What in a return line feels its pressure, for the sentence: reliefs and drains.
std::string felt_by(const Sight& sight, const std::set<int>& groups) {
  std::set<int> found;
  for (const PortOf& at : sight.ports_in(groups)) {
    const bool feels = (sight.role(at.part) == Role::pressure_limit && at.port == 1) ||
                       (sight.plan.port(at).pilot && !through_return(sight.part(at.part))) ||
                       sight.is(at.part, "reducing");
    if (feels) found.insert(at.part);
  }
  if (found.empty()) return {};
  return fmt::format("; {} {} all of it", tags(sight, {found.begin(), found.end()}),
                     found.size() == 1 ? "feels" : "feel");
}

}  // namespace

void look_at_back_pressure(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  const std::set<int> tank = sight.tank_lines();
  Spring spring;
  double worst = 0.0;
  PortOf at;
  for (const Spring& limit : {weakest_spring(sight), Spring{}}) {
    if (worst > 0.0) break;
    spring = limit;
    for (int group : tank) {
      const PortOf here = sight.members(group).front();
      const double held = kept_above(sight, here, limit);
      if (held <= worst) continue;
      worst = held;
      at = here;
    }
  }
  if (worst == 0.0) return;
  std::set<int> line = sight.reach(at, through_return);
  std::erase_if(line, [&](int group) { return sight.has_reservoir({group}); });
  const std::string why =
      spring.part < 0 ? fmt::format("{} is the most for it", sight.say(spring.pressure, Quantity::pressure))
                      : fmt::format("the spring of {} presses its oil out with {} only",
                                    sight.tag(spring.part), sight.say(spring.pressure, Quantity::pressure));
  report.add(
      at.part,
      fmt::format("In the return line at {} stand {} {}, and {}{}", sight.name(at),
                  sight.say(worst, Quantity::pressure), sight.when(sight.pressure(at).highest().time), why,
                  felt_by(sight, line)),
      fmt::format("Make the way from {} to the reservoir so wide that it takes less than {} of the same "
                  "flow, with cold oil and a full filter too",
                  sight.name(at), sight.say(spring.pressure, Quantity::pressure)),
      sight.pressure(at).highest().time);
}

}  // namespace poise::rules
