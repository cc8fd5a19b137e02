// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/press_job.hpp"

namespace poise {
namespace {

using reading::complaints_of;
using reading::good;
using reading::with;

std::string with_requirement(std::string_view lines) {
  return std::string(good) + "[[require]]\n" + std::string(lines);
}

TEST(Steps, a_command_goes_to_the_parts_own_input_in_its_own_time) {
  const Job job = reading::job_of(good);
  ASSERT_EQ(job.steps.size(), 2u);
  const Step& press = job.steps[0];
  ASSERT_EQ(press.commands.size(), 3u);
  EXPECT_EQ(press.commands[0].target, 1.0);        // off, on
  EXPECT_DOUBLE_EQ(press.commands[0].ramp, 0.3);   // start_time
  EXPECT_EQ(press.commands[1].target, 1.0);        // centre, a, b
  EXPECT_DOUBLE_EQ(press.commands[1].ramp, 0.05);  // shift_time
  EXPECT_DOUBLE_EQ(press.commands[2].target, 3000.0);
  EXPECT_DOUBLE_EQ(press.lasts, 6.0);
  ASSERT_EQ(press.until.size(), 1u);
  EXPECT_TRUE(press.until[0].above);
  EXPECT_DOUBLE_EQ(press.until[0].threshold, 150e5);
  EXPECT_DOUBLE_EQ(job.steps[1].lasts, 4.0);
}

TEST(Steps, a_named_input_with_or_without_quotation_marks_and_a_time_for_all) {
  for (const std::string_view key : {"\"F1.force\"", "F1.force", "F1"}) {
    const Job job =
        reading::job_of(with("F1 = \"3 kN\" }", std::string(key) + " = \"1 t\" }\nover = \"0.5 s\""));
    ASSERT_EQ(job.steps[0].commands.size(), 3u);
    EXPECT_NEAR(job.steps[0].commands[2].target, 9806.65, 1e-9);  // the weight of a tonne, ISO 80000-3
    EXPECT_DOUBLE_EQ(job.steps[0].commands[0].ramp, 0.5);
  }
}

TEST(Steps, what_a_step_cannot_set_is_said) {
  EXPECT_EQ(complaints_of(with("P1 = \"on\"", "T1 = \"on\"")),
            "43:9: T1 (reservoir) has nothing that a step can set\n");
  EXPECT_EQ(complaints_of(with("P1 = \"on\"", "\"P1.speed\" = \"5 rpm\"")),
            "43:9: a step cannot set \"speed\" of P1 (pump); it can set \"running\"\n");
  EXPECT_EQ(complaints_of(with("P1 = \"on\"", "PP1 = \"on\"")),
            "43:9: set of step \"press\": there is no part \"PP1\"; did you mean \"P1\"?\n");
  EXPECT_EQ(complaints_of(with("P1 = \"on\"", "P1 = \"on\", \"P1.running\" = \"off\"")),
            "43:20: step \"press\" sets running of P1 twice\n");
  EXPECT_EQ(complaints_of(with("P1 = \"on\"", "P1 = \"an\"")),
            "43:14: running of P1: found \"an\"; expected \"off\" or \"on\"\n");
}

TEST(Steps, a_step_has_one_name_and_one_end) {
  EXPECT_EQ(complaints_of(with("\"hold\"", "\"press\"")),
            "47:8: name of step \"press\": there is a step of this name already; give each step its own\n");
  EXPECT_EQ(complaints_of(with("name = \"hold\"\n", "\n")),
            "46:1: step 2 needs name, such as name = \"clamp\"\n");
  EXPECT_EQ(complaints_of(with("lasts = \"4 s\"\n", "\n")),
            "46:1: step \"hold\" needs an end: lasts = \"4 s\", or until = \"C1.A.pressure > 180 bar\"\n");
  EXPECT_EQ(complaints_of(with("lasts = \"4 s\"", "lasts = \"4 s\"\nat_most = \"5 s\"")),
            "49:11: at_most of step \"hold\": only a step with until has it\n");
  EXPECT_EQ(complaints_of(with("at_most", "lasts")),
            "45:9: lasts of step \"press\": until is given as well; a step lasts a time, or until something "
            "holds (with "
            "at_most)\n");
  EXPECT_EQ(complaints_of(with("\"4 s\"", "\"-4 s\"")),
            "48:9: lasts of step \"hold\" is -4 s; it must be 0.00100 s … 86400 s\n");
}

TEST(Conditions, a_condition_is_a_signal_a_sign_and_a_value_of_its_kind) {
  const auto until = [](std::string_view condition) {
    return complaints_of(with("C1.A.pressure > 150 bar", condition));
  };
  EXPECT_EQ(until("C1.A.pressure >= 150 bar"), "");
  EXPECT_EQ(until("C1.A.pressure = 150 bar"),
            "44:9: until of step \"press\": \"C1.A.pressure = 150 bar\" is not a condition; expected a "
            "signal, > or <, and a "
            "value, such as \"C1.A.pressure > 180 bar\"\n");
  EXPECT_EQ(until("C1.pressur > 150 bar"),
            "44:9: until of step \"press\": \"C1.pressur\" is nothing that can be watched on C1 "
            "(single_acting_cylinder); did "
            "you mean \"C1.pressure\"?\n");
  EXPECT_EQ(
      until("C1.position > 150 bar"),
      "44:9: until of step \"press\": \"150 bar\" is a pressure; expected a length, such as \"150 mm\"\n");
  EXPECT_EQ(until("D1.position > 1 mm"),
            "44:9: until of step \"press\": there is no part \"D1\"; known are \"T1\", \"P1\", \"V1\", "
            "\"V2\", \"C1\", \"F1\" and \"H1\"\n");
}

TEST(Requirements, each_shape_is_read_into_its_own_value) {
  const Job job = reading::job_of(
      with_requirement("never_below = \"C1.pressure\"\nlimit = \"-0.5 bar\"\n[[require]]\n"
                       "reached = \"C1.position < 5 mm\"\nwithin = \"3 s\"\n[[require]]\n"
                       "first = [\"C1.pressure > 10 bar\"]\nthen = \"C1.speed > 1 mm/s\"\n"
                       "gap = \"20 ms\"\n[[require]]\n"
                       "band = \"C1.speed\"\nlow = \"2 mm/s\"\nhigh = \"5 mm/s\"\n[[require]]\n"
                       "drift = \"C1.position\"\nlimit = \"0.5 mm\"\nsettle = \"1 s\"\n"
                       "during = [\"press\", \"hold\"]\n[[require]]\n"
                       "level = [\"C1.position\", \"F1.rod.position\"]\nlimit = \"5 mm\"\n"));
  ASSERT_EQ(job.requirements.size(), 7u);
  const auto& all = job.requirements;
  EXPECT_EQ(all[0].name, "pump is spared");
  EXPECT_EQ(all[0].during, std::vector<std::string>{"press"});
  EXPECT_TRUE(std::get<Never>(all[0].what).above);
  EXPECT_DOUBLE_EQ(std::get<Never>(all[0].what).limit, 200e5);
  EXPECT_FALSE(std::get<Never>(all[1].what).above);
  EXPECT_DOUBLE_EQ(std::get<Never>(all[1].what).limit, -0.5e5);
  EXPECT_FALSE(std::get<Reached>(all[2].what).condition.above);
  EXPECT_DOUBLE_EQ(std::get<Reached>(all[2].what).within, 3.0);
  EXPECT_DOUBLE_EQ(std::get<Order>(all[3].what).gap, 0.02);
  EXPECT_DOUBLE_EQ(std::get<Order>(all[3].what).then.at(0).threshold, 0.001);
  EXPECT_DOUBLE_EQ(std::get<Band>(all[4].what).high, 0.005);
  EXPECT_DOUBLE_EQ(std::get<Drift>(all[5].what).settle, 1.0);
  EXPECT_EQ(all[5].during.size(), 2u);
  EXPECT_EQ(std::get<Level>(all[6].what).signals.size(), 2u);
  EXPECT_EQ(all[3].name, "C1.pressure > 10 bar before C1.speed > 1 mm/s");
  EXPECT_EQ(all[6].name, "C1.position and F1.rod.position level within 5 mm");
  EXPECT_EQ(all[1].place.line, 54);
}

TEST(Requirements, a_requirement_asks_one_thing_completely) {
  EXPECT_EQ(complaints_of(with_requirement("limit = \"5 bar\"\n")),
            "54:1: requirement 2 asks for nothing; write one of never_above, never_below, reached, first "
            "with then, band, "
            "drift, level\n");
  EXPECT_EQ(complaints_of(with_requirement("drift = \"C1.position\"\nlevel = \"C1.position\"\n")),
            "56:9: level of requirement 2: drift is asked as well; make two requirements of it\n");
  EXPECT_EQ(complaints_of(with_requirement("drift = \"C1.position\"\n")),
            "54:1: requirement 2 needs limit, a length such as \"150 mm\"\n");
  EXPECT_EQ(complaints_of(with_requirement("then = \"C1.position > 1 mm\"\n")),
            "54:1: requirement 2 needs first, a condition such as \"C1.A.pressure > 100 bar\"\n");
  EXPECT_EQ(complaints_of(with_requirement("drift = \"C1.position\"\nlimit = \"0 mm\"\n")),
            "56:9: limit of requirement 2: \"0 mm\" must be more than zero\n");
  EXPECT_EQ(complaints_of(with_requirement("band = \"C1.position\"\nlow = \"5 mm\"\nhigh = \"0.3 cm\"\n")),
            "56:7: low of requirement 2: \"5 mm\" is not below high, \"0.3 cm\"\n");
  EXPECT_EQ(complaints_of(with_requirement("level = [\"C1.position\", \"C1.speed\"]\nlimit = \"5 mm\"\n")),
            "55:25: level of requirement 2: C1.speed is not length as C1.position is\n");
  EXPECT_EQ(complaints_of(with_requirement("drift = \"C1.position\"\nlimit = \"1 mm\"\nhigh = \"2 mm\"\n")),
            "57:1: requirement 2 has no key \"high\"; known are \"name\", \"note\", \"during\", \"harm\", "
            "\"drift\", "
            "\"settle\" "
            "and \"limit\"\n");
}

TEST(Requirements, a_step_that_does_not_exist_is_met_with_the_nearest) {
  EXPECT_EQ(complaints_of(with("during = \"press\"", "during = \"pres\"")),
            "53:10: during of requirement \"pump is spared\": there is no step \"pres\"; did you mean "
            "\"press\"?\n");
}

}  // namespace
}  // namespace poise
