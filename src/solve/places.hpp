// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/layout.hpp"

namespace poise::solve {

/// What every step asks of each part and each volume, close together: in a circuit of thousands of parts the
/// work is as fast as memory brings the next one.
struct PartPlace {
  const void* numbers;
  void (*answer)(const void*, const Neighbourhood&, Answers&);
  void (*jacobian)(const void*, const Neighbourhood&, LocalJacobian&);
  int first = 0;  ///< in `where`: nodes of the oil ports, then bodies of the motion ports
  int first_state = 0;
  signed char oil = 0, bodies = 0, states = 0, drives = 0, modes = 0;
};

struct NodePlace {
  double volume = 0.0, wall = 0.0, band = 0.0;
  int first = 0;  ///< in `swept`
  int swept = 0;
  bool free_surface = false;
};

struct Sweep {
  int position = 0;  ///< unknown of the body's position
  double area = 0.0;
};

struct Places {
  std::vector<PartPlace> parts;
  std::vector<int> where;
  std::vector<NodePlace> nodes;
  std::vector<Sweep> swept;
  std::vector<double> masses;  ///< of the bodies

  Places(const Circuit& circuit, const Layout& layout);
  std::span<const int> oil(const PartPlace& p) const {
    return {where.data() + p.first, static_cast<std::size_t>(p.oil)};
  }
  std::span<const int> bodies(const PartPlace& p) const {
    return {where.data() + p.first + p.oil, static_cast<std::size_t>(p.bodies)};
  }
  std::span<const Sweep> swept_of(const NodePlace& n) const {
    return {swept.data() + n.first, static_cast<std::size_t>(n.swept)};
  }
};

}  // namespace poise::solve
