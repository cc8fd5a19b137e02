// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/codes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <map>
#include <set>
#include <tuple>

#include "circuit/join.hpp"

namespace poise::draw {
namespace {

constexpr int nothing = -1;

bool has_code(const Kind& kind) {
  const bool drives =
      !kind.inputs.empty() && std::ranges::any_of(kind.ports, [](const Port& p) { return p.turns; });
  return (kind.oil_ports > 0 && !kind.warms) || drives;
}

/// A share that steps may set is dirt, as in a filter, and no work of a hand.
bool is_worked(const Kind& kind) {
  return std::ranges::any_of(kind.inputs, [&](int i) {
    return kind.parameters[i].quantity != Quantity::share || !kind.parameters[i].words.empty();
  });
}

/// Whether it sends oil one way or another as it is worked.
bool is_directional(const Kind& kind) {
  return kind.oil_ports > 2 &&
         std::ranges::any_of(kind.inputs, [&](int i) { return !kind.parameters[i].words.empty(); });
}

/// Lines and what else lets oil pass both ways, whoever commands.
bool is_passage(const Kind& kind) {
  const Role role = kind.about.role;
  return role == Role::line ||
         (role == Role::none && kind.oil_ports == 2 && kind.motion_ports == 0 && !is_worked(kind));
}

/// The ways of the oil from the pumps on, each part reached by its shortest.
class Ways {
 public:
  explicit Ways(const Plan& plan)
      : plan_(plan), groups_(join(plan)), parent_(plan.parts.size(), nothing), depth_(plan.parts.size(), 0) {
    find_returns();
    walk();
  }

  bool is_return(int part) const {
    const Kind& kind = *plan_.parts[part].kind;
    return is_passage(kind) &&
           std::ranges::all_of(oil_groups(part), [&](int g) { return returns_.contains(g); });
  }
  /// From a part fed by a pump to this one; without the pump.
  std::vector<int> way_to(int part) const {
    std::vector<int> way;
    for (int p = part; p != nothing && !is_source(p); p = parent_[p]) way.insert(way.begin(), p);
    return way;
  }
  bool is_source(int part) const { return role(part) == Role::source; }
  Role role(int part) const { return plan_.parts[part].kind->about.role; }

  /// The part that feeds it, or `nothing`.
  int parent(int part) const { return parent_[part]; }
  /// Parts from the pump on, which is 1; 0 where no pump's oil comes.
  int depth(int part) const { return depth_[part]; }
  /// Parts as they were reached.
  const std::vector<int>& order() const { return order_; }

 private:
  std::vector<int> oil_groups(int part) const {
    const Kind& kind = *plan_.parts[part].kind;
    std::vector<int> all;
    for (int k = 0; k < kind.oil_ports; ++k) {
      if (!kind.ports[k].pilot && port_exists(kind.ports[k], plan_.parts[part].values))
        all.push_back(groups_.group_of[part][k]);
    }
    return all;
  }

  /// Joints that are always open to a reservoir.
  void find_returns() {
    const int parts = static_cast<int>(plan_.parts.size());
    std::set<int> deliveries;
    for (int p = 0; p < parts; ++p) {
      if (role(p) == Role::reservoir) returns_.insert(groups_.group_of[p][0]);
      if (is_source(p)) deliveries.insert(groups_.group_of[p][1]);
    }
    for (bool more = true; more;) {
      more = false;
      for (int p = 0; p < parts; ++p) {
        const bool falls_back = role(p) == Role::one_way && returns_.contains(groups_.group_of[p][1]);
        const auto groups = oil_groups(p);
        const bool open = is_passage(*plan_.parts[p].kind) &&
                          std::ranges::any_of(groups, [&](int g) { return returns_.contains(g); });
        if (!open && !falls_back) continue;
        for (int g : groups) more = (!deliveries.contains(g) && returns_.insert(g).second) || more;
      }
    }
  }

  void walk() {
    std::deque<std::pair<int, int>> next;  // joint, and the part that feeds it
    std::set<int> seen = returns_;
    for (int p = 0; p < static_cast<int>(plan_.parts.size()); ++p) {
      if (!is_source(p)) continue;
      depth_[p] = 1;
      order_.push_back(p);
      if (const int delivery = groups_.group_of[p][1]; seen.insert(delivery).second)
        next.emplace_back(delivery, p);
    }
    for (; !next.empty(); next.pop_front()) {
      const auto [group, feeder] = next.front();
      for (const PortOf& at : groups_.members[group]) {
        const Port& port = plan_.port(at);
        if (depth_[at.part] > 0 || port.domain != Domain::oil || port.pilot) continue;
        depth_[at.part] = depth_[feeder] + 1;
        parent_[at.part] = feeder;
        order_.push_back(at.part);
        for (int g : oil_groups(at.part)) {
          if (seen.insert(g).second) next.emplace_back(g, at.part);
        }
      }
    }
  }

  const Plan& plan_;
  Groups groups_;
  std::set<int> returns_;
  std::vector<int> parent_, depth_, order_;
};

/// How many parts all these ways begin with, none of them a directional valve or an actuator.
std::size_t shared_beginning(const Plan& plan, const std::vector<std::vector<int>>& ways) {
  std::size_t shared = 0;
  for (; !ways.empty() && shared + 1 < ways.front().size(); ++shared) {
    const int part = ways.front()[shared];
    const bool all = std::ranges::all_of(
        ways, [&](const auto& way) { return shared + 1 < way.size() && way[shared] == part; });
    if (!all || is_directional(*plan.parts[part].kind)) break;
  }
  return shared;
}

/// The circuit of each part.
std::vector<int> circuits_of(const Plan& plan, const Ways& ways) {
  constexpr int supply = 1;
  std::vector<std::vector<int>> to_actuators;
  for (int p : ways.order()) {
    if (ways.role(p) == Role::actuator) to_actuators.push_back(ways.way_to(p));
  }
  const std::size_t shared = shared_beginning(plan, to_actuators);
  std::set<int> heads;
  for (const auto& way : to_actuators) heads.insert(way[shared]);
  std::vector<int> circuit(plan.parts.size(), supply);
  for (int p : ways.order()) {
    if (const auto head = heads.find(p); head != heads.end()) {
      circuit[p] = supply + 1 + static_cast<int>(std::distance(heads.begin(), head));
    } else if (ways.parent(p) != nothing) {
      circuit[p] = circuit[ways.parent(p)];
    }
  }
  return circuit;
}

/// "1-" where the first code of the job that names a system has it.
std::string system_of(const Job& job) {
  for (const DrawnPart& part : job.drawn) {
    if (const auto dash = part.code.find('-'); dash != std::string::npos)
      return part.code.substr(0, dash + 1);
  }
  return {};
}

}  // namespace

std::vector<std::string> codes_of(const Job& job) {
  const Plan& plan = job.plan;
  const Ways ways(plan);
  const std::vector<int> circuit = circuits_of(plan, ways);
  const int parts = static_cast<int>(plan.parts.size());
  std::vector<std::string> codes(plan.parts.size());
  std::set<std::string> taken;
  for (int p = 0; p < parts; ++p) {
    if (!job.drawn.empty()) codes[p] = job.drawn[p].code;
    if (!codes[p].empty()) taken.insert(codes[p]);
  }
  std::vector<int> order(plan.parts.size());
  for (int p = 0; p < parts; ++p) order[p] = p;
  const auto place = [&](int p) {
    constexpr int before = 0, on_the_way = 1, back = 2;
    const int stage = ways.is_return(p) ? back : ways.depth(p) > 0 ? on_the_way : before;
    return std::tuple(stage, ways.depth(p), p);
  };
  std::ranges::sort(order, {}, place);
  const std::string system = system_of(job);
  std::map<int, int> last;
  for (int p : order) {
    if (!codes[p].empty() || !has_code(*plan.parts[p].kind)) continue;
    do {
      codes[p] = fmt::format("{}H{}.{}", system, circuit[p], ++last[circuit[p]]);
    } while (!taken.insert(codes[p]).second);
  }
  return codes;
}

}  // namespace poise::draw
