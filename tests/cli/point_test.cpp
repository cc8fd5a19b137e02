// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The operating point as a practitioner asks for it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using nlohmann::json;
using testing::ContainsRegex;
using testing::HasSubstr;

constexpr int held = 0, cannot = 2;

/// The value behind a key of one port of one part.
double of_port(const json& point, const std::string& tag, const std::string& port, const std::string& key) {
  for (const json& part : point.at("parts")) {
    if (part.at("tag") != tag) continue;
    for (const json& each : part.at("ports")) {
      if (each.at("port") == port) return each.at(key).at("si");
    }
  }
  ADD_FAILURE() << tag << "." << port << " is missing";
  return 0.0;
}

double total(const json& point, const std::string& key) {
  double sum = 0.0;
  for (const json& part : point.at("parts")) sum += part.at(key).at("si").get<double>();
  return sum;
}

TEST(point, the_lowering_lift_is_told_from_pump_to_tank) {
  const Ran ran = run_program("point jobs/axle-box-lift.toml --at down");
  EXPECT_EQ(ran.exit_code, held);
  EXPECT_THAT(ran.text, HasSubstr("in step \"down\""));
  EXPECT_THAT(ran.text,
              ContainsRegex("V5 +B→A +[0-9.]+ bar +[0-9.]+ bar +[0-9.]+ bar +[0-9.]+ L/min +[0-9.]+ kW"));
  // The pump's oil meets its relief valve before the directional valve's lines.
  EXPECT_LT(ran.text.find("\nP1 "), ran.text.find("\nV2 "));
  EXPECT_LT(ran.text.find("\nV1 "), ran.text.find("\nL1 "));
}

TEST(point, flows_into_a_volume_add_up_and_heat_is_flow_times_drop) {
  const json point = json::parse(run_program("point jobs/axle-box-lift.toml --at down --json").text);
  // What V3 and V4 let go is what L1 carries: mass is kept, at the same pressure volume is too.
  EXPECT_NEAR(of_port(point, "L1", "B", "flow"),
              -of_port(point, "V3", "A", "flow") - of_port(point, "V4", "A", "flow"), 1e-9);
  // A throttle's loss is Δp·Q at the pressure it comes from, to the oil's compressibility over 84 bar (half a
  // percent).
  const double drop = of_port(point, "V5", "B", "pressure") - of_port(point, "V5", "A", "pressure");
  for (const json& part : point.at("parts")) {
    if (part.at("tag") != "V5") continue;
    const double heat = part.at("heat").at("si");
    EXPECT_NEAR(heat, drop * of_port(point, "V5", "B", "flow"), 0.006 * heat);
  }
  EXPECT_GT(total(point, "put_in"), 1000.0);
}

TEST(point, at_rest_under_pressure_all_power_put_in_becomes_heat) {
  const json point = json::parse(run_program("point jobs/drilling-stand.toml --at clamp --json").text);
  EXPECT_NEAR(total(point, "heat"), total(point, "put_in"), 1e-3 * total(point, "put_in"));
}

TEST(point, a_time_is_a_moment_too) {
  const json point = json::parse(run_program("point jobs/axle-box-lift.toml --at '2 s' --json").text);
  EXPECT_EQ(point.at("time").at("si"), 2.0);
  EXPECT_GT(of_port(point, "C1", "A", "pressure"), 10e5);
}

TEST(point, what_is_no_moment_of_the_job_is_named_with_its_steps) {
  const Ran ran = run_program("point jobs/axle-box-lift.toml --at dwon");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("did you mean \"down\"?"));
  const Ran late = run_program("point jobs/axle-box-lift.toml --at '900 s'");
  EXPECT_EQ(late.exit_code, cannot);
  EXPECT_THAT(late.text, HasSubstr("the cycle ends at"));
}

}  // namespace
}  // namespace poise
