// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Changes of a small job: what stands in the text afterwards, line by line.
#include "compose/changed_text.hpp"

namespace poise::compose {
namespace {

const std::string top = R"(title = "Clamp"           # the small one
plugged = ["V2.B"]

[parts.T1]
kind = "reservoir"
usable_oil = "8 L"

[parts.P1]
kind = "pump"
flow = "2.5 L/min"        # measured
rated_pressure = "250 bar"

[parts.V1]
kind = "relief"
setting = "180 bar"
rated_flow = "10 L/min"

[parts.V2]
kind = "directional_4_2"
rated_flow = "12 L/min"
rated_pressure = "315 bar"

[parts.C1]
kind = "single_acting_cylinder"
bore = "40 mm"
stroke = "50 mm"

)";
const std::string lines = R"([[lines]]
from = "T1.T"
to = ["P1.S", "V1.T", "V2.T"]

# the pump's line
[[lines]]
from = "P1.P"
to = ["V1.P", "V2.P"]

[[lines]]
from = "V2.A"
to = "C1.A"
hose = { bore = "8 mm", length = "2 m" }

)";
const std::string cycle = R"([[steps]]
name = "clamp"
set = { P1 = "on", V2 = "a" }
until = "C1.A.pressure > 150 bar"

[[require]]
never_above = "V2.A-C1.A.velocity"
limit = "4 m/s"
)";
const std::string job = top + lines + cycle;

/// The job with pieces exchanged; each must be there once.
std::string with(const std::vector<std::pair<std::string, std::string>>& pieces) {
  std::string text = job;
  for (const auto& [piece, instead] : pieces) {
    const std::size_t at = text.find(piece);
    EXPECT_NE(at, std::string::npos) << piece;
    text.replace(at, piece.size(), instead);
  }
  return text;
}

const std::string begin_of_lines = "[[lines]]\nfrom = \"T1.T\"";
/// A part written before the lines.
std::pair<std::string, std::string> with_part(const std::string& table) {
  return {begin_of_lines, table + "\n" + begin_of_lines};
}

const std::string check = R"([parts.V3]
kind = "check"
rated_flow = "12 L/min"
rated_pressure = "315 bar"
)";

TEST(put_onto, a_line_before_all_its_branches_leaves_them_in_one_entry) {
  const Changed changed = put_onto(job, {"P1.P"}, {"V1.P", "V2.P"}, "check");
  EXPECT_EQ(text_of(changed),
            with({with_part(check),
                  {"to = [\"V1.P\", \"V2.P\"]\n",
                   "to = \"V3.A\"\n\n[[lines]]\nfrom = \"V3.B\"\nto = [\"V1.P\", \"V2.P\"]\n"}}));
  EXPECT_EQ(changed.says, "check V3 onto the line of P1.P");
  EXPECT_EQ(changed.tag, "V3");
}

TEST(put_onto, a_line_behind_a_branch_leaves_that_on_the_pumps_side) {
  EXPECT_EQ(text_of(put_onto(job, {"P1.P", "V1.P"}, {"V2.P"}, "check")),
            with({with_part(check),
                  {"to = [\"V1.P\", \"V2.P\"]\n",
                   "to = [\"V1.P\", \"V3.A\"]\n\n[[lines]]\nfrom = \"V3.B\"\nto = \"V2.P\"\n"}}));
}

TEST(put_onto, lets_oil_away_from_the_pump_whichever_side_is_named_first) {
  EXPECT_EQ(circuit_of(text_of(put_onto(job, {"V2.P"}, {"P1.P", "V1.P"}, "check"))),
            circuit_of(text_of(put_onto(job, {"P1.P", "V1.P"}, {"V2.P"}, "check"))));
}

TEST(put_onto, the_way_to_a_load_lets_oil_towards_it_and_keeps_the_hose) {
  const std::string text = text_of(put_onto(job, {"V2.A-C1.A.B"}, {"C1.A"}, "one_way_flow_control"));
  EXPECT_TRUE(circuit_of(text).contains("N1.A V2.A-N1.A.B"));
  EXPECT_TRUE(circuit_of(text).contains("C1.A N1.B"));
  EXPECT_NE(text.find("never_above = \"V2.A-N1.A.velocity\""), std::string::npos);  // the same hose
  EXPECT_TRUE(reading_of(text).complaints.list.empty());
}

TEST(put_onto, a_return_line_lets_oil_towards_the_reservoir) {
  const auto circuit = circuit_of(text_of(put_onto(job, {"T1.T", "P1.S"}, {"V1.T", "V2.T"}, "filter")));
  EXPECT_TRUE(circuit.contains("F1.A V1.T V2.T"));
  EXPECT_TRUE(circuit.contains("F1.B P1.S T1.T"));
}

TEST(put_onto, a_suction_line_lets_oil_towards_the_pump) {
  const auto circuit = circuit_of(text_of(put_onto(job, {"P1.S"}, {"T1.T", "V1.T", "V2.T"}, "filter")));
  EXPECT_TRUE(circuit.contains("F1.B P1.S"));
}

TEST(put_onto, a_reducing_valve_is_drained_to_the_reservoir) {
  const std::string text = text_of(put_onto(job, {"V2.A"}, {"V2.A-C1.A.A"}, "reducing"));
  EXPECT_TRUE(circuit_of(text).contains("P1.S T1.T V1.T V2.T V3.T"));
  EXPECT_TRUE(circuit_of(text).contains("V2.A V3.P"));
  EXPECT_NE(text.find("setting = \"90 bar\""), std::string::npos);  // half of the relief valve's 180 bar
  EXPECT_TRUE(reading_of(text).complaints.list.empty());
}

TEST(put_onto, says_why_where_oil_cannot_pass) {
  EXPECT_EQ(put_onto(job, {"P1.P"}, {"V2.P"}, "gauge").complaint,
            "oil does not pass through a gauge; let it branch off");
  EXPECT_EQ(put_onto(job, {"P1.P"}, {"V2.A"}, "check").complaint, "P1.P and V2.A are not on one line");
  EXPECT_EQ(put_onto(job, {"P1.P"}, {"P9.P"}, "check").complaint, "P9.P is joined to nothing");
  EXPECT_EQ(put_onto(job, {"P1.P"}, {"V2.P"}, "cheque").complaint, "there is no kind of part \"cheque\"");
}

TEST(branch_off, a_relief_valve_is_joined_to_the_line_and_to_the_reservoir_and_set_above_the_main_one) {
  EXPECT_EQ(text_of(branch_off(job, "P1.P", "relief")),
            with({{"\"V1.T\", \"V2.T\"]", "\"V1.T\", \"V2.T\", \"V3.T\"]"},
                  {"[\"V1.P\", \"V2.P\"]", "[\"V1.P\", \"V2.P\", \"V3.P\"]"},
                  with_part("[parts.V3]\nkind = \"relief\"\nsetting = \"200 bar\"\nrated_flow = \"12 "
                            "L/min\"\nrated_pressure = \"315 bar\"\n")}));
}

TEST(branch_off, a_gauge_on_a_hoses_port_gets_a_line_of_its_own) {
  EXPECT_EQ(text_of(branch_off(job, "C1.A", "gauge")),
            with({with_part("[parts.G1]\nkind = \"gauge\"\nrange = \"250 bar\"\n"),
                  {"\n[[steps]]", "\n[[lines]]\nfrom = \"C1.A\"\nto = \"G1.M\"\n\n[[steps]]"}}));
}

TEST(branch_off, a_double_acting_cylinder_stays_open_on_its_other_side) {
  const std::string text = text_of(branch_off(job, "P1.P", "double_acting_cylinder"));
  const auto complaints = reading_of(text).complaints.list;
  ASSERT_EQ(complaints.size(), 1);
  EXPECT_NE(complaints.front().sentence.find("C2.B (oil around the rod) is connected to nothing"),
            std::string::npos);
}

TEST(branch_off, a_second_pump_presses_into_the_line_and_sucks_from_the_reservoir) {
  const auto circuit = circuit_of(text_of(branch_off(job, "P1.P", "pump")));
  EXPECT_TRUE(circuit.contains("P1.P P2.P V1.P V2.P"));
  EXPECT_TRUE(circuit.contains("P1.S P2.S T1.T V1.T V2.T"));
}

TEST(branch_off, a_load_sits_on_the_rod) {
  EXPECT_TRUE(circuit_of(text_of(branch_off(job, "C1.rod", "mass"))).contains("C1.rod M1.rod"));
  EXPECT_EQ(branch_off(job, "C1.rod", "check").complaint,
            "C1.rod moves and carries no oil; a check does not belong there");
  EXPECT_EQ(branch_off(job, "P1.P", "mass").complaint, "a mass sits on a rod, not on an oil line");
}

TEST(branch_off, a_plugged_port_takes_the_plug_out) {
  const std::string text = text_of(branch_off(job, "V2.B", "gauge"));
  EXPECT_EQ(text.find("plugged"), std::string::npos);
  EXPECT_TRUE(circuit_of(text).contains("G1.M V2.B"));
}

TEST(branch_off, goes_into_the_short_form_where_the_job_has_that) {
  const std::string text = "joined = [[\"P1.P\", \"V1.P\"], [\"T1.T\", \"P1.S\", \"V1.T\"]]\n\n" +
                           top.substr(top.find("[parts.T1]"));
  EXPECT_TRUE(
      text_of(branch_off(text, "P1.P", "gauge"))
          .starts_with("joined = [[\"P1.P\", \"V1.P\", \"G1.M\"], [\"T1.T\", \"P1.S\", \"V1.T\"]]\n"));
}

TEST(branch_off, in_a_job_of_us_units_has_round_values_of_those) {
  const std::string text = text_of(branch_off("units = \"us\"\n" + job, "P1.P", "double_acting_cylinder"));
  EXPECT_NE(text.find("bore = \"2 in\"\nrod = \"1 in\"\nstroke = \"4 in\"\nrated_pressure = \"3500 psi\""),
            std::string::npos);
}

}  // namespace
}  // namespace poise::compose
