// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What a job without a circuit asks for: its actuators, and which of them belong together.
#include "compose/circuits_wanted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "circuit/join.hpp"

namespace poise::compose {
namespace {

constexpr double usual_rating = 250 * si::bar;
/// Loads below this may rest on oil that nothing holds, N: 25 kg.
constexpr double counts_from = 25.0 * si::gravity;

double circle(double diameter) { return std::numbers::pi / 4.0 * diameter * diameter; }

double value_or(const Values& values, std::string_view name, double otherwise) {
  return values.given(name) ? values[name] : otherwise;
}

bool has_b(const PlannedPart& part) {
  return std::ranges::any_of(part.kind->ports, [&](const Port& port) {
    return port.name == "B" && port.domain == Domain::oil && port_exists(port, part.values);
  });
}

void measure_cylinder(const PlannedPart& part, Actuator& a) {
  const Values& v = part.values;
  const double rod = circle(value_or(v, "rod", 0.0)), bore = circle(v["bore"]);
  a.pulls = part.kind->about.kind == "single_acting_cylinder" && v.word("acts") == 1;
  a.area_a = a.pulls ? bore - rod : bore - circle(v["hole"]);
  a.area_b = a.both ? bore - rod : 0.0;
  a.stroke = v["stroke"];
  a.springs = v["friction"];
  if (!a.both) a.springs += v["spring_preload"] + v["spring_rate"] * a.stroke;
}

void measure_clamp(const PlannedPart& part, Actuator& a) {
  const Values& v = part.values;
  a.swings = true;
  a.area_a = v["clamp_area"];
  a.area_b = a.both ? value_or(v, "unclamp_area", a.area_a) : 0.0;
  a.stroke = v["swing_stroke"] + v["clamp_stroke"];
  a.springs = v["friction"];
  if (!a.both) a.springs += v["spring_preload"] + v["spring_rate"] * a.stroke;
}

void measure_support(const PlannedPart& part, Actuator& a) {
  const Values& v = part.values;
  a.area_a = v["lift_area"];
  a.stroke = v["stroke"];
  a.springs = v["friction"] + v["spring_preload"] + v["spring_rate"] * a.stroke;
}

/// What one of several points carries of a rigid load, as forces and moments balance if all give alike.
double share_of(const Values& v, int point) {
  const auto points = v.points("points");
  const auto n = static_cast<double>(points.size());
  double x = 0.0, y = 0.0, xx = 0.0, yy = 0.0, xy = 0.0;
  for (const CurvePoint& p : points) {
    x += p.x / n;
    y += p.y / n;
  }
  for (const CurvePoint& p : points) {
    xx += (p.x - x) * (p.x - x);
    yy += (p.y - y) * (p.y - y);
    xy += (p.x - x) * (p.y - y);
  }
  const double a = v["centre_x"] - x, b = v["centre_y"] - y, det = xx * yy - xy * xy;
  const double px = points[point].x - x, py = points[point].y - y;
  if (det > 1e-9 * (xx + yy) * (xx + yy))
    return 1.0 / n + (px * (a * yy - b * xy) + py * (b * xx - a * xy)) / det;
  return 1.0 / n + (px * a + py * b) / std::max(xx + yy, 1e-12);  // all in one line
}

/// What a load of the plan puts against extension, N: at one point, or all of it wherever it rests.
double weight_of(const Plan& plan, PortOf at, bool whole) {
  const PlannedPart& part = plan.parts[at.part];
  const Values& v = part.values;
  if (part.kind->about.kind == "mass") return v["mass"] * si::gravity * std::sin(v["slope"]);
  if (part.kind->about.kind == "rigid_load" && plan.port(at).name.starts_with("point_"))
    return v["mass"] * si::gravity * (whole ? 1.0 : share_of(v, plan.port(at).name.back() - '1'));
  return 0.0;
}

/// Whether a load counts: all of it, however many carry it, and not just one's share.
bool carries(const Plan& plan, const Actuator& a) {
  double all = 0.0;
  for (const auto& members : join(plan).members) {
    if (std::ranges::find(members, a.part, &PortOf::part) == members.end()) continue;
    for (const PortOf& at : members) all += std::abs(weight_of(plan, at, true));
  }
  return all > counts_from;
}

std::optional<Actuator> actuator_from(const Plan& plan, int p, const Groups& joined) {
  const PlannedPart& part = plan.parts[p];
  Actuator a{.part = p, .tag = part.tag, .both = has_b(part)};
  const std::string_view kind = part.kind->about.kind;
  if (kind.ends_with("_acting_cylinder")) {
    measure_cylinder(part, a);
  } else if (kind == "swing_clamp") {
    measure_clamp(part, a);
  } else if (kind == "work_support") {
    measure_support(part, a);
  } else {
    return std::nullopt;
  }
  a.way = a.stroke;
  a.rating = value_or(part.values, "rated_pressure", usual_rating);
  for (const auto& members : joined.members) {
    const bool on_rod = std::ranges::any_of(
        members, [&](PortOf at) { return at.part == p && plan.port(at).domain == Domain::motion; });
    if (!on_rod) continue;
    const auto carriers = std::ranges::count_if(
        members, [&](PortOf at) { return plan.parts[at.part].kind->about.role == Role::actuator; });
    for (const PortOf& at : members) a.weight += weight_of(plan, at, false) / static_cast<double>(carriers);
  }
  if (a.pulls) a.weight = -a.weight;
  return a;
}

/// Whether its load pulls it the way that oil at A moves it.
/// Which way each actuator goes in each step: as it is told, else as before; in, at the beginning.
void follow_moves(Wanted& wanted) {
  for (Actuator& a : wanted.actuators) {
    Goes now = Goes::in;
    for (int s = 0; s < static_cast<int>(wanted.job.steps.size()); ++s) {
      bool told = false;
      for (const Move& move : wanted.job.moves) {
        if (move.step != s || move.part != a.part) continue;
        now = move.goes;
        told = true;
      }
      a.goes.push_back(now);
      a.is_told.push_back(told);
    }
  }
}

bool is_held(const Actuator& a, int step) { return a.is_told[step] && a.goes[step] == Goes::hold; }

Group group_with(const Wanted& wanted, int first) {
  Group group{.members = {first}};
  const Actuator& a = wanted.actuators[first];
  for (int s = 0; s < static_cast<int>(a.goes.size()) && !group.held_in; ++s) {
    if (is_held(a, s)) group.held_in = s;
  }
  return group;
}

void find_groups(Wanted& wanted) {
  for (int i = 0; i < static_cast<int>(wanted.actuators.size()); ++i) {
    const Actuator& a = wanted.actuators[i];
    const auto like = std::ranges::find_if(wanted.groups, [&](const Group& group) {
      const Actuator& other = wanted.first(group);
      return other.goes == a.goes && other.pulls == a.pulls &&
             carries(wanted.job.plan, other) == carries(wanted.job.plan, a) && other.hangs() == a.hangs();
    });
    if (like != wanted.groups.end()) {
      like->members.push_back(i);
    } else {
      wanted.groups.push_back(group_with(wanted, i));
    }
  }
  for (Group& group : wanted.groups) group.lifts = carries(wanted.job.plan, wanted.first(group));
}

/// Loads that no circuit of ours could hold.
void object_to_loads(const Wanted& wanted, std::vector<Remark>& found) {
  for (const Actuator& a : wanted.actuators) {
    if (!a.hangs() || a.both || !carries(wanted.job.plan, a)) continue;
    found.push_back(
        {wanted.job.plan.parts[a.part].place,
         fmt::format("the load of {} pulls it {}, and no oil stands on the side that could hold it: "
                     "take a double-acting cylinder, or one that {}",
                     a.tag, a.pulls ? "in" : "out", a.pulls ? "pushes" : "pulls")});
  }
}

std::vector<Remark> objections(const Wanted& wanted) {
  std::vector<Remark> found;
  const Plan& plan = wanted.job.plan;
  if (wanted.job.moves.empty()) {
    return {{{},
             "no step says what is to move; write move = { C1 = \"out\" }, \"in\" or \"hold\" in the steps "
             "of a job "
             "without a circuit. Open values of a job that has its circuit are for \"poise find\""}};
  }
  constexpr std::array<std::string_view, 5> fit{"mass", "force", "spring", "rigid_load", "lock_nut"};
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    const PlannedPart& part = plan.parts[p];
    const std::string_view kind = part.kind->about.kind;
    const bool known = std::ranges::find(fit, kind) != fit.end() || wanted.pump == p ||
                       wanted.reservoir == p ||
                       std::ranges::find(wanted.actuators, p, &Actuator::part) != wanted.actuators.end();
    if (known) continue;
    found.push_back({part.place, fmt::format("{} ({}) cannot be composed with: a job without a circuit has "
                                             "cylinders, clamps, supports and their loads, and may have one "
                                             "pump and one reservoir",
                                             part.tag, kind)});
  }
  for (const Joint& joint : plan.joints) {
    if (plan.port(joint.a).domain != Domain::oil) continue;
    found.push_back(
        {joint.place, fmt::format("{} and {} are joined by a line of oil; a circuit is composed where "
                                  "there is none: take this line out, or draw the circuit yourself",
                                  plan.name(joint.a), plan.name(joint.b))});
  }
  for (const Actuator& a : wanted.actuators) {
    if (std::ranges::find(wanted.job.moves, a.part, &Move::part) != wanted.job.moves.end()) continue;
    found.push_back(
        {plan.parts[a.part].place,
         fmt::format("{} moves in no step: ask for it, as in move = {{ {} = \"out\" }}, or take it "
                     "out",
                     a.tag, a.tag)});
  }
  object_to_loads(wanted, found);
  return found;
}

/// What asks for more than the parts that a circuit is composed of come for.
std::vector<Remark> too_much(const Wanted& wanted) {
  constexpr double most_flow = 400 * si::litre_per_minute, highest = 700 * si::bar;
  std::vector<Remark> found;
  double ratio = 1.0;
  for (const Actuator& a : wanted.actuators)
    if (a.both) ratio = std::max(ratio, a.area_a / a.area_b);
  if (ratio * wanted.flow > most_flow)
    found.push_back(
        {{},
         fmt::format("the times asked for take {} and let {} flow back; the hoses and valves that a "
                     "circuit is composed of go up to {}: give the steps more time",
                     wanted.show(wanted.flow, Quantity::flow),
                     wanted.show(ratio * wanted.flow, Quantity::flow),
                     wanted.show(most_flow, Quantity::flow))});
  if (wanted.rating > highest)
    found.push_back(
        {{},
         fmt::format("the actuators are rated for {} and more; the valves that a circuit is composed "
                     "of go up to {}",
                     wanted.show(wanted.rating, Quantity::pressure),
                     wanted.show(highest, Quantity::pressure))});
  return found;
}

bool is_pump(const PlannedPart& part) {
  constexpr std::array<std::string_view, 3> kinds{"pump", "variable_pump", "two_stage_pump"};
  return std::ranges::find(kinds, part.kind->about.kind) != kinds.end();
}

}  // namespace

double Wanted::needs_of(const std::vector<int>& members) const {
  double most = 0.0;
  for (const int m : members) most = std::max(most, actuators[m].needs);
  return most;
}

std::string Wanted::names(const std::vector<int>& members) const {
  std::string all;
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (i > 0) all += i + 1 == members.size() ? " and " : ", ";
    all += actuators[members[i]].tag;
  }
  return all;
}

std::string Wanted::show(double value, Quantity quantity) const {
  return units::show(value, quantity, job.world);
}

std::vector<int> actuators_of(const Wanted& wanted, int part) {
  std::vector<int> found;
  const Groups joined = join(wanted.job.plan);
  for (int i = 0; i < static_cast<int>(wanted.actuators.size()); ++i) {
    const int own = wanted.actuators[i].part;
    const bool together =
        own == part || std::ranges::any_of(joined.members, [&](const std::vector<PortOf>& members) {
          const auto has = [&](int p) {
            return std::ranges::any_of(members, [&](PortOf at) { return at.part == p; });
          };
          return has(own) && has(part);
        });
    if (together) found.push_back(i);
  }
  return found;
}

std::variant<Wanted, std::vector<Remark>> wanted_from(Job job) {
  Wanted wanted{.job = std::move(job)};
  const Plan& plan = wanted.job.plan;
  const Groups joined = join(plan);
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    if (auto actuator = actuator_from(plan, p, joined)) wanted.actuators.push_back(std::move(*actuator));
    if (!wanted.pump && is_pump(plan.parts[p])) wanted.pump = p;
    if (!wanted.reservoir && plan.parts[p].kind->about.role == Role::reservoir) wanted.reservoir = p;
  }
  if (auto against = objections(wanted); !against.empty()) return against;
  follow_moves(wanted);
  reckon_needs(wanted);
  if (auto against = too_much(wanted); !against.empty()) return against;
  find_groups(wanted);
  for (Group& group : wanted.groups) {
    if (const std::string against = ask_within(wanted, group); !against.empty())
      return std::vector{Remark{plan.parts[wanted.first(group).part].place, against}};
  }
  return wanted;
}

}  // namespace poise::compose
