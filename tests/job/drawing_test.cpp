// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "job/press_job.hpp"

namespace poise {
namespace {

using reading::complaints_of;
using reading::job_of;
using reading::with;

constexpr std::string_view ram = "[parts.C1]\n", hose = "tag = \"H1\"\n";

const DrawnPart& drawn(const Job& job, std::string_view tag) {
  const auto part = std::ranges::find(job.plan.parts, tag, &PlannedPart::tag);
  EXPECT_NE(part, job.plan.parts.end()) << tag;
  return job.drawn.at(static_cast<std::size_t>(part - job.plan.parts.begin()));
}

TEST(JobDrawing, a_part_says_where_it_stands_and_what_it_is_called) {
  const Job job = job_of(with(ram,
                              "[parts.C1]\ndrawn_at = [40, 25.5]\nassembly = \"press\"\ncode = \"1-H2.3\"\n"
                              "note = \"seats the bush\"\n"));
  ASSERT_EQ(job.drawn.size(), job.plan.parts.size());
  const DrawnPart& part = drawn(job, "C1");
  ASSERT_TRUE(part.at.has_value());
  EXPECT_THAT(*part.at, testing::ElementsAre(40.0, 25.5));
  EXPECT_EQ(part.assembly, "press");
  EXPECT_EQ(part.code, "1-H2.3");
  EXPECT_EQ(part.note, "seats the bush");
  EXPECT_FALSE(drawn(job, "P1").at.has_value());
  EXPECT_EQ(drawn(job, "P1").code, "");
}

TEST(JobDrawing, a_line_with_a_tag_says_it_beside_its_hose) {
  const Job job = job_of(with(hose,
                              "tag = \"H1\"\ndrawn_at = [12, 30]\nassembly = \"press\"\ncode = "
                              "\"H2.9\"\nnote = \"behind the guard\"\n"));
  const DrawnPart& line = drawn(job, "H1");
  EXPECT_TRUE(line.at.has_value());
  EXPECT_EQ(line.assembly, "press");
  EXPECT_EQ(line.code, "H2.9");
  EXPECT_EQ(line.note, "behind the guard");
}

TEST(JobDrawing, a_line_that_is_no_part_cannot_be_placed) {
  EXPECT_EQ(complaints_of(with("to = \"F1.rod\"", "to = \"F1.rod\"\ndrawn_at = [1, 2]\nassembly = \"x\"")),
            "41:12: drawn_at of this line: only a line with a hose or tube has drawn_at\n"
            "42:12: assembly of this line: only a line with a hose or tube has assembly\n");
}

TEST(JobDrawing, the_sheet_and_its_title_block) {
  const Job job = job_of(std::string(reading::good) +
                         "[drawing]\npaper = \"A3\"\ncodes = \"off\"\nauthor = \"workshop office\"\ndate = "
                         "\"25 November\"\nrevision = \"B\"\n");
  EXPECT_EQ(job.drawing.paper, "A3");
  EXPECT_FALSE(job.drawing.codes);
  EXPECT_EQ(job.drawing.author, "workshop office");
  EXPECT_EQ(job.drawing.date, "25 November");
  EXPECT_EQ(job.drawing.revision, "B");
  const Job plain = job_of(reading::good);
  EXPECT_EQ(plain.drawing.paper, "");
  EXPECT_TRUE(plain.drawing.codes);
}

TEST(JobDrawing, what_cannot_be_drawn_so_is_complained_about) {
  struct Case {
    std::string text, complaint;
  };
  const auto in_ram = [](std::string_view line) {
    return with(ram, "[parts.C1]\n" + std::string(line) + "\n");
  };
  const auto in_drawing = [](std::string_view line) {
    return std::string(reading::good) + "[drawing]\n" + std::string(line) + "\n";
  };
  const auto sentence_of = [](const std::string& complaints) {
    return complaints.substr(std::min(complaints.size(), complaints.find(": ") + 2));
  };
  const std::string at =
      "drawn_at of C1 (single_acting_cylinder): expected modules to the right and up from the lower left "
      "corner of the drawing, such as drawn_at = [40, 25], found ";
  const std::string code = "code of C1 (single_acting_cylinder): ";
  const std::string no_code =
      " is no code after ISO 1219-2; expected the number of the system if there are several, the letter of "
      "the medium (H for oil), the circuit and the component, such as \"H2.3\" or \"1-H2.3\"\n";
  const Case cases[] = {
      {in_ram("drawn_at = \"left\""), at + "a text\n"},
      {in_ram("drawn_at = [1, 2, 3]"), at + "another list\n"},
      {in_ram("drawn_at = [1, \"2 mm\"]"), at + "another list\n"},
      {in_ram("drawn_at = [-1, 2]"),
       "drawn_at of C1 (single_acting_cylinder): expected modules from 0 to 2000\n"},
      {in_ram("code = \"C1\""), code + "\"C1\"" + no_code},
      {in_ram("code = \"H2.\""), code + "\"H2.\"" + no_code},
      {in_ram("code = \"-H2.1\""), code + "\"-H2.1\"" + no_code},
      {in_ram("code = \"X2.1\""), code + "\"X2.1\"" + no_code},
      {in_ram("code = 2.1"), code + "expected text in quotation marks, found a number\n"},
      {in_ram("asembly = \"press\""),
       "C1 (single_acting_cylinder) has no key \"asembly\"; did you mean \"assembly\"?\n"},
      {in_drawing("paper = \"A5\""),
       "paper of [drawing]: found \"A5\"; expected \"A4\", \"A3\" or \"Letter\"\n"},
      {in_drawing("codes = \"none\""), "codes of [drawing]: found \"none\"; expected \"on\" or \"off\"\n"},
      {in_drawing("autor = \"me\""), "[drawing] has no key \"autor\"; did you mean \"author\"?\n"},
      {std::string(reading::good) + "[drawings]\n",
       "the job has no key \"drawings\"; did you mean \"drawing\"?\n"},
  };
  for (const Case& each : cases) EXPECT_EQ(sentence_of(complaints_of(each.text)), each.complaint);
}

TEST(JobDrawing, two_parts_cannot_share_a_code) {
  const std::string text = with(ram, "[parts.C1]\ncode = \"H2.1\"\n");
  const std::string_view pump = "[parts.P1]\n";
  std::string both = text;
  both.replace(both.find(pump), pump.size(), "[parts.P1]\ncode = \"H2.1\"\n");
  EXPECT_THAT(complaints_of(both),
              testing::EndsWith("code of C1 (single_acting_cylinder): P1 has the code \"H2.1\" already\n"));
}

}  // namespace
}  // namespace poise
