// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/ways_of_oil.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include "compose/port_use.hpp"

namespace poise::compose {
namespace {

constexpr int nowhere = std::numeric_limits<int>::max();

/// Parts and nets as a graph in which oil is followed.
class Graph {
 public:
  Graph(const Sheet& sheet, const Nets& nets) : sheet_(sheet), nets_(nets), parts_on_(nets.size()) {
    for (const Placed& part : sheet.parts) {
      if (!part.kind) continue;
      for (const std::string& port : part.ports) {
        const auto net = nets.of(port);
        if (!net || !is_oil(port)) continue;
        parts_on_[*net].push_back(&part);
        if (has_role(part, Role::reservoir)) with_reservoir_.insert(*net);
      }
    }
  }

  static bool has_role(const Placed& part, Role role) { return part.kind && part.kind->about.role == role; }
  bool is_oil(const std::string& port) const { return sheet_.port(port)->domain == Domain::oil; }
  bool has_reservoir(std::size_t net) const { return with_reservoir_.contains(net); }
  const std::set<std::size_t>& with_reservoir() const { return with_reservoir_; }

  std::vector<std::size_t> oil_nets(const Placed& part) const {
    std::vector<std::size_t> all;
    for (const std::string& port : part.ports) {
      if (const auto net = nets_.of(port); net && is_oil(port)) all.push_back(*net);
    }
    return all;
  }

  /// Nets that pumps press oil into.
  std::set<std::size_t> pressed(const Placed* without = nullptr) const {
    std::set<std::size_t> all;
    for (const Placed& part : sheet_.parts) {
      if (&part == without || !has_role(part, Role::source)) continue;
      if (const auto net = nets_.of(part.tag + "." + outlet(part))) all.insert(*net);
    }
    return all;
  }

  static std::string outlet(const Placed& part) { return std::string(part.kind->ports[1].name); }

  /// Parts between each net and the nearest of those it begins with; `nowhere` where oil does not come.
  /// Pumps are not passed through, and nothing goes on from a reservoir that is not among the first.
  std::vector<int> steps(const std::set<std::size_t>& begin, const Placed* without = nullptr) const {
    std::vector<int> steps(nets_.size(), nowhere);
    std::vector<std::size_t> to_visit(begin.begin(), begin.end());
    for (const std::size_t net : begin) steps[net] = 0;
    for (std::size_t i = 0; i < to_visit.size(); ++i) {
      const std::size_t here = to_visit[i];
      if (has_reservoir(here) && !begin.contains(here)) continue;
      for (const Placed* part : parts_on_[here]) {
        if (part == without || has_role(*part, Role::source)) continue;
        for (const std::size_t net : oil_nets(*part)) {
          if (steps[net] != nowhere) continue;
          steps[net] = steps[here] + 1;
          to_visit.push_back(net);
        }
      }
    }
    return steps;
  }

  bool is_fed(const Placed& part, const std::vector<int>& steps) const {
    return std::ranges::any_of(oil_nets(part),
                               [&](std::size_t net) { return steps[net] != nowhere && !has_reservoir(net); });
  }

 private:
  const Sheet& sheet_;
  const Nets& nets_;
  std::vector<std::vector<const Placed*>> parts_on_;
  std::set<std::size_t> with_reservoir_;
};

/// Loads whose rods all belong to the branch.
void add_loads(const Sheet& sheet, const Nets& nets, std::set<const Placed*>& branch) {
  const auto is_load = [&](const Placed& part) { return part.kind && part.kind->oil_ports == 0; };
  for (bool again = true; again;) {
    again = false;
    for (const Placed& load : sheet.parts) {
      if (!is_load(load) || branch.contains(&load)) continue;
      bool on_branch = false, elsewhere = false;
      for (const std::string& port : load.ports) {
        const auto net = nets.of(port);
        if (!net) continue;
        for (const std::string& other : nets.ports(*net)) {
          const Placed* part = sheet.owner(other);
          if (!part || part == &load) continue;
          if (branch.contains(part)) on_branch = true;
          if (!branch.contains(part) && !is_load(*part)) elsewhere = true;
        }
      }
      if (!on_branch || elsewhere) continue;
      branch.insert(&load);
      again = true;
    }
  }
}

}  // namespace

bool comes_from(const Sheet& sheet, const Nets& nets, const std::string& first, const std::string& second) {
  const Graph graph(sheet, nets);
  const auto a = nets.of(first), b = nets.of(second);
  if (!a || !b) return true;
  const auto pressed = graph.steps(graph.pressed());
  if (graph.has_reservoir(*a) != graph.has_reservoir(*b)) {
    const bool tank_is_first = graph.has_reservoir(*a);
    const bool returns = pressed[tank_is_first ? *b : *a] != nowhere;
    return returns != tank_is_first;
  }
  if (pressed[*a] != pressed[*b]) return pressed[*a] < pressed[*b];
  const auto drawn = graph.steps(graph.with_reservoir());
  return drawn[*a] <= drawn[*b];
}

std::string reservoir_of(const Sheet& sheet, const Nets& nets, const std::string& port) {
  const Graph graph(sheet, nets);
  std::string found;
  int fewest = nowhere;
  for (const Placed& pump : sheet.parts) {
    if (!Graph::has_role(pump, Role::source)) continue;
    const auto out = nets.of(pump.tag + "." + Graph::outlet(pump)), in = nets.of(pump.ports.front());
    const auto here = nets.of(port);
    if (!out || !in || !here) continue;
    const int steps = graph.steps({*out})[*here];
    if (steps >= fewest) continue;
    const auto suction = graph.steps({*in});
    for (const Placed& tank : sheet.parts) {
      if (!Graph::has_role(tank, Role::reservoir)) continue;
      const auto net = nets.of(tank.ports.front());
      if (!net || suction[*net] == nowhere) continue;
      found = tank.ports.front();
      fewest = steps;
      break;
    }
  }
  if (!found.empty()) return found;
  const auto any = std::ranges::find_if(
      sheet.parts, [](const Placed& part) { return Graph::has_role(part, Role::reservoir); });
  return any == sheet.parts.end() ? std::string() : any->ports.front();
}

std::vector<std::string> branch_of(const Sheet& sheet, const Nets& nets, std::string_view tag) {
  const Placed* head = sheet.find(tag);
  std::set<const Placed*> branch{head};
  const Graph graph(sheet, nets);
  if (!Graph::has_role(*head, Role::source) && !Graph::has_role(*head, Role::reservoir) && head->kind &&
      head->kind->oil_ports > 0) {
    const auto before = graph.steps(graph.pressed()), after = graph.steps(graph.pressed(head), head);
    for (const Placed& part : sheet.parts) {
      if (part.kind && !Graph::has_role(part, Role::source) && graph.is_fed(part, before) &&
          !graph.is_fed(part, after))
        branch.insert(&part);
    }
    add_loads(sheet, nets, branch);
  }
  std::vector<std::string> tags;
  for (const Placed& part : sheet.parts) {
    if (branch.contains(&part)) tags.push_back(part.tag);
  }
  return tags;
}

}  // namespace poise::compose
