// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Writes the drawings of jobs as graphs in JSON for compare.mjs: nodes with their size and the places of
// their ports as we set them, nets as lists of ports, and the pieces of line that we drew.
#include <cstdio>
#include <exception>
#include <map>
#include <nlohmann/json.hpp>
#include <numeric>

#include "support/drawn_job.hpp"
#include "support/drawn_lines.hpp"

namespace poise::drawing {
namespace {

using nlohmann::json;

/// A part and what is fixed to it (a load on its rod, the motor on its shaft) are one node, since their
/// places to each other are not laid out; by part, the part that stands for it.
std::vector<int> nodes_of(const Plan& plan, const draw::Schematic& s) {
  std::vector<int> node(plan.parts.size());
  std::iota(node.begin(), node.end(), 0);
  const auto fixed = [&](PortOf p) {
    return plan.parts[p.part].kind->oil_ports == 0 && plan.parts[p.part].kind->motion_ports == 1;
  };
  for (const draw::Wire& wire : s.wires) {
    const auto host = std::ranges::find_if_not(wire.ports, fixed);
    if (!wire.mechanical || host == wire.ports.end()) continue;
    for (const PortOf p : wire.ports) {
      if (fixed(p)) node[p.part] = host->part;
    }
  }
  return node;
}

draw::Box box_of(int of, const std::vector<int>& node, const draw::Schematic& s) {
  draw::Box box = s.symbols[of].box;
  for (const auto& symbol : s.symbols) {
    if (node[symbol.part] == of) box = hull(box, symbol.box);
  }
  for (const auto& tank : s.tanks) {
    if (node[tank.port.part] == of) box = hull(box, tank.box);
  }
  return box;
}

/// The port carried out to the edge of its node, on the side of its own symbol that it lies nearest to.
json port(const std::string& name, draw::Point at, const draw::Box& symbol, const draw::Box& node) {
  const std::pair<double, const char*> sides[] = {{at.x - symbol.left, "WEST"},
                                                  {symbol.right - at.x, "EAST"},
                                                  {symbol.high - at.y, "NORTH"},
                                                  {at.y - symbol.low, "SOUTH"}};
  const std::string side = std::min_element(std::begin(sides), std::end(sides))->second;
  if (side == "WEST") at.x = node.left;
  if (side == "EAST") at.x = node.right;
  if (side == "NORTH") at.y = node.high;
  if (side == "SOUTH") at.y = node.low;
  return {{"id", name}, {"x", at.x - node.left}, {"y", node.high - at.y}, {"side", side}};
}

json graph_of(const Arranged& job) {
  const draw::Schematic& s = job.schematic;
  const std::vector<int> node = nodes_of(job.plan, s);
  json nodes = json::array(), nets = json::array();
  for (int of = 0; of < static_cast<int>(node.size()); ++of) {
    if (node[of] != of) continue;
    const draw::Box box = box_of(of, node, s);
    json ports = json::array();
    for (const draw::Wire& wire : s.wires) {
      for (const PortOf p : wire.ports) {
        if (node[p.part] != of) continue;
        ports.push_back(
            port(job.plan.name(p), s.symbols[p.part].anchors[p.port], s.symbols[p.part].box, box));
      }
    }
    nodes.push_back(
        {{"id", job.plan.parts[of].tag}, {"width", box.width()}, {"height", box.height()}, {"ports", ports}});
  }
  for (const DrawnLine& line : lines_of(job.plan, s)) {
    const bool inside = std::ranges::all_of(
        line.ports, [&](PortOf p) { return node[p.part] == node[line.ports.front().part]; });
    if (inside && line.tank < 0) continue;
    json ports = json::array(), segments = json::array();
    // From the lowest up, as the drawing has them; the lead of a tank mark lies inside its node and has no
    // net.
    std::vector<PortOf> rising = line.tank < 0 ? line.ports : std::vector<PortOf>{};
    std::ranges::stable_sort(rising, {}, [&](PortOf p) { return s.symbols[p.part].anchors[p.port].y; });
    for (const PortOf p : rising) ports.push_back(job.plan.name(p));
    for (const draw::Segment& t : line.segments) segments.push_back({t.from.x, t.from.y, t.to.x, t.to.y});
    nets.push_back({{"name", line.name}, {"ports", ports}, {"segments", segments}});
  }
  return {{"nodes", nodes}, {"nets", nets}};
}

}  // namespace
}  // namespace poise::drawing

int main() {
  try {
    nlohmann::json jobs = nlohmann::json::array();
    for (const auto& path : poise::drawing::jobs_to_draw()) {
      nlohmann::json graph =
          poise::drawing::graph_of(poise::drawing::Arranged(poise::drawing::plan_of(path)));
      graph["name"] = path.parent_path().filename().string() + "/" + path.stem().string();
      jobs.push_back(std::move(graph));
    }
    std::puts(jobs.dump().c_str());
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
}
