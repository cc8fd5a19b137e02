// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Circuits that are composed for jobs without one: what they are made of, and that they do what was asked
// for. The values that stand in for "find" here were set by hand, as a person would at the machine.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "circuit/circuit.hpp"
#include "compose/circuits.hpp"
#include "judge/outcome.hpp"
#include "judge/show.hpp"
#include "solve/run.hpp"

namespace poise::compose {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

std::string wish(const std::string& name) {
  std::ifstream file(std::string(POISE_SOURCE_DIR) + "/jobs/without-circuit/" + name + ".toml");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<Composed> composed(const std::string& text) {
  auto all = circuits_for(text, "wish.toml");
  if (const auto* complaints = std::get_if<Complaints>(&all))
    throw std::runtime_error(complaints->text(text));
  return std::get<std::vector<Composed>>(std::move(all));
}

/// Settings by kind and parameter, "relief.setting".
using Settings = std::map<std::string, std::string>;

/// The text with a value for each "find".
std::string filled(const std::string& text, const Settings& settings) {
  std::istringstream lines(text);
  std::string all, line, kind;
  const std::regex of_kind("kind = \"(\\w+)\""), open("(\\w+) = \"find\"");
  std::smatch match;
  while (std::getline(lines, line)) {
    if (std::regex_match(line, match, of_kind)) kind = match[1];
    if (std::regex_match(line, match, open))
      line = fmt::format("{} = \"{}\"", match[1].str(), settings.at(kind + "." + match[1].str()));
    all += line + "\n";
  }
  return all;
}

Verdict proven(const std::string& text) {
  auto read = read_job(text, "filled.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  const Job& job = std::get<Job>(read);
  return judge(job, solve::run(build(job.plan), job.steps, signals_needed(job),
                               {.glanced_at = signals_of_rules(job), .controls = job.controls}));
}

/// Names of the rules that can hurt someone and are not kept.
std::string hurting(const Verdict& verdict) {
  std::string names;
  for (const auto& each : verdict.rules) {
    if (each.rule->harm == rules::Harm::hurts) names += fmt::format("{}; ", each.rule->name);
  }
  return names;
}

/// What a job asks for, how many circuits there are for it, and settings with which all of them do it.
struct Case {
  std::string name;
  std::size_t circuits;
  std::set<std::string> blocks;  ///< that each must have
  Settings settings;
};

std::vector<Case> cases() {
  const Settings lift{{"relief.setting", "145 bar"},
                      {"pump.flow", "4.2 L/min"},
                      {"counterbalance.setting", "150 bar"},
                      {"one_way_flow_control.turns", "2.2 turns"}};
  const Settings frame{{"relief.setting", "140 bar"},
                       {"pump.flow", "5.2 L/min"},
                       {"counterbalance.setting", "130 bar"},
                       {"one_way_flow_control.turns", "2.7 turns"}};
  const Settings drill{{"relief.setting", "185 bar"},
                       {"pump.flow", "1.5 L/min"},
                       {"variable_pump.flow", "2 L/min"},
                       {"variable_pump.setting", "165 bar"},
                       {"sequence.setting", "115 bar"},
                       {"one_way_flow_control.turns", "4 turns"},
                       {"compensated_flow_control.flow", "1.2 L/min"}};
  const Settings mill{{"relief.setting", "170 bar"},     {"pump.flow", "2 L/min"},
                      {"variable_pump.flow", "2 L/min"}, {"variable_pump.setting", "150 bar"},
                      {"reducing.setting", "60 bar"},    {"reducing_non_relieving.setting", "60 bar"}};
  const Settings press{{"relief.setting", "235 bar"},
                       {"pump.flow", "5 L/min"},
                       {"variable_pump.flow", "5 L/min"},
                       {"variable_pump.setting", "215 bar"},
                       {"two_stage_pump.low_pressure_flow", "7 L/min"},
                       {"two_stage_pump.high_pressure_flow", "2 L/min"}};
  return {{"single-lift", 5, {"hold", "meter", "lock", "relieve", "supply"}, lift},
          {"frame-lift", 4, {"hold", "meter", "level", "lock", "relieve"}, frame},
          {"drilling-fixture", 8, {"meter", "direct", "supply"}, drill},
          {"milling-clamp", 8, {"reduce", "direct", "supply"}, mill},
          {"bush-press", 7, {"let off", "direct", "supply"}, press}};
}

class composed_for : public testing::TestWithParam<Case> {};

TEST_P(composed_for, each_circuit_reads_and_leaves_only_settings_and_pump_open) {
  const auto all = composed(wish(GetParam().name));
  EXPECT_EQ(all.size(), GetParam().circuits);
  for (const Composed& each : all) {
    const auto read = read_job_to_find(each.text, "composed.toml");
    ASSERT_TRUE(std::holds_alternative<Job>(read)) << std::get<Complaints>(read).text(each.text);
    const Job& job = std::get<Job>(read);
    EXPECT_TRUE(job.moves.empty());
    EXPECT_FALSE(job.sought.empty());
    for (const Sought& open : job.sought) {
      const Kind& kind = *job.plan.parts[open.part].kind;
      const bool is_pump = kind.about.role == Role::source;
      EXPECT_TRUE(is_pump || kind.parameters[open.parameter].adjusted) << kind.about.kind;
    }
  }
}

TEST_P(composed_for, every_part_that_was_put_in_has_its_reason) {
  const std::string before = wish(GetParam().name);
  const auto read_before = read_job_to_compose(before, "wish.toml");
  std::set<std::string> given;
  for (const PlannedPart& part : std::get<Job>(read_before).plan.parts) given.insert(part.tag);
  for (const Composed& each : composed(before)) {
    const auto read = read_job_to_find(each.text, "composed.toml");
    for (const PlannedPart& part : std::get<Job>(read).plan.parts) {
      if (given.contains(part.tag) || part.kind->about.kind == "hose") continue;
      const bool told = std::ranges::any_of(each.reasons, [&](const BlockReason& reason) {
        return reason.tag == part.tag || reason.sentence.find(part.tag) != std::string::npos;
      });
      EXPECT_TRUE(told) << part.tag << " of " << each.name;
    }
    std::set<std::string> blocks;
    for (const BlockReason& reason : each.reasons) blocks.insert(reason.block);
    for (const std::string& block : GetParam().blocks) EXPECT_THAT(blocks, Contains(block)) << each.name;
  }
}

TEST_P(composed_for, all_circuits_differ_and_have_names_of_their_own) {
  std::set<std::string> names, texts;
  for (const Composed& each : composed(wish(GetParam().name))) {
    EXPECT_TRUE(names.insert(each.name).second) << each.name;
    EXPECT_TRUE(texts.insert(each.text).second) << each.name;
  }
}

TEST_P(composed_for, all_that_was_written_but_for_move_stays_in_its_order) {
  const std::string before = wish(GetParam().name);
  for (const Composed& each : composed(before)) {
    std::istringstream lines(before);
    std::string line;
    std::size_t from = 0;
    while (std::getline(lines, line)) {
      if (line.starts_with("move = ")) continue;
      const std::size_t at = each.text.find(line + "\n", from);
      ASSERT_NE(at, std::string::npos) << line;
      from = at + line.size();
    }
  }
}

TEST_P(composed_for, each_circuit_holds_with_settings_made_by_hand_and_hurts_nobody) {
  for (const Composed& each : composed(wish(GetParam().name))) {
    const Verdict verdict = proven(filled(each.text, GetParam().settings));
    const auto job = read_job(filled(each.text, GetParam().settings), "filled.toml");
    EXPECT_EQ(outcome(verdict), Outcome::held) << each.name << "\n"
                                               << show(verdict, std::get<Job>(job), false);
    EXPECT_EQ(hurting(verdict), "") << each.name;
  }
}

INSTANTIATE_TEST_SUITE_P(of_the_workshop, composed_for, testing::ValuesIn(cases()), [](const auto& one) {
  std::string name = one.param.name;
  std::ranges::replace(name, '-', '_');
  return name;
});

/// A text with one passage changed.
std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("no " + from);
  return text.replace(at, from.size(), to);
}

std::set<std::string> blocks_in(const Composed& each) {
  std::set<std::string> blocks;
  for (const BlockReason& reason : each.reasons) blocks.insert(reason.block);
  return blocks;
}

TEST(composing, follows_requirements_and_not_names) {
  // Given the fixture without the order that it asks for, nothing makes the clamps wait.
  std::string text = wish("drilling-fixture");
  const std::size_t order = text.find("[[require]]\nname = \"seated"),
                    next = text.find("[[require]]", order + 1);
  text.erase(order, next - order);
  for (const Composed& each : composed(text))
    EXPECT_THAT(blocks_in(each), Not(Contains("sequence"))) << each.name;
  // Given a rib that bears all that the flange does, nothing reduces.
  const std::string strong = changed(wish("milling-clamp"), "limit = \"6.5 kN\"", "limit = \"30 kN\"");
  for (const Composed& each : composed(strong))
    EXPECT_THAT(blocks_in(each), Not(Contains("reduce"))) << each.name;
  // Given a wheel set that rests on level rails, nothing has to hold it.
  const std::string level =
      changed(wish("single-lift"), "mass = \"3.5 t\"", "mass = \"3.5 t\"\nslope = \"0 deg\"");
  for (const Composed& each : composed(level))
    EXPECT_THAT(blocks_in(each), Not(Contains("lock"))) << each.name;
}

TEST(composing, uses_the_pump_and_the_reservoir_of_the_job) {
  const std::string text =
      changed(wish("bush-press"), "[parts.C1]",
              "[parts.P7]\nkind = \"pump\"\nflow = \"5 L/min\"\nrated_pressure = \"350 bar\"\n\n"
              "[parts.T4]\nkind = \"reservoir\"\nusable_oil = \"20 L\"\n\n[parts.C1]");
  for (const Composed& each : composed(text)) {
    const auto read = read_job_to_find(each.text, "composed.toml");
    ASSERT_TRUE(std::holds_alternative<Job>(read)) << std::get<Complaints>(read).text(each.text);
    int pumps = 0, tanks = 0;
    for (const PlannedPart& part : std::get<Job>(read).plan.parts) {
      pumps += part.kind->about.role == Role::source ? 1 : 0;
      tanks += part.kind->about.role == Role::reservoir ? 1 : 0;
    }
    EXPECT_EQ(pumps, 1) << each.name;
    EXPECT_EQ(tanks, 1) << each.name;
    EXPECT_THAT(each.text, HasSubstr("P7 = \"on\""));
  }
}

TEST(composing, speaks_in_the_units_of_the_job) {
  for (const std::string name : {"single-lift", "milling-clamp", "bush-press"}) {
    const std::string before = changed(wish(name), "units = \"metric\"", "units = \"us\"");
    for (const Composed& each : composed(before)) {
      const auto read = read_job_to_find(each.text, "composed.toml");
      ASSERT_TRUE(std::holds_alternative<Job>(read)) << std::get<Complaints>(read).text(each.text);
      const std::size_t ours = each.text.find("# The circuit, composed");
      ASSERT_NE(ours, std::string::npos);
      EXPECT_EQ(each.text.substr(ours, each.text.find("[[lines]]", ours) - ours).find(" bar\""),
                std::string::npos);
    }
  }
}

std::string complaint_about(const std::string& text) {
  const auto all = circuits_for(text, "wish.toml");
  const auto* complaints = std::get_if<Complaints>(&all);
  return complaints && !complaints->list.empty() ? complaints->list.front().sentence : std::string();
}

TEST(composing, says_what_it_cannot_compose_with) {
  EXPECT_THAT(
      complaint_about(changed(wish("single-lift"), "[parts.M1]",
                              "[parts.V1]\nkind = \"check\"\nrated_flow = \"6 L/min\"\n\n[parts.M1]")),
      HasSubstr("V1 (check) cannot be composed with"));
  EXPECT_THAT(
      complaint_about(changed(wish("single-lift"), "move = { C1 = \"out\" }", "move = { C1 = \"up\" }")),
      HasSubstr("expected \"out\", \"in\" or \"hold\" for C1, found \"up\""));
  EXPECT_THAT(
      complaint_about(changed(wish("single-lift"), "move = { C1 = \"out\" }", "move = { M1 = \"out\" }")),
      HasSubstr("M1 (mass) is not what oil moves"));
}

TEST(composing, a_job_without_a_circuit_is_refused_where_it_is_to_run_and_its_open_ports_are_not_told_of) {
  const std::string text = wish("single-lift");
  const auto read = read_job(text, "wish.toml");
  const auto* complaints = std::get_if<Complaints>(&read);
  ASSERT_NE(complaints, nullptr);
  ASSERT_EQ(complaints->list.size(), 1U) << complaints->text(text);
  EXPECT_THAT(complaints->list.front().sentence, HasSubstr("\"poise propose\" composes"));
}

}  // namespace
}  // namespace poise::compose
