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

std::vector<BlockReason> reasons_of(const Composed& each, const std::string& block) {
  std::vector<BlockReason> found;
  std::ranges::copy_if(each.reasons, std::back_inserter(found),
                       [&](const BlockReason& reason) { return reason.block == block; });
  return found;
}

/// A load that pulls its double-acting cylinder out: the rod points down.
std::string hanging() {
  std::string text =
      changed(wish("single-lift"), "mass = \"3.5 t\"", "mass = \"0.5 t\"\nslope = \"-90 deg\"");
  return changed(text, "\"single_acting_cylinder\"", "\"double_acting_cylinder\"");
}

TEST(composing, meters_and_holds_a_load_that_hangs_at_the_port_it_leaves_by) {
  for (const Composed& each : composed(hanging())) {
    const auto read = read_job_to_find(each.text, "composed.toml");
    const Plan& plan = std::get<Job>(read).plan;
    // What stands at A shows or opens, and slows nothing: a throttle there would leave the load to fall.
    for (const Joint& joint : plan.joints) {
      const bool at_a = plan.name(joint.a) == "C1.A" || plan.name(joint.b) == "C1.A";
      const PortOf other = plan.name(joint.a) == "C1.A" ? joint.b : joint.a;
      EXPECT_FALSE(at_a && plan.parts[other.part].kind->about.kind.ends_with("flow_control")) << each.name;
    }
    if (each.name.find("counterbalance") != std::string::npos) continue;
    EXPECT_THAT(reasons_of(each, "meter").front().sentence, HasSubstr("C1 is pulled out by its load"));
  }
}

TEST(composing, refuses_what_nothing_could_hold_and_what_is_too_much) {
  EXPECT_THAT(complaint_about(
                  changed(wish("single-lift"), "mass = \"3.5 t\"", "mass = \"3.5 t\"\nslope = \"-90 deg\"")),
              HasSubstr("the load of C1 pulls it out"));
  const std::string wide = changed(changed(wish("bush-press"), "bore = \"80 mm\"", "bore = \"700 mm\""),
                                   "rod = \"50 mm\"", "rod = \"500 mm\"");
  EXPECT_THAT(complaint_about(wide), HasSubstr("give the steps more time"));
  const std::string order = wish("frame-lift") +
                            "\n[[require]]\nname = \"motor end first\"\nfirst = \"C2.position > 50 mm\"\n"
                            "then = \"C1.position > 10 mm\"\n";
  EXPECT_THAT(complaint_about(order), HasSubstr("asks to stay level what \"motor end first\" asks"));
}

TEST(composing, levels_only_what_is_named_and_lets_the_others_wait) {
  std::string text = changed(wish("frame-lift"),
                             "level = [\"C1.position\", \"C2.position\", \"C3.position\", \"C4.position\"]",
                             "level = [\"C1.position\", \"C2.position\"]");
  text +=
      "\n[[require]]\nname = \"motor end first\"\nfirst = [\"C1.position > 50 mm\", \"C2.position > 50 "
      "mm\"]\n"
      "then = [\"C3.position > 10 mm\", \"C4.position > 10 mm\"]\n";
  for (const Composed& each : composed(text)) {
    const auto level = reasons_of(each, "level");
    ASSERT_EQ(level.size(), 1U) << each.name;
    EXPECT_THAT(level.front().sentence, HasSubstr("asks that C1 and C2 stay level"));
    EXPECT_TRUE(std::holds_alternative<Job>(read_job_to_find(each.text, "composed.toml"))) << each.text;
  }
}

TEST(composing, holds_a_load_that_is_light_at_each_point_and_heavy_as_a_whole) {
  for (const Composed& each : composed(changed(wish("frame-lift"), "mass = \"6 t\"", "mass = \"60 kg\"")))
    EXPECT_EQ(reasons_of(each, "lock").size(), 4U) << each.name;
}

TEST(composing, lets_rams_stay_where_they_are_without_current_and_clamps_press) {
  for (const Composed& each : composed(wish("milling-clamp")))
    EXPECT_THAT(each.text, Not(HasSubstr("directional_4_2"))) << each.name;
  bool any = false;
  for (const Composed& each : composed(wish("drilling-fixture"))) {
    for (const BlockReason& reason : each.reasons) {
      if (reason.sentence.find("at rest: without current") == std::string::npos) continue;
      any = true;
      EXPECT_THAT(reason.sentence, HasSubstr("presses K1, K2 and K3 at rest")) << each.name;
    }
  }
  EXPECT_TRUE(any);
}

TEST(composing, gives_every_check_that_shuts_pressure_in_a_bleed_and_the_accumulator_its_own) {
  for (const std::string name : {"milling-clamp", "drilling-fixture", "bush-press"}) {
    for (const Composed& each : composed(wish(name))) {
      for (const BlockReason& reason : each.reasons) {
        const bool shuts_in =
            reason.block == "isolate" || reason.sentence.find("makes up for leaks") != std::string::npos;
        if (!shuts_in) continue;
        EXPECT_THAT(each.text, HasSubstr(fmt::format("lets off by hand what is shut in at {}", reason.tag)))
            << each.name;
      }
    }
  }
}

TEST(composing, a_step_that_is_put_in_waits_no_longer_than_the_one_it_comes_before) {
  for (const Composed& each : composed(wish("drilling-fixture")))
    EXPECT_THAT(each.text, Not(HasSubstr("at_most = \"20 s\""))) << each.name;
}

TEST(composing, the_switch_that_stops_the_pump_sits_where_the_most_pressure_is_needed) {
  const std::string text =
      changed(wish("drilling-fixture"), "first = [\"X1.force > 3.5 kN\", \"X2.force > 3.5 kN\"]",
              "first = [\"X1.force > 8 kN\", \"X2.force > 8 kN\"]");
  bool any = false;
  for (const Composed& each : composed(text)) {
    if (each.name.find("steps that wait") == std::string::npos) continue;
    for (const BlockReason& reason : reasons_of(each, "keep")) {
      if (reason.sentence.find("stops the pump when") == std::string::npos) continue;
      any = true;
      EXPECT_THAT(reason.sentence, HasSubstr("when R1 and R2 have pressure enough")) << each.name;
    }
  }
  EXPECT_TRUE(any);
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
