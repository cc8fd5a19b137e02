// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/duty.hpp"

#include <gtest/gtest.h>

#include "parts/kind.hpp"

namespace poise::papers {
namespace {

Plan one_check() {
  Plan plan;
  const Kind* kind = find_kind("check");
  plan.parts.push_back(
      {"V1", kind, Values(kind->parameters, std::vector<double>(kind->parameters.size())), {}});
  return plan;
}

/// 10 s in rows of 0.01 s.
Trace with(Signal::What what, double (*course)(double time)) {
  Trace trace;
  trace.signals = {{.what = what, .part = 0, .index = 1, .quantity = Quantity::flow, .name = "V1.B.flow"}};
  trace.values.resize(1);
  for (int i = 0; i <= 1000; ++i) {
    trace.time.push_back(0.01 * i);
    trace.values[0].push_back(course(0.01 * i));
  }
  return trace;
}

// A blow of 50 ms, a flow of 2 for 5 s, one of 3 the other way for 1 s.
double course(double time) {
  if (time > 1.0 && time < 1.05) return 30.0;
  if (time >= 2.0 && time <= 7.0) return 2.0;
  return time >= 8.0 && time <= 9.0 ? -3.0 : 0.0;
}

TEST(duty, of_a_flow_is_what_lasts_each_way_and_no_blow) {
  const Duty duty = duties_of(one_check(), with(Signal::What::flow, course)).front();
  ASSERT_EQ(duty.flow.size(), 2U);
  EXPECT_EQ(duty.flow[1].high, 2.0);
  EXPECT_EQ(duty.flow[1].low, -3.0);
  EXPECT_EQ(duty.flow[1].greatest(), 3.0);
  EXPECT_DOUBLE_EQ(duty.duration, 10.0);
}

// A motion that is over in 50 ms leaves nothing but seepage that lasts: no flow to size anything by.
TEST(duty, of_a_flow_is_nothing_where_only_seepage_lasts) {
  const auto jerk = [](double time) { return time > 1.0 && time < 1.05 ? 30.0 : 0.001; };
  const Duty duty = duties_of(one_check(), with(Signal::What::flow, jerk)).front();
  EXPECT_EQ(duty.flow[1].high, 0.0);
}

TEST(duty, of_a_pressure_counts_the_blow_too) {
  const Duty duty = duties_of(one_check(), with(Signal::What::pressure, course)).front();
  ASSERT_EQ(duty.pressure.size(), 2U);
  EXPECT_EQ(duty.pressure[1].high, 30.0);
}

TEST(duty, of_a_run_without_a_row_is_empty) {
  const Duty duty = duties_of(one_check(), {}).front();
  EXPECT_TRUE(duty.pressure.empty());
  EXPECT_TRUE(duty.flow.empty());
}

}  // namespace
}  // namespace poise::papers
