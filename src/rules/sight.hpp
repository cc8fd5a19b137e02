// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <functional>
#include <initializer_list>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "circuit/join.hpp"
#include "circuit/plan.hpp"
#include "circuit/schedule.hpp"
#include "rules/course.hpp"
#include "units/units.hpp"

namespace poise::rules {

/// Pressure at which a valve that limits pressure begins to open, and what it lets through above that.
struct Limit {
  int part = 0;
  double cracking = 0.0;    ///< Pa over its outlet
  double band = 0.0;        ///< Pa, from cracking to fully open
  double rated_flow = 0.0;  ///< m3/s, passed at cracking + band
  /// Pressure over it while a flow passes, Pa, read off a straight band.
  double at_flow(double flow) const {
    return rated_flow > 0.0 ? cracking + band * flow / rated_flow : cracking;
  }
};

/// Whether oil can pass a part at rest, for `Sight::reach`.
using Passes = bool (*)(const PlannedPart&);
/// Lines, fittings, blocks, coolers: always open.
bool through_lines(const PlannedPart& part);
/// These and what throttles or can be shut by hand: filters, needles, flow controls, couplings, shut-offs,
/// snubbers, capillaries, burst valves.
bool through_restrictions(const PlannedPart& part);
/// What stands in a return line on its way to the reservoir: lines, filters, couplings, coolers.
bool through_return(const PlannedPart& part);
/// Everything.
bool through_all(const PlannedPart& part);

/// A motion that oil at a port drives.
struct Driven {
  PortOf port;
  int motion = 0;
  double swept = 0.0;  ///< m3 per metre: positive where oil in makes the position grow
  double pace = 0.0;  ///< m/s, mean over the way of its speed in the run while oil goes in; 0: it never moves

  int part() const { return port.part; }
  /// The least speed that counts as moving, m/s.
  double moves() const { return std::max(0.1 * pace, 1e-5); }
  double forward(double speed) const { return swept < 0.0 ? -speed : speed; }
};

/// What a rule sees: the plan as a graph, the cycle, the run if there was one, and how to say numbers.
class Sight {
 public:
  /// Views its arguments, which must outlive it. Without a trace, or one in which not all that is
  /// `watched` was glanced at, rules that need a run find nothing.
  Sight(const Plan& plan, const Schedule& steps, const Controls& controls, const units::World& world,
        const Trace* trace = nullptr);

  const Plan& plan;
  const Schedule& steps;
  const Controls& controls;
  const units::World& world;
  const Oil oil;

  // ── Parts ──
  int parts() const { return static_cast<int>(plan.parts.size()); }
  const PlannedPart& part(int p) const { return plan.parts[p]; }
  const Values& values(int p) const { return plan.parts[p].values; }
  const std::string& tag(int p) const { return plan.parts[p].tag; }
  bool is(int p, std::string_view kind) const { return plan.parts[p].kind->about.kind == kind; }
  bool is_one_of(int p, std::initializer_list<std::string_view> kinds) const;
  Role role(int p) const { return plan.parts[p].kind->about.role; }
  /// All parts of these kinds, or of a role, in the job's order.
  std::vector<int> all(std::initializer_list<std::string_view> kinds) const;
  std::vector<int> all(Role wanted) const;
  /// The value where the kind has such a line and it is given.
  std::optional<double> given(int p, std::string_view parameter) const;
  /// The port of that name, or none where the part has none (or not with its values).
  std::optional<PortOf> port(int p, std::string_view name) const;
  /// Its existing oil ports; pilot and drain ports only if asked for.
  std::vector<PortOf> oil_ports(int p, bool pilots = false) const;
  std::string name(PortOf at) const { return plan.name(at); }
  /// Whether steps or controls ever set an input of the part to something.
  bool is_worked(int p) const;

  // ── Graph: groups of joined ports ──
  int group(PortOf at) const { return groups_.group_of[at.part][at.port]; }
  const std::vector<PortOf>& members(int group) const { return groups_.members[group]; }
  /// What is joined to a port directly, without itself.
  std::vector<PortOf> beside(PortOf at) const;
  /// All groups that oil gets to from one, through the parts that `passes` lets it pass, by their main ports.
  std::set<int> reach(int from, Passes passes) const;
  std::set<int> reach(PortOf from, Passes passes) const { return reach(group(from), passes); }
  /// All groups that any oil gets to, past reservoirs and pilots too: whether two places belong to one
  /// circuit.
  std::set<int> reach_everything(PortOf from) const;
  const Groups& groups() const { return groups_; }
  /// All oil ports of parts in these groups.
  std::vector<PortOf> ports_in(const std::set<int>& groups) const;
  bool touches(const std::set<int>& groups, PortOf at) const { return groups.contains(group(at)); }
  /// Whether a reservoir's port is in the groups.
  bool has_reservoir(const std::set<int>& groups) const;
  /// Whether a port is always open to a reservoir through lines alone, or through restrictions too.
  bool is_tank_line(PortOf at, Passes passes = through_lines) const {
    return has_reservoir(reach(at, passes));
  }
  /// What else hangs on a body: parts whose motion port is joined to this one (a rod's mass, force, spring).
  std::vector<int> on_rod(PortOf rod) const;
  /// Valves that limit the pressure of a port: inlet joined through lines, outlet with an open way to a
  /// reservoir.
  std::vector<Limit> limits_of(PortOf at) const;
  /// Pressure at a port with a flow going over the lowest of these limits, Pa; none where nothing limits it.
  std::optional<double> limited_at(PortOf at, double flow) const;
  /// The setting of a relief valve of any kind; its role must be pressure_limit.
  Limit limit(int p) const;
  /// Groups on the way of the oil from a reservoir to the pumps' suction ports, the reservoir's own left out.
  std::set<int> suction_lines() const;
  /// Groups that have an open way to a reservoir through what stands in return lines, without suction lines
  /// and the reservoir's own.
  std::set<int> tank_lines() const;
  /// The lowest rating among the parts joined through lines (−1: none is rated), Pa; gauges by their range;
  /// only of parts that count, where that is asked.
  struct Weakest {
    int part = -1;
    double rating = 0.0;
  };
  Weakest weakest(const std::set<int>& groups, const std::function<bool(int part)>& counts = {}) const;
  /// No-load flow of a pump as its datasheet has it, all stages; 0 where it has none (an air-driven one has).
  double pump_flow(int p) const;

  // ── The run ──
  bool ran() const { return trace_ != nullptr; }
  const Trace& trace() const { return *trace_; }
  std::span<const StepSpan> spans() const {
    return trace_ ? std::span(trace_->steps) : std::span<const StepSpan>{};
  }
  double duration() const { return ran() ? trace_->time.back() - trace_->time.front() : 0.0; }
  Course pressure(PortOf at) const;
  /// Volume flow into the part at one of its ports. Of a part with two ports and no piston only that of the
  /// first is kept; that of the second is its opposite.
  Course flow(PortOf at) const;
  Course position(int p, int motion_port = 0) const;
  Course speed(int p, int motion_port = 0) const;
  Course output(int p, std::string_view name) const;
  Course state(int p, std::string_view name) const;
  Course mode(int p, std::string_view name) const;
  /// Highest pressure at any port of these groups.
  struct Highest {
    Peak peak;
    PortOf at;
  };
  std::optional<Highest> highest(const std::set<int>& groups) const;
  /// Highest pressure at a port in the whole run; {0, 0} without one. Looked for once, however many ask.
  Peak highest(PortOf at) const;
  /// Every motion that oil drives, once per oil port: worked out once, when first asked for.
  const std::vector<Driven>& driven() const;

  // ── Words, in the job's units ──
  std::string say(double value, Quantity quantity) const { return units::show(value, quantity, world); }
  /// In the unit that the shop has for this purpose: speeds of oil in m/s or ft/s, reservoirs in L or gal.
  std::string say_in(double value, Quantity quantity, std::string_view metric, std::string_view us) const;
  /// `at 3.21 s in "clamp"`
  std::string when(double time) const;
  std::string step_at(double time) const;

 private:
  Course course(Signal::What what, int part, int index) const;

  const Trace* trace_;
  Groups groups_;
  std::vector<std::vector<std::pair<const Signal*, std::size_t>>> columns_;  ///< of each part
  std::vector<int> pressure_column_;                                         ///< of each group, or −1
  mutable std::vector<std::optional<Peak>> highest_;  ///< of each group, once asked for
  mutable std::optional<std::vector<Driven>> driven_;
};

/// The signals that rules look at, each once: pressures of the oil's nodes, flows, motions, openings,
/// outputs.
std::vector<Signal> watched(const Plan& plan);

}  // namespace poise::rules
