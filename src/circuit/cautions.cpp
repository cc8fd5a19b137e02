// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include "circuit/circuit.hpp"
#include "circuit/join.hpp"

namespace poise {
namespace {

/// The plan as a graph: groups of joined ports, and parts between them.
class Graph {
 public:
  explicit Graph(const Plan& plan) : plan_(plan), groups_(join(plan)) {}

  int group(int part, int port) const { return groups_.group_of[part][port]; }
  const std::vector<PortOf>& members(int group) const { return groups_.members[group]; }
  bool is_oil(int part, int port) const { return plan_.parts[part].kind->ports[port].domain == Domain::oil; }

  /// All groups that oil can get to from one group, through parts that `passes` lets it pass.
  template <class F>
  std::set<int> reach(int from, F passes) const {
    std::set<int> seen{from};
    std::vector<int> to_visit{from};
    while (!to_visit.empty()) {
      const int here = to_visit.back();
      to_visit.pop_back();
      for (const PortOf& at : members(here)) {
        if (!passes(plan_.parts[at.part])) continue;
        for (int k = 0; k < plan_.parts[at.part].kind->oil_ports; ++k) {
          if (seen.insert(group(at.part, k)).second) to_visit.push_back(group(at.part, k));
        }
      }
    }
    return seen;
  }

 private:
  const Plan& plan_;
  Groups groups_;
};

bool has_free_surface(const PlannedPart& part, const OilData& oil) {
  const Laws laws = part.kind->make(part.values, Oil(oil));
  return laws.free_surface(laws.numbers.get()).usable > 0.0;
}

/// A pressure limit whose inlet is among the groups and whose outlet has an open way to a reservoir.
bool is_limited(const Plan& plan, const Graph& graph, const std::set<int>& groups,
                const std::set<int>& reservoirs) {
  const auto is_line = [](const PlannedPart& p) { return p.kind->about.role == Role::line; };
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    if (plan.parts[p].kind->about.role != Role::pressure_limit || !groups.contains(graph.group(p, 0)))
      continue;
    for (int back : graph.reach(graph.group(p, 1), is_line)) {
      if (reservoirs.contains(back)) return true;
    }
  }
  return false;
}

void find_unlimited_sources(const Plan& plan, const Graph& graph, const std::set<int>& reservoirs,
                            std::vector<Remark>& found) {
  const auto is_line = [](const PlannedPart& p) { return p.kind->about.role == Role::line; };
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    const PlannedPart& part = plan.parts[p];
    if (part.kind->about.role != Role::source) continue;
    if (is_limited(plan, graph, graph.reach(graph.group(p, 1), is_line), reservoirs)) continue;
    found.push_back(
        {part.place,
         fmt::format(
             "{} has no relief valve with an open way to it and from it to the reservoir: dead-headed, "
             "it raises the pressure until something bursts. Put one at its outlet, with no check, "
             "shut-off or other valve between",
             part.tag)});
  }
}

/// Looks for a ring of one-way parts from `at`, depth first; `way` holds the parts on the present way.
bool find_ring(const Plan& plan, const Graph& graph, int at, std::vector<int>& way, std::set<int>& done) {
  if (const auto again = std::ranges::find(way, at); again != way.end()) {
    way.erase(way.begin(), again);
    return true;
  }
  if (!done.insert(at).second) return false;
  way.push_back(at);
  for (const PortOf& next : graph.members(graph.group(at, 1))) {
    if (next.port == 0 && plan.parts[next.part].kind->about.role == Role::one_way &&
        find_ring(plan, graph, next.part, way, done)) {
      return true;
    }
  }
  way.pop_back();
  return false;
}

void find_rings(const Plan& plan, const Graph& graph, std::vector<Remark>& found) {
  std::set<int> done;
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    std::vector<int> way;
    if (plan.parts[p].kind->about.role != Role::one_way || !find_ring(plan, graph, p, way, done)) continue;
    std::string ring;
    for (int q : way) ring += plan.parts[q].tag + " → ";
    found.push_back(
        {plan.parts[way.front()].place,
         fmt::format(
             "{}{} is a ring of checks that all point the same way: oil can run round it, and no side "
             "of it is held. Is one of them the wrong way round?",
             ring, plan.parts[way.front()].tag)});
  }
}

void find_reservoirs_apart(const Plan& plan, const Graph& graph, const std::vector<int>& reservoirs,
                           std::vector<Remark>& found) {
  for (std::size_t i = 1; i < reservoirs.size(); ++i) {
    const int a = reservoirs[0], b = reservoirs[i];
    if (graph.group(a, 0) == graph.group(b, 0)) continue;
    const bool shared =
        graph.reach(graph.group(a, 0), [](const PlannedPart&) { return true; }).contains(graph.group(b, 0));
    found.push_back(
        {plan.parts[b].place,
         shared
             ? fmt::format("{} and {} are two reservoirs apart in one circuit: oil drawn from one may come "
                           "back to the other until one is empty. Join their ports, or use one",
                           plan.parts[a].tag, plan.parts[b].tag)
             : fmt::format("{} and {} belong to two circuits that share no oil; is a line missing?",
                           plan.parts[a].tag, plan.parts[b].tag)});
  }
}

/// Parts whose pistons are one body can start in one place only: build() takes the first one's.
void find_starts_apart(const Plan& plan, std::vector<Remark>& found) {
  for (const auto& members : join(plan).members) {
    if (plan.port(members.front()).domain != Domain::motion) continue;
    std::optional<double> first;
    PortOf first_at;
    for (const PortOf& at : members) {
      const PlannedPart& part = plan.parts[at.part];
      const Laws laws = part.kind->make(part.values, Oil(plan.oil));
      const auto start = laws.body(laws.numbers.get(), at.port - part.kind->oil_ports).start;
      if (!start) continue;
      if (first && *first != *start) {
        found.push_back(
            {part.place, fmt::format("{} and {} are one rod but start in different positions; that of {} "
                                     "is taken for both",
                                     plan.name(first_at), plan.name(at), plan.parts[first_at.part].tag)});
      }
      if (!first) {
        first = start;
        first_at = at;
      }
    }
  }
}

}  // namespace

std::vector<Remark> cautions_of(const Plan& plan) {
  std::vector<Remark> found;
  const Graph graph(plan);
  std::vector<int> reservoirs;
  std::set<int> surfaces;
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    if (!has_free_surface(plan.parts[p], plan.oil)) continue;
    reservoirs.push_back(p);
    surfaces.insert(graph.group(p, 0));
  }
  find_unlimited_sources(plan, graph, surfaces, found);
  find_rings(plan, graph, found);
  find_reservoirs_apart(plan, graph, reservoirs, found);
  find_starts_apart(plan, found);
  return found;
}

}  // namespace poise
