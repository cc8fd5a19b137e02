// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>

#include "job/press_job.hpp"

namespace poise {
namespace {

using reading::complaints_of;
using reading::with;

TEST(Parts, a_kind_and_a_key_that_are_unknown_are_met_with_the_nearest_known_one) {
  EXPECT_EQ(complaints_of(with("\"relief\"", "\"releif\"")),
            "13:8: there is no kind of part \"releif\"; did you mean \"relief\"?\n");
  EXPECT_EQ(complaints_of(with("stroke = ", "strok = ")),
            "20:8: C1 (single_acting_cylinder) needs stroke, a length such as \"150 mm\"\n"
            "23:1: C1 (single_acting_cylinder) has no key \"strok\"; did you mean \"stroke\"?\n");
  EXPECT_EQ(complaints_of(with("kind = \"relief\"\n", "\n")),
            "12:8: V1 needs kind, such as kind = \"pump\"\n");
  EXPECT_EQ(complaints_of(with("title = ", "titel = ")),
            "1:1: the job has no key \"titel\"; did you mean \"title\"?\n");
}

TEST(Parts, a_part_of_unknown_kind_is_the_only_complaint_about_what_is_joined_to_it) {
  // The cylinder's port, the steps and the requirement all lean on the pump; none of them is to blame.
  EXPECT_EQ(complaints_of(with("kind = \"pump\"", "kind = \"pmup\"")),
            "9:8: there is no kind of part \"pmup\"; did you mean \"pump\"?\n");
}

TEST(Parts, a_tag_is_made_of_plain_letters_and_has_a_dot_only_in_quotation_marks) {
  EXPECT_EQ(complaints_of(with("[parts.T1]", "[parts.\"T 1\"]")),
            "5:8: \"T 1\" cannot be a tag; a tag has letters, digits, \"-\", \"_\", \"/\" and, between them, "
            "\".\"\n"
            "28:8: there is no part \"T1\"; known are \"P1\", \"V1\", \"V2\", \"C1\", \"F1\" and \"H1\"\n");
  const std::string gauge = "\n[parts.1-H2.3]\nkind = \"gauge\"\nrange = \"400 bar\"\n";
  EXPECT_EQ(
      complaints_of(std::string(reading::good) + gauge),
      "55:13: 1-H2 has no kind; a tag with a dot in it stands in quotation marks: [parts.\"1-H2.3\"]\n");
}

TEST(Parts, a_quoted_tag_with_a_dot_names_ports_and_signals) {
  std::string text = with("\"C1.A\"", "[\"C1.A\", \"1-H2.3.M\"]");
  text = text.replace(text.find("tag = \"H1\"\n"), 11, "").replace(text.find("hose = "), 40, "");
  text +=
      "[parts.\"1-H2.3\"]\nkind = \"gauge\"\nrange = \"400 bar\"\n"
      "[[require]]\nnever_above = \"1-H2.3.pressure\"\nlimit = \"300 bar\"\n";
  const Job job = reading::job_of(text);
  ASSERT_EQ(job.requirements.size(), 2u);
  EXPECT_EQ(job.requirements[1].name, "1-H2.3.pressure never above 300 bar");
}

TEST(Parts, a_tag_that_reads_like_a_port_is_refused) {
  const std::string gauge = "[parts.\"C1.A\"]\nkind = \"gauge\"\nrange = \"400 bar\"\n";
  const std::string complaints = complaints_of(std::string(reading::good) + gauge);
  EXPECT_NE(complaints.find("54:8: the tag \"C1.A\" reads like a port of C1; give one of them another tag\n"),
            std::string::npos)
      << complaints;
}

TEST(Lines, a_port_is_named_by_its_part_and_its_letter) {
  EXPECT_EQ(complaints_of(with("\"V2.A\"", "\"V2.X\"")),
            "34:8: V2 (directional_4_3) has no port \"X\"; its ports are \"V2.P\", \"V2.T\", \"V2.A\" and "
            "\"V2.B\"\n");
  EXPECT_EQ(complaints_of(with("\"V2.A\"", "\"V2\"")),
            "34:8: \"V2\" names a part without its port; its ports are \"V2.P\", \"V2.T\", \"V2.A\" and "
            "\"V2.B\"\n");
  // The port that the line meant is left open by it, which is a complaint of its own.
  EXPECT_THAT(complaints_of(with("\"C1.A\"", "\"anywhere\"")),
              testing::HasSubstr(
                  "35:6: \"anywhere\" is not a port; a port is written with its part's tag, such as \""));
}

TEST(Lines, a_port_of_no_part_is_met_with_the_nearest_tag) {
  EXPECT_EQ(complaints_of(with("[\"V1.P\", \"V2.P\"]", "[\"V1.P\", \"V2.P\", \"CC1.A\"]")),
            "32:23: there is no part \"CC1\"; did you mean \"C1\"?\n");
}

TEST(Lines, a_port_left_open_is_told_how_to_close_it) {
  EXPECT_EQ(
      complaints_of(with("plugged = [\"V2.B\"]", "")),
      "16:8: V2.B (work) is connected to nothing; join it to something in [[lines]], or, if it is closed on "
      "purpose, write plugged = [\"V2.B\"]\n");
}

TEST(Lines, oil_and_motion_do_not_mix) {
  const std::string complaints = complaints_of(with("\"F1.rod\"", "[\"F1.rod\", \"V2.B\"]"));
  EXPECT_NE(complaints.find("41:"), std::string::npos - 1);
  EXPECT_NE(complaints.find("V2.B carries oil and C1.rod carries motion: they cannot be joined"),
            std::string::npos)
      << complaints;
}

TEST(Lines, a_hose_is_a_part_between_two_ports) {
  const Job job = reading::job_of(reading::good);
  const PlannedPart& hose = job.plan.parts.back();
  EXPECT_EQ(hose.tag, "H1");
  EXPECT_EQ(hose.kind->about.kind, "hose");
  EXPECT_DOUBLE_EQ(hose.values["bore"], 0.008);
  const int h = static_cast<int>(job.plan.parts.size()) - 1;
  const auto name = [&](int joint) {
    return job.plan.name(job.plan.joints[joint].a) + "-" + job.plan.name(job.plan.joints[joint].b);
  };
  EXPECT_EQ(job.plan.joints[5].b, (PortOf{h, 0}));
  EXPECT_EQ(name(5), "V2.A-H1.A");
  EXPECT_EQ(name(6), "H1.B-C1.A");
}

TEST(Lines, a_hose_without_a_tag_is_called_by_its_ends) {
  EXPECT_EQ(reading::job_of(with("tag = \"H1\"\n", "\n")).plan.parts.back().tag, "V2.A-C1.A");
}

TEST(Lines, a_hose_has_two_ends_and_its_tag_beside_it) {
  EXPECT_EQ(complaints_of(with("tag = \"H1\"\nhose = { ", "hose = { tag = \"H1\", ")),
            "36:16: tag of this hose: write it beside hose, not in it: tag = \"H1\" on a line of its own\n");
  EXPECT_THAT(
      complaints_of(with("to = \"C1.A\"", "to = [\"C1.A\", \"V2.B\"]")),
      testing::HasSubstr(
          "35:6: to of this line: a hose has two ends; name one port, and join the others to that\n"));
  EXPECT_EQ(complaints_of(with("tag = \"H1\"", "tag = \"C1\"")),
            "36:7: there is a part \"C1\" already; give this one another tag\n");
}

TEST(Lines, the_short_form_joins_groups_of_ports) {
  std::string text = with("[[lines]]\nfrom = \"P1.P\"\nto = [\"V1.P\", \"V2.P\"]\n", "");
  text.insert(0, "joined = [[\"P1.P\", \"V1.P\", \"V2.P\"]]\n");
  EXPECT_EQ(reading::job_of(text).plan.joints.size(), reading::job_of(reading::good).plan.joints.size());
  text = with("plugged", "joined = [[\"P1.P\"]]\nplugged");
  EXPECT_EQ(complaints_of(text),
            "2:11: joined of the job: expected lists of ports, such as joined = [[\"P1.P\", "
            "\"V1.P\"]]; a group has two ports or more\n");
}

}  // namespace
}  // namespace poise
