// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/oils_way.hpp"

#include <algorithm>

namespace poise {
namespace {

// Below this a flow is what a resting circuit still creeps by, m3/s.
constexpr double creeping = 1e-3 * si::cm3_per_minute;

class Walk {
 public:
  Walk(const Circuit& circuit, const Moment& moment)
      : circuit_(circuit),
        moment_(moment),
        part_done_(static_cast<std::size_t>(circuit.planned), false),
        node_done_(circuit.nodes.size(), false) {}

  std::vector<int> order() {
    for (int n = 0; n < static_cast<int>(circuit_.nodes.size()); ++n) {
      if (circuit_.nodes[n].free_surface) follow(n);
    }
    while (hang_on()) {
    }
    for (int p = 0; p < circuit_.planned; ++p) take(p);
    return std::move(order_);
  }

 private:
  int node_of(int p, int port) const { return circuit_.node_of(p, port); }
  int ports(int p) const { return circuit_.parts[p].kind->oil_ports; }

  void take(int p) {
    if (part_done_[p]) return;
    part_done_[p] = true;
    order_.push_back(p);
  }

  void follow(int node) {
    if (node_done_[node]) return;
    node_done_[node] = true;
    struct Way {
      double flow;
      int part;
    };
    std::vector<Way> ways;
    for (const PortOf& at : circuit_.nodes[node].ports) {
      if (circuit_.parts[at.part].kind->ports[at.port].domain != Domain::oil) continue;
      const double in = moment_.parts[at.part].flow[at.port];
      if (in > creeping) ways.push_back({in, at.part});
    }
    std::ranges::stable_sort(ways, std::greater{}, &Way::flow);
    for (const Way& way : ways) {
      if (part_done_[way.part]) continue;
      take(way.part);
      for (int k = 0; k < ports(way.part); ++k) {
        const int next = node_of(way.part, k);
        if (moment_.parts[way.part].flow[k] < -creeping && !circuit_.nodes[next].free_surface) follow(next);
      }
    }
  }

  /// Puts one part that no oil passes behind the last part it shares a volume with; false when none is left
  /// to put.
  bool hang_on() {
    for (int p = 0; p < circuit_.planned; ++p) {
      if (part_done_[p]) continue;
      const auto last =
          std::ranges::find_if(order_.rbegin(), order_.rend(), [&](int q) { return touch(p, q); });
      if (last == order_.rend()) continue;
      part_done_[p] = true;
      order_.insert(last.base(), p);
      return true;
    }
    return false;
  }

  bool touch(int p, int q) const {
    for (int i = 0; i < ports(p); ++i) {
      for (int k = 0; k < ports(q); ++k) {
        if (node_of(p, i) == node_of(q, k) && !circuit_.nodes[node_of(p, i)].free_surface) return true;
      }
    }
    for (int body : circuit_.parts[p].body) {
      if (std::ranges::find(circuit_.parts[q].body, body) != circuit_.parts[q].body.end()) return true;
    }
    return false;
  }

  const Circuit& circuit_;
  const Moment& moment_;
  std::vector<bool> part_done_, node_done_;
  std::vector<int> order_;
};

}  // namespace

std::vector<int> along_the_oils_way(const Circuit& circuit, const Moment& moment) {
  return Walk(circuit, moment).order();
}

}  // namespace poise
