// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/ways.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <queue>

#include "draw/at_rest.hpp"
#include "draw/commanded.hpp"
#include "draw/roles.hpp"

namespace poise::draw {
namespace {

/// Below this a flow is what a resting circuit still creeps by, m3/s.
constexpr double creeping = 0.1 * si::cm3_per_minute;
/// What a passage costs the search: oil that flows the way that is asked for; at rest, but a little pressure
/// would press oil through; much would; much would in another position of the valve; oil that flows the other
/// way; and what rests in a return line, and is no feed. The dear ones are only the answer where there is no
/// other.
constexpr double along_flow = 1.0, at_rest = 10.0, if_pressed = 100.0, in_other_position = 300.0,
                 against_flow = 1000.0, out_of_tank = 5000.0, never = std::numeric_limits<double>::infinity();
/// Whether a passage is one is tried with these pressures; what passes then is more than leakage.
constexpr double little = 10 * si::bar, trial = 300 * si::bar, passes_share = 0.05,
                 passes_least = 20 * si::cm3_per_minute;
/// Pressures that differ by less than this, or by this share, are drawn alike.
constexpr double alike = 0.01, alike_least = 0.2 * si::bar;

/// Whether pressure presses oil through one part from port to port.
class Trials {
 public:
  Trials(const PlannedPart& part, const Oil& oil, const PartMoment& moment, std::vector<Input> inputs)
      : part_(part), law_(part, oil), moment_(moment), inputs_(std::move(inputs)) {
    if (find_parameter(part.values.table(), "rated_flow") && std::isfinite(part.values["rated_flow"]))
      enough_ = std::max(enough_, passes_share * part.values["rated_flow"]);
  }

  /// As the part stands now, with what stands at its ports and a little more.
  bool easily(int in, int out) {
    Around around{moment_.pressure, moment_.position, moment_.speed, inputs_};
    around.pressure[in] = around.pressure[out] + little;
    return passes(around, in, out);
  }
  /// In its position, with much more pressure and none behind it: a reducing valve is shut by its outlet.
  bool pressed(int in, int out) {
    Around around{moment_.pressure, moment_.position, moment_.speed, inputs_};
    around.pressure[in] = trial;
    around.pressure[out] = 0.0;
    return passes(around, in, out);
  }
  /// In any position, with or without pressure at its other ports.
  bool ever(int in, int out) {
    for (const double others : {0.0, trial}) {
      Around around{std::vector<double>(moment_.pressure.size(), others), moment_.position, moment_.speed,
                    inputs_};
      around.pressure[out] = 0.0;
      around.pressure[in] = trial;
      if (passes(around, in, out)) return true;
      if (inputs_.size() != 1) continue;
      const Parameter& parameter = part_.kind->parameters[part_.kind->inputs.front()];
      const double last = parameter.words.empty() ? 1.0 : static_cast<double>(parameter.words.size() - 1);
      for (int word = 0; word <= static_cast<int>(last); ++word) {
        const double to = parameter.words.empty() ? (word == 0 ? parameter.low : parameter.high) : word;
        around.input.front() = {to, to, 1.0};
        if (passes(around, in, out)) return true;
      }
    }
    return false;
  }

 private:
  bool passes(const Around& around, int in, int out) {
    const auto flows = law_.flows(around);
    return flows && (*flows)[in] > enough_ && -(*flows)[out] > enough_;
  }

  const PlannedPart& part_;
  AtRest law_;
  const PartMoment& moment_;
  std::vector<Input> inputs_;
  double enough_ = passes_least;
};

class Search {
 public:
  Search(const Job& job, const Circuit& circuit, const Trace& trace, const Moment& moment)
      : circuit_(circuit), moment_(moment) {
    const Oil oil(job.plan.oil);
    for (int p = 0; p < circuit.planned; ++p) {
      // The sides of an actuator are no way.
      if (is_actuator(job.plan.parts[p], oil)) continue;
      const int ports = circuit.parts[p].kind->oil_ports;
      Trials trials(job.plan.parts[p], oil, moment.parts[p], inputs_at(job, trace, p, moment.time));
      for (int i = 0; i < ports; ++i) {
        for (int k = 0; k < ports; ++k) {
          if (i == k || !exists(p, i) || !exists(p, k)) continue;
          const double costs = cost(p, i, k, trials);
          if (costs < never) edges_.push_back({p, i, k, costs});
        }
      }
    }
  }

  struct Found {
    std::vector<Passage> way;
    double cost = never;
  };

  double flow(int p, int port) const { return moment_.parts[p].flow[port]; }
  bool exists(int p, int port) const {
    return port_exists(circuit_.parts[p].kind->ports[port], circuit_.parts[p].values);
  }

  /// What a way begins or ends at: the actuator, a reservoir or an accumulator at a volume.
  int stands_at(int node, int actuator) const {
    int found = -1;
    for (const PortOf& at : circuit_.nodes[node].ports) {
      if (at.part == actuator) return actuator;
      const Kind& kind = *circuit_.parts[at.part].kind;
      const bool holds_oil = circuit_.nodes[node].free_surface || kind.motion_ports > 0;
      if (kind.oil_ports == 1 && holds_oil && found < 0) found = at.part;
    }
    return found;
  }
  /// The cheapest way that ends at a volume, from any that oil comes from.
  Found to(int node) const { return shortest(sources(), {node}); }
  /// The cheapest way from a volume to a reservoir.
  Found from(int node) const { return shortest({node}, reservoirs()); }

 private:
  struct Edge {
    int part, in, out;
    double cost;
  };

  double cost(int p, int in, int out, Trials& trials) const {
    if (flow(p, in) > creeping && flow(p, out) < -creeping) return along_flow;
    if (circuit_.parts[p].kind->about.role == Role::source) return in == 0 && out == 1 ? at_rest : never;
    // A line, in as many pieces as it has, is open both ways; the law of one piece knows only that.
    const bool still = std::abs(flow(p, in)) <= creeping || std::abs(flow(p, out)) <= creeping;
    const bool line = circuit_.parts[p].kind->about.role == Role::line;
    if (still && (line || trials.easily(in, out))) return at_rest;
    if (still && trials.pressed(in, out)) return if_pressed;
    if (!line && !trials.ever(in, out)) return never;
    return still ? in_other_position : against_flow;
  }

  /// Out of a reservoir oil comes by a pump, or where it flows.
  bool leaves_tank(int node, const Edge& edge) const {
    return circuit_.nodes[node].free_surface && edge.cost != along_flow &&
           circuit_.parts[edge.part].kind->about.role != Role::source;
  }
  std::vector<int> reservoirs() const {
    std::vector<int> nodes;
    for (int n = 0; n < static_cast<int>(circuit_.nodes.size()); ++n) {
      if (circuit_.nodes[n].free_surface) nodes.push_back(n);
    }
    return nodes;
  }
  std::vector<int> sources() const {
    std::vector<int> nodes = reservoirs();
    for (int p = 0; p < circuit_.planned; ++p) {
      const Kind& kind = *circuit_.parts[p].kind;
      if (kind.oil_ports == 1 && kind.motion_ports > 0 && flow(p, 0) < -creeping &&
          kind.about.role == Role::none)
        nodes.push_back(circuit_.node_of(p, 0));
    }
    return nodes;
  }

  Found shortest(const std::vector<int>& starts, const std::vector<int>& ends) const {
    const auto count = circuit_.nodes.size();
    std::vector<double> cost(count, std::numeric_limits<double>::infinity());
    std::vector<int> came(count, -1);
    using Entry = std::pair<double, int>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    for (const int n : starts) {
      cost[n] = 0.0;
      open.emplace(0.0, n);
    }
    while (!open.empty()) {
      const auto [far, node] = open.top();
      open.pop();
      if (far > cost[node]) continue;
      if (std::ranges::find(ends, node) != ends.end()) return {back_from(node, came), far};
      for (int e = 0; e < static_cast<int>(edges_.size()); ++e) {
        const Edge& edge = edges_[e];
        if (circuit_.node_of(edge.part, edge.in) != node) continue;
        const int next = circuit_.node_of(edge.part, edge.out);
        const double further = far + edge.cost + (leaves_tank(node, edge) ? out_of_tank : 0.0);
        if (further >= cost[next]) continue;
        cost[next] = further;
        came[next] = e;
        open.emplace(cost[next], next);
      }
    }
    return {};
  }

  std::vector<Passage> back_from(int node, const std::vector<int>& came) const {
    std::vector<Passage> way;
    for (int n = node; came[n] >= 0;) {
      const Edge& edge = edges_[came[n]];
      const PartMoment& m = moment_.parts[edge.part];
      way.push_back({.part = edge.part,
                     .in = edge.in,
                     .out = edge.out,
                     .drop = m.pressure[edge.in] - m.pressure[edge.out],
                     .flow = std::min(m.flow[edge.in], -m.flow[edge.out])});
      n = circuit_.node_of(edge.part, edge.in);
    }
    std::ranges::reverse(way);
    return way;
  }

  const Circuit& circuit_;
  const Moment& moment_;
  std::vector<Edge> edges_;
};

OilsWay way_past(const Search& search, const Circuit& circuit, const Moment& moment, int actuator) {
  const PartMoment& m = moment.parts[actuator];
  const int ports = circuit.parts[actuator].kind->oil_ports;
  int feed = -1, back = -1;
  for (int i = 0; i < ports; ++i) {
    if (!search.exists(actuator, i)) continue;
    const auto more = [&](int than, double sign) {
      const bool flows = sign * m.flow[i] > creeping;
      if (than < 0) return flows;
      return flows && sign * m.flow[i] > sign * m.flow[than];
    };
    if (more(feed, 1.0)) feed = i;
    if (more(back, -1.0)) back = i;
  }
  if (feed < 0 && back < 0) {
    // At rest oil would come to the side that stands open to it, of two alike to the one with more pressure.
    double cheapest = never;
    for (int i = 0; i < ports; ++i) {
      if (!search.exists(actuator, i)) continue;
      const double cost = search.to(circuit.node_of(actuator, i)).cost;
      const bool nearer =
          cost < cheapest || (cost == cheapest && feed >= 0 && m.pressure[i] > m.pressure[feed]);
      if (feed >= 0 && !nearer) continue;
      feed = i;
      cheapest = cost;
    }
  }
  for (int i = 0; i < ports && feed >= 0 && back < 0; ++i) {
    if (search.exists(actuator, i) && i != feed) back = i;
  }
  OilsWay way{.actuators = {actuator}, .pressure = {}, .passages = {}, .only_back = feed < 0};
  if (feed >= 0) way.passages = search.to(circuit.node_of(actuator, feed)).way;
  if (feed >= 0 && back >= 0) {
    way.passages.push_back({.part = actuator,
                            .in = feed,
                            .out = back,
                            .drop = m.pressure[feed] - m.pressure[back],
                            .flow = m.flow[feed],
                            .works = true});
  }
  if (back >= 0)
    std::ranges::copy(search.from(circuit.node_of(actuator, back)).way, std::back_inserter(way.passages));
  if (!way.passages.empty()) {
    const Passage &first = way.passages.front(), &last = way.passages.back();
    way.begins = search.stands_at(circuit.node_of(first.part, first.in), actuator);
    way.ends = search.stands_at(circuit.node_of(last.part, last.out), actuator);
  }
  for (const Passage& passage : way.passages) {
    if (way.pressure.empty()) way.pressure.push_back(moment.parts[passage.part].pressure[passage.in]);
    way.pressure.push_back(moment.parts[passage.part].pressure[passage.out]);
  }
  return way;
}

/// The same parts but for the actuators, at pressures that paper does not tell apart.
bool alike_ways(const OilsWay& a, const OilsWay& b) {
  if (a.passages.size() != b.passages.size()) return false;
  for (std::size_t i = 0; i < a.passages.size(); ++i) {
    const Passage &p = a.passages[i], &q = b.passages[i];
    if (p.works != q.works || p.in != q.in || p.out != q.out || (!p.works && p.part != q.part)) return false;
  }
  for (std::size_t i = 0; i < a.pressure.size(); ++i) {
    const double off = std::abs(a.pressure[i] - b.pressure[i]);
    if (off > std::max(alike_least, alike * std::abs(a.pressure[i]))) return false;
  }
  return true;
}

}  // namespace

std::vector<OilsWay> oils_ways(const Job& job, const Circuit& circuit, const Trace& trace,
                               const Moment& moment, const std::vector<int>& actuators) {
  const Search search(job, circuit, trace, moment);
  std::vector<OilsWay> ways;
  for (const int actuator : actuators) {
    OilsWay way = way_past(search, circuit, moment, actuator);
    if (way.passages.empty()) continue;
    const auto twin =
        std::ranges::find_if(ways, [&](const OilsWay& other) { return alike_ways(way, other); });
    if (twin == ways.end()) {
      ways.push_back(std::move(way));
    } else {
      twin->actuators.push_back(actuator);
    }
  }
  return ways;
}

}  // namespace poise::draw
