// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/codes.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "draw/bench_job.hpp"

namespace poise::draw {
namespace {

using drawing::job_text;
using drawing::read;
using drawing::with;

std::map<std::string, std::string> codes(const std::string& text) {
  const Job job = read(text);
  std::map<std::string, std::string> all;
  const std::vector<std::string> codes = codes_of(job);
  for (std::size_t p = 0; p < codes.size(); ++p) all[job.plan.parts[p].tag] = codes[p];
  return all;
}

TEST(Codes, the_supply_is_circuit_1_and_each_worked_branch_one_of_its_own_along_the_oils_way) {
  auto code = codes(job_text());
  EXPECT_EQ(code["T1"], "H1.1");
  EXPECT_EQ(code["P1"], "H1.2");
  EXPECT_EQ(code["R1"], "H1.3");
  EXPECT_EQ(code["F1"], "H1.4");  // in the return
  EXPECT_EQ(code["V2"], "H2.1");
  EXPECT_EQ(code["H1"], "H2.2");
  EXPECT_EQ(code["V2.B-C1.B"], "H2.3");
  EXPECT_EQ(code["C1"], "H2.4");
  EXPECT_EQ(code["V3"], "H3.1");
  EXPECT_EQ(code["V4"], "H3.2");
  EXPECT_EQ(code["C2"], "H3.3");
}

TEST(Codes, a_load_has_none) { EXPECT_EQ(codes(job_text())["M2"], ""); }

TEST(Codes, one_of_the_jobs_own_stands_and_no_other_part_gets_it) {
  auto code = codes(with(job_text(), "[parts.C2]\n", "[parts.C2]\ncode = \"H2.1\"\n"));
  EXPECT_EQ(code["C2"], "H2.1");
  EXPECT_EQ(code["V2"], "H2.2");
}

TEST(Codes, the_number_of_the_system_is_taken_from_the_jobs_own) {
  auto code = codes(with(job_text(), "[parts.P1]\n", "[parts.P1]\ncode = \"4-H1.1\"\n"));
  EXPECT_EQ(code["P1"], "4-H1.1");
  EXPECT_EQ(code["T1"], "4-H1.2");
  EXPECT_EQ(code["C1"], "4-H2.4");
}

TEST(Codes, a_part_added_at_the_end_of_a_branch_leaves_all_others_theirs) {
  auto before = codes(job_text());
  std::string more =
      with(job_text(), "[[lines]]\n", "[parts.G2]\nkind = \"gauge\"\nrange = \"250 bar\"\n[[lines]]\n");
  more = with(more, "to = \"C2.A\"", "to = [\"C2.A\", \"G2.M\"]");
  auto after = codes(more);
  EXPECT_EQ(after["G2"], "H3.4");
  for (const auto& [tag, code] : before) EXPECT_EQ(after[tag], code) << tag;
}

TEST(Codes, no_two_parts_share_one_in_the_examples) {
  for (const char* name : {"drilling-stand", "axle-box-lift"}) {
    const auto result = read_job_file(std::string(POISE_SOURCE_DIR "/jobs/") + name + ".toml");
    const Job& job = std::get<Job>(result);
    const std::vector<std::string> codes = codes_of(job);
    std::set<std::string> seen;
    for (std::size_t p = 0; p < codes.size(); ++p) {
      EXPECT_EQ(codes[p].empty(), job.plan.parts[p].kind->oil_ports == 0) << job.plan.parts[p].tag;
      if (codes[p].empty()) continue;
      EXPECT_TRUE(seen.insert(codes[p]).second) << codes[p];
    }
  }
}

TEST(Codes, an_opening_that_lets_the_pump_line_off_does_not_make_it_a_return) {
  std::string text =
      with(job_text(), "[[lines]]\n", "[parts.B1]\nkind = \"capillary\"\nlength = \"2 m\"\n[[lines]]\n");
  text = with(text, "to = [\"R1.P\"", "to = [\"B1.A\", \"R1.P\"");
  text = with(text, "to = [\"P1.S\"", "to = [\"B1.B\", \"P1.S\"");
  EXPECT_EQ(codes(text)["C2"], "H3.3");
}

}  // namespace
}  // namespace poise::draw
