// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "draw/bench_job.hpp"

namespace poise::draw {
namespace {

using drawing::job_text;
using drawing::read;
using drawing::with;
using testing::ElementsAre;

Words words(const std::string& text, std::string_view tag) {
  const Job job = read(text);
  return words_of(job)[static_cast<std::size_t>(drawing::part(job, tag))];
}

std::size_t letters(std::string_view text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

TEST(Words, data_in_the_jobs_units_with_three_figures) {
  EXPECT_THAT(words(job_text(), "P1").lines, ElementsAre("7.80 cm³/rev, 1450 rpm", "4.00 kW"));
  EXPECT_THAT(words(job_text(), "R1").lines, ElementsAre("210 bar", "at 10.0 L/min"));
  EXPECT_THAT(words(job_text(), "C1").lines, ElementsAre("40.0/25.0 × 100 mm", "presses the axle"));
  EXPECT_THAT(words(job_text(), "T1").lines, ElementsAre("20.0 L", "ISO VG 46"));
  EXPECT_THAT(words(job_text(), "H1").lines, ElementsAre("8.00 × 2000 mm"));
  const std::string us = "units = \"us\"\n" + job_text();
  EXPECT_THAT(words(us, "T1").lines, ElementsAre("5.28 gal", "ISO VG 46"));  // 1 gal is 3.7854 L
  EXPECT_THAT(words(us, "R1").lines, ElementsAre("3050 psi", "at 610 in³/min"));
  EXPECT_THAT(words(us, "C1").lines, ElementsAre("1.57/0.984 × 3.94 in", "presses the axle"));
}

TEST(Words, a_setting_without_its_flow_is_the_cracking_pressure_and_says_so) {
  EXPECT_THAT(words(with(job_text(), "setting_flow = \"10 L/min\"\n", ""), "R1").lines,
              ElementsAre("210 bar", "cracking"));
}

TEST(Words, what_is_not_given_leaves_no_gap) {
  EXPECT_THAT(words(with(job_text(), "motor_power = \"4 kW\"\n", ""), "P1").lines,
              ElementsAre("7.80 cm³/rev, 1450 rpm"));
  EXPECT_THAT(words(job_text(), "C2").lines, ElementsAre("50.0/28.0 × 200 mm"));
}

TEST(Words, a_long_note_is_broken_and_then_cut) {
  const std::string note =
      "note = \"presses the axle into its seat, slowly towards the end, then holds it there\"";
  EXPECT_THAT(words(with(job_text(), "note = \"presses the axle\"", note), "C1").lines,
              ElementsAre("40.0/25.0 × 100 mm", "presses the axle into", "its seat, slowly…"));
  EXPECT_THAT(words(with(job_text(), "presses the axle", "Achslagergehäuseausdrückvorrichtung"), "C1").lines,
              ElementsAre("40.0/25.0 × 100 mm", "Achslagergehäuseausdr…"));
}

TEST(Words, a_part_is_called_by_its_tag_and_a_line_that_has_none_by_its_code_alone) {
  EXPECT_EQ(words(job_text(), "C1").tag, "C1");
  EXPECT_EQ(words(job_text(), "H1").tag, "H1");
  EXPECT_EQ(words(job_text(), "V2.B-C1.B").tag, "");
  EXPECT_EQ(words(job_text(), "V2.B-C1.B").code, "H2.3");
}

TEST(Words, no_codes_where_the_job_wants_none) {
  EXPECT_EQ(words(job_text() + "[drawing]\ncodes = \"off\"\n", "C1").code, "");
}

/// Values of a kind with every number at the default, else in the middle of its range, and all else given.
Values usual_values(const Kind& kind, bool optional_too) {
  std::vector<double> numbers;
  for (const Parameter& p : kind.parameters) {
    const bool leave = p.optional && !optional_too;
    const double middle = p.words.empty() ? std::sqrt(std::max(p.low, 1e-9 * p.high) * p.high) : p.high;
    numbers.push_back(leave || p.against ? std::nan("") : p.fallback.value_or(middle));
  }
  return {kind.parameters, numbers};
}

TEST(Words, no_kind_has_a_line_too_long_or_too_many_in_any_units) {
  for (const units::World& world : {units::metric(), units::us()}) {
    for (const Kind& kind : all_kinds()) {
      for (const bool optional_too : {false, true}) {
        Job job;
        job.world = world;
        job.plan.parts.push_back({"X1", &kind, usual_values(kind, optional_too), {}});
        job.drawn.push_back({.note = "holds the bogie frame down on its stops while the drill works"});
        const Words words = words_of(job)[0];
        EXPECT_LE(words.lines.size(), most_lines) << kind.about.kind;
        for (const std::string& line : words.lines) EXPECT_LE(letters(line), longest_line) << kind.about.kind;
      }
    }
  }
}

TEST(Words, every_kind_with_a_setting_shows_it) {
  for (const Kind& kind : all_kinds()) {
    const auto setting = find_parameter(kind.parameters, "setting");
    if (!setting) continue;
    Job job;
    job.world = units::metric();
    job.plan.parts.push_back({"X1", &kind, usual_values(kind, false), {}});
    job.drawn.emplace_back();
    const Parameter& parameter = kind.parameters[*setting];
    const std::string value = shown(job.plan.parts[0].values["setting"], parameter.quantity, job.world);
    EXPECT_THAT(words_of(job)[0].lines, testing::Contains(testing::HasSubstr(value))) << kind.about.kind;
  }
}

TEST(Words, what_a_room_wants_beside_its_symbol_it_has_in_its_table) {
  for (const Kind& kind : all_kinds()) {
    std::string_view rest = kind.about.beside;
    for (auto at = rest.find('{'); at != std::string_view::npos; at = rest.find('{')) {
      rest.remove_prefix(at + 1);
      std::string_view name = rest.substr(0, rest.find('}'));
      if (name == "note" || name == "oil") continue;
      const bool first = name.ends_with(".first");
      if (first) name.remove_suffix(6);
      const auto parameter = find_parameter(kind.parameters, name);
      ASSERT_TRUE(parameter.has_value()) << kind.about.kind << " " << name;
      EXPECT_EQ(kind.parameters[*parameter].against.has_value(), first) << kind.about.kind << " " << name;
    }
  }
}

}  // namespace
}  // namespace poise::draw
