// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "job/folder.hpp"
#include "job/oil_table.hpp"
#include "job/press_job.hpp"

namespace poise {
namespace {

using reading::complaints_of;
using reading::Folder;
using testing::HasSubstr;

std::string sentence_about(const std::filesystem::path& path) {
  const auto result = read_job_file(path);
  const auto* complaints = std::get_if<Complaints>(&result);
  return complaints ? complaints->list.at(0).sentence : "a job";
}

TEST(File, a_job_is_read_with_its_text) {
  const Folder folder;
  std::string text;
  const auto result = read_job_file(folder.write("press.toml", reading::good), &text);
  ASSERT_TRUE(std::holds_alternative<Job>(result));
  EXPECT_EQ(std::get<Job>(result).title, "Bush press");
  EXPECT_EQ(text, reading::good);
}

TEST(File, what_cannot_be_a_job_is_said_in_a_sentence) {
  const Folder folder;
  EXPECT_EQ(sentence_about(folder.path / "none.toml"),
            "there is no such file; look at its name and its folder");
  EXPECT_EQ(sentence_about(folder.path), "is a folder; name the job file in it");
  EXPECT_EQ(sentence_about(folder.write("a", "")), "is empty; a job needs [parts], [[lines]], [[steps]]");
  EXPECT_EQ(sentence_about(folder.write("b", " \r\n\t\n")),
            "is empty; a job needs [parts], [[lines]], [[steps]]");
  EXPECT_EQ(sentence_about(folder.write("c", std::string_view("a = 1\0", 6))),
            "is not a text file; a job is written in plain text (UTF-8)");
  EXPECT_EQ(sentence_about(folder.write("d", "title = \"\xE4\"\n")),  // Latin 1
            "is not a text file; a job is written in plain text (UTF-8)");
  EXPECT_EQ(sentence_about(folder.write("e", std::string(4'000'001, ' '))),
            "is larger than 4 MB; a job is a short text");
}

TEST(File, a_job_without_parts_or_steps_is_told_what_it_needs) {
  EXPECT_EQ(complaints_of("title = \"nothing\"\n"),
            "1:1: the job has no parts; each part has a table such as [parts.P1]\n"
            "1:1: the job has no steps; each step begins with [[steps]]\n");
}

TEST(File, text_that_is_not_toml_is_reported_at_its_first_fault) {
  EXPECT_EQ(complaints_of(reading::with("\"180 bar\"", "180 bar")),
            "14:15: the text is not TOML: key-value pair: expected a comment or whitespace, saw 'b'; a word, "
            "or a value with "
            "its unit, stands in quotation marks, such as \"210 bar\"\n");
  EXPECT_EQ(complaints_of(reading::with("[parts.V2]", "[parts.V1]")),
            "16:1: the text is not TOML: table header: cannot redefine existing table 'parts.V1'; a key "
            "stands once in its "
            "table, and a tag once in the job\n");
}

TEST(File, a_header_with_a_bracket_too_many_is_reported_and_ends_nothing) {
  EXPECT_EQ(
      complaints_of("[[[steps]]]\n"),
      "1:3: the text is not TOML: key: expected bare key starting character or string delimiter, saw '['\n");
  EXPECT_THAT(complaints_of("[[=\n"), HasSubstr("the text is not TOML: "));
}

// Letters from the whole range, for the library's tables of letters answer by range.
TEST(File, letters_outside_quotation_marks_are_reported) {
  for (const std::string_view letter : {"ä", "µ", "°", "Ж", "—", "中", "😀"}) {
    for (const std::string_view before : {"", "[parts.", "a = ", "a = 5 ", "[[lines]] "}) {
      const std::string text = std::string(before) + std::string(letter) + " = 1\n";
      EXPECT_THAT(complaints_of(text), HasSubstr("the text is not TOML: ")) << text;
    }
  }
}

TEST(File, depth_without_end_is_refused_before_it_is_walked) {
  std::string dots;
  for (int i = 0; i < 100'000; ++i) dots += "a.";
  EXPECT_EQ(complaints_of(dots + "a = 1"),
            "1:1: this line is too long; spread what it lists over several lines\n");
  EXPECT_THAT(complaints_of("a = " + std::string(200, '[') + std::string(200, ']')),
              HasSubstr("nested too deep"));
  EXPECT_THAT(complaints_of("a = " + std::string(4000, '[')), HasSubstr("nested too deep"));
}

TEST(Complaints, all_faults_of_a_file_come_at_once_in_the_order_of_its_lines) {
  std::string text = reading::with("setting = \"180 bar\"", "setting = \"210\"");
  const auto exchange = [&](std::string_view piece, std::string_view instead) {
    text.replace(text.find(piece), piece.size(), instead);
  };
  exchange("C1.A.pressure > 150", "C1.A.presure > 150");
  exchange("during = \"press\"", "during = \"pres\"");
  exchange("\"V2.A\"", "\"V2.X\"");
  exchange("\"ISO VG 32\"", "5");
  const auto result = read_job(text, "press.toml");
  ASSERT_TRUE(std::holds_alternative<Complaints>(result));
  EXPECT_EQ(
      std::get<Complaints>(result).text(text),
      R"(press.toml:4:9: grade of the oil: found a number; expected "ISO VG 2", "ISO VG 3", "ISO VG 5", "ISO VG 7", "ISO VG 10", "ISO VG 15", "ISO VG 22", "ISO VG 32", "ISO VG 46", "ISO VG 68", "ISO VG 100", "ISO VG 150", "ISO VG 220", "ISO VG 320", "ISO VG 460", "ISO VG 680", "ISO VG 1000" or "ISO VG 1500"
  grade = 5
          ^
press.toml:14:11: setting of V1: "210" has no unit; expected a pressure, such as "210 bar"
  setting = "210"
            ^
press.toml:34:8: V2 (directional_4_3) has no port "X"; its ports are "V2.P", "V2.T", "V2.A" and "V2.B"
  from = "V2.X"
         ^
press.toml:44:9: until of step "press": "C1.A.presure" is nothing that can be watched on C1 (single_acting_cylinder); did you mean "C1.pressure"?
  until = "C1.A.presure > 150 bar"
          ^
press.toml:53:10: during of requirement "pump is spared": there is no step "pres"; did you mean "press"?
  during = "pres"
           ^
5 complaints
)");
}

TEST(Complaints, the_mark_stands_under_the_place_whatever_letters_come_before_it) {
  const std::string text = "\xEF\xBB\xBFplugged = [ \"Zyl-ä.A\", 3]\r\n";
  const auto result = read_job(text, "a.toml");
  EXPECT_THAT(std::get<Complaints>(result).text(text), HasSubstr("\n  plugged = [ \"Zyl-ä.A\", 3]\n"
                                                                 "                         ^\n"));
}

TEST(Complaints, a_file_without_a_place_is_named_alone) {
  EXPECT_EQ((Complaints{"a.toml", {{{}, "there is no such file"}}}.text("")),
            "a.toml: there is no such file\n1 complaint\n");
}

TEST(Units, both_worlds_read_every_unit_and_show_their_own) {
  const std::string psi = reading::with("\"180 bar\"", "\"2610.6792 psi\"");
  const Job metric = reading::job_of(psi), us = reading::job_of("units = \"us\"\n" + psi);
  for (const Job* job : {&metric, &us}) {
    EXPECT_NEAR(job->plan.parts[2].values["setting"], 180e5, 10.0);  // 1 psi = 6894.757 Pa (NIST SP 811)
  }
  EXPECT_EQ(metric.world[Quantity::pressure], "bar");
  EXPECT_EQ(us.world[Quantity::pressure], "psi");
  const Job mixed = reading::job_of("units = { base = \"us\", pressure = \"MPa\" }\n" + psi);
  EXPECT_EQ(mixed.world[Quantity::pressure], "MPa");
  EXPECT_EQ(mixed.world[Quantity::length], "in");
}

TEST(Oil, the_grade_sets_both_viscosities_and_the_rest_has_defaults) {
  const OilData oil = reading::job_of(reading::good).plan.oil;
  EXPECT_DOUBLE_EQ(oil.viscosity_40, 32e-6);  // midpoint, ISO 3448
  EXPECT_NEAR(oil.viscosity_100, 5.361856e-6,
              1e-12);  // viscosity index 100: 5.3 + 0.1·(32 − 31.4)/(32.37 − 31.4)
  EXPECT_DOUBLE_EQ(oil.density_15, OilData{}.density_15);
  const OilData usual = reading::job_of(reading::with("grade = \"ISO VG 32\"\n", "")).plan.oil;
  EXPECT_DOUBLE_EQ(usual.viscosity_40, OilData{}.viscosity_40);
  EXPECT_NEAR(usual.viscosity_100, OilData{}.viscosity_100, 1e-13);  // eight figures
}

TEST(Oil, every_default_lies_within_its_range) {
  for (const Parameter& parameter : oil_parameters()) {
    if (!parameter.fallback) continue;
    EXPECT_GE(*parameter.fallback, parameter.low) << parameter.name;
    EXPECT_LE(*parameter.fallback, parameter.high) << parameter.name;
  }
}

TEST(Page, the_example_of_the_page_is_a_job) {
  std::ifstream file(std::string(POISE_SOURCE_DIR) + "/docs/job-file.md");
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  const std::string_view opening = "```toml\n";
  const std::size_t begin = page.find(opening) + opening.size();
  const Job job = reading::job_of(page.substr(begin, page.find("```", begin) - begin));
  EXPECT_EQ(job.title, "Bush press");
  EXPECT_EQ(job.plan.parts.size(), 7u);
  EXPECT_EQ(job.steps.size(), 3u);
  EXPECT_EQ(job.requirements.size(), 2u);
}

TEST(Page, the_jobs_of_the_house_are_jobs) {
  int read = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(POISE_SOURCE_DIR) + "/jobs")) {
    if (entry.path().extension() != ".toml") continue;
    EXPECT_EQ(sentence_about(entry.path()), "a job") << entry.path();
    ++read;
  }
  EXPECT_GT(read, 0);
}

}  // namespace
}  // namespace poise
