// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 16 of the check values: buckling of rods.
#include "parts/buckling.hpp"

#include "check_values/source.hpp"

namespace poise::check {
namespace {

constexpr double ksi = 1000 * psi, kip = 1000 * lbf, in4 = in2 * in2;

// BK-01. F. P. Beer, E. R. Johnston and J. T. DeWolf, Mechanics of Materials, TMH 2002, Sample Problem 10.2,
// p. 654 (known: N).
TEST(check_values, BK_01_fixed_free_post_of_8_feet) {
  const Strut s{.area = 3.54 * in2,
                .inertia = 8.0 * in4,
                .length = 8 * foot,
                .end_factor = Ends::factors[0],
                .modulus = 29e6 * psi};
  const double allowed = euler_load(s) / 2.0;
  EXPECT_VALUE(allowed / kip, 31.0567, 31.057, 0.05);
  EXPECT_VALUE(allowed / s.area / ksi, 8.773078, 8.773, 0.05);
}

// BK-02. Beer, Johnston and DeWolf, Example 10.01, p. 638 (known: N).
TEST(check_values, BK_02_side_of_a_square_column) {
  const double side = argument_for(2.5 * 200 * si::kN, 100 * si::mm, 130 * si::mm, [](double a) {
    return euler_load({.area = a * a, .inertia = a * a * a * a / 12, .length = 2.0, .modulus = 13e9});
  });
  EXPECT_VALUE(side / si::mm, 116.9477945, 116.95, 0.05);
}

// BK-03. R. C. Hibbeler, Mechanics of Materials, Example 13.3, p. 669 (known: N): free at its head one way,
// braced the other; the first decides.
TEST(check_values, BK_03_aluminium_column_braced_one_way) {
  const Strut free{.inertia = 61.3e-6, .length = 5.0, .end_factor = Ends::factors[0], .modulus = 70e9};
  const Strut braced{.inertia = 23.2e-6, .length = 5.0, .end_factor = Ends::factors[3], .modulus = 70e9};
  EXPECT_VALUE(std::min(euler_load(free), euler_load(braced)) / 3.0 / si::kN, 141.1682416, 141, 0.15);
}

// BK-04. S. S. Bhavikatti, Strength of Materials, Example 9.1, p. 377 (known: N): its stiffness E·I from a
// bending test, W·L³/(48·d).
TEST(check_values, BK_04_strut_from_its_own_bending_test) {
  const double stiffness = 10.0 * std::pow(5.0, 3) / (48 * 10 * si::mm);
  EXPECT_VALUE(euler_load({.inertia = 1.0, .length = 5.0, .modulus = stiffness}), 1028.083792, 1028.08, 0.05);
}

// BK-05. J. M. Gere, Mechanics of Materials, Example 11.1, p. 763 (known: N): the weak way is braced at half
// height.
TEST(check_values, BK_05_column_braced_at_half_height) {
  const double strong = euler_load({.inertia = 98 * in4, .length = 25 * foot, .modulus = 29000 * ksi});
  const double weak = euler_load({.inertia = 21.7 * in4, .length = 12.5 * foot, .modulus = 29000 * ksi});
  EXPECT_VALUE(std::min(strong, weak) / 2.5 / kip, 110.4167, 110, 0.45);
}

// BK-06. Standard relation for a cylinder's rod, numbers chosen for the check (known: M): 36 mm, 1,500 mm
// between pins, as a cylinder reports it half out.
TEST(check_values, BK_06_steel_rod_of_36_mm_between_pins) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  add_cylinder(b, "C1", 50 * si::mm, 36 * si::mm, 1.0, 0.5);
  b.set("C1", "closed_length", 1.0);
  b.set("C1", "ends", 1.0);
  b.join({"C1.A", "C1.B", "T1.T"});
  b.step("rest", 0.1);
  const double load = last(b.run({"C1.buckling_load"}), "C1.buckling_load");
  EXPECT_VALUE(round_strut(36 * si::mm, 0, 1.5, 1.0, steel_modulus, 350e6).inertia / 1e-12, 82447.9576,
               82447.96, 0.05);
  EXPECT_VALUE(load / si::kN, 75.94801435, 75.95, 0.05);
  EXPECT_VALUE(load / 3.5 / si::kN, 21.69943267, 21.7, 0.05);
}

}  // namespace
}  // namespace poise::check
