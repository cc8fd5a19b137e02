// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the verdict says of rules of the trade.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "circuit/circuit.hpp"
#include "judge/json.hpp"
#include "judge/schema.hpp"
#include "judge/show.hpp"
#include "judge/verdict.hpp"
#include "solve/run.hpp"

namespace poise {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

/// A pump that lifts a jack: without a relief valve it breaks the rule "relief at every pump".
std::string without_relief() {
  std::ifstream file(POISE_SOURCE_DIR "/tests/judge/jack-without-relief.toml");
  return {std::istreambuf_iterator<char>(file), {}};
}
constexpr std::string_view waiver = R"([[waive]]
rule = "relief at every pump"
part = "P1"
reason = "Only for this test on the open stand, nobody near"
)";

struct Proven {
  Job job;
  Verdict verdict;

  explicit Proven(const std::string& text) {
    auto read = read_job(text, "jack.toml");
    if (const auto* complaints = std::get_if<Complaints>(&read))
      throw std::runtime_error(complaints->text(text));
    job = std::get<Job>(std::move(read));
    verdict = judge(job, solve::run(build(job.plan), job.steps, signals_needed(job),
                                    {.glanced_at = signals_of_rules(job)}));
  }
  const RuleNotKept* find(std::string_view rule) const {
    const auto found =
        std::ranges::find_if(verdict.rules, [&](const RuleNotKept& each) { return each.rule->name == rule; });
    return found == verdict.rules.end() ? nullptr : &*found;
  }
};

TEST(verdict, holds_by_its_requirements_and_says_beside_it_which_rules_are_not_kept) {
  const Proven proven{without_relief()};
  EXPECT_TRUE(proven.verdict.holds());
  const RuleNotKept* broken = proven.find("relief at every pump");
  ASSERT_NE(broken, nullptr);
  EXPECT_EQ(broken->part, "P1");
  EXPECT_THAT(broken->sentence, HasSubstr("250 bar"));
  EXPECT_GE(proven.verdict.not_kept(rules::Harm::hurts), 1);
  EXPECT_THAT(show(proven.verdict, proven.job, false), HasSubstr("not kept that can hurt someone"));
}

TEST(verdict, lists_what_can_hurt_someone_first_and_what_is_waived_last) {
  const Proven proven{without_relief() + std::string(waiver)};
  ASSERT_FALSE(proven.verdict.rules.empty());
  EXPECT_EQ(proven.verdict.rules.back().rule->name, "relief at every pump");
  for (std::size_t i = 1; i + 1 < proven.verdict.rules.size(); ++i)
    EXPECT_LE(proven.verdict.rules[i - 1].rule->harm, proven.verdict.rules[i].rule->harm);
}

TEST(verdict, repeats_the_reason_of_a_waiver_and_does_not_count_the_rule) {
  const Proven open{without_relief()}, waived{without_relief() + std::string(waiver)};
  EXPECT_EQ(waived.find("relief at every pump")->waived, "Only for this test on the open stand, nobody near");
  EXPECT_EQ(waived.verdict.not_kept(rules::Harm::hurts), open.verdict.not_kept(rules::Harm::hurts) - 1);
  EXPECT_THAT(show(waived.verdict, waived.job, false),
              HasSubstr("Waived: Only for this test on the open stand, nobody near"));
}

TEST(verdict, a_waiver_of_another_part_waives_nothing_and_is_said_to_be_idle) {
  std::string other(waiver);
  other.replace(other.find("\"P1\""), 4, "\"C1\"");
  const Proven proven{without_relief() + other};
  EXPECT_THAT(proven.find("relief at every pump")->waived, IsEmpty());
  EXPECT_THAT(proven.verdict.cautions,
              testing::Contains(
                  "The waiver of \"relief at every pump\" for C1 meets nothing: there the rule is kept."));
}

TEST(verdict, a_waiver_that_names_parts_names_all_that_are_likewise) {
  // Two jacks on one pump, both held by nothing but their oil: the sentence is on one and names the other.
  std::string two = without_relief();
  two += R"([parts.C2]
kind = "single_acting_cylinder"
bore = "40 mm"
rod = "35 mm"
stroke = "100 mm"
[parts.M2]
kind = "mass"
mass = "800 kg"
[[lines]]
from = "C1.A"
to = "C2.A"
[[lines]]
from = "C2.rod"
to = "M2.rod"
[[steps]]
name = "hold"
set = { P1 = "off" }
lasts = "3 s"
)";
  const auto waived_for = [&](std::initializer_list<std::string_view> waivers) {
    std::string text = two;
    for (std::string_view parts : waivers) {
      text += "[[waive]]\nrule = \"more than oil holds a load\"\npart = " + std::string(parts) +
              "\nreason = \"Stands are put under at once, with nobody near\"\n";
    }
    const Proven proven{text};
    const RuleNotKept* broken = proven.find("more than oil holds a load");
    if (!broken) throw std::runtime_error("the loads hang on oil alone, and it is not seen");
    EXPECT_EQ(broken->also.size(), 1u);
    return !broken->waived.empty();
  };
  EXPECT_FALSE(waived_for({"\"C1\""}));
  EXPECT_FALSE(waived_for({"\"C2\""}));
  EXPECT_TRUE(waived_for({"[\"C1\", \"C2\"]"}));
  EXPECT_TRUE(waived_for({"\"C1\"", "\"C2\""}));
}

TEST(verdict, says_nothing_of_an_idle_waiver_where_the_run_ended_early) {
  std::string halted = without_relief();
  halted.replace(halted.find("lasts = \"2 s\""), 13, "until = \"C1.position > 99 mm\"\nat_most = \"1 s\"");
  const Proven proven{
      halted +
      "[[waive]]\nrule = \"more than oil holds a load\"\nreason = \"Stands are put under at once\"\n"};
  ASSERT_TRUE(proven.verdict.halt);
  EXPECT_THAT(proven.verdict.cautions, Not(testing::Contains(HasSubstr("more than oil holds a load"))));
}

TEST(verdict, says_how_the_machine_can_hurt_with_its_own_numbers) {
  const Proven proven{without_relief()};
  const std::string said = show(proven.verdict, proven.job, false);
  // 800 kg on 12.57 cm2: 62.4 bar, and friction on top of it.
  EXPECT_THAT(said, HasSubstr("M1 weighs 800 kg"));
  EXPECT_THAT(said, HasSubstr("Crush: C1 moves with up to"));
  EXPECT_THAT(said, HasSubstr("Injection: oil at up to"));
  EXPECT_THAT(said, HasSubstr("Local codes and a licensed person decide"));
}

TEST(verdict, with_rules_fits_the_schema) {
  std::ifstream file(POISE_SOURCE_DIR "/docs/schema/verdict.schema.json");
  const nlohmann::json schema_file = nlohmann::json::parse(file);
  for (const std::string& text : {without_relief(), without_relief() + std::string(waiver)}) {
    const Proven proven{text};
    const auto verdict = to_json(proven.verdict, proven.job);
    EXPECT_THAT(schema::complaints(verdict, schema_file), IsEmpty());
    EXPECT_THAT(verdict["rules"], Not(IsEmpty()));
    EXPECT_THAT(verdict["people"], Not(IsEmpty()));
  }
}

}  // namespace
}  // namespace poise
