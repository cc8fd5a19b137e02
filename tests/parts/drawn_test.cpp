// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What holds for every kind as it is drawn at a moment, with any of its words and in any sampled pose.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "parts/kind.hpp"
#include "reference/picture.hpp"
#include "support/plausible.hpp"
#include "support/strokes.hpp"

namespace poise {
namespace {

using workshop::sides_of;
using workshop::touches;

/// The numbers of a pose, kept while it is looked at.
struct Moment {
  std::vector<double> position, flow, input;
  std::array<bool, max_modes> mode{};
  bool says_modes = false;
  Pose pose() const {
    return {.position = position,
            .flow = flow,
            .input = input,
            .mode = says_modes ? std::span<const bool>(mode) : std::span<const bool>()};
  }
};

std::vector<Moment> moments(const Kind& kind) {
  std::vector<Moment> all{Moment{}};
  for (double x : {-0.001, 0.0, 0.004, 0.012, 10.0}) {
    all.push_back({.position = std::vector<double>(kind.motion_ports, x)});
  }
  const double some = 1e-4;
  for (int from = 0; from < kind.oil_ports; ++from) {
    for (int to = 0; to < kind.oil_ports; ++to) {
      std::vector<double> flow(kind.oil_ports, 0.0);
      flow[from] += some;
      flow[to] -= some;
      all.push_back({.flow = flow});
    }
  }
  for (double word : {0.0, 0.3, 0.5, 1.0, 1.6, 2.0}) {
    std::vector<double> input;
    for (int i : kind.inputs)
      input.push_back(std::clamp(word, kind.parameters[i].low, kind.parameters[i].high));
    all.push_back({.input = input});
  }
  for (bool on : {false, true}) all.push_back({.mode = {on, on}, .says_modes = true});
  return all;
}

/// Plausible values, and each word of each parameter in them, and each optional number given.
std::vector<Values> variants(const Kind& kind) {
  const Values plain = workshop::plausible(kind);
  std::vector<Values> all{plain};
  for (int i = 0; i < static_cast<int>(kind.parameters.size()); ++i) {
    const Parameter& p = kind.parameters[i];
    for (std::size_t word = 0; word < p.words.size(); ++word) {
      all.push_back(plain);
      all.back().set(i, static_cast<double>(word));
    }
    if (p.words.empty() && !p.against) {
      for (double end : {p.low, p.optional ? 0.5 * (p.low + std::min(p.high, 1e9)) : p.low}) {
        all.push_back(plain);
        all.back().set(i, end);
      }
    }
  }
  return all;
}

/// Every kind with every variant of its values.
template <class Look>
void for_each_variant(Look look) {
  for (const Kind& kind : all_kinds()) {
    for (const Values& values : variants(kind)) look(kind, values);
  }
}

std::vector<int> ports_of(const Kind& kind, const Values& values) {
  std::vector<int> there;
  for (int i = 0; i < static_cast<int>(kind.ports.size()); ++i) {
    if (port_exists(kind.ports[i], values)) there.push_back(i);
  }
  return there;
}

TEST(drawn, every_stroke_is_finite) {
  for_each_variant([](const Kind& kind, const Values& values) {
    for (const Moment& m : moments(kind)) {
      const auto strokes = kind.drawn(values, m.pose());
      EXPECT_FALSE(strokes.empty()) << kind.about.kind;
      for (const Stroke& s : strokes) {
        EXPECT_TRUE(std::isfinite(s.x) && std::isfinite(s.y) && std::isfinite(s.x2) && std::isfinite(s.y2))
            << kind.about.kind;
      }
    }
  });
}

TEST(drawn, lines_meet_every_port_that_is_there_dashed_at_pilots_and_drains) {
  for_each_variant([](const Kind& kind, const Values& values) {
    for (const Moment& m : moments(kind)) {
      const auto strokes = kind.drawn(values, m.pose());
      for (int port : ports_of(kind, values)) {
        const auto style = kind.ports[port].pilot ? Stroke::Style::dashed : Stroke::Style::solid;
        EXPECT_TRUE(std::ranges::any_of(
            strokes, [&](const Stroke& s) { return s.style == style && touches(s, kind.anchors[port]); }))
            << kind.about.kind << ' ' << kind.ports[port].name;
      }
    }
  });
}

TEST(drawn, nothing_is_drawn_at_a_port_that_is_not_there) {
  for_each_variant([](const Kind& kind, const Values& values) {
    for (std::size_t i = 0; i < kind.ports.size(); ++i) {
      if (port_exists(kind.ports[i], values)) continue;
      for (const Stroke& s : kind.drawn(values, {})) {
        EXPECT_FALSE(s.style != Stroke::Style::chain && touches(s, kind.anchors[i]))
            << kind.about.kind << ' ' << kind.ports[i].name;
      }
    }
  });
}

// The layout keeps clear of all that a part can cover: in none of its poses may it reach past a port's side.
TEST(drawn, a_port_stays_on_its_one_side_whatever_the_pose) {
  for_each_variant([](const Kind& kind, const Values& values) {
    std::vector<Stroke> all;
    for (const Moment& m : moments(kind))
      std::ranges::copy(kind.drawn(values, m.pose()), std::back_inserter(all));
    std::vector<Anchor> anchors;
    for (int port : ports_of(kind, values)) anchors.push_back(kind.anchors[port]);
    const draw::Box extent = reference::extent_of(all, anchors);
    for (const Anchor& a : anchors) {
      EXPECT_EQ(sides_of(a, extent).size(), 1U) << kind.about.kind << ' ' << a.x << ' ' << a.y;
    }
  });
}

TEST(drawn, the_same_pose_gives_the_same_strokes) {
  for (const Kind& kind : all_kinds()) {
    const Values values = workshop::plausible(kind);
    for (const Moment& m : moments(kind)) {
      EXPECT_TRUE(
          std::ranges::equal(kind.drawn(values, m.pose()), kind.drawn(values, m.pose()), workshop::alike));
    }
  }
}

/// Kinds whose piston runs in a barrel, with the motion port that says where it stands and its full stroke.
struct Barrel {
  const char* kind;
  int port;
  double stroke;  ///< m, with plausible values
};

std::vector<Stroke> at_share(const Kind& kind, const Values& values, const Barrel& barrel, double share) {
  std::vector<double> position(kind.motion_ports, 0.0);
  position[barrel.port] = share * barrel.stroke;
  return kind.drawn(values, {.position = position});
}

// place(s) = place(0) + s·(place(1) − place(0)) for every stroke: pistons, springs and rods inside the
// barrel.
RC_GTEST_PROP(drawn, a_piston_stands_at_its_share_of_the_stroke, ()) {
  const double share = *rc::gen::map(rc::gen::inRange(0, 1001), [](int i) { return i / 1000.0; });
  for (const Barrel& barrel :
       {Barrel{"single_acting_cylinder", 0, 0.012}, Barrel{"double_acting_cylinder", 0, 0.012},
        Barrel{"intensifier", 0, 0.012}, Barrel{"work_support", 0, 0.012}, Barrel{"work_support", 1, 0.012},
        Barrel{"swing_clamp", 0, 0.0}, Barrel{"accumulator", 0, 0.0}}) {
    const Kind& kind = *find_kind(barrel.kind);
    const Values values = workshop::plausible(kind);
    Barrel run = barrel;
    if (kind.about.kind == "swing_clamp") run.stroke = values["swing_stroke"] + values["clamp_stroke"];
    // The separator's area is V^(2/3): it runs until `least_gas` of the volume V is left.
    if (kind.about.kind == "accumulator")
      run.stroke = (1 - values["least_gas"]) * std::cbrt(values["gas_volume"]);
    const auto in = at_share(kind, values, run, 0.0), out = at_share(kind, values, run, 1.0),
               here = at_share(kind, values, run, share);
    RC_ASSERT(!std::ranges::equal(in, out, workshop::alike));
    RC_ASSERT(here.size() == in.size() && here.size() == out.size());
    for (std::size_t i = 0; i < here.size(); ++i) {
      RC_ASSERT(std::abs(here[i].x - std::lerp(in[i].x, out[i].x, share)) < 1e-9);
      RC_ASSERT(std::abs(here[i].y - std::lerp(in[i].y, out[i].y, share)) < 1e-9);
      RC_ASSERT(std::abs(here[i].x2 - std::lerp(in[i].x2, out[i].x2, share)) < 1e-9);
      RC_ASSERT(std::abs(here[i].y2 - std::lerp(in[i].y2, out[i].y2, share)) < 1e-9);
    }
  }
}

// Only what is inside moves: the part covers the same ground in every place of its piston.
TEST(drawn, a_cylinder_covers_the_same_ground_in_and_out) {
  for (const char* name : {"single_acting_cylinder", "double_acting_cylinder", "swing_clamp", "work_support",
                           "intensifier", "accumulator"}) {
    const Kind& kind = *find_kind(name);
    const Values values = workshop::plausible(kind);
    const std::vector<double> in(kind.motion_ports, 0.0), out(kind.motion_ports, 100.0);
    const draw::Box a = reference::extent_of(kind.drawn(values, {.position = in}), kind.anchors),
                    b = reference::extent_of(kind.drawn(values, {.position = out}), kind.anchors);
    EXPECT_TRUE(a.left == b.left && a.low == b.low && a.right == b.right && a.high == b.high) << name;
  }
}

}  // namespace
}  // namespace poise
