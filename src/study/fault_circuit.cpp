// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Faults of what lies between the parts: lines blocked, oil lost, air let in. No part's room can know them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "circuit/join.hpp"
#include "judge/wording.hpp"
#include "parts/laws.hpp"
#include "rules/sight.hpp"
#include "study/fault_parts.hpp"

namespace poise::study {
namespace {

using Of = FaultPlace::Of;

/// A line is half closed where what is left of it takes this drop at the flow of all pumps, and practically
/// shut with a hole of this size: sizes common practice.
constexpr double half_closed_return = 2 * si::bar, half_closed_suction = 0.1 * si::bar;
constexpr double practically_shut = 0.1 * si::mm, least_suction_hole = 0.5 * si::mm;
/// From a drip to a burst, at this pressure; a hole of 5 mm passes about the second.
constexpr double leak_stated_at = 100 * si::bar;
constexpr double drip = 1 * si::cm3_per_minute, burst = 100 * si::litre_per_minute;
constexpr double as_high = 0.9;  // of the highest pressure
constexpr double opens_within = 20 * si::ms;
constexpr double catch_tray = 1 * si::litre;
constexpr double little_air = 5 * si::cm3, much_air = 50 * si::cm3;
constexpr double least_air = 0.03, most_air = 0.15;  // in the oil of a pump that sucks air
constexpr double least_missing = 0.05, most_missing = 0.2;

bool is_reservoir(const Plan& plan, PortOf at) {
  return plan.parts[at.part].kind->about.role == Role::reservoir;
}
bool is_oil(const Plan& plan, PortOf at) { return plan.port(at).domain == Domain::oil; }
bool sucks(const Plan& plan, PortOf at) {
  return at.port == 0 && plan.parts[at.part].kind->about.role == Role::source;
}

/// The hole that takes a drop at a flow, by the law of a sharp edge (0.62, as the needle's).
double hole_for(double flow, double drop, double density) {
  const double area = flow / (0.62 * std::sqrt(2.0 * drop / density));
  return std::sqrt(area * 4.0 / std::numbers::pi);
}

/// No-load flow of all pumps of the job, m3/s; 2 L/min where none says it.
double flow_of_pumps(const Job& job) {
  const rules::Sight sight(job.plan, job.steps, job.controls, job.world);
  double sum = 0.0;
  for (int p : sight.all(Role::source)) sum += sight.pump_flow(p);
  return sum > 0.0 ? sum : 2 * si::litre_per_minute;
}

/// The ports that still hang together at a reservoir's port once that is taken out, group by group.
std::vector<std::vector<PortOf>> lines_into(const Plan& plan, PortOf reservoir) {
  std::map<PortOf, std::vector<PortOf>> beside;
  for (const Joint& joint : plan.joints) {
    beside[joint.a].push_back(joint.b);
    beside[joint.b].push_back(joint.a);
  }
  std::vector<std::vector<PortOf>> lines;
  std::set<PortOf> seen{reservoir};
  for (const PortOf& first : beside[reservoir]) {
    if (!seen.insert(first).second) continue;
    std::vector<PortOf> line{first};
    for (std::size_t i = 0; i < line.size(); ++i) {
      for (const PortOf& next : beside[line[i]]) {
        if (seen.insert(next).second) line.push_back(next);
      }
    }
    std::ranges::sort(line);
    lines.push_back(std::move(line));
  }
  std::ranges::sort(lines);
  return lines;
}

std::string names_of(const Plan& plan, std::span<const PortOf> ports) {
  constexpr std::size_t shown = 3;
  std::vector<std::string> names;
  for (const PortOf& at : ports.first(std::min(ports.size(), shown))) names.push_back(plan.name(at));
  return wording::joined(names, ", ") + (ports.size() > shown ? " …" : "");
}

/// By the tag of the line that ends there, else by what hangs on it.
std::string line_name(const Plan& plan, std::span<const PortOf> ports) {
  std::vector<std::string> tags;
  for (const PortOf& at : ports) {
    const PlannedPart& part = plan.parts[at.part];
    if (part.kind->about.role == Role::line && std::ranges::find(tags, part.tag) == tags.end())
      tags.push_back(part.tag);
  }
  return tags.empty() ? "line " + names_of(plan, ports) : wording::joined(tags, ", ");
}

void add_reservoir_lines(const Job& job, FaultList& list) {
  const Plan& plan = job.plan;
  const double flow = flow_of_pumps(job), density = Oil(plan.oil).density_at_zero();
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    const PortOf reservoir{p, 0};
    if (!is_reservoir(plan, reservoir)) continue;
    for (std::vector<PortOf>& line : lines_into(plan, reservoir)) {
      const bool suction = std::ranges::any_of(line, [&](PortOf at) { return sucks(plan, at); });
      FaultPlace place{.of = suction ? Of::suction_clogged : Of::return_blocked,
                       .fault = suction ? "suction clogged" : "blocked on its way to " + plan.parts[p].tag,
                       .reservoir = reservoir};
      place.sentence =
          suction ? "Strainer full of dirt, cock half shut or cold thick oil: the pump starves, whines and "
                    "delivers less."
                  : "Crushed, kinked or shut by a coupling: what should flow off stands under pressure, "
                    "returns are slow and whatever counts on this line being empty works wrongly.";
      place.source = suction ? "pump troubleshooting articles (suction restriction); sizes common practice"
                             : "common practice";
      place.slight = hole_for(flow, suction ? half_closed_suction : half_closed_return, density);
      place.grave = suction ? least_suction_hole : practically_shut;
      place.slight = std::max(place.slight, 1.5 * place.grave);
      place.factors = true;
      place.name = line_name(plan, line) + " " + place.fault;
      place.ports = std::move(line);
      list.places.push_back(std::move(place));
    }
  }
}

bool can_suck_air(const Job& job, int p) {
  const PlannedPart& part = job.plan.parts[p];
  if (part.kind->about.role != Role::source) return false;
  const Groups groups = join(job.plan);
  return std::ranges::any_of(groups.members[groups.group_of[p][0]],
                             [&](PortOf at) { return is_reservoir(job.plan, at); });
}

/// A pump delivers a share of what it did, whichever way its delivery is stated; false where none says it.
bool slow_down(PlannedPart& part, double share) {
  bool any = false;
  for (std::string_view name :
       {"flow", "displacement", "low_pressure_flow", "high_pressure_flow", "stroke_volume"}) {
    const auto at = find_parameter(part.kind->parameters, name);
    if (!at || !part.values.given(name)) continue;
    part.values.set(*at, part.values.all()[*at] * share);
    any = true;
  }
  const auto curve = find_parameter(part.kind->parameters, "delivery_curve");
  if (curve && part.values.given("delivery_curve")) {
    const auto given = part.values.points("delivery_curve");
    Points points(given.begin(), given.end());
    for (CurvePoint& point : points) point.y *= share;
    part.values.set_points(*curve, std::move(points));
    any = true;
  }
  return any;
}

void add_air_sucked(const Job& job, FaultList& list) {
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    PlannedPart tried = job.plan.parts[p];
    if (!can_suck_air(job, p) || !slow_down(tried, 0.9)) continue;
    const double already = std::min(job.plan.oil.air, 0.1);
    list.places.push_back({.of = Of::sucks_air,
                           .name = tried.tag + " sucks air",
                           .part = tried.tag,
                           .fault = "sucks air",
                           .sentence = "A joint of the suction line is not tight: foam, knocking, slow and "
                                       "springy motions. Oil on the joint quiets it.",
                           .source = "lubrication magazine on aeration; sizes common practice",
                           .on = p,
                           .slight = already + least_air,
                           .grave = std::min(already + most_air, 0.2)});
  }
}

/// Oil between parts that is one space but for lines.
struct Zone {
  std::vector<PortOf> ports;
  int far_group = 0;  ///< the last of the groups that its lines join
  bool moves_something = false;
};

bool is_closed_space(const Plan& plan, const std::vector<PortOf>& members) {
  return members.size() > 1 && is_oil(plan, members.front()) &&
         std::ranges::none_of(members, [&](PortOf at) { return is_reservoir(plan, at); });
}

std::vector<Zone> zones_of(const Plan& plan, const Groups& groups) {
  std::vector<Zone> zones;
  std::set<int> seen;
  for (int g = 0; g < static_cast<int>(groups.members.size()); ++g) {
    if (!is_closed_space(plan, groups.members[g]) || !seen.insert(g).second) continue;
    Zone zone;
    std::vector<int> reached{g};
    for (std::size_t i = 0; i < reached.size(); ++i) {
      for (const PortOf& at : groups.members[reached[i]]) {
        zone.ports.push_back(at);
        const Kind& kind = *plan.parts[at.part].kind;
        zone.moves_something = zone.moves_something || kind.about.role == Role::actuator;
        if (kind.about.role != Role::line) continue;
        for (int port = 0; port < kind.oil_ports; ++port) {
          const int next = groups.group_of[at.part][port];
          if (is_closed_space(plan, groups.members[next]) && seen.insert(next).second)
            reached.push_back(next);
        }
      }
    }
    zone.far_group = reached.back();
    std::ranges::sort(zone.ports);
    zones.push_back(std::move(zone));
  }
  return zones;
}

/// The first step in whose middle the pressure at a port is as good as highest on the sound machine.
int step_of_highest(const Job& job, const Trace* nominal, PortOf at) {
  if (!nominal) return 0;
  int column = -1;
  for (std::size_t i = 0; i < nominal->signals.size() && column < 0; ++i) {
    const Signal& signal = nominal->signals[i];
    if (signal.what == Signal::What::pressure && PortOf{signal.part, signal.index} == at)
      column = static_cast<int>(i);
  }
  if (column < 0) return 0;
  std::vector<double> in_the_middle;
  for (int s = 0; s < static_cast<int>(std::min(job.steps.size(), nominal->steps.size())); ++s) {
    const StepSpan& span = nominal->steps[s];
    const auto row = std::ranges::lower_bound(nominal->time, 0.5 * (span.begin + span.end));
    const bool there = row != nominal->time.end() && span.end > span.begin;
    in_the_middle.push_back(there ? nominal->values[column][row - nominal->time.begin()] : 0.0);
  }
  const auto highest = std::ranges::max_element(in_the_middle);
  if (highest == in_the_middle.end() || *highest <= 0.0) return 0;
  const double most = *highest;
  const auto first = std::ranges::find_if(in_the_middle, [&](double p) { return p >= as_high * most; });
  return static_cast<int>(first - in_the_middle.begin());
}

void add_leak(const Job& job, const Trace* nominal, const Zone& zone, PortOf at, FaultList& list) {
  if (job.steps.empty()) return;
  const int step = step_of_highest(job, nominal, at);
  const double middle = middle_of(job, nominal, step);
  if (middle <= 0.0) return;
  FaultPlace place{.of = Of::leaks_outside,
                   .fault = "leaks to the outside",
                   .sentence =
                       "A fitting drips, a hose has a pinhole or bursts: the oil is lost, and fine "
                       "jets go under the skin. Never feel for them by hand.",
                   .source = "fluid power safety alerts on injection; sizes common practice",
                   .step = step,
                   .time = middle,
                   .ports = {at},
                   .slight = drip,
                   .grave = burst,
                   .factors = true};
  place.name = line_name(job.plan, zone.ports) + " " + place.fault;
  list.places.push_back(std::move(place));
}

void add_zones(const Job& job, const Trace* nominal, FaultList& list) {
  const Groups groups = join(job.plan);
  const auto zones = zones_of(job.plan, groups);
  const auto tank_lines = rules::Sight(job.plan, job.steps, job.controls, job.world).tank_lines();
  for (const Zone& zone : zones) add_leak(job, nominal, zone, groups.members[zone.far_group].front(), list);
  for (const Zone& zone : zones) {
    if (!zone.moves_something || tank_lines.contains(zone.far_group)) continue;
    FaultPlace place{.of = Of::air_left,
                     .fault = "air left in it",
                     .sentence = "It was not bled: motions come late and spring, and let go with a bounce.",
                     .source = "lubrication magazine on aeration; sizes common practice",
                     .ports = {groups.members[zone.far_group].front()},
                     .slight = little_air,
                     .grave = much_air,
                     .factors = true};
    place.name = line_name(job.plan, zone.ports) + " " + place.fault;
    list.places.push_back(std::move(place));
  }
}

std::string free_tag(const Job& job, std::string_view wanted) {
  for (int i = 1;; ++i) {
    std::string tag = fmt::format("{}{}", wanted, i);
    if (std::ranges::find(job.plan.parts, tag, &PlannedPart::tag) == job.plan.parts.end()) return tag;
  }
}

void put_hole(Job& job, const FaultPlace& place, double bore) {
  const int hole =
      add_part(job, "needle", free_tag(job, "blockage"),
               {{"bore", bore}, {"turns", 1.0}, {"full_turns", 1.0}, {"port_volume", 1 * si::cm3}});
  Plan& plan = job.plan;
  const auto hangs_here = [&](PortOf at) { return std::ranges::find(place.ports, at) != place.ports.end(); };
  for (Joint& joint : plan.joints) {
    if (joint.a == place.reservoir && hangs_here(joint.b)) joint.a = {hole, 0};
    if (joint.b == place.reservoir && hangs_here(joint.a)) joint.b = {hole, 0};
  }
  plan.joints.push_back({{hole, 1}, place.reservoir, {}});
}

/// A way out that opens in the middle of a step and lets nothing in, into a tray of its own: what runs there
/// is lost to the machine.
void put_leak(Job& job, const FaultPlace& place, double flow) {
  const int opening = add_part(job, "shut_off", free_tag(job, "crack"),
                               {{"position", 0.0},
                                {"turning_time", opens_within},
                                {"rated_flow", 10.0 * burst},
                                {"pressure_drop", 0.05 * si::bar},
                                {"port_volume", 0.05 * si::cm3}});
  const int leak = add_part(job, "check", free_tag(job, "leak"),
                            {{"rated_flow", flow},
                             {"pressure_drop", leak_stated_at},
                             {"cracking_pressure", 0.0},
                             {"port_volume", 0.5 * si::cm3}});
  const int tray = add_part(job, "reservoir", free_tag(job, "tray"), {{"usable_oil", catch_tray}});
  job.plan.joints.push_back({place.ports.front(), {opening, 0}, {}});
  job.plan.joints.push_back({{opening, 1}, {leak, 0}, {}});
  job.plan.joints.push_back({{leak, 1}, {tray, 0}, {}});
  split_step(job, place.step, place.time);
  job.steps[place.step + 1].commands.push_back({opening, 0, 1.0, opens_within});
}

void put_air(Job& job, const FaultPlace& place, double volume) {
  const int air =
      add_part(job, "accumulator", free_tag(job, "air"),
               {{"gas_volume", volume}, {"precharge", 0.0}, {"exponent", 1.4}, {"least_gas", 0.02}});
  job.plan.joints.push_back({place.ports.front(), {air, 0}, {}});
}

}  // namespace

void add_faults_of_circuit(const Job& job, const Trace* nominal, FaultList& list) {
  add_reservoir_lines(job, list);
  add_air_sucked(job, list);
  add_zones(job, nominal, list);
}

bool put_circuit_fault(Job& job, const FaultPlace& place, double t) {
  switch (place.of) {
    case Of::return_blocked:
    case Of::suction_clogged:
      put_hole(job, place, place.size(t));
      return true;
    case Of::leaks_outside:
      put_leak(job, place, place.size(t));
      return true;
    case Of::air_left:
      put_air(job, place, place.size(t));
      return true;
    case Of::sucks_air:
      job.plan.oil.air = place.size(t);
      return slow_down(job.plan.parts[place.on], 1.0 - (least_missing + t * (most_missing - least_missing)));
    default:
      return false;
  }
}

std::string circuit_change(const Job& job, const FaultPlace& place, double t) {
  const auto show = [&](double value, Quantity quantity) { return units::show(value, quantity, job.world); };
  const double size = place.size(t);
  switch (place.of) {
    case Of::leaks_outside:
      return fmt::format("{} at {}", show_flow(size, job.world), show(leak_stated_at, Quantity::pressure));
    case Of::air_left:
      return show(size, Quantity::volume) + " of air";
    case Of::sucks_air:
      return fmt::format("{} of air, {:.0f} % less flow", show(size, Quantity::share),
                         100.0 * (least_missing + t * (most_missing - least_missing)));
    default:
      return fmt::format("a hole of {} left", show(size, Quantity::length));
  }
}

}  // namespace poise::study
