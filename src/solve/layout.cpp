// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/layout.hpp"

#include <algorithm>
#include <set>

namespace poise::solve {
namespace {

/// Columns that a lane of a part hangs on, with the chain slot of each.
struct LaneColumn {
  int column, chain;
};

std::vector<std::vector<LaneColumn>> lanes_of(const Circuit& circuit, const Layout& layout, int p,
                                              const std::vector<int>& chain_of) {
  const PlacedPart& part = circuit.parts[p];
  std::vector<std::vector<LaneColumn>> lanes;
  for (int node : part.oil) {
    auto& lane = lanes.emplace_back();
    int chain = chain_of[node];
    lane.push_back({layout.mass(node), chain++});
    for (const auto& [body, area] : circuit.nodes[node].swept)
      lane.push_back({layout.position(body), chain++});
  }
  for (int body : part.body) {
    lanes.push_back({{layout.position(body), 0}});
    lanes.push_back({{layout.speed(body), 0}});
  }
  for (std::size_t s = 0; s < part.kind->states.size(); ++s) {
    lanes.push_back({{layout.first_state[p] + static_cast<int>(s), 0}});
  }
  return lanes;
}

/// Equations that the rows of a part's answer go to, with the factor of each.
struct RowEquation {
  int equation;
  double factor;
};

std::vector<RowEquation> rows_of(const Circuit& circuit, const Layout& layout, int p) {
  const PlacedPart& part = circuit.parts[p];
  std::vector<RowEquation> rows;
  for (int node : part.oil) rows.push_back({layout.mass(node), -1.0});
  for (int body : part.body) rows.push_back({layout.speed(body), 1.0 / circuit.bodies[body].mass});
  for (std::size_t s = 0; s < part.kind->states.size(); ++s) {
    rows.push_back({layout.first_state[p] + static_cast<int>(s), 1.0});
  }
  return rows;
}

}  // namespace

Layout::Layout(const Circuit& circuit)
    : nodes(static_cast<int>(circuit.nodes.size())), bodies(static_cast<int>(circuit.bodies.size())) {
  size = nodes + 2 * bodies;
  for (const PlacedPart& part : circuit.parts) {
    first_state.push_back(size);
    size += static_cast<int>(part.kind->states.size());
  }
}

Pattern::Pattern(const Circuit& circuit, const Layout& layout) {
  for (const OilNode& node : circuit.nodes) {
    chain_of_.push_back(chains_);
    chains_ += 1 + static_cast<int>(node.swept.size());
  }
  std::vector<std::set<int>> columns(layout.size);
  for (int i = 0; i < layout.size; ++i) columns[i].insert(i);
  for (int b = 0; b < layout.bodies; ++b) columns[layout.speed(b)].insert(layout.position(b));
  const int parts = static_cast<int>(circuit.parts.size());
  for (int p = 0; p < parts; ++p) {
    for (const auto& lane : lanes_of(circuit, layout, p, chain_of_)) {
      for (const LaneColumn& c : lane) {
        for (const RowEquation& r : rows_of(circuit, layout, p)) columns[c.column].insert(r.equation);
      }
    }
  }
  starts_.push_back(0);
  for (const auto& column : columns) {
    rows_.insert(rows_.end(), column.begin(), column.end());
    starts_.push_back(static_cast<int>(rows_.size()));
  }
  for (int b = 0; b < layout.bodies; ++b) kinematic_.push_back(find(layout.position(b), layout.speed(b)));
  for (int p = 0; p < parts; ++p) {
    auto& list = scatter_.emplace_back();
    const auto lanes = lanes_of(circuit, layout, p, chain_of_);
    const auto rows = rows_of(circuit, layout, p);
    for (int r = 0; r < static_cast<int>(rows.size()); ++r) {
      for (int l = 0; l < static_cast<int>(lanes.size()); ++l) {
        for (const LaneColumn& c : lanes[l]) {
          list.push_back({r * static_cast<int>(lanes.size()) + l, c.chain, rows[r].factor,
                          find(rows[r].equation, c.column)});
        }
      }
    }
  }
}

int Pattern::find(int row, int column) const {
  const auto begin = rows_.begin() + starts_[column], end = rows_.begin() + starts_[column + 1];
  return static_cast<int>(std::lower_bound(begin, end, row) - rows_.begin());
}

}  // namespace poise::solve
