// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "circuit/plan.hpp"

namespace poise {

/// Ports that share one pressure: a volume of oil.
struct OilNode {
  std::string name;  ///< its first ports, "P1.P, V1.P"
  std::vector<PortOf> ports;
  double volume = 0.0;                        ///< with every body at 0, m3
  double wall = 0.0;                          ///< give of the walls, m3/Pa
  std::vector<std::pair<int, double>> swept;  ///< body, m3 per metre
  bool free_surface = false;
  double band = 0.0;  ///< m3; see FreeSurface
};

/// What moves together: a rod and all that is fixed to it.
struct BodyNode {
  std::string name;
  std::vector<PortOf> ports;
  double mass = 0.0;   ///< kg
  double start = 0.0;  ///< m
};

/// A part in its place.
struct PlacedPart {
  std::string tag;
  const Kind* kind;
  Values values;
  Laws laws;
  std::vector<int> oil;   ///< node of each oil port
  std::vector<int> body;  ///< body of each motion port
  int owner = 0;          ///< the part of the plan that it is, or is a piece of
  int far_end = -1;       ///< the last of its pieces, which has its second port, where it is made of several
};

/// Parts, volumes and bodies, and which belongs to which. Knows no files and no solver. The parts of the plan
/// come first, in its order; behind them the further pieces of those that are made of several in a row.
struct Circuit {
  Oil oil;
  std::vector<PlacedPart> parts;
  std::vector<OilNode> nodes;
  std::vector<BodyNode> bodies;
  int planned = 0;  ///< parts of the plan

  int find_part(std::string_view tag) const;  ///< index, or −1
  /// Node of an oil port of a part of the plan; the second port of one in pieces is that of its last piece.
  int node_of(int part, int port) const {
    const int far_end = parts[part].far_end;
    return far_end >= 0 && port == 1 ? parts[far_end].oil[1] : parts[part].oil[port];
  }
};

/// What keeps a plan from being a circuit: ports left open, ports that do not exist, oil joined to a rod. All
/// of them.
std::vector<Remark> faults_of(const Plan& plan);

/// Of a plan without faults whose values are all known: rods that are joined and start beyond the stroke of
/// one of them, and what moves without a mass.
std::vector<Remark> start_faults_of(const Plan& plan);

/// Joins the plan's parts into volumes and bodies. The plan must have no faults.
Circuit build(const Plan& plan);

}  // namespace poise
