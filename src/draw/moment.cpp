// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/moment.hpp"

#include <algorithm>
#include <cmath>

namespace poise::draw {
namespace {

constexpr double same_place = 1e-6;  // M

bool same(Point a, Point b) { return std::abs(a.x - b.x) < same_place && std::abs(a.y - b.y) < same_place; }

bool lies_on(Point p, const Segment& s) {
  const double length = std::hypot(s.to.x - s.from.x, s.to.y - s.from.y);
  if (length < same_place) return same(p, s.from);
  const double along =
      ((p.x - s.from.x) * (s.to.x - s.from.x) + (p.y - s.from.y) * (s.to.y - s.from.y)) / length;
  const double beside =
      ((p.x - s.from.x) * (s.to.y - s.from.y) - (p.y - s.from.y) * (s.to.x - s.from.x)) / length;
  return std::abs(beside) < same_place && along > -same_place && along < length + same_place;
}

/// The volume that flows into a part at a port, m3/s.
double taken_in(const Moment& moment, PortOf at) { return moment.parts[at.part].flow[at.port]; }

/// A word stands where it came from until half of the way is done, then where it goes to: of what lies
/// between their indices the part knows nothing.
double set_to(const Input& input, const Parameter& parameter) {
  if (parameter.words.empty()) return input.now();
  return input.s < 0.5 ? input.from : input.to;
}

Standing standing(const Circuit& circuit, const Moment& moment, int p) {
  const Kind& kind = *circuit.parts[p].kind;
  const PartMoment& m = moment.parts[p];
  Standing now{
      .position = m.position, .flow = m.flow, .mode = m.mode, .modes = static_cast<int>(kind.modes.size())};
  for (std::size_t i = 0; i < m.input.size(); ++i)
    now.input.push_back(set_to(m.input[i], kind.parameters[kind.inputs[i]]));
  return now;
}

/// One line as a tree of places with pieces between them.
class Tree {
 public:
  Tree(const Wire& wire, const Schematic& schematic) {
    std::vector<Point> ends;
    for (const Segment& s : wire.segments) {
      ends.push_back(s.from);
      ends.push_back(s.to);
    }
    for (const PortOf& at : wire.ports) ends.push_back(schematic.symbols[at.part].anchors[at.port]);
    for (const Segment& s : wire.segments) cut(s, ends);
    taken_.resize(places_.size(), 0.0);
  }

  /// Oil that is taken out of the line at a place.
  void take(Point at, double flow) {
    const auto place = std::ranges::find_if(places_, [&](Point p) { return same(p, at); });
    if (place == places_.end()) return;
    taken_[place - places_.begin()] += flow;
    all_taken_ += flow;
  }

  std::vector<Stream> streams() {
    std::vector<Stream> streams;
    for (const Piece& piece : pieces_) streams.push_back({piece.segment, 0.0});
    std::vector<bool> seen(places_.size(), false);
    if (!places_.empty()) below(0, seen, streams);
    return streams;
  }

 private:
  struct Piece {
    Segment segment;
    int from, to;
  };

  void cut(const Segment& s, const std::vector<Point>& ends) {
    std::vector<Point> on;
    for (Point p : ends) {
      if (lies_on(p, s)) on.push_back(p);
    }
    const auto far = [&](Point p) { return std::hypot(p.x - s.from.x, p.y - s.from.y); };
    std::ranges::sort(on, {}, far);
    on.erase(std::unique(on.begin(), on.end(), same), on.end());
    for (std::size_t i = 0; i + 1 < on.size(); ++i)
      pieces_.push_back({{on[i], on[i + 1], s.pilot}, place_of(on[i]), place_of(on[i + 1])});
  }

  int place_of(Point p) {
    const auto known = std::ranges::find_if(places_, [&](Point q) { return same(p, q); });
    if (known != places_.end()) return static_cast<int>(known - places_.begin());
    places_.push_back(p);
    return static_cast<int>(places_.size()) - 1;
  }

  /// What is taken at a place and behind it; sets the flows of the pieces behind it.
  double below(int place, std::vector<bool>& seen, std::vector<Stream>& streams) {
    seen[place] = true;
    double sum = taken_[place];
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      const bool outwards = pieces_[i].from == place;
      if (!outwards && pieces_[i].to != place) continue;
      const int next = outwards ? pieces_[i].to : pieces_[i].from;
      if (seen[next]) continue;
      const double behind = below(next, seen, streams);
      streams[i].flow = (outwards ? 1.0 : -1.0) * (behind - 0.5 * all_taken_);
      sum += behind;
    }
    return sum;
  }

  std::vector<Point> places_;
  std::vector<Piece> pieces_;
  std::vector<double> taken_;
  double all_taken_ = 0.0;
};

/// A reservoir gives what the rest of its line takes.
WireMoment wire_moment(const Wire& wire, const Schematic& schematic, const Circuit& circuit,
                       const Moment& moment) {
  WireMoment now;
  if (wire.mechanical || wire.ports.empty()) return now;
  const PortOf first = wire.ports.front();
  now.pressure = moment.parts[first.part].pressure[first.port];
  Tree tree(wire, schematic);
  double given = 0.0;
  std::vector<Point> reservoirs;
  for (const PortOf& at : wire.ports) {
    const Point anchor = schematic.symbols[at.part].anchors[at.port];
    if (circuit.parts[at.part].kind->about.role == Role::reservoir) {
      reservoirs.push_back(anchor);
      continue;
    }
    const double flow = taken_in(moment, at);
    tree.take(anchor, flow);
    given += flow;
  }
  for (Point p : reservoirs) tree.take(p, -given / static_cast<double>(reservoirs.size()));
  now.pieces = tree.streams();
  return now;
}

WireMoment tank_moment(const TankMark& tank, const Circuit& circuit, const Moment& moment) {
  WireMoment now{.pressure = moment.parts[tank.port.part].pressure[tank.port.port]};
  const double flow = taken_in(moment, tank.port);
  const bool pilot = circuit.parts[tank.port.part].kind->ports[tank.port.port].pilot;
  for (std::size_t i = 0; i + 1 < tank.lead.size(); ++i)
    now.pieces.push_back({{tank.lead[i], tank.lead[i + 1], pilot}, -flow});
  return now;
}

}  // namespace

DrawnMoment drawn_moment(const Schematic& schematic, const Circuit& circuit, const Moment& moment) {
  DrawnMoment now{.time = moment.time, .step = moment.step};
  for (int p = 0; p < circuit.planned; ++p) now.parts.push_back(standing(circuit, moment, p));
  for (const Wire& wire : schematic.wires) now.wires.push_back(wire_moment(wire, schematic, circuit, moment));
  for (const TankMark& tank : schematic.tanks) now.tanks.push_back(tank_moment(tank, circuit, moment));
  for (const auto* lines : {&now.wires, &now.tanks}) {
    for (const WireMoment& line : *lines) {
      for (const Stream& s : line.pieces) now.greatest_flow = std::max(now.greatest_flow, std::abs(s.flow));
    }
  }
  return now;
}

double highest_pressure(const Moment& moment) {
  double highest = 0.0;
  for (const PartMoment& part : moment.parts) {
    for (const double pressure : part.pressure) highest = std::max(highest, pressure);
  }
  return highest;
}

}  // namespace poise::draw
