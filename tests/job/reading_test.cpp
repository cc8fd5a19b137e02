// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/reading.hpp"

#include <gmock/gmock.h>

#include <algorithm>

#include "circuit/join.hpp"
#include "job/press_job.hpp"
#include "oil/oil.hpp"

namespace poise {
namespace {

using job::read_as_far_as_understood;
using job::Reading;
using testing::ElementsAre;

Reading read(std::string_view text) { return read_as_far_as_understood(text, "press.toml"); }

std::vector<std::string> tags_of(const Reading& reading) {
  std::vector<std::string> tags;
  for (const PlannedPart& part : reading.job.plan.parts) tags.push_back(part.tag);
  return tags;
}

/// "parts.V1.setting", "lines.2.to"
std::string shown(const std::optional<job::Way>& way) {
  if (!way) return "nothing";
  std::string text;
  for (const auto& stop : *way) {
    const auto* key = std::get_if<std::string>(&stop);
    text += (text.empty() ? "" : ".") + (key ? *key : std::to_string(std::get<std::size_t>(stop)));
  }
  return text;
}

/// Ways to what each of the complaints about a text is about.
std::vector<std::string> ways_of_complaints(std::string_view text) {
  const Reading reading = read(text);
  std::vector<std::string> ways;
  for (const Remark& remark : reading.complaints.list)
    ways.push_back(shown(job::way_to(reading.tree, remark.place)));
  return ways;
}

/// What whoever draws the plan relies on.
void expect_sound(const Reading& reading) {
  const Plan& plan = reading.job.plan;
  ASSERT_EQ(reading.job.drawn.size(), plan.parts.size());
  const auto is_port = [&](PortOf at) {
    return at.part >= 0 && at.part < static_cast<int>(plan.parts.size()) && at.port >= 0 &&
           at.port < static_cast<int>(plan.parts[at.part].kind->ports.size()) &&
           port_exists(plan.port(at), plan.parts[at.part].values);
  };
  for (const Joint& joint : plan.joints) {
    ASSERT_TRUE(is_port(joint.a) && is_port(joint.b));
    EXPECT_EQ(plan.port(joint.a).domain, plan.port(joint.b).domain);
    EXPECT_NE(joint.a, joint.b);
  }
  for (const PortOf& port : plan.plugged) ASSERT_TRUE(is_port(port));
  for (const PlannedPart& part : plan.parts) part.kind->make(part.values, Oil(plan.oil));
}

TEST(Reading, a_good_job_is_read_as_before) {
  const Reading reading = read(reading::good);
  EXPECT_TRUE(reading.is_toml);
  EXPECT_TRUE(reading.complaints.list.empty());
  EXPECT_EQ(reading.job.title, "Bush press");
  EXPECT_EQ(reading.job.plan.parts.size(), reading::job_of(reading::good).plan.parts.size());
  EXPECT_EQ(reading.tree.fields.front().key, "title");
}

TEST(Reading, parts_steps_and_requirements_are_there_although_a_value_is_wrong) {
  const Reading reading = read(reading::with("\"180 bar\"", "\"180\""));
  EXPECT_EQ(reading.complaints.list.size(), 1u);
  EXPECT_THAT(tags_of(reading), ElementsAre("T1", "P1", "V1", "V2", "C1", "F1", "H1"));
  EXPECT_EQ(reading.job.steps.size(), 2u);
  EXPECT_EQ(reading.job.requirements.size(), 1u);
  EXPECT_THAT(reading.job.drawn[2].stand_ins, ElementsAre("setting"));
  expect_sound(reading);
}

TEST(Reading, a_part_of_an_unknown_kind_is_left_out_and_its_neighbours_stay) {
  const Reading reading = read(reading::with("\"relief\"", "\"releif\""));
  EXPECT_THAT(tags_of(reading), ElementsAre("T1", "P1", "V2", "C1", "F1", "H1"));
  EXPECT_EQ(reading.complaints.list.size(), 1u);
  expect_sound(reading);
}

TEST(Reading, a_line_taken_out_leaves_ports_open) {
  const Reading reading = read(reading::with("[[lines]]\nfrom = \"P1.P\"\nto = [\"V1.P\", \"V2.P\"]\n", ""));
  EXPECT_EQ(reading.complaints.list.size(), 3u);
  EXPECT_EQ(reading.job.plan.parts.size(), 7u);
  EXPECT_EQ(job::way_to(reading.tree, reading.complaints.list[0].place),
            (job::Way{std::string("parts"), std::string("P1")}));
  expect_sound(reading);
}

TEST(Reading, joints_that_cannot_be_are_left_out_of_the_plan) {
  for (const std::string_view wrong : {"\"C1.B\"", "\"V9.A\"", "\"P1\"", "\"F1.rod\"", "\"V2.A\"", "5"}) {
    const Reading reading =
        read(reading::with("to = \"C1.A\"\ntag = \"H1\"\nhose = { bore = \"8 mm\", length = \"2 m\" }",
                           "to = " + std::string(wrong)));
    EXPECT_FALSE(reading.complaints.list.empty()) << wrong;
    expect_sound(reading);
  }
}

TEST(Reading, a_port_plugged_and_joined_is_joined) {
  const Reading reading =
      read(reading::with("plugged = [\"V2.B\"]", "plugged = [\"V2.B\", \"V2.B\", \"V2.A\"]"));
  EXPECT_EQ(reading.job.plan.plugged.size(), 1u);
  EXPECT_EQ(reading.complaints.list.size(), 1u);
  expect_sound(reading);
}

TEST(Reading, every_kind_of_part_can_be_drawn_from_its_kind_alone) {
  for (const Kind& kind : all_kinds()) {
    const Reading reading = read("[parts.X1]\nkind = \"" + std::string(kind.about.kind) + "\"\n");
    EXPECT_FALSE(reading.complaints.list.empty());
    expect_sound(reading);
    for (const PlannedPart& part : reading.job.plan.parts)
      EXPECT_FALSE(part.kind->drawn(part.values, {}).empty()) << kind.about.kind;
  }
}

TEST(Reading, text_that_is_no_toml_has_one_complaint_and_no_tree) {
  const Reading reading = read("title = \"Press\"\n[parts.P1\n");
  EXPECT_FALSE(reading.is_toml);
  EXPECT_EQ(reading.complaints.list.size(), 1u);
  EXPECT_TRUE(reading.tree.fields.empty());
  EXPECT_TRUE(reading.job.plan.parts.empty());
  EXPECT_EQ(reading.job.title, "press.toml");
  EXPECT_FALSE(read("title = \"\xE4\"\n").is_toml);
}

TEST(Reading, an_empty_text_is_a_job_without_anything_in_it) {
  const Reading reading = read("\n");
  EXPECT_TRUE(reading.is_toml);
  EXPECT_EQ(reading.complaints.list.size(), 1u);
  EXPECT_TRUE(reading.tree.fields.empty());
}

TEST(Ways, a_complaint_leads_to_the_value_it_is_about) {
  EXPECT_THAT(ways_of_complaints(reading::with("\"180 bar\"", "\"180\"")), ElementsAre("parts.V1.setting"));
  EXPECT_THAT(ways_of_complaints(reading::with("[\"V1.P\", \"V2.P\"]", "[\"V1.P\", \"V2.X\"]")),
              ElementsAre("lines.1.to.1"));
  EXPECT_THAT(ways_of_complaints(reading::with("F1 = \"3 kN\"", "F1 = \"3\"")),
              ElementsAre("steps.0.set.F1"));
  EXPECT_THAT(ways_of_complaints(reading::with("bore = \"8 mm\"", "boar = \"8 mm\"")),
              ElementsAre("lines.2.tag", "lines.2.hose.boar"));
}

TEST(Ways, a_complaint_about_a_table_leads_to_the_table) {
  EXPECT_THAT(ways_of_complaints(reading::with("setting = \"180 bar\"\n", "")), ElementsAre("parts.V1"));
  EXPECT_THAT(ways_of_complaints(reading::with("lasts = \"4 s\"\n", "")), ElementsAre("steps.1"));
  EXPECT_THAT(ways_of_complaints(reading::with("limit = \"200 bar\"\n", "")), ElementsAre("require.0"));
  EXPECT_THAT(ways_of_complaints(reading::with("limit =", "limits =")),
              ElementsAre("require.0", "require.0.limits"));
}

TEST(Ways, a_complaint_about_the_job_leads_to_the_job_and_not_to_its_first_line) {
  EXPECT_THAT(ways_of_complaints("title = \"Press\"\n"), ElementsAre("", ""));
  EXPECT_THAT(ways_of_complaints("[oil]\ngrade = 5\n"), ElementsAre("", "", "oil.grade"));
}

TEST(Ways, there_is_none_where_nothing_begins) {
  const Reading reading = read(reading::good);
  EXPECT_EQ(shown(job::way_to(reading.tree, {})), "nothing");
  EXPECT_EQ(shown(job::way_to(reading.tree, {1, 4})), "nothing");
}

}  // namespace
}  // namespace poise
