// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/press_job.hpp"

namespace poise {
namespace {

using reading::complaints_of;
using reading::good;
using reading::job_of;

/// The good press with a pressure switch at the clamp, the step's condition exchanged, and further lines at
/// the end.
std::string with_switch(std::string_view until, std::string_view rest = "") {
  std::string text = reading::with("C1.A.pressure > 150 bar", until);
  const std::string_view before = "[parts.F1]";
  text.replace(
      text.find(before), before.size(),
      "[parts.S1]\nkind = \"pressure_switch\"\nsetting = \"150 bar\"\nreset = \"140 bar\"\n[parts.F1]");
  const std::string_view joints = "[[lines]]\nfrom = \"C1.rod\"";
  text.replace(text.find(joints), joints.size(),
               "[[lines]]\nfrom = \"C1.A\"\nto = \"S1.M\"\n[[lines]]\nfrom = \"C1.rod\"");
  return text + std::string(rest);
}

TEST(Contacts, on_and_off_read_the_one_mode_of_a_part) {
  for (const bool on : {true, false}) {
    const Job job = job_of(with_switch(on ? "S1 on" : " S1  off "));
    ASSERT_EQ(job.steps[0].until.size(), 1u);
    EXPECT_EQ(job.steps[0].until[0].signal.name, "S1.made");
    EXPECT_EQ(job.steps[0].until[0].above, on);
    EXPECT_DOUBLE_EQ(job.steps[0].until[0].threshold, 0.5);
  }
  EXPECT_EQ(job_of(with_switch("S1.made > 0.5")).steps[0].until[0].signal.name, "S1.made");
}

TEST(Contacts, what_is_not_on_or_off_by_itself_is_said) {
  EXPECT_EQ(complaints_of(with_switch("C1 on")),
            "51:9: until of step \"press\": C1 (single_acting_cylinder) is nothing that turns on or off by "
            "itself, as "
            "a pressure_switch does; expected a signal, > or <, and a value, such as \"C1.A.pressure > 180 "
            "bar\"\n");
  EXPECT_EQ(complaints_of(with_switch("S2 off")),
            "51:9: until of step \"press\": there is no part \"S2\"; known are \"T1\", \"P1\", \"V1\", "
            "\"V2\", \"C1\", "
            "\"S1\", \"F1\" and \"H1\"\n");
}

TEST(PressureSwitch, must_be_broken_below_where_it_is_made) {
  std::string text = with_switch("S1 on");
  const std::string_view reset = "reset = \"140 bar\"";
  text.replace(text.find(reset), reset.size(), "reset = \"150 bar\"");
  EXPECT_EQ(complaints_of(text),
            "27:9: S1 (pressure_switch): the contact is broken at a lower pressure than it is made; 2 to 15 "
            "% below "
            "setting is usual\n");
}

TEST(Controls, wiring_is_read_with_its_conditions_commands_and_time) {
  const Job job =
      job_of(with_switch("S1 on",
                         "[[controls]]\nwhen = \"S1 on\"\nset = { P1 = \"off\" }\n"
                         "[[controls]]\nname = \"refill\"\nwhen = [\"S1 off\", \"C1.position > 1 mm\"]\n"
                         "set = { P1 = \"on\", F1 = \"0 N\" }\nover = \"20 ms\"\n"));
  ASSERT_EQ(job.controls.size(), 2u);
  EXPECT_EQ(job.controls[0].name, "S1 on");
  ASSERT_EQ(job.controls[0].commands.size(), 1u);
  EXPECT_EQ(job.controls[0].commands[0].target, 0.0);
  EXPECT_DOUBLE_EQ(job.controls[0].commands[0].ramp, 0.3);  // the pump's start_time
  EXPECT_EQ(job.controls[1].name, "refill");
  EXPECT_EQ(job.controls[1].when.size(), 2u);
  EXPECT_EQ(job.controls[1].commands.size(), 2u);
  EXPECT_DOUBLE_EQ(job.controls[1].commands[0].ramp, 0.02);
}

TEST(Controls, a_control_has_a_condition_and_something_to_set) {
  const std::string head = "[[controls]]\n";
  EXPECT_EQ(complaints_of(std::string(good) + head + "set = { P1 = \"off\" }\n"),
            "54:1: control 1 needs when, a condition such as when = \"S1 on\"\n");
  EXPECT_EQ(complaints_of(std::string(good) + head + "when = \"C1.pressure > 5 bar\"\n"),
            "54:1: control 1 needs set, what it changes, such as set = { P1 = \"off\" }\n");
  EXPECT_EQ(
      complaints_of(std::string(good) + head +
                    "name = \"stop\"\nwhen = \"C1.pressur > 5 bar\"\nset = { P1 = \"of\" }\nuntil = 3\n"),
      "56:8: when of control \"stop\": \"C1.pressur\" is nothing that can be watched on C1 "
      "(single_acting_cylinder); did you mean \"C1.pressure\"?\n"
      "57:14: running of P1: found \"of\"; expected \"off\" or \"on\"\n"
      "58:1: control \"stop\" has no key \"until\"; known are \"name\", \"note\", \"when\", \"over\" and "
      "\"set\"\n");
}

}  // namespace
}  // namespace poise
