// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/cycle.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/proven.hpp"

namespace poise::papers {
namespace {

using workshop::Proven;

// 2 L/min into a bore of 40 mm: v = Q/A. It goes out 100 mm in the second step and stands in the first.
constexpr auto pushed_out = R"(
title = "One rod"
[oil]
grade = "ISO VG 46"
[parts.T1]
kind = "reservoir"
usable_oil = "5 L"
[parts.P1]
kind = "pump"
flow = "2 L/min"
volumetric_efficiency = "100 %"
rated_pressure = "250 bar"
[parts.V1]
kind = "relief"
setting = "200 bar"
rated_flow = "10 L/min"
[parts.C1]
kind = "single_acting_cylinder"
bore = "40 mm"
stroke = "100 mm"
[parts.M1]
kind = "mass"
mass = "500 kg"
[parts.G1]
kind = "gauge"
range = "250 bar"
[[lines]]
from = "T1.T"
to = "P1.S"
[[lines]]
from = "P1.P"
to = ["V1.P", "C1.A", "G1.M"]
[[lines]]
from = "V1.T"
to = "T1.T"
[[lines]]
from = "C1.rod"
to = "M1.rod"
[[steps]]
name = "rest"
lasts = "1 s"
[[steps]]
name = "lift"
set = { P1 = "on" }
lasts = "6 s"
)";

const Proven& lifted() {
  static const Proven proven(pushed_out, "one-rod.toml");
  return proven;
}

TEST(ways, are_told_with_their_time_by_flow_over_area) {
  const auto ways = ways_of(lifted().subject());
  ASSERT_EQ(ways.size(), 1U);
  EXPECT_EQ(ways[0].step, 1U);
  EXPECT_NEAR(ways[0].length(), 100 * si::mm, 1 * si::mm);
  const double area = std::numbers::pi / 4 * 0.04 * 0.04, flow = 2 * si::litre_per_minute;
  // 98 % of the way at full speed; the pump takes a moment to start and leaks a little.
  EXPECT_NEAR(ways[0].took, 0.98 * 0.1 * area / flow, 0.03 * ways[0].took);
  EXPECT_LT(ways[0].begins, 0.5);
}

// Pressed out and let down again within one step, as a switch may do it: both strokes are told, not none.
TEST(ways, of_a_rod_that_turns_back_within_a_step_are_two) {
  const Proven& proven = lifted();
  Trace trace = proven.trace;
  const int column = trace.column("C1.position");
  ASSERT_GE(column, 0);
  const double begin = trace.steps[1].begin, end = trace.steps[1].end, middle = 0.5 * (begin + end);
  for (std::size_t row = 0; row < trace.time.size(); ++row) {
    const double time = trace.time[row], share = std::abs(time - middle) / (middle - begin);
    trace.values[column][row] = time < begin ? 0.0 : 0.08 * (1.0 - std::min(1.0, share));
  }
  const Subject subject = proven.subject();
  const auto ways = ways_of({.job = subject.job,
                             .circuit = subject.circuit,
                             .verdict = subject.verdict,
                             .trace = trace,
                             .file = subject.file,
                             .fingerprint = subject.fingerprint,
                             .version = subject.version});
  ASSERT_EQ(ways.size(), 2U);
  const double top = std::ranges::max(trace.values[column]);  // of the rows that the run has
  EXPECT_GT(top, 0.07);
  EXPECT_EQ(ways[0].to, top);
  EXPECT_EQ(ways[1].from, top);
  EXPECT_NEAR(ways[1].to, 0.0, 1e-3);
  EXPECT_GE(ways[1].begins, 0.8 * (middle - begin));
}

TEST(ways, stand_in_a_table_with_their_mean_speed) {
  const Subject subject = lifted().subject();
  const Table table = table_of(ways_of(subject), subject);
  ASSERT_EQ(table.rows.size(), 1U);
  const auto& row = table.rows.front();
  EXPECT_EQ(row[0].text, "lift");
  EXPECT_EQ(row[1].text, "C1");
  ASSERT_TRUE(row.back().number);
  EXPECT_NEAR(*row.back().number, (*row[3].number - *row[2].number) / *row[5].number, 1e-9);
}

// At the end of the stroke the pump goes over its relief valve: at 200 bar and a little more.
TEST(readings, at_the_end_of_a_step_are_what_the_gauge_shows) {
  const Subject subject = lifted().subject();
  EXPECT_EQ(readings_at_end(0, subject).size(), 1U);
  const Moment* end = end_of(1, subject);
  ASSERT_NE(end, nullptr);
  EXPECT_NEAR(end->time, 7.0, 1e-6);
  const int gauge = subject.circuit.find_part("G1");
  EXPECT_GT(end->parts[gauge].outputs.front(), 200 * si::bar);
  EXPECT_EQ(readings_at_end(1, subject).front(),
            "G1 " + measured(end->parts[gauge].outputs.front(), Quantity::pressure, subject.job.world).text);
}

TEST(commands, are_told_in_words) {
  const Job& job = lifted().job;
  EXPECT_EQ(commands_in_words(job.steps[0], job), "");
  EXPECT_EQ(commands_in_words(job.steps[1], job), "P1 to on");
}

TEST(noise, of_a_resting_circuit_is_nothing) {
  EXPECT_EQ(seen(3e-9, Quantity::pressure, units::metric()).text, "0 bar");
  EXPECT_EQ(seen(2e-18, Quantity::length, units::metric()).text, "0 mm");
  EXPECT_EQ(seen(210 * si::bar, Quantity::pressure, units::metric()).text, "210 bar");
}

}  // namespace
}  // namespace poise::papers
