// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/wire_tree.hpp"

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

/// From a place to the nearest point of a piece, which is level or upright.
double between(Point p, const Segment& s) {
  const double x = std::clamp(p.x, std::min(s.from.x, s.to.x), std::max(s.from.x, s.to.x));
  const double y = std::clamp(p.y, std::min(s.from.y, s.to.y), std::max(s.from.y, s.to.y));
  return std::hypot(p.x - x, p.y - y);
}

}  // namespace

WireTree::WireTree(const Wire& wire, const Schematic& schematic) : ports_(wire.ports) {
  std::vector<Point> ends;
  for (const Segment& s : wire.segments) {
    ends.push_back(s.from);
    ends.push_back(s.to);
  }
  const auto anchor = [&](PortOf at) { return schematic.symbols[at.part].anchors[at.port]; };
  for (const PortOf& at : ports_) ends.push_back(anchor(at));
  for (const Segment& s : wire.segments) cut(s, ends);
  for (const PortOf& at : ports_) place_of_port_.push_back(place_of(anchor(at)));
  taken_.resize(places_.size(), 0.0);
}

void WireTree::take(Point at, double flow) {
  const auto place = std::ranges::find_if(places_, [&](Point p) { return same(p, at); });
  if (place == places_.end()) return;
  taken_[place - places_.begin()] += flow;
  all_taken_ += flow;
}

std::vector<Stream> WireTree::streams() const {
  std::vector<Stream> streams;
  for (const Piece& piece : pieces_) streams.push_back({piece.segment, 0.0});
  std::vector<bool> seen(places_.size(), false);
  if (!pieces_.empty()) below(pieces_.front().from, seen, streams);
  return streams;
}

std::array<std::vector<PortOf>, 2> WireTree::sides(Point at) const {
  std::array<std::vector<PortOf>, 2> sides;
  const Piece* piece = nearest(at);
  if (piece == nullptr) return sides;
  std::vector<bool> seen(places_.size(), false);
  seen[piece->to] = true;  // not across the piece itself
  reach(piece->from, seen);
  seen[piece->to] = false;
  for (std::size_t i = 0; i < ports_.size(); ++i) sides[seen[place_of_port_[i]] ? 0 : 1].push_back(ports_[i]);
  return sides;
}

const WireTree::Piece* WireTree::nearest(Point at) const {
  const auto piece =
      std::ranges::min_element(pieces_, {}, [&](const Piece& each) { return between(at, each.segment); });
  return piece == pieces_.end() ? nullptr : &*piece;
}

void WireTree::cut(const Segment& s, const std::vector<Point>& ends) {
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

int WireTree::place_of(Point p) {
  const auto known = std::ranges::find_if(places_, [&](Point q) { return same(p, q); });
  if (known != places_.end()) return static_cast<int>(known - places_.begin());
  places_.push_back(p);
  return static_cast<int>(places_.size()) - 1;
}

/// What is taken at a place and behind it; sets the flows of the pieces behind it.
double WireTree::below(int place, std::vector<bool>& seen, std::vector<Stream>& streams) const {
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

void WireTree::reach(int place, std::vector<bool>& seen) const {
  seen[place] = true;
  for (const Piece& piece : pieces_) {
    if (piece.from == place && !seen[piece.to]) reach(piece.to, seen);
    if (piece.to == place && !seen[piece.from]) reach(piece.from, seen);
  }
}

}  // namespace poise::draw
