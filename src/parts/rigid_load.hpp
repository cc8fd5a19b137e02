// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <tuple>

#include "parts/common.hpp"
#include "parts/rigid_load_tables.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// A rigid load over two to eight lifting points: heave, pitch and roll about its centre of gravity, small
/// angles. Each point is a one-sided spring on the rod below it, so that a lift on more than three points
/// shares its weight by stiffness. Until it is lifted it stands on blocks of its own, one under each point.
///
/// Height of point k over its block: h = heave + dx·pitch + dy·roll + ½·centre_height·(pitch² + roll²), with
/// (dx, dy) from the centre of gravity to the point. A force at the point acts on each motion with the slope
/// of h along it, so no energy is made or lost; the last term is the weight leaning over as the load tilts.
struct RigidLoad : RoomDefaults {
  static constexpr int most_points = rigid_load::most_points;
  static constexpr auto about = rigid_load::about;
  static constexpr auto parameters = rigid_load::parameters;
  static constexpr auto ports = rigid_load::ports;
  static constexpr auto outputs = rigid_load::outputs;
  static constexpr auto happenings = rigid_load::happenings;
  static constexpr auto faults = rigid_load::faults;
  static constexpr auto rules = rigid_load::rules;
  static constexpr auto sketch = [](std::size_t points) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    const double right = 2.0 * static_cast<double>(points) + 2, middle = 0.5 * right;
    s.add(box(0, 2, right, 6), circle(middle, 4, 0.75), line(middle - 1, 4, middle + 1, 4),
          line(middle, 3, middle, 5));
    s.add(line(2, 6, 2, 8), filled(2, 8, 0.9, 90));
    s.add(line(-2, 3, 0, 3), bow(-1, 2.25, -1, 3.75, 0.4), filled(-0.9, 4, 0.6, 60));
    s.add(line(-2, 5, 0, 5), bow(-1, 5.75, -1, 4.25, -0.4), filled(-0.9, 4, 0.6, -60));
    for (std::size_t i = 1; i <= points; ++i) {
      const double x = 2.0 * static_cast<double>(i);
      s.add(line(x, 0, x, 2), filled(x, 2, 0.75, 90));
    }
    return s;
  };
  static constexpr auto symbol = sketch(most_points);
  static constexpr std::array anchors{Anchor{2, 8},  Anchor{-2, 3}, Anchor{-2, 5}, Anchor{2, 0},
                                      Anchor{4, 0},  Anchor{6, 0},  Anchor{8, 0},  Anchor{10, 0},
                                      Anchor{12, 0}, Anchor{14, 0}, Anchor{16, 0}};
  static std::vector<Stroke> drawn(const Values& v, const Pose&) {
    return pieces::strokes(sketch(v.points("points").size()));
  }
  static constexpr int oil_ports = 0, motion_ports = 3 + most_points;
  enum Motion { heave, pitch, roll, first_point };
  /// Beyond this angle small-angle shares mean nothing: a tipped load lies on stops there, rad.
  static constexpr double lies = 0.25;

  /// Where a point stands from the centre of gravity, and how it meets its rod.
  struct Point {
    double x, y, gap, stiffness, damping;
  };

  int count;
  std::array<Point, most_points> point{};
  double mass, centre_height, pitch_radius, roll_radius, block_stiffness, guide_damping, tilt_limit;
  bool on_blocks;
  std::array<double, 3> start_at{};  ///< heave, pitch, roll

  RigidLoad(const Values& v, const Oil&);
  static std::vector<Mismatch> check(const Values& v);

  double block_damping() const { return block_stiffness * si::ms; }
  double inertia(int motion) const {
    const double r = motion == pitch ? pitch_radius : roll_radius;
    return motion == heave ? mass : mass * r * r;
  }
  /// Stiffness of the stops that a tipped load lies on, N m/rad, and their damping.
  double lying_stiffness(int motion) const {
    return 100.0 * si::gravity * inertia(motion) / (motion == pitch ? pitch_radius : roll_radius);
  }
  double lying_damping(int motion) const { return 30 * si::ms * lying_stiffness(motion); }

  /// Height of a point over its block, and its speed.
  template <class T>
  MotionHere<T> corner(const Here<RigidLoad, T>& here, int k) const {
    const auto& [z, p, r] = std::tie(here.body[heave], here.body[pitch], here.body[roll]);
    const double x = point[k].x, y = point[k].y;
    return {
        z.position + x * p.position + y * r.position +
            0.5 * centre_height * (p.position * p.position + r.position * r.position),
        z.speed + (x + centre_height * p.position) * p.speed + (y + centre_height * r.position) * r.speed};
  }
  /// What the rod pushes with, from its overlap with the load.
  template <class T>
  T push(const MotionHere<T>& rod, const MotionHere<T>& corner, int k) const {
    return contact(T(rod.position - point[k].gap - corner.position), T(rod.speed - corner.speed),
                   point[k].stiffness, point[k].damping);
  }
  template <class T>
  T block(const MotionHere<T>& corner) const {
    if (!on_blocks) return T(0.0);
    return contact(T(-corner.position), T(-corner.speed), block_stiffness, block_damping());
  }
  /// Torque of the stops that a tipped load comes to lie on.
  template <class T>
  T lying(const MotionHere<T>& angle, int motion) const {
    const double k = lying_stiffness(motion), c = lying_damping(motion);
    return contact(T(-lies - angle.position), T(-angle.speed), k, c) -
           contact(T(angle.position - lies), angle.speed, k, c);
  }

  template <class T>
  Answer<RigidLoad, T> law(const Here<RigidLoad, T>& here) const {
    Answer<RigidLoad, T> a;
    a.force[heave] = T(-mass * si::gravity);
    for (int k = 0; k < count; ++k) {
      const auto top = corner(here, k);
      const auto& rod = here.body[first_point + k];
      const T from_rod = push(rod, top, k);
      const T both = from_rod + block(top);
      a.force[heave] += both;
      a.force[pitch] += both * (point[k].x + centre_height * here.body[pitch].position);
      a.force[roll] += both * (point[k].y + centre_height * here.body[roll].position);
      a.force[first_point + k] = -from_rod;
      a.friction += heat_at(k, values_of(rod), values_of(top));
    }
    for (int m : {heave, pitch, roll}) {
      const double damping = guide_damping * inertia(m) / mass;
      a.force[m] -= damping * here.body[m].speed;
      const auto body = values_of(here.body[m]);
      a.friction += damping * body.speed * body.speed;
      if (m == heave) continue;
      a.force[m] += lying(here.body[m], m);
      a.friction +=
          contact_heat(std::abs(body.position) - lies, std::copysign(1.0, body.position) * body.speed,
                       lying_stiffness(m), lying_damping(m));
    }
    return a;
  }
  double heat_at(int k, const MotionHere<double>& rod, const MotionHere<double>& corner) const;

  using Plain = Here<RigidLoad, double>;
  std::array<double, outputs.size()> report(const Plain& here) const;
  std::array<double, 4> passing(const Plain& here) const;
  double stored(const Plain& here) const;
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {}; }
  Body body(int port) const {
    if (port >= first_point) return {};
    return {.mass = inertia(port), .start = start_at[port]};
  }
};

}  // namespace poise
