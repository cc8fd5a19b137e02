// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>

#include "papers/document.hpp"
#include "papers/paper.hpp"
#include "papers/readings.hpp"
#include "papers/settings.hpp"
#include "papers/small_job.hpp"
#include "parts/relief.hpp"
#include "support/proven.hpp"

namespace poise::papers {
namespace {

using diagnose::Band;
using diagnose::Instrument;
using diagnose::Watch;
using diagnose::When;
using small::cell;
using small::row;
using small::with;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using workshop::Proven;

const Proven& stand() {
  static const Proven proven("jobs/drilling-stand.toml");
  return proven;
}

/// What is read on the stand, each thing with a band by hand: a tenth to either side of what the run shows.
const std::vector<ReadingBand>& bands_by_hand() {
  static const std::vector<ReadingBand> bands = [] {
    const Proven& proven = stand();
    const std::vector<Watch> watches = diagnose::list_watches(proven.job, proven.circuit, proven.trace);
    const std::vector<double> sound = diagnose::seen(proven.job, proven.trace, watches);
    std::vector<ReadingBand> all;
    for (const std::size_t w : sheet_in_order(watches, sound))
      all.push_back({watches[w], {0.9 * sound[w], sound[w], 1.1 * sound[w]}});
    return all;
  }();
  return bands;
}

Subject with_bands() {
  Subject subject = stand().subject();
  subject.bands = &bands_by_hand();
  return subject;
}

std::string paper(const Subject& subject) { return commissioning(subject); }

/// The setting of a valve as the job has it at first.
Setting setting_of(const Proven& proven, std::string_view tag) {
  for (Setting& setting : settings_of(proven.job, proven.trace)) {
    if (proven.job.plan.parts[setting.part].tag == tag) return std::move(setting);
  }
  throw std::runtime_error("no setting of " + std::string(tag));
}

// The needle lets 4 L/min by until it is turned down: over V1 it is all the pump's flow, by its own law.
TEST(commissioning, a_relief_valve_reads_the_pumps_flow_over_it_within_its_tolerance_and_the_gauges_class) {
  const Proven proven(small::job(), "small.toml");
  const WhileSet set = while_set(proven.subject(), setting_of(proven, "V1"));
  const double reads = ReliefOpening(proven.job.plan.parts[2].values).pressure(4e-3 / 60.0);
  const PlannedPart& gauge = proven.job.plan.parts[4];
  ASSERT_EQ(gauge.tag, "G1");
  const double off = 0.03 * 150e5 + gauge.values["accuracy"] * 250e5;  // ± 3 % of the setting by its kind
  ASSERT_TRUE(set.reads);
  EXPECT_NEAR(*set.reads, reads, 1.0);
  EXPECT_NEAR(set.lowest, reads - off, 1.0);
  EXPECT_NEAR(set.highest, reads + off, 1.0);
}

TEST(commissioning, the_jobs_own_tolerance_goes_before_that_of_the_kind) {
  const Proven proven(with(small::job(), "setting = \"150 bar\"",
                           "setting = \"150 bar\"\nsetting_tolerance = [\"-5 bar\", \"+1 bar\"]"),
                      "small.toml");
  const WhileSet set = while_set(proven.subject(), setting_of(proven, "V1"));
  const PlannedPart& gauge = proven.job.plan.parts[4];
  const double instrument = gauge.values["accuracy"] * 250e5;
  EXPECT_NEAR(*set.reads - set.lowest, 5e5 + instrument, 1.0);
  EXPECT_NEAR(set.highest - *set.reads, 1e5 + instrument, 1.0);
  const Table sheet = settings(proven.subject());
  EXPECT_THAT(cell(sheet, row(sheet, "Tag", "V1"), "Tolerance").text, HasSubstr("−5 bar … +1 bar"));
}

TEST(commissioning, no_gauge_tells_how_far_a_throttle_is_open) {
  const Proven proven(small::job(), "small.toml");
  EXPECT_FALSE(while_set(proven.subject(), setting_of(proven, "N1")).reads);
}

// Air out, low pressure first, relief from open upward, then reducing, sequence, flow: common practice.
TEST(commissioning, goes_from_low_pressure_to_the_settings_in_their_order) {
  const std::string text = paper(stand().subject());
  std::size_t before = 0;
  for (const char* step :
       {"Unscrew V3 fully", "Bleed: raise the pressure to no more than 15.0 bar", "Set V3 from open upward",
        "Set V4 from low upward", "Set V2: the second group", "Open V6 (2 turns from shut at most)",
        "Set V6 by stop-watch", "Run the whole cycle"}) {
    const std::size_t at = text.find(step);
    ASSERT_NE(at, std::string::npos) << step;
    EXPECT_GT(at, before) << step;
    before = at;
  }
}

TEST(commissioning, each_setting_step_names_the_value_and_has_a_box_for_what_the_gauge_reads) {
  const std::string text = paper(stand().subject());
  const std::string step = text.substr(text.find("Set V4 from low upward"));
  const std::string reducing = step.substr(0, step.find("</table>"));
  for (const char* said : {"60 bar", "G3, when nothing flows", "60.0 bar", "acceptable", "<td></td>"})
    EXPECT_THAT(reducing, HasSubstr(said));
  // 60 bar within 4 % by its kind, and G3 of class 1.6 with a range of 100 bar.
  const WhileSet set = while_set(stand().subject(), setting_of(stand(), "V4"));
  EXPECT_THAT(reducing,
              HasSubstr(range_in_words(set.lowest, set.highest, Quantity::pressure, units::metric())));
}

TEST(commissioning, what_is_set_on_a_bench_is_not_read_at_a_gauge_of_the_machine) {
  const Proven proven("jobs/bush-press.toml");
  const std::string text = paper(proven.subject());
  const std::string step = text.substr(text.find("V3: set on a bench"));
  const std::string bench = step.substr(0, step.find("</table>"));
  EXPECT_THAT(bench, HasSubstr("gauge of the bench"));
  EXPECT_THAT(bench, Not(HasSubstr("G2")));
  EXPECT_THAT(bench, HasSubstr("220 bar"));
}

TEST(commissioning, readings_begin_with_the_oil_and_go_step_by_step) {
  const Table table = readings(with_bands());
  ASSERT_GT(table.rows.size(), 6u);
  EXPECT_EQ(cell(table, 0, "read").text, "oil");
  std::vector<std::string> clamp;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    if (cell(table, i, "when").text.ends_with("\"clamp\""))
      clamp.push_back(cell(table, i, "read").text + " " + cell(table, i, "when").text);
  }
  // The rams come before the clamps, and those before the one behind the reducing valve.
  const auto at = [&](const std::string& what) { return std::ranges::find(clamp, what) - clamp.begin(); };
  EXPECT_LT(at("G1 as R1 starts in \"clamp\""), at("G1 as K1 starts in \"clamp\""));
  EXPECT_LT(at("G1 as K1 starts in \"clamp\""), at("G2 as K4 starts in \"clamp\""));
  EXPECT_LT(at("G2 as K4 starts in \"clamp\""), at("G1 at the end of \"clamp\""));
  EXPECT_EQ(at("G3 at the end of \"clamp\"") + 1, static_cast<std::ptrdiff_t>(clamp.size()));
}

TEST(commissioning, a_reading_stands_beside_its_band_and_an_empty_box) {
  const Table table = readings(with_bands());
  std::size_t found = table.rows.size();
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    if (cell(table, i, "read").text == "G1" && cell(table, i, "when").text == "at the end of \"clamp\"")
      found = i;
  }
  ASSERT_LT(found, table.rows.size());
  EXPECT_EQ(cell(table, found, "should read").text, "210 bar");
  EXPECT_EQ(cell(table, found, "19 of 20 sound machines read").text, "189 … 231 bar");  // 0.9 and 1.1 times
  EXPECT_EQ(cell(table, found, "reads").text, "");
}

TEST(commissioning, the_paper_says_what_a_band_means_or_how_to_get_one) {
  const std::string with = paper(with_bands()), without = paper(stand().subject());
  EXPECT_THAT(with, HasSubstr("Of twenty sound machines"));
  EXPECT_THAT(with, Not(HasSubstr("poise commission")));
  EXPECT_THAT(without, HasSubstr("poise commission drilling-stand.toml"));
  EXPECT_THAT(without, HasSubstr("class of the gauge"));
  EXPECT_THAT(without, Not(HasSubstr("19 of 20")));
}

TEST(commissioning, a_motion_has_its_time_and_where_it_ends_in_one_row) {
  const Table table = times(with_bands());
  std::vector<std::string> heads;
  for (const Column& column : table.columns) heads.push_back(column.head);
  EXPECT_THAT(heads, ElementsAre("step", "part", "should take", "19 of 20 sound machines take", "takes",
                                 "should end at", "19 of 20 sound machines end at", "ends at"));
  const std::size_t clamp = row(table, "part", "K4");
  EXPECT_EQ(cell(table, clamp, "step").text, "clamp");
  const int column = stand().trace.column("K4.position");
  const StepSpan& span = stand().trace.steps[1];
  ASSERT_EQ(span.name, "clamp");
  const auto end = std::ranges::lower_bound(stand().trace.time, span.end) - stand().trace.time.begin();
  EXPECT_EQ(cell(table, clamp, "should end at").text,
            measured(stand().trace.values[column][end], Quantity::length, units::metric()).text);
  EXPECT_EQ(cell(table, row(table, "part", "R1"), "takes").text, "too short to time");
}

TEST(commissioning, a_machine_without_gauges_is_read_with_a_portable_one) {
  const std::string gauge = "[parts.G1]\nkind = \"gauge\"\nrange = \"250 bar\"\n";
  const Proven proven(with(with(small::job(), gauge, ""), ", \"G1.M\"", ""), "small.toml");
  EXPECT_TRUE(readings(proven.subject()).rows.empty());
  EXPECT_THAT(paper(proven.subject()), HasSubstr("read with a portable one at the pump line"));
}

TEST(commissioning, a_band_is_told_as_exactly_as_it_is_wide) {
  const auto words = [](double low, double high, const units::World& world) {
    return range_in_words(low, high, Quantity::pressure, world);
  };
  EXPECT_EQ(words(206.2e5, 213.8e5, units::metric()), "206 … 214 bar");
  EXPECT_EQ(words(59.13e5, 60.87e5, units::metric()), "59.1 … 60.9 bar");
  EXPECT_EQ(words(-3e5, 7.2e5, units::metric()), "0 … 7 bar");         // no gauge reads less than nothing
  EXPECT_EQ(words(206.2e5, 213.8e5, units::us()), "2991 … 3101 psi");  // 1 psi = 6894.757 Pa
}

TEST(commissioning, a_contact_is_made_or_not_and_may_be_either_where_machines_differ) {
  const Watch lamp{.instrument = Instrument::contact, .at = "S1"};
  const units::World& world = units::metric();
  EXPECT_EQ(shows(lamp, 1.0, world).text, "on");
  EXPECT_EQ(band_in_words(lamp, Band{1.0, 1.0, 1.0}, world), "on");
  EXPECT_EQ(band_in_words(lamp, Band{0.0, 0.0, 0.0}, world), "off");
  EXPECT_EQ(band_in_words(lamp, Band{0.3, 1.0, 1.7}, world), "either");
}

}  // namespace
}  // namespace poise::papers
