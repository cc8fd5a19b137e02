// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/load.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <map>

#include "parts/directional.hpp"
#include "rules/pressed.hpp"
#include "rules/rods.hpp"

namespace poise::rules {

double area_b(const Sight& sight, int cylinder) {
  return sight.is(cylinder, "double_acting_cylinder") ? area_around_rod(sight, cylinder) : 0.0;
}

double area_ratio(const Sight& sight, int cylinder) {
  const double b = area_b(sight, cylinder);
  return b > 0.0 ? face_at_a(sight, cylinder) / b : 0.0;
}

std::optional<PortOf> other_side(const Sight& sight, const HeldLoad& load) {
  return sight.port(load.cylinder, load.side.port == 0 ? "B" : "A");
}

bool is_piloted_by_other_side(const Sight& sight, const HeldLoad& load, int valve) {
  const auto other = other_side(sight, load);
  return other && sight.touches(sight.reach(*other, through_restrictions), *sight.port(valve, "X"));
}

std::vector<HeldLoad> held_loads(const Sight& sight) {
  std::vector<HeldLoad> found;
  for (int c : all_cylinders(sight)) {
    const PortOf port = *sight.port(c, "rod");
    const RodLoad rod = load_on(sight, port);
    if (rod.load < 0 || std::abs(rod.weight) < counts_from) continue;
    const bool hanging = rod.weight < 0.0, both = sight.is(c, "double_acting_cylinder");
    if (!both && hanging != pulls(sight, c)) continue;
    HeldLoad load{.cylinder = c, .hanging = hanging, .load = rod.load, .mass = rod.mass};
    load.side = *sight.port(c, both && hanging ? "B" : "A");
    load.area = both && hanging ? area_b(sight, c) : face_at_a(sight, c);
    const double share = 1.0 / std::max(1, rod.cylinders);
    load.weight = share * std::abs(rod.weight);
    const Span outside = forces_against(sight, port);
    const double low = hanging ? -outside.greatest : outside.least;
    const double high = hanging ? -outside.least : outside.greatest;
    load.least = load.weight + share * std::max(0.0, low);
    load.most = load.weight + share * std::max(0.0, high);
    found.push_back(load);
  }
  return found;
}

std::vector<int> valves_at(const Sight& sight, PortOf place, std::string_view kind, std::string_view port) {
  std::vector<int> found;
  std::set<int> zone;
  for (int valve : sight.all({kind})) {
    if (zone.empty()) zone = sight.reach(place, through_restrictions);
    const auto at = sight.port(valve, port);
    if (at && sight.touches(zone, *at)) found.push_back(valve);
  }
  return found;
}

bool through_dividers(const PlannedPart& part) {
  return through_lines(part) || part.kind->about.kind == "flow_divider" ||
         part.kind->about.kind == "gear_flow_divider";
}

std::set<int> way_to_tank(const Sight& sight, PortOf from) {
  const auto passes = [](const PlannedPart& part) {
    return through_restrictions(part) || through_dividers(part);
  };
  std::set<int> way = sight.reach(from, passes);
  for (int valve : sight.all({"directional_4_3", "directional_4_2", "directional_3_2", "directional_2_2"})) {
    const auto tank = sight.port(valve, sight.is(valve, "directional_2_2") ? "A" : "T");
    const bool here = std::ranges::any_of(sight.oil_ports(valve),
                                          [&](PortOf at) { return at != *tank && sight.touches(way, at); });
    if (here) way.merge(sight.reach(*tank, through_restrictions));
  }
  return way;
}

std::vector<int> throttles_in(const Sight& sight, const std::set<int>& groups) {
  std::vector<int> found;
  for (int p : sight.all({"needle", "one_way_flow_control", "compensated_flow_control", "filter",
                          "quick_coupling", "capillary"})) {
    if (sight.touches(groups, {p, 0}) && sight.touches(groups, {p, 1})) found.push_back(p);
  }
  return found;
}

std::optional<Supply> supply(const Sight& sight) {
  std::optional<Supply> best;
  const double flow = flow_of_all_pumps(sight);
  for (int pump : sight.all(Role::source)) {
    const auto zone = sight.reach(PortOf{pump, 1}, through_restrictions);
    std::optional<Supply> lowest;
    for (int valve : sight.all(Role::pressure_limit)) {
      if (!sight.touches(zone, {valve, 0}) || !sight.is_tank_line({valve, 1}, through_restrictions)) continue;
      const Limit limit = sight.limit(valve);
      if (lowest && lowest->cracking <= limit.cracking) continue;
      lowest = Supply{limit.cracking, limit.at_flow(std::min(flow, limit.rated_flow)), valve};
    }
    if (lowest && (!best || lowest->cracking > best->cracking)) best = lowest;
  }
  return best;
}

namespace {

/// What it costs oil to go from one port of a part to another with everything at rest: 0 open, 1 a valve that
/// stands shut, none: never.
using Cost = std::optional<int>;

template <class Layout>
Cost through_spool(const Values& v, int from, int to) {
  const auto positions = Layout::positions(v);
  // The first is where a spring brings it, whatever a job begins with; one that sticks stays.
  const int at_rest = v.word("responds") == 0 ? v.word("position") : 0;
  Cost cost;
  for (const Path& path : Layout::paths) {
    if (!(path.from == from && path.to == to) && !(path.from == to && path.to == from)) continue;
    cost = directional::has_path(positions[at_rest], path) ? 0 : 1;
  }
  return cost;
}

Cost through_valve(const Sight& sight, int p, int from, int to) {
  const Values& v = sight.values(p);
  const PlannedPart& part = sight.part(p);
  if (sight.is(p, "directional_4_3")) return through_spool<directional::FourThree>(v, from, to);
  if (sight.is(p, "directional_4_2")) return through_spool<directional::FourTwo>(v, from, to);
  if (sight.is(p, "directional_3_2")) return through_spool<directional::ThreeTwo>(v, from, to);
  if (sight.is(p, "directional_2_2")) return through_spool<directional::TwoTwo>(v, from, to);
  // What a hand opens and shuts is shut where a step works it.
  if (sight.is(p, "shut_off")) return sight.is_worked(p) || v.word("position") == 0 ? 1 : 0;
  if (sight.is(p, "needle")) return sight.is_worked(p) || v["turns"] == 0.0 ? 1 : 0;
  if (sight.is(p, "cam_valve")) return 1;
  if (sight.is(p, "check")) return from == 0 ? Cost(0) : Cost();
  if (sight.is(p, "pilot_operated_check")) return from == 0 ? 0 : 1;
  if (sight.is(p, "counterbalance")) return from == 0 ? 1 : 0;
  if (sight.is_one_of(p, {"sequence", "unloading_valve"})) return 1;
  if (through_restrictions(part) || sight.is_one_of(p, {"reducing", "flow_divider", "gear_flow_divider"}))
    return 0;
  return std::nullopt;
}

bool is_spool(const Sight& sight, int p) {
  return sight.is_one_of(p, {"directional_4_3", "directional_4_2", "directional_3_2"});
}

}  // namespace

std::optional<WayOut> way_out(const Sight& sight, PortOf from, Spools spools) {
  struct Seen {
    int shut = std::numeric_limits<int>::max();
    int before = -1, valve = -1;
  };
  std::map<int, Seen> seen;
  std::deque<int> to_visit{sight.group(from)};
  seen[to_visit.front()].shut = 0;
  std::optional<int> end;
  while (!to_visit.empty()) {
    const int here = to_visit.front();
    to_visit.pop_front();
    if (sight.has_reservoir({here})) {
      if (!end || seen[here].shut < seen[*end].shut) end = here;
      continue;
    }
    for (const PortOf& at : sight.members(here)) {
      if (sight.plan.port(at).domain != Domain::oil || sight.plan.port(at).pilot) continue;
      for (const PortOf& other : sight.oil_ports(at.part)) {
        if (other == at) continue;
        Cost cost = through_valve(sight, at.part, at.port, other.port);
        if (cost && spools == Spools::leak && is_spool(sight, at.part)) cost = 0;
        const int group = sight.group(other);
        if (!cost || seen[here].shut + *cost >= seen[group].shut) continue;
        seen[group] = {seen[here].shut + *cost, here, *cost == 1 ? at.part : -1};
        *cost == 0 ? to_visit.push_front(group) : to_visit.push_back(group);
      }
    }
  }
  if (!end) return std::nullopt;
  WayOut way{.shut = seen[*end].shut};
  for (int at = *end; at >= 0; at = seen[at].before) {
    if (seen[at].valve >= 0) way.valves.insert(way.valves.begin(), seen[at].valve);
  }
  return way;
}

namespace {

/// Whether a nut is run down at some time of the step.
bool nut_is_down(const Sight& sight, const HeldLoad& load, const StepSpan& span) {
  for (int part : sight.on_rod(*sight.port(load.cylinder, "rod"))) {
    if (sight.is(part, "lock_nut") && sight.mode(part, "locked").highest(span).value > 0.5) return true;
  }
  return false;
}

/// Push of the oil against the load, N.
double carried(const Sight& sight, const HeldLoad& load, double moment) {
  const double area = load.area,
               other_area = load.hanging ? face_at_a(sight, load.cylinder) : area_b(sight, load.cylinder);
  const auto other = other_side(sight, load);
  return sight.pressure(load.side).at(moment) * area -
         (other ? sight.pressure(*other).at(moment) * other_area : 0.0);
}

}  // namespace

std::vector<Rest> rests(const Sight& sight, const HeldLoad& load) {
  constexpr double at_least = 1.0, still = 0.5 * si::mm, raised = 5 * si::mm;
  constexpr double creep = 0.005 * si::mm;  // m/s: what leaks let it sink, less than any pump lifts
  std::vector<Rest> found;
  const Course position = sight.position(load.cylinder), pressure = sight.pressure(load.side);
  if (!position || !pressure) return found;
  const double stroke = sight.values(load.cylinder)["stroke"];
  for (const StepSpan& span : sight.spans()) {
    const double lasts = span.end - span.begin, x = position.at(span.end);
    const double height = load.hanging ? stroke - x : x;
    if (lasts < at_least || height < raised) continue;
    if (std::abs(x - position.at(span.begin + 0.5 * lasts)) > still + creep * lasts) continue;
    if (carried(sight, load, span.end) < 0.5 * load.weight || nut_is_down(sight, load, span)) continue;
    found.push_back({&span, height, pressure.at(span.end)});
  }
  return found;
}

Trapped trapped(const Sight& sight, PortOf side, double moment) {
  const Values& v = sight.values(side.part);
  const Course position = sight.position(side.part);
  const bool behind = side.port == 0 && !pulls(sight, side.part);
  const double area = side.port == 0 ? face_at_a(sight, side.part) : area_b(sight, side.part);
  const double x = position.at(moment);
  double volume = v["dead_volume"] + area * std::max(0.0, behind ? x : v["stroke"] - x);
  double give = 0.0;
  const auto zone = sight.reach(side, through_lines);
  for (int line : sight.all({"hose", "tube"})) {
    if (!sight.touches(zone, {line, 0})) continue;
    volume += oil_of_line(sight, line);
    give += give_of_line(sight, line);
  }
  for (int block : sight.all({"manifold"})) {
    if (sight.touches(zone, {block, 0})) volume += sight.values(block)["volume"];
  }
  const double pressure = std::max(0.0, sight.pressure(side).at(moment));
  const double in_oil = volume * sight.oil.density(pressure).value * sight.oil.strain_energy(pressure);
  return {volume, in_oil + 0.5 * give * pressure * pressure};
}

}  // namespace poise::rules
