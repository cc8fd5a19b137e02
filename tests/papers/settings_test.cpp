// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/settings.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <deque>

#include "papers/small_job.hpp"
#include "parts/relief.hpp"
#include "support/proven.hpp"

namespace poise::papers {
namespace {

using small::cell;
using small::row;
using small::with;
using testing::HasSubstr;
using workshop::Proven;

/// A job whose kinds say how they are adjusted, whatever their rooms say.
class Told {
 public:
  explicit Told(const Proven& proven) : proven_(proven), job_(proven.job) {}

  void say(std::string_view kind, std::span<const Adjusting> how) {
    for (PlannedPart& part : job_.plan.parts) {
      if (part.kind->about.kind != kind) continue;
      kinds_.push_back(*part.kind);
      kinds_.back().adjusting = how;
      part.kind = &kinds_.back();
    }
  }
  Table settings() const {
    const Subject subject = proven_.subject();
    return papers::settings({.job = job_,
                             .circuit = subject.circuit,
                             .verdict = subject.verdict,
                             .trace = subject.trace,
                             .file = subject.file,
                             .fingerprint = subject.fingerprint,
                             .version = subject.version});
  }

 private:
  const Proven& proven_;
  Job job_;
  std::deque<Kind> kinds_;
};

constexpr std::array relief{Adjusting{.parameter = "setting",
                                      .turn = Adjusting::Turn::relief,
                                      .port = "P",
                                      .begin = "fully open",
                                      .while_setting = "outlet shut, whole pump flow over it",
                                      .safe = Adjusting::Safe::lower}};
/// The settings with nothing that rooms say of them.
Table bare(const Proven& proven) {
  Told told(proven);
  told.say("relief", {});
  told.say("needle", {});
  return told.settings();
}

constexpr std::array needle{Adjusting{.parameter = "turns", .turn = Adjusting::Turn::flow}};

TEST(Settings, a_part_whose_room_says_nothing_leaves_blank_what_is_not_known) {
  const Proven proven(small::job(), "small.toml");
  Told told(proven);
  told.say("relief", {});
  const Table table = told.settings();
  const std::size_t valve = row(table, "Tag", "V1");
  EXPECT_EQ(cell(table, valve, "Valve").text, "Direct-acting pressure-relief valve");
  EXPECT_EQ(cell(table, valve, "Guards, does").text, "limits the pump line");
  EXPECT_EQ(cell(table, valve, "Set to").text, "150 bar");
  EXPECT_EQ(cell(table, valve, "Tolerance").text, "± 3 %");
  EXPECT_EQ(cell(table, valve, "Tolerance").number, 3.0);
  EXPECT_EQ(cell(table, valve, "Read at").text, "");
  EXPECT_EQ(cell(table, valve, "May err").text, "");
  EXPECT_EQ(cell(table, valve, "Raise").text, "see its datasheet");
  for (const char* blank : {"Locked", "By", "Date"}) EXPECT_EQ(cell(table, valve, blank).text, "");
}

TEST(Settings, what_its_room_says_stands_in_the_row) {
  const Proven proven(small::job(), "small.toml");
  Told told(proven);
  told.say("relief", relief);
  const Table table = told.settings();
  const std::size_t valve = row(table, "Tag", "V1");
  EXPECT_THAT(cell(table, valve, "While setting").text, HasSubstr("outlet shut, whole pump flow over it"));
  EXPECT_EQ(cell(table, valve, "Read at").text, "G1");
  EXPECT_EQ(cell(table, valve, "May err").text, "lower");
}

TEST(Settings, a_relief_valve_set_by_its_cracking_pressure_says_what_it_reads_with_the_pumps_flow) {
  const Proven proven(small::job(), "small.toml");
  const Table table = bare(proven);
  // Part of the band is open: p = cracking + band·x and rated_flow·x·√(p/p_full) is near the pump's 4 L/min.
  const ReliefOpening opening(proven.job.plan.parts[2].values);
  const std::string reads = measured(opening.pressure(4e-3 / 60.0), Quantity::pressure, units::metric()).text;
  EXPECT_GT(opening.pressure(4e-3 / 60.0), 150e5);
  EXPECT_LT(opening.pressure(4e-3 / 60.0), 165e5);
  EXPECT_EQ(cell(table, row(table, "Tag", "V1"), "While setting").text,
            "cracks at 150 bar; reads " + reads + " with 4.00 L/min, the whole flow of the pump");
  // The run itself: with the needle nearly shut the relief valve passes almost all of it.
  EXPECT_NEAR(*measured(opening.pressure(4e-3 / 60.0), Quantity::pressure, units::metric()).number, 154.0,
              4.0);
}

TEST(Settings, a_relief_valve_set_by_its_reading_says_at_what_it_cracks) {
  const Proven proven(
      with(small::job(), "setting = \"150 bar\"", "setting = \"150 bar\"\nsetting_flow = \"4 L/min\""),
      "small.toml");
  const Table table = bare(proven);
  const Trace& trace = proven.trace;
  const int column = trace.column("V1.cracking_pressure");
  ASSERT_GE(column, 0);
  const std::string cracks = measured(trace.values[column].front(), Quantity::pressure, units::metric()).text;
  EXPECT_LT(trace.values[column].front(), 149e5);
  EXPECT_EQ(cell(table, row(table, "Tag", "V1"), "While setting").text,
            "cracks at " + cracks + "; reads 150 bar with 4.00 L/min");
}

TEST(Settings, what_limits_the_pressure_before_it_is_named_instead_of_a_flow_that_never_gets_there) {
  const std::string second =
      "[parts.V2]\nkind = \"relief\"\nsetting = \"200 bar\"\nrated_flow = \"10 L/min\"\nrated_pressure = "
      "\"350 "
      "bar\"\n[[lines]]\nfrom = \"P1.P\"\nto = \"V2.P\"\n[[lines]]\nfrom = \"V2.T\"\nto = \"T1.T\"\n";
  const Proven proven(small::job() + second, "small.toml");
  const Table table = bare(proven);
  EXPECT_EQ(cell(table, row(table, "Tag", "V2"), "While setting").text,
            "on a bench: here V1 comes first, at 150 bar; cracks at 200 bar");
}

TEST(Settings, a_needle_is_told_from_shut_with_the_flow_that_lasts_in_the_cycle) {
  const Proven proven(small::job(), "small.toml");
  const Table table = bare(proven);
  const std::size_t first = row(table, "Tag", "N1");
  EXPECT_EQ(cell(table, first, "Valve").text, "Needle valve, turns");
  EXPECT_EQ(cell(table, first, "Set to").text, "2 turns from shut");
  EXPECT_EQ(cell(table, first, "Set to").number, 2.0);
  EXPECT_EQ(cell(table, first, "Set to").unit, "turns");
  EXPECT_EQ(cell(table, first, "Tolerance").text, "");
  // All that the pump draws, 4 L/min without pressure, pressed together as it stands before the needle.
  const Trace& trace = proven.trace;
  const std::vector<double>& pressure = trace.values[trace.column("N1.A.pressure")];
  const auto end_of_flush = std::ranges::lower_bound(trace.time, 2.9) - trace.time.begin();
  const Oil& oil = proven.circuit.oil;
  const double flow = 4e-3 / 60.0 * oil.density_at_zero() / oil.density(pressure[end_of_flush]).value;
  EXPECT_EQ(cell(table, first, "While setting").text,
            "as the cycle begins; passes up to " + measured(flow, Quantity::flow, units::metric()).text +
                " from A to B in the cycle");
}

TEST(Settings, a_value_that_a_step_gives_a_needle_has_a_row_of_its_own) {
  const Proven proven(small::job(), "small.toml");
  const Table table = bare(proven);
  const std::size_t second = row(table, "Set to", "0.25 turns from shut");
  EXPECT_EQ(cell(table, second, "Tag").text, "N1");
  EXPECT_EQ(second, row(table, "Tag", "N1") + 1);
  EXPECT_THAT(cell(table, second, "While setting").text, HasSubstr("from \"throttle\" on; passes up to "));
  // At a quarter turn the needle cannot pass the pump's flow below the relief valve's pressure.
  const int flow = proven.trace.column("N1.A.flow");
  const double at_end = proven.trace.values[flow].back();
  EXPECT_LT(at_end, 3.9e-3 / 60.0);
  EXPECT_THAT(cell(table, second, "While setting").text,
              HasSubstr(measured(at_end, Quantity::flow, units::metric()).text));
}

TEST(Settings, a_value_that_comes_back_is_told_once) {
  const Proven proven(
      small::job() + "[[steps]]\nname = \"again\"\nset = { N1 = \"2 turns\" }\nlasts = \"1 s\"\n",
      "small.toml");
  const Table table = bare(proven);
  EXPECT_EQ(std::ranges::count_if(table.rows, [](const auto& each) { return each[1].text == "N1"; }), 2);
}

TEST(Settings, a_shut_needle_is_called_shut) {
  const Proven proven(with(small::job(), "0.25 turns", "0 turns"), "small.toml");
  const Table table = bare(proven);
  EXPECT_EQ(cell(table, row(table, "Set to", "shut (0 turns)"), "Set to").number, 0.0);
}

TEST(Settings, one_turn_is_no_plural) {
  const Proven proven(with(small::job(), "0.25 turns", "1 turn"), "small.toml");
  EXPECT_EQ(cell(bare(proven), 2, "Set to").text, "1 turn from shut");
}

TEST(Settings, a_flow_that_is_over_in_a_moment_is_called_so) {
  const Proven proven(with(small::job(), "lasts = \"3 s\"\n[[steps]]", "lasts = \"0.05 s\"\n[[steps]]"),
                      "small.toml");
  const Table table = bare(proven);
  EXPECT_THAT(cell(table, row(table, "Tag", "N1"), "While setting").text,
              testing::EndsWith("L/min from A to B for a moment in the cycle"));
}

TEST(Settings, a_value_that_may_err_to_no_side_says_so) {
  const Proven proven(small::job(), "small.toml");
  Told told(proven);
  told.say("needle", needle);
  EXPECT_EQ(cell(told.settings(), row(told.settings(), "Tag", "N1"), "May err").text, "neither");
}

TEST(Settings, come_in_the_order_of_work_and_then_of_the_job) {
  // In the job the needle stands before the relief valve.
  std::string text = small::job();
  const std::string valve =
      text.substr(text.find("[parts.N1]"), text.find("[parts.G1]") - text.find("[parts.N1]"));
  text = with(with(text, valve, ""), "[parts.V1]", valve + "[parts.V1]");
  const Proven proven(text, "small.toml");
  Told told(proven);
  told.say("relief", relief);
  told.say("needle", needle);
  EXPECT_LT(row(told.settings(), "Tag", "V1"), row(told.settings(), "Tag", "N1"));
  told.say("relief", {});
  EXPECT_GT(row(told.settings(), "Tag", "V1"), row(told.settings(), "Tag", "N1"));
  told.say("needle", {});
  EXPECT_GT(row(told.settings(), "Tag", "V1"), row(told.settings(), "Tag", "N1"));
}

TEST(Settings, are_read_at_the_gauge_next_to_the_valve_on_its_own_line) {
  constexpr std::string_view gauge = "to = [\"V1.P\", \"N1.A\", \"G1.M\"]";
  const auto read_at = [](const std::string& text) {
    const Proven proven(text, "small.toml");
    Told told(proven);
    told.say("relief", relief);
    const Table table = told.settings();
    return cell(table, row(table, "Tag", "V1"), "Read at").text;
  };
  const std::string behind_hose =
      "to = [\"V1.P\", \"N1.A\"]\n[[lines]]\nfrom = \"P1.P\"\nto = \"G1.M\"\nhose = { bore = \"6 mm\", "
      "length = \"1 "
      "m\" }";
  EXPECT_EQ(read_at(with(small::job(), gauge, behind_hose)), "G1");
  const std::string nearer = behind_hose + "\n[[lines]]\nfrom = \"P1.P\"\nto = \"G2.M\"";
  EXPECT_EQ(
      read_at(with(small::job(), gauge, nearer) + "[parts.G2]\nkind = \"gauge\"\nrange = \"250 bar\"\n"),
      "G2");
  // Behind the needle it reads another pressure.
  const std::string behind_needle = "to = [\"V1.P\", \"N1.A\"]\n[[lines]]\nfrom = \"N1.B\"\nto = \"G1.M\"";
  EXPECT_EQ(read_at(with(small::job(), gauge, behind_needle)), "no gauge: portable gauge at V1.P");
}

// The reducing valve of the stand is set with nothing flowing: G3 behind the throttle V6 reads its outlet
// then.
TEST(Settings, a_reducing_valve_is_read_behind_an_open_throttle_too) {
  const Proven proven("jobs/drilling-stand.toml");
  const Table table = settings(proven.subject());
  EXPECT_EQ(cell(table, row(table, "Tag", "V4"), "Read at").text, "G3, when nothing flows");
}

TEST(Settings, a_snubber_before_the_gauge_does_not_hide_it) {
  const std::string damped = "to = [\"V1.P\", \"N1.A\", \"D1.A\"]\n[[lines]]\nfrom = \"D1.B\"\nto = \"G1.M\"";
  const Proven proven(with(small::job(), "to = [\"V1.P\", \"N1.A\", \"G1.M\"]", damped) +
                          "[parts.D1]\nkind = \"snubber\"\nbore = \"0.5 mm\"\nrated_pressure = \"350 bar\"\n",
                      "small.toml");
  Told told(proven);
  told.say("relief", relief);
  const Table table = told.settings();
  EXPECT_EQ(cell(table, row(table, "Tag", "V1"), "Read at").text, "G1");
}

TEST(Settings, a_valve_known_by_its_curve_alone_is_told_by_what_follows_from_it) {
  // A straight rise from about 100 bar: cracking by the fit of the part's own law.
  const std::string curve =
      "override_curve = [[\"1 L/min\", \"102 bar\"], [\"5 L/min\", \"106 bar\"], [\"10 L/min\", \"110 "
      "bar\"]]";
  std::string text = with(small::job(), "setting = \"150 bar\"\n", "");
  text = with(text, "rated_flow = \"10 L/min\"", curve);
  const Proven proven(text, "small.toml");
  const Table table = bare(proven);
  const ReliefOpening opening(proven.job.plan.parts[2].values);
  EXPECT_EQ(cell(table, row(table, "Tag", "V1"), "Set to").text,
            measured(opening.cracking, Quantity::pressure, units::metric()).text);
}

}  // namespace
}  // namespace poise::papers
