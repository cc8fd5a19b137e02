// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Changes of parts and joints of the starting points, and a circuit built up from nothing.
#include "compose/changed_text.hpp"

namespace poise::compose {
namespace {

std::string start_of(std::string_view name) {
  return std::string(std::ranges::find(starts(), name, &Start::name)->metric);
}

bool has(const std::string& text, std::string_view piece) { return text.find(piece) != std::string::npos; }

std::vector<std::string> complaints_of(const std::string& text) {
  std::vector<std::string> all;
  for (const Remark& remark : reading_of(text).complaints.list) all.push_back(remark.sentence);
  return all;
}

TEST(building_up, from_nothing_leads_to_a_circuit_that_lacks_its_steps_only) {
  std::string text = start_of("empty");
  text = text_of(put_power_unit(text));
  text = text_of(branch_off(text, "P1.P", "directional_4_3"));
  text = text_of(branch_off(text, "V2.A", "double_acting_cylinder"));
  text = text_of(join(text, {"V2.B", "C1.B"}));
  text = text_of(branch_off(text, "C1.rod", "spring"));
  text = text_of(put_onto(text, {"V2.A"}, {"C1.A"}, "pilot_operated_check"));
  text = text_of(join(text, {"V3.X", "V2.B"}));
  EXPECT_EQ(complaints_of(text),
            std::vector<std::string>{"the job has no steps; each step begins with [[steps]]"});
  const auto circuit = circuit_of(text);
  EXPECT_TRUE(circuit.contains("P1.S T1.T V1.T V2.T"));
  EXPECT_TRUE(circuit.contains("C1.B V2.B V3.X"));
  EXPECT_TRUE(circuit.contains("C1.A V3.B"));
}

TEST(remove, a_check_on_a_line_leaves_the_line_whole) {
  const auto circuit = circuit_of(text_of(remove(start_of("two-pressure-clamp"), "V2")));
  EXPECT_TRUE(circuit.contains("P1.P V1.P V3.P V6.P"));
}

TEST(remove, a_check_beside_a_valve_leaves_the_valve_its_work) {
  const auto circuit = circuit_of(text_of(remove(start_of("two-pressure-clamp"), "V5")));
  EXPECT_TRUE(circuit.contains("C3.A G2.M V4.A"));
}

TEST(remove, a_needle_that_leads_to_the_reservoir_does_not_empty_its_line_into_it) {
  const auto circuit = circuit_of(text_of(remove(start_of("gauge-line"), "N1")));
  EXPECT_TRUE(circuit.contains("L1.A V1.B V4.P"));
}

TEST(remove, steps_no_longer_set_it_and_promises_about_it_stay_with_a_complaint) {
  const std::string text = text_of(remove(start_of("single-lift"), "L1"));
  EXPECT_FALSE(has(text, "L1 = "));
  EXPECT_TRUE(has(text, "name = \"nut up\"\nset = { P1 = \"off\" }\nlasts"));
  EXPECT_TRUE(has(text, "name = \"nut down\"\nlasts"));
  ASSERT_EQ(complaints_of(text).size(), 1);
  EXPECT_TRUE(has(complaints_of(text).front(), "the nut carries the load"));
}

TEST(remove, a_control_that_sets_nothing_else_goes_too) {
  const std::string text = text_of(remove(start_of("two-pressure-clamp"), "P1"));
  EXPECT_FALSE(has(text, "[[controls]]"));
}

TEST(remove, a_hose_leaves_its_line_joined_directly) {
  const std::string text = text_of(remove(start_of("single-lift"), "H1"));
  EXPECT_TRUE(has(text, "[[lines]]\nfrom = \"V2.B\"\nto = \"V5.A\"\n\n"));
  EXPECT_TRUE(complaints_of(text).empty());
}

TEST(remove, a_hose_with_nothing_at_one_end_goes_with_the_part) {
  const Changed changed = remove(start_of("press-with-holding"), "C1");
  const std::string text = text_of(changed);
  EXPECT_TRUE(circuit_of(text).contains("H2.B V3.X"));  // it still leads to the pilot
  EXPECT_EQ(text_of(part_from(text, "V3.X")).find("tag = \"H2\""), std::string::npos);
}

TEST(rename, changes_the_tag_wherever_the_part_is_named_and_not_in_notes) {
  const std::string text = text_of(rename(start_of("single-lift"), "V2", "R7"));
  EXPECT_TRUE(has(text, "[parts.R7]"));
  EXPECT_TRUE(has(text, "from = \"R7.B\"\nto = \"V5.A\"\ntag = \"H1\""));
  EXPECT_TRUE(has(text, "for the oil that V2 shuts in"));
  EXPECT_TRUE(complaints_of(text).empty());
  EXPECT_TRUE(complaints_of(text_of(rename(start_of("single-lift"), "C1", "1-H2.3"))).empty());
}

TEST(rename, changes_settings_with_a_parameter_and_conditions_of_switches) {
  std::string text = start_of("two-pressure-clamp");
  text.replace(text.find("set = { P1 = \"on\" }"), 19,
               "set = { P1.running = \"on\", \"V3.position\" = \"b\" }");
  text = text_of(rename(text_of(rename(text_of(rename(text, "P1", "P7")), "V3", "Y.1")), "S1", "Q2"));
  EXPECT_TRUE(has(text, "set = { P7.running = \"on\", \"Y.1.position\" = \"b\" }"));
  EXPECT_TRUE(has(text, "when = \"Q2 off\"\nset = { P7 = \"on\" }"));
  EXPECT_TRUE(complaints_of(text).empty());
}

TEST(rename, refuses_a_tag_that_is_taken_or_none) {
  EXPECT_EQ(rename(start_of("single-lift"), "V2", "V3").complaint,
            "there is a part \"V3\" already; give this one another tag");
  EXPECT_TRUE(has(rename(start_of("single-lift"), "V2", "V 3").complaint, "cannot be a tag"));
  EXPECT_EQ(rename(start_of("single-lift"), "V2", "V3.A").complaint,
            "the tag \"V3.A\" reads like a port of V3; give one of them another tag");
}

TEST(duplicate, a_valve_takes_the_branch_behind_it_and_its_settings_along) {
  const Changed changed = duplicate(start_of("press-with-holding"), "V2");
  const std::string text = text_of(changed);
  EXPECT_TRUE(complaints_of(text).empty());
  EXPECT_EQ(changed.tag, "V6");
  EXPECT_EQ(changed.says, "V2 once more: V6, V7, V8, S2, G3, C2, X2, V9, N2, H3, H4");
  EXPECT_TRUE(circuit_of(text).contains("G1.M P1.P V1.P V2.P V6.P"));
  EXPECT_TRUE(has(text, "set = { V5 = \"shut\", V2 = \"b\", V6 = \"b\", V9 = \"shut\" }") ||
              has(text, "set = { V5 = \"shut\", V2 = \"b\", V9 = \"shut\", V6 = \"b\" }"));
}

TEST(duplicate, a_cylinder_takes_its_load_along_and_joins_the_same_lines) {
  const std::string text = text_of(duplicate(start_of("two-pressure-clamp"), "C2"));
  const auto circuit = circuit_of(text);
  EXPECT_TRUE(complaints_of(text).empty());
  EXPECT_TRUE(circuit.contains("C4.rod X4.rod"));
  EXPECT_TRUE(circuit.contains("C1.B C2.B C3.B C4.B H2.B"));
}

TEST(duplicate, a_cylinder_under_a_shared_load_gets_a_free_rod) {
  const std::string text = text_of(duplicate(start_of("multi-point-lift"), "C1"));
  EXPECT_TRUE(complaints_of(text).empty());
  EXPECT_TRUE(circuit_of(text).contains("C1.rod L1.point_1"));
}

TEST(replace, keeps_what_the_new_kind_has_too_and_fills_what_it_needs) {
  const std::string text = text_of(replace(start_of("single-lift"), "V2", "pilot_operated_check"));
  EXPECT_TRUE(has(text,
                  "[parts.V2]\nkind = \"pilot_operated_check\"\nnote = \"holds the load while the motor "
                  "stands\"\nrated_flow = \"10 L/min\"\nrated_pressure = \"315 bar\"\nratio = 4\n"));
  ASSERT_EQ(complaints_of(text).size(), 1);
  EXPECT_TRUE(has(complaints_of(text).front(), "V2.X (pilot) is connected to nothing"));
}

TEST(replace, keeps_the_tolerance_of_a_value_that_stays) {
  std::string text = start_of("single-lift");
  const std::string check = "[parts.V2]\nkind = \"check\"\n";
  ASSERT_TRUE(has(text, check));
  text.insert(text.find(check) + check.size(),
              "cracking_pressure_tolerance = \"20 %\"\nleast_opening_tolerance = [0, \"1 point\"]\n");
  const std::string piloted = text_of(replace(text, "V2", "pilot_operated_check"));
  EXPECT_TRUE(has(piloted, "cracking_pressure_tolerance = \"20 %\"\n"));
  // A shut-off valve has no such values.
  const std::string shut = text_of(replace(text, "V2", "shut_off"));
  EXPECT_FALSE(has(shut, "cracking_pressure_tolerance"));
  EXPECT_FALSE(has(shut, "least_opening_tolerance"));
}

TEST(replace, joins_ports_of_another_name_that_do_the_same) {
  const auto circuit = circuit_of(text_of(replace(start_of("single-lift"), "V3", "shut_off")));
  EXPECT_TRUE(circuit.contains("G1.M H1.A V2.B V3.A V4.P"));
  EXPECT_TRUE(circuit.contains("N1.A V3.B"));
}

TEST(replace, a_hose_by_a_part_that_stands_on_its_line) {
  const std::string text = text_of(replace(start_of("single-lift"), "H1", "quick_coupling"));
  EXPECT_TRUE(complaints_beside_open_ports(text).empty());
  EXPECT_TRUE(circuit_of(text).contains("H1.B V5.A"));
  EXPECT_FALSE(has(text, "hose = "));
}

TEST(turn_round, a_check_lets_oil_pass_the_other_way) {
  const auto circuit = circuit_of(text_of(turn_round(start_of("single-lift"), "V2")));
  EXPECT_TRUE(circuit.contains("P1.P V1.P V2.B"));
  EXPECT_EQ(turn_round(start_of("single-lift"), "G1").complaint, "a gauge has no two ports to exchange");
}

TEST(lay, a_line_of_several_ports_as_a_hose_to_the_first_of_them) {
  const std::string text = text_of(lay(start_of("single-lift"), 1, "hose"));
  EXPECT_TRUE(
      has(text,
          "from = \"P1.P\"\nto = \"V1.P\"\ntag = \"H2\"\nhose = { bore = \"10 mm\", length = \"2 m\", "
          "rated_pressure = \"315 bar\" }\n\n[[lines]]\nfrom = \"V1.P\"\nto = \"V2.A\"\n"));
  EXPECT_TRUE(complaints_of(text).empty());
}

TEST(lay, a_hose_as_a_tube_with_the_same_values_and_tag) {
  const std::string text = text_of(lay(start_of("single-lift"), 3, "tube"));
  EXPECT_TRUE(has(text, "tube = { bore = \"8 mm\", length = \"3 m\", rated_pressure = \"250 bar\" }"));
  EXPECT_FALSE(has(text, "hose = "));
  EXPECT_EQ(lay(start_of("single-lift"), 3, "hose").complaint, "H1 is a hose already");
}

TEST(plug, closes_an_open_port_and_unplug_opens_it) {
  const std::string before = text_of(part_from(start_of("single-lift"), "V1.P"));
  const std::string plugged = text_of(plug(before, "V1.P"));
  EXPECT_TRUE(complaints_of(plugged).empty());
  EXPECT_EQ(circuit_of(text_of(unplug(plugged, "V1.P"))), circuit_of(before));
  EXPECT_EQ(plug(plugged, "V1.P").complaint, "V1.P is plugged already");
  EXPECT_EQ(plug(before, "V2.A").complaint, "V2.A is joined; take it off its line first");
}

TEST(join, takes_plugs_out_and_refuses_what_does_not_go_together) {
  const std::string text = text_of(plug(text_of(part_from(start_of("single-lift"), "V1.P")), "V1.P"));
  EXPECT_FALSE(has(text_of(join(text, {"V1.P", "P1.P"})), "plugged"));
  EXPECT_EQ(join(text, {"V1.P", "C1.rod"}).complaint,
            "V1.P and C1.rod cannot be joined: one is for oil, one moves");
  EXPECT_EQ(join(text, {"P1.P", "V2.A"}).complaint, "P1.P and V2.A are joined already");
  EXPECT_EQ(join(text, {"P1.P", "V2.C"}).complaint, "V2 has no port C; its ports are V2.A, V2.B");
}

TEST(changes, of_a_text_that_is_no_toml_say_so) {
  const Changed changed = branch_off("[parts.P1\n", "P1.P", "gauge");
  EXPECT_EQ(changed.text, "");
  EXPECT_TRUE(has(changed.complaint, "line 1: the text is not TOML"));
}

}  // namespace
}  // namespace poise::compose
