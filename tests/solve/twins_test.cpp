// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The same circuit computed another way gives the same answer.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include "solve/equations.hpp"
#include "support/workshop.hpp"

namespace poise {
namespace {

using workshop::Bench;

/// Pump, relief, valve, hose, two cylinders with loads, a held one: a bit of everything; parts in one order
/// or reversed.
Bench lift(bool reversed) {
  Bench b;
  std::vector<std::function<void()>> parts{
      [&] {
        b.part("T1", "reservoir", {{"usable_oil", 8 * si::litre}});
      },
      [&] {
        b.part("P1", "pump", {{"flow", 6 * si::litre_per_minute}, {"rated_pressure", 250 * si::bar}});
      },
      [&] {
        b.part("V1", "relief", {{"setting", 150 * si::bar}, {"rated_flow", 15 * si::litre_per_minute}});
      },
      [&] {
        b.part("V2", "directional_4_3", {{"centre", 3.0}, {"rated_flow", 20 * si::litre_per_minute}});
      },
      [&] {
        b.part("L1", "hose", {{"bore", 8 * si::mm}, {"length", 2.0}});
      },
      [&] {
        b.part("V3", "pilot_operated_check", {{"ratio", 4.0}, {"rated_flow", 15 * si::litre_per_minute}});
      },
      [&] {
        b.part("V4", "one_way_flow_control",
               {{"bore", 2 * si::mm}, {"turns", 2.0}, {"rated_flow", 15 * si::litre_per_minute}});
      },
      [&] {
        b.part("C1", "single_acting_cylinder", {{"bore", 50 * si::mm}, {"stroke", 0.1}});
      },
      [&] {
        b.part("M1", "mass", {{"mass", 1500.0}});
      },
  };
  if (reversed) std::reverse(parts.begin(), parts.end());
  for (const auto& add : parts) add();
  b.join({"T1.T", "P1.S", "V1.T", "V2.T"});
  b.join({"P1.P", "V1.P", "V2.P"});
  b.join({"V2.A", "L1.A"});
  b.join({"L1.B", "V3.A"});
  b.join({"V3.B", "V4.A"});
  b.join({"V4.B", "C1.A"});
  b.join({"V2.B", "V3.X"});
  b.join({"C1.rod", "M1.rod"});
  b.step("up", 1.0, {{"P1", "running", 1.0, 0.3}, {"V2", "position", 1.0, 0.05}});
  b.step("hold", 1.0, {{"V2", "position", 0.0, 0.05}});
  b.step("down", 2.0, {{"V2", "position", 2.0, 0.05}});
  return b;
}

const std::initializer_list<std::string_view> watched{"C1.position", "C1.A.pressure", "P1.P.pressure",
                                                      "C1.speed"};

double range_of(const Trace& t, int column) {
  const auto [low, high] = std::ranges::minmax(t.values[column]);
  return high - low;
}

/// Greatest difference of a signal as a share of its range, away from the 10 ms around jumps where both are
/// steep.
void expect_same(const Trace& a, const Trace& b, double share) {
  for (const Signal& s : a.signals) {
    const double range = range_of(a, a.column(s.name));
    for (double t : {0.4, 0.7, 0.95, 1.3, 1.7, 1.95, 2.5, 3.0, 3.9}) {
      EXPECT_NEAR(workshop::at(a, s.name, t), workshop::at(b, s.name, t), share * range)
          << s.name << " at " << t;
    }
  }
}

TEST(twins, the_order_of_the_parts_does_not_matter) {
  const Trace forward = lift(false).run(watched), backward = lift(true).run(watched);
  ASSERT_FALSE(forward.halt);
  expect_same(forward, backward, 5e-3);  // physics contract: 0.5 % of range
}

TEST(twins, ten_times_tighter_tolerances_give_the_same_motion) {
  solve::RunOptions tight;
  tight.tolerances = tight.tolerances.tighter(10.0);
  const Trace usual = lift(false).run(watched), tighter = lift(false).run(watched, tight);
  ASSERT_FALSE(tighter.halt);
  expect_same(usual, tighter, 5e-3);
}

TEST(twins, the_same_job_twice_gives_the_same_digits) {
  const Trace once = lift(false).run(watched), again = lift(false).run(watched);
  EXPECT_EQ(once.time, again.time);
  EXPECT_EQ(once.values, again.values);
}

TEST(books, close_in_a_cycle_of_lifting_holding_and_lowering) {
  const Trace t = lift(false).run(watched);
  EXPECT_LE(t.books.mass_share(), 1e-6);
  EXPECT_LE(t.books.energy_share(), 1e-3);
  EXPECT_GT(t.books.shaft, 100.0);
}

// The assembled Jacobian against differences of the assembled rates, column by column, in the midst of a run.
TEST(equations, assembled_jacobian_is_that_of_the_assembled_rates) {
  const Bench b = lift(false);
  const Circuit circuit = build(b.plan);
  solve::Equations equations(circuit);
  std::vector<double> y = equations.start();
  std::mt19937 bits(7);
  std::uniform_real_distribution<double> squeeze(1.001, 1.008), place(0.01, 0.09), speed(-0.02, 0.02);
  const auto& layout = equations.layout();
  for (int n = 0; n < layout.nodes; ++n) {
    if (!circuit.nodes[n].free_surface) y[layout.mass(n)] *= squeeze(bits);
  }
  for (int body = 0; body < layout.bodies; ++body) {
    const double x = 0.001;  // little, so that the masses still fit the volumes
    y[layout.position(body)] = x;
    y[layout.speed(body)] = speed(bits);
  }
  equations.drives()[circuit.find_part("V2")][0] = {0.0, 1.0, 0.0, 0.0};
  const auto& pattern = equations.pattern();
  std::vector<double> exact(pattern.nonzeros()), low(y.size()), high(y.size());
  ASSERT_TRUE(equations.jacobian(1.0, y.data(), exact.data()));
  int compared = 0;
  for (int column = 0; column < layout.size; ++column) {
    const double h = std::max(std::abs(y[column]) * 1e-7, 1e-9);
    const double keep = y[column];
    y[column] = keep + h;
    ASSERT_TRUE(equations.rates(1.0, y.data(), high.data()));
    y[column] = keep - h;
    ASSERT_TRUE(equations.rates(1.0, y.data(), low.data()));
    y[column] = keep;
    std::vector<double> dense(y.size(), 0.0);
    for (int k = pattern.column_starts()[column]; k < pattern.column_starts()[column + 1]; ++k) {
      dense[pattern.rows()[k]] = exact[k];
    }
    for (int row = 0; row < layout.size; ++row) {
      const double difference = (high[row] - low[row]) / (2 * h);
      // Differences lose digits where a small slope stands beside a large value.
      const double rounding = 1e-12 * (std::abs(high[row]) + 1e-6) / h;
      EXPECT_NEAR(dense[row], difference, 2e-3 * std::abs(difference) + rounding)
          << equations.name_of(row) << " by " << equations.name_of(column);
      compared += difference != 0.0;
    }
  }
  EXPECT_GT(compared, 2 * layout.size);
}

}  // namespace
}  // namespace poise
