// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/pilot_lines.hpp"

#include <algorithm>
#include <map>

namespace poise::draw {
namespace {

using Place = std::pair<double, double>;
Place place(Point p) { return {p.x, p.y}; }

}  // namespace

std::vector<std::vector<int>> ports_behind(const Wire& wire, const std::vector<Point>& anchors) {
  std::map<Place, std::vector<int>> meeting;  // segments at a place
  for (int i = 0; i < static_cast<int>(wire.segments.size()); ++i) {
    meeting[place(wire.segments[i].from)].push_back(i);
    meeting[place(wire.segments[i].to)].push_back(i);
  }
  std::vector<std::vector<int>> behind(wire.segments.size());
  for (int cut = 0; cut < static_cast<int>(wire.segments.size()); ++cut) {
    std::vector<bool> seen(wire.segments.size(), false);
    seen[cut] = true;
    std::vector<Place> open{place(wire.segments[cut].from)};
    while (!open.empty()) {
      const Place at = open.back();
      open.pop_back();
      for (int p = 0; p < static_cast<int>(anchors.size()); ++p) {
        if (place(anchors[p]) == at) behind[cut].push_back(p);
      }
      for (int i : meeting[at]) {
        if (seen[i]) continue;
        seen[i] = true;
        const Segment& s = wire.segments[i];
        open.push_back(place(s.from) == at ? place(s.to) : place(s.from));
      }
    }
  }
  return behind;
}

void mark_pilots(Wire& wire, const Plan& plan, const std::vector<Point>& anchors) {
  const auto pilot = [&](int p) { return plan.port(wire.ports[p]).pilot; };
  const auto behind = ports_behind(wire, anchors);
  const int ports = static_cast<int>(wire.ports.size());
  int pilots = 0;
  for (int p = 0; p < ports; ++p) pilots += pilot(p) ? 1 : 0;
  for (std::size_t i = 0; i < wire.segments.size(); ++i) {
    const int here = static_cast<int>(behind[i].size());
    const int pilots_here = static_cast<int>(std::ranges::count_if(behind[i], pilot));
    wire.segments[i].pilot = pilots_here == here || pilots - pilots_here == ports - here;
  }
}

}  // namespace poise::draw
