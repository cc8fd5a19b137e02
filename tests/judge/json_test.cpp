// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/json.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <limits>

#include "judge/scene.hpp"
#include "judge/schema.hpp"

namespace poise {
namespace {

using nlohmann::json;
using scene::Fixture;
using testing::IsEmpty;
constexpr double bar = si::bar;

json schema_file() {
  std::ifstream file(POISE_SOURCE_DIR "/docs/schema/verdict.schema.json");
  return json::parse(file);
}

Fixture pressing(double peak) {
  Fixture f;
  f.times({0, 1, 2});
  f.step("press", 0, 2);
  f.column("C1.A.pressure", {0, peak, 0});
  f.require("safe", Never{f.signal("C1.A.pressure"), true, 250 * bar});
  f.rate("C1", 350 * bar);
  f.trace.books = {.mass_at_start = 2.0, .shaft = 100.0, .flow_heat = 100.0};
  return f;
}

json finding_named(const json& verdict, const std::string& name) {
  for (const json& finding : verdict["findings"]) {
    if (finding["name"] == name) return finding;
  }
  return nullptr;
}

TEST(Json, a_verdict_that_held_fits_the_schema) {
  Fixture f = pressing(231 * bar);
  EXPECT_THAT(schema::complaints(to_json(f.verdict(), f.job), schema_file()), IsEmpty());
}

TEST(Json, a_halted_broken_verdict_without_numbers_fits_the_schema) {
  Fixture f = pressing(std::numeric_limits<double>::quiet_NaN());
  f.step_not_begun("back");
  f.halt("stopped by hand");
  f.trace.books.shaft = std::numeric_limits<double>::infinity();
  const json verdict = json::parse(to_json(f.verdict(), f.job).dump());
  EXPECT_THAT(schema::complaints(verdict, schema_file()), IsEmpty());
  EXPECT_EQ(verdict["answer"], "not proven");
  EXPECT_EQ(verdict["holds"], false);
  EXPECT_EQ(verdict["halt"]["sentence"], "stopped by hand");
  EXPECT_EQ(verdict["books"]["energy"]["shaft"]["value"], nullptr);
}

TEST(Json, a_document_that_does_not_fit_the_schema_is_found_out) {
  Fixture f = pressing(231 * bar);
  json verdict = to_json(f.verdict(), f.job);
  verdict["answer"] = "perhaps";
  verdict["findings"][0].erase("margin");
  verdict["steps"][0]["begin"]["value"] = "soon";
  verdict["books"]["oil"]["colour"] = "amber";
  EXPECT_EQ(schema::complaints(verdict, schema_file()).size(), 4U);
}

TEST(Json, numbers_stand_in_the_units_of_the_job_and_in_si) {
  Fixture f = pressing(231 * bar);
  const json finding = finding_named(to_json(f.verdict(), f.job), "safe");
  EXPECT_NEAR(finding["margin"]["value"], 19.0, 1e-9);
  EXPECT_EQ(finding["margin"]["unit"], "bar");
  EXPECT_EQ(finding["margin"]["quantity"], "pressure");
  EXPECT_NEAR(finding["margin"]["si"], 19e5, 1e-3);
  EXPECT_NEAR(finding["share"], 0.076, 1e-12);
  EXPECT_EQ(finding["time"]["value"], 1.0);
  EXPECT_EQ(finding["step"], "press");
  EXPECT_EQ(finding["part"], "C1");

  f.job.world = units::us();
  const json in_psi = finding_named(to_json(f.verdict(), f.job), "safe");
  EXPECT_NEAR(in_psi["margin"]["value"], 19e5 / 6894.757293168361, 1e-9);
  EXPECT_EQ(in_psi["margin"]["unit"], "psi");
  EXPECT_NEAR(in_psi["margin"]["si"], 19e5, 1e-3);
}

}  // namespace
}  // namespace poise
