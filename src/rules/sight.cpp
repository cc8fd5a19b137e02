// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/sight.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "circuit/rating.hpp"
#include "parts/pilot_operated_relief.hpp"
#include "parts/relief.hpp"
#include "rules/pressed.hpp"
#include "rules/ways.hpp"

namespace poise::rules {

bool through_lines(const PlannedPart& part) { return part.kind->about.role == Role::line; }

bool through_restrictions(const PlannedPart& part) {
  constexpr std::array<std::string_view, 10> kinds{"filter",
                                                   "needle",
                                                   "one_way_flow_control",
                                                   "compensated_flow_control",
                                                   "quick_coupling",
                                                   "shut_off",
                                                   "snubber",
                                                   "capillary",
                                                   "hose_burst_valve",
                                                   "cam_valve"};
  return through_lines(part) || std::ranges::find(kinds, part.kind->about.kind) != kinds.end();
}

bool through_return(const PlannedPart& part) {
  return through_lines(part) || part.kind->about.kind == "filter" ||
         part.kind->about.kind == "quick_coupling";
}

bool through_all(const PlannedPart&) { return true; }

namespace {

/// Rules compare one signal with another row by row: a run in which only some were looked at is no run to
/// them.
bool shows_all(const Trace& trace, const Plan& plan) {
  return !trace.glances.time.empty() && trace.glances.signals.size() == watched(plan).size();
}

}  // namespace

Sight::Sight(const Plan& the_plan, const Schedule& the_steps, const Controls& the_controls,
             const units::World& the_world, const Trace* the_trace)
    : plan(the_plan),
      steps(the_steps),
      controls(the_controls),
      world(the_world),
      oil(the_plan.oil),
      trace_(the_trace && !the_trace->time.empty() && shows_all(*the_trace, the_plan) ? the_trace : nullptr),
      groups_(join(the_plan)),
      columns_(the_plan.parts.size()),
      pressure_column_(groups_.members.size(), -1),
      highest_(groups_.members.size()) {
  if (!trace_) return;
  const std::vector<Signal>& signals = trace_->glances.signals;
  for (std::size_t i = 0; i < signals.size(); ++i) {
    const Signal& signal = signals[i];
    if (signal.what == Signal::What::pressure)
      pressure_column_[group({signal.part, signal.index})] = static_cast<int>(i);
    else
      columns_[signal.part].emplace_back(&signal, i);
  }
}

bool Sight::is_one_of(int p, std::initializer_list<std::string_view> kinds) const {
  return std::ranges::find(kinds, plan.parts[p].kind->about.kind) != kinds.end();
}

std::vector<int> Sight::all(std::initializer_list<std::string_view> kinds) const {
  std::vector<int> found;
  for (int p = 0; p < parts(); ++p) {
    if (is_one_of(p, kinds)) found.push_back(p);
  }
  return found;
}

std::vector<int> Sight::all(Role wanted) const {
  std::vector<int> found;
  for (int p = 0; p < parts(); ++p) {
    if (role(p) == wanted) found.push_back(p);
  }
  return found;
}

std::optional<double> Sight::given(int p, std::string_view parameter) const {
  if (!find_parameter(plan.parts[p].kind->parameters, parameter) || !values(p).given(parameter))
    return std::nullopt;
  return values(p)[parameter];
}

std::optional<PortOf> Sight::port(int p, std::string_view name) const {
  const auto& ports = plan.parts[p].kind->ports;
  for (int i = 0; i < static_cast<int>(ports.size()); ++i) {
    if (ports[i].name == name && port_exists(ports[i], values(p))) return PortOf{p, i};
  }
  return std::nullopt;
}

std::vector<PortOf> Sight::oil_ports(int p, bool pilots) const {
  std::vector<PortOf> found;
  const Kind& kind = *plan.parts[p].kind;
  for (int i = 0; i < kind.oil_ports; ++i) {
    if (port_exists(kind.ports[i], values(p)) && (pilots || !kind.ports[i].pilot)) found.push_back({p, i});
  }
  return found;
}

bool Sight::is_worked(int p) const {
  const auto works = [&](const auto& all) {
    return std::ranges::any_of(all, [&](const auto& each) {
      return std::ranges::find(each.commands, p, &Command::part) != each.commands.end();
    });
  };
  return works(steps) || works(controls);
}

std::vector<PortOf> Sight::beside(PortOf at) const {
  std::vector<PortOf> others = members(group(at));
  std::erase(others, at);
  return others;
}

std::set<int> Sight::reach(int from, Passes passes) const {
  // What is behind a free surface is another line.
  const auto stops_at = [&](int group) { return has_reservoir({group}); };
  return groups_from(*this, from, stops_at, [&](PortOf at) {
    return passes(part(at.part)) ? oil_ports(at.part) : std::vector<PortOf>{};
  });
}

std::set<int> Sight::reach_everything(PortOf from) const {
  std::set<int> seen{group(from)};
  std::vector<int> to_visit{group(from)};
  while (!to_visit.empty()) {
    const int here = to_visit.back();
    to_visit.pop_back();
    for (const PortOf& at : members(here)) {
      for (const PortOf& other : oil_ports(at.part, true)) {
        if (seen.insert(group(other)).second) to_visit.push_back(group(other));
      }
    }
  }
  return seen;
}

std::vector<PortOf> Sight::ports_in(const std::set<int>& groups) const {
  std::vector<PortOf> found;
  for (int group : groups) {
    for (const PortOf& at : members(group)) {
      if (plan.port(at).domain == Domain::oil) found.push_back(at);
    }
  }
  return found;
}

bool Sight::has_reservoir(const std::set<int>& groups) const {
  return std::ranges::any_of(groups, [&](int group) {
    return std::ranges::any_of(members(group), [&](PortOf at) { return role(at.part) == Role::reservoir; });
  });
}

std::vector<int> Sight::on_rod(PortOf rod) const {
  std::vector<int> found;
  for (const PortOf& other : beside(rod)) {
    if (std::ranges::find(found, other.part) == found.end()) found.push_back(other.part);
  }
  return found;
}

Limit Sight::limit(int p) const {
  const Values& v = values(p);
  if (is(p, "pilot_operated_relief")) {
    const double cracking = PilotOperatedRelief::cracking_of(v);
    return {p, cracking, v["override"] * cracking, v["rated_flow"]};
  }
  const ReliefOpening opening(v);
  return {p, opening.cracking, opening.band, opening.open.flow(opening.cracking + opening.band, 1.0)};
}

std::vector<Limit> Sight::limits_of(PortOf at) const {
  std::vector<Limit> found;
  const std::set<int> zone = reach(at, through_lines);
  for (int p : all(Role::pressure_limit)) {
    // A return coupling may be parted: it leaves a relief valve no way out.
    if (touches(zone, {p, 0}) && is_tank_line({p, 1}, through_lines_and_filters)) found.push_back(limit(p));
  }
  std::ranges::sort(found, {}, &Limit::cracking);
  return found;
}

std::optional<double> Sight::limited_at(PortOf at, double flow) const {
  const std::vector<Limit> limits = limits_of(at);
  if (limits.empty()) return std::nullopt;
  return limits.front().at_flow(std::min(flow, limits.front().rated_flow));
}

std::set<int> Sight::suction_lines() const {
  std::set<int> found;
  for (int pump : all(Role::source)) {
    if (const auto suction = port(pump, "S")) found.merge(reach(*suction, through_return));
  }
  std::erase_if(found, [&](int group) { return has_reservoir({group}); });
  return found;
}

std::set<int> Sight::tank_lines() const {
  std::set<int> found;
  for (int reservoir : all(Role::reservoir)) {
    for (const PortOf& at : members(group({reservoir, 0}))) {
      if (!through_return(part(at.part)) || plan.port(at).pilot) continue;
      for (const PortOf& other : oil_ports(at.part)) found.merge(reach(other, through_return));
    }
  }
  const std::set<int> suction = suction_lines();
  std::erase_if(found, [&](int group) { return suction.contains(group) || has_reservoir({group}); });
  return found;
}

Sight::Weakest Sight::weakest(const std::set<int>& groups, const std::function<bool(int)>& counts) const {
  Weakest weakest;
  for (const PortOf& at : ports_in(groups)) {
    const std::string_view name = rating_parameter(*part(at.part).kind);
    if (name.empty() || !values(at.part).given(name) || plan.port(at).pilot) continue;
    if (role(at.part) == Role::source && plan.port(at).name == "S") continue;
    if (counts && !counts(at.part)) continue;
    const double rating = rating_from(values(at.part)[name]).alarm;
    if (weakest.part < 0 || rating < weakest.rating) weakest = {at.part, rating};
  }
  return weakest;
}

double Sight::pump_flow(int p) const {
  if (is(p, "two_stage_pump") && given(p, "low_pressure_flow")) return values(p)["low_pressure_flow"];
  if (is(p, "hand_pump")) return delivery_at(*this, p, 0.0);
  if (const auto flow = given(p, "flow")) return *flow;
  if (const auto displacement = given(p, "displacement"))
    return *displacement * given(p, "speed").value_or(1450.0 / 60.0);
  if (find_parameter(part(p).kind->parameters, "delivery_curve")) {
    double most = 0.0;
    for (const CurvePoint& point : values(p).points("delivery_curve")) most = std::max(most, point.y);
    return most;
  }
  return 0.0;
}

Course Sight::course(Signal::What what, int p, int index) const {
  for (const auto& [signal, column] : columns_[p]) {
    if (signal->what == what && signal->index == index)
      return {trace_->glances.time, trace_->glances.values[column]};
  }
  return {};
}

Course Sight::pressure(PortOf at) const {
  const int column = pressure_column_[group(at)];
  if (column < 0) return {};
  const Glances::Extreme &high = trace_->glances.highest[column], &low = trace_->glances.lowest[column];
  return {
      trace_->glances.time, trace_->glances.values[column], {high.value, high.time}, {low.value, low.time}};
}

Course Sight::flow(PortOf at) const { return course(Signal::What::flow, at.part, at.port); }
Course Sight::position(int p, int motion_port) const {
  return course(Signal::What::position, p, motion_port);
}
Course Sight::speed(int p, int motion_port) const { return course(Signal::What::speed, p, motion_port); }

namespace {

template <class List>
int index_of(const List& list, std::string_view name) {
  const auto found = std::ranges::find(list, name, [](const auto& each) { return each.name; });
  return found == list.end() ? -1 : static_cast<int>(found - list.begin());
}

}  // namespace

Course Sight::output(int p, std::string_view name) const {
  return course(Signal::What::output, p, index_of(part(p).kind->outputs, name));
}
Course Sight::state(int p, std::string_view name) const {
  return course(Signal::What::state, p, index_of(part(p).kind->states, name));
}
Course Sight::mode(int p, std::string_view name) const {
  return course(Signal::What::mode, p, index_of(part(p).kind->modes, name));
}

std::optional<Sight::Highest> Sight::highest(const std::set<int>& groups) const {
  std::optional<Highest> found;
  for (int group : groups) {
    const PortOf at = members(group).front();
    if (!pressure(at)) continue;
    const Peak peak = highest(at);
    if (!found || peak.value > found->peak.value) found = Highest{peak, at};
  }
  return found;
}

Peak Sight::highest(PortOf at) const {
  std::optional<Peak>& found = highest_[group(at)];
  if (!found) found = pressure(at).highest();
  return *found;
}

std::string Sight::say_in(double value, Quantity quantity, std::string_view metric,
                          std::string_view us) const {
  units::World here = world;
  units::set_unit(here, quantity, world[Quantity::length] == units::us()[Quantity::length] ? us : metric);
  return units::show(value, quantity, here);
}

namespace {

/// Σ v²·dt / Σ v·dt over the time in which it goes forward: a shock hardly counts, as it goes no way.
double pace_of(const Course& speed, const Driven& driven) {
  double way = 0.0, weighted = 0.0;
  for (std::size_t row = 1; row < speed.time().size(); ++row) {
    const double v = driven.forward(speed.value()[row]), h = speed.time()[row] - speed.time()[row - 1];
    if (v <= 0.0) continue;
    way += v * h;
    weighted += v * v * h;
  }
  return way > 0.0 ? weighted / way : 0.0;
}

}  // namespace

const std::vector<Driven>& Sight::driven() const {
  if (driven_) return *driven_;
  driven_.emplace();
  for (int p : all(Role::actuator)) {
    const Kind& kind = *part(p).kind;
    const Laws laws = kind.make(values(p), oil);
    for (const PortOf& at : oil_ports(p)) {
      const Space space = laws.space(laws.numbers.get(), at.port);
      for (int m = 0; m < kind.motion_ports; ++m) {
        if (space.swept[m] == 0.0) continue;
        Driven one{.port = at, .motion = m, .swept = space.swept[m]};
        one.pace = pace_of(speed(p, m), one);
        driven_->push_back(one);
      }
    }
  }
  return *driven_;
}

std::string Sight::step_at(double time) const {
  for (const StepSpan& span : spans()) {
    if (time >= span.begin && time <= span.end) return span.name;
  }
  return {};
}

std::string Sight::when(double time) const {
  const std::string step = step_at(time);
  return step.empty() ? fmt::format("at {}", say(time, Quantity::time))
                      : fmt::format("at {} in \"{}\"", say(time, Quantity::time), step);
}

std::vector<Signal> watched(const Plan& plan) {
  const Groups groups = join(plan);
  std::vector<bool> seen(groups.members.size(), false);
  std::vector<Signal> all;
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    const Kind& kind = *plan.parts[p].kind;
    for (Signal& signal : signals_of(plan, p)) {
      const bool oil = signal.what == Signal::What::pressure || signal.what == Signal::What::flow;
      if (oil && kind.oil_ports == 2 && kind.motion_ports == 0 && signal.what == Signal::What::flow &&
          signal.index == 1)
        continue;
      if (signal.what == Signal::What::pressure) {
        const int group = groups.group_of[p][signal.index];
        if (seen[group]) continue;
        seen[group] = true;
      }
      all.push_back(std::move(signal));
    }
  }
  return all;
}

}  // namespace poise::rules
