// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "circuit/circuit.hpp"

namespace poise::solve {

/// Where everything stands in the vector of unknowns: the oil mass of every node, then position and speed of
/// every body, then the parts' states.
struct Layout {
  int nodes = 0, bodies = 0, size = 0;
  std::vector<int> first_state;  ///< of each part

  explicit Layout(const Circuit& circuit);
  int mass(int node) const { return node; }
  int position(int body) const { return nodes + 2 * body; }
  int speed(int body) const { return nodes + 2 * body + 1; }
};

/// Sparsity of the Jacobian by columns, and where each part's local slopes go, worked out once.
class Pattern {
 public:
  Pattern(const Circuit& circuit, const Layout& layout);

  /// local[slope] · chain[chain] · factor is added at `value`.
  struct Scatter {
    int slope, chain;
    double factor;
    int value;
  };
  const std::vector<Scatter>& scatter(int part) const { return scatter_[part]; }
  /// Positions of ∂(position rate)/∂(speed) of each body.
  const std::vector<int>& kinematic() const { return kinematic_; }
  /// Slots of the chain factors: slot 0 is 1; each node has one for its own mass, then one for each body it
  /// feels.
  int chain_of(int node) const { return chain_of_[node]; }
  int chains() const { return chains_; }

  const std::vector<int>& column_starts() const { return starts_; }
  const std::vector<int>& rows() const { return rows_; }
  int nonzeros() const { return static_cast<int>(rows_.size()); }

 private:
  int find(int row, int column) const;

  std::vector<int> starts_, rows_, kinematic_, chain_of_;
  std::vector<std::vector<Scatter>> scatter_;
  int chains_ = 1;
};

}  // namespace poise::solve
