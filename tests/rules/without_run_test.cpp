// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Rules on a job that was not run: they say what the plan shows and nothing else.
#include <filesystem>

#include "job/job.hpp"
#include "rules/all.hpp"
#include "rules/text_of.hpp"

namespace poise::rules {
namespace {

namespace fs = std::filesystem;
const fs::path folder = fs::path(POISE_SOURCE_DIR) / "tests/rules/jobs";

std::vector<Breach> seen_in(const std::string& text) {
  const auto read = read_job(text, "plan.toml");
  EXPECT_TRUE(std::holds_alternative<Job>(read));
  const Job& job = std::get<Job>(read);
  return breaches(Sight(job.plan, job.steps, job.controls, job.world));
}

TEST(without_a_run, a_suction_line_is_judged_by_the_pumps_flow) {
  // Given a suction tube of 8 mm for a pump of 6 L/min: 1e-4 m3/s / (π/4 · (8 mm)²) = 1.99 m/s, 1.5 are
  // allowed.
  std::string text = text_of(folder / "bush-press.toml");
  const std::string bore = "bore = \"20 mm\"";
  text.replace(text.find(bore), bore.size(), "bore = \"8 mm\"");
  const auto found = seen_in(text);
  const auto speed = std::ranges::find_if(
      found, [](const Breach& breach) { return breach.rule->name == "speed of the oil in the lines"; });
  ASSERT_NE(speed, found.end());
  EXPECT_NE(speed->found.sentence.find("L1, a suction line"), std::string::npos) << speed->found.sentence;
  EXPECT_NE(speed->found.sentence.find("1.99 m/s"), std::string::npos) << speed->found.sentence;
}

TEST(without_a_run, a_hand_pump_is_judged_by_full_strokes_and_the_relief) {
  // Given clamps that take 2 · 0.7 in2 · 0.9 in = 1.26 in3 with strokes of 0.01 in3, and a relief of 3500
  // psi.
  std::string text = text_of(folder / "clamps-by-hand.toml");
  const std::string stroke = "stroke_volume = \"0.15 in3/stroke\"";
  text.replace(text.find(stroke), stroke.size(), "stroke_volume = \"0.01 in3/stroke\"");
  const auto found = seen_in(text);
  const auto strokes = std::ranges::find_if(
      found, [](const Breach& breach) { return breach.rule->name == "strokes at the hand pump"; });
  ASSERT_NE(strokes, found.end());
  EXPECT_NE(strokes->found.sentence.find("126 strokes"), std::string::npos) << strokes->found.sentence;
}

TEST(without_a_run, a_press_that_is_well_planned_is_left_alone) {
  for (const Breach& breach : seen_in(text_of(folder / "bush-press.toml")))
    ADD_FAILURE() << breach.rule->name << ": " << breach.found.sentence;
}

}  // namespace
}  // namespace poise::rules
