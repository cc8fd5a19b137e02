// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The example jobs: their books, and the same verdict computed another way.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "solve/run.hpp"

namespace poise {
namespace {

Job read(const std::string& text) {
  auto read = read_job(text, "test");
  if (const auto* complaints = std::get_if<Complaints>(&read)) ADD_FAILURE() << complaints->text(text);
  return std::get<Job>(std::move(read));
}

std::string text_of(const std::string& name) {
  std::ifstream in(std::string(POISE_SOURCE_DIR "/jobs/") + name + ".toml");
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Every occurrence of a piece exchanged; there must be one.
std::string with(std::string text, const std::string& piece, const std::string& instead) {
  std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  for (; at != std::string::npos; at = text.find(piece, at + instead.size()))
    text.replace(at, piece.size(), instead);
  return text;
}

Verdict prove(const Job& job, solve::RunOptions options = {}) {
  options.controls = job.controls;
  const Circuit circuit = build(job.plan);
  return judge(job, solve::run(circuit, job.steps, signals_needed(job), options));
}

const Finding& finding(const Verdict& verdict, const std::string& name) {
  return *std::ranges::find(verdict.findings, name, &Finding::name);
}

class example : public testing::TestWithParam<std::string> {};

TEST_P(example, closes_its_books) {
  const Verdict verdict = prove(read(text_of(GetParam())));
  EXPECT_FALSE(verdict.halt);
  EXPECT_LE(verdict.books.mass_share(), 1e-6);
  EXPECT_LE(verdict.books.energy_share(), 1e-3);
}

// Physics contract §7.4: tighten the tolerances tenfold, no verdict changes.
TEST_P(example, keeps_its_verdict_with_ten_times_tighter_tolerances) {
  const Job job = read(text_of(GetParam()));
  solve::RunOptions tight;
  tight.tolerances = tight.tolerances.tighter(10.0);
  const Verdict usual = prove(job), tighter = prove(job, tight);
  ASSERT_EQ(usual.findings.size(), tighter.findings.size());
  for (const Finding& f : usual.findings) {
    const Finding& g = finding(tighter, f.name);
    EXPECT_EQ(f.held, g.held) << f.name;
    // Events within 1 ms + 0.2 % of the time since the last command (here at most 40 s).
    if (f.time && g.time && f.quantity == Quantity::time && f.margin && g.margin) {
      EXPECT_NEAR(*f.margin, *g.margin, 1e-3 + 2e-3 * std::abs(*f.time)) << f.name;
    }
  }
}

// One job in two unit worlds is one machine: the numbers of the verdict are the same to rounding of the text.
TEST(example_jobs, are_the_same_machine_in_us_units) {
  const std::string metric = text_of("axle-box-lift");
  std::string us = with(metric, "units = \"metric\"", "units = \"us\"");
  us = with(us, "setting = \"140 bar\"", "setting = \"2030.5283 psi\"");
  us = with(us, "flow = \"8 L/min\"", "flow = \"488.18995 in3/min\"");
  us = with(us, "mass = \"2.5 t\"", "mass = \"5511.5566 lb\"");
  us = with(us, "bore = \"60 mm\"", "bore = \"2.36220472 in\"");
  ASSERT_NE(us, metric);
  const Verdict a = prove(read(metric)), b = prove(read(us));
  ASSERT_EQ(a.findings.size(), b.findings.size());
  for (const Finding& f : a.findings) {
    const Finding& g = finding(b, f.name);
    EXPECT_EQ(f.held, g.held) << f.name;
    if (f.margin && f.quantity == Quantity::time) {
      EXPECT_NEAR(*f.margin, g.margin.value(), 1e-3) << f.name;
    }
  }
}

TEST(example_jobs, broken_ones_break_where_they_say) {
  const Verdict stand = prove(read(text_of("drilling-stand-sequence-too-low")));
  EXPECT_FALSE(finding(stand, "seated before any clamp moves").held);
  const Verdict lift = prove(read(text_of("axle-box-lift-needle-too-far-open")));
  EXPECT_FALSE(finding(lift, "never faster down than 12 mm/s").held);
  EXPECT_FALSE(finding(lift, "stays level").held);
}

INSTANTIATE_TEST_SUITE_P(jobs, example,
                         testing::Values("drilling-stand", "drilling-stand-sequence-too-low", "axle-box-lift",
                                         "axle-box-lift-needle-too-far-open"),
                         [](const auto& entry) {
                           std::string name = entry.param;
                           std::ranges::replace(name, '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace poise
