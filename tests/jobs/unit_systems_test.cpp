// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A job written in psi, gallons, inches and pounds is the same machine as in bar, litres, millimetres and
// kilonewtons.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <regex>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "solve/run.hpp"

namespace poise {
namespace {

struct Unit {
  const char *metric, *us;
  double us_per_metric;
};
// Exact definitions: lbf/in2, US gallon 231 in3, inch 25.4 mm, pound-force of standard gravity.
constexpr std::array table{Unit{"bar", "psi", 1e5 / 6894.757293168361},
                           Unit{"L/min", "gal/min", 1.0 / 3.785411784}, Unit{"mm", "in", 1.0 / 25.4},
                           Unit{"kN", "lbf", 1e3 / 4.4482216152605}};

std::string in_us_units(std::string text, int& changed) {
  for (const Unit& unit : table) {
    const std::regex value(fmt::format("\"([0-9.]+) {}\"", unit.metric));
    std::smatch found;
    std::string out;
    while (std::regex_search(text, found, value)) {
      out += found.prefix().str() +
             fmt::format("\"{:.15g} {}\"", std::stod(found[1]) * unit.us_per_metric, unit.us);
      text = found.suffix();
      ++changed;
    }
    text = out + text;
  }
  return text;
}

Verdict proven(const std::string& text) {
  const auto read = read_job(text, "stand.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  const Job& job = std::get<Job>(read);
  return judge(job, solve::run(build(job.plan), job.steps, signals_needed(job)));
}

TEST(unit_systems, the_drilling_stand_in_us_units_has_the_same_margins) {
  std::string text;
  const auto read = read_job_file(POISE_SOURCE_DIR "/jobs/drilling-stand.toml", &text);
  ASSERT_TRUE(std::holds_alternative<Job>(read));
  int changed = 0;
  const Verdict metric = proven(text), us = proven(in_us_units(text, changed));
  EXPECT_GT(changed, 50);
  ASSERT_EQ(metric.findings.size(), us.findings.size());
  for (std::size_t i = 0; i < metric.findings.size(); ++i) {
    EXPECT_EQ(metric.findings[i].name, us.findings[i].name);
    EXPECT_EQ(metric.findings[i].held, us.findings[i].held);
    if (!metric.findings[i].margin) continue;
    // The inputs agree to rounding, but ten seconds of stiff steps amplify it up to the solver's tolerance:
    // compared as shares of what was promised.
    ASSERT_TRUE(metric.findings[i].share && us.findings[i].share);
    EXPECT_NEAR(*metric.findings[i].share, *us.findings[i].share, 1e-3) << metric.findings[i].name;
  }
}

}  // namespace
}  // namespace poise
