// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diagnose/readings_file.hpp"
#include "diagnose/readings_stand.hpp"
#include "diagnose/sheet.hpp"

namespace poise::diagnose {
namespace {

using stand::complaints_about;
using stand::reading_of;
using stand::watches;
using testing::AllOf;
using testing::HasSubstr;

TEST(ReadingsInATable, have_commas_or_semicolons_with_decimal_commas) {
  const Readings commas = stand::read(
      "# came: suddenly\nat,step,when,value,unit,accuracy\n# a remark: nothing\nG1,clamp,,118.5,bar,4\n"
      "G2,clamp,K1 starts,20 bar,,\nG3,clamp,,,bar,\nB1,clamp,end,on,,\noil,,,40,degC,1\n");
  EXPECT_EQ(commas.came, Comes::suddenly);
  ASSERT_EQ(commas.list.size(), 4U);  // the empty value was not read
  EXPECT_DOUBLE_EQ(reading_of(commas, "G1 at the end of \"clamp\"").value.value(), 118.5e5);
  EXPECT_DOUBLE_EQ(reading_of(commas, "G1 at the end of \"clamp\"").accuracy, 4e5);
  EXPECT_EQ(reading_of(commas, "G1 at the end of \"clamp\"").place.line, 4);
  EXPECT_DOUBLE_EQ(reading_of(commas, "G2 as K1 starts in \"clamp\"").value.value(), 20e5);
  EXPECT_NEAR(reading_of(commas, "oil").accuracy, 1.0, 1e-9);
  const Readings semicolons = stand::read(
      "\xEF\xBB\xBF# came: slowly;;;\r\nvalue;unit;gauge;step;(who)\r\n118,5;bar;G1;\"clamp\";Bo, the "
      "fitter\r\n"
      "\"1,5 s\";;K1.time;2;\r\n");
  EXPECT_EQ(semicolons.came, Comes::slowly);
  EXPECT_DOUBLE_EQ(reading_of(semicolons, "G1 at the end of \"clamp\"").value.value(), 118.5e5);
  EXPECT_DOUBLE_EQ(reading_of(semicolons, "K1.time in \"clamp\"").value.value(), 1.5);
}

TEST(ReadingsInATable, have_times_of_the_step_or_of_the_cycle) {
  const Readings read =
      stand::read("at,step,time,value [bar]\nG1,clamp,0.4,80\nG2,,0.9,7\nG1,drill,500 ms,121\n");
  EXPECT_DOUBLE_EQ(reading_of(read, "G1 0.400 s into \"clamp\"").value.value(), 80e5);
  // "start" has taken 0.5 s of the cycle.
  EXPECT_DOUBLE_EQ(reading_of(read, "G2 0.400 s into \"clamp\"").value.value(), 7e5);
  EXPECT_DOUBLE_EQ(reading_of(read, "G1 0.500 s into \"drill\"").value.value(), 121e5);
}

TEST(ReadingsInATable, are_complained_about_by_line) {
  EXPECT_THAT(complaints_about("at,stepp,value\nG1,clamp,1 bar\n"),
              AllOf(HasSubstr("1: a table of readings has no column \"stepp\"; did you mean \"step\"?"),
                    HasSubstr("\"(stepp)\"")));
  EXPECT_THAT(complaints_about("at,step\nG1,clamp\n"), HasSubstr("no column \"value\""));
  EXPECT_THAT(complaints_about("at,at,value\n"), HasSubstr("stands twice"));
  EXPECT_THAT(
      complaints_about("at,step,value,unit\nG1,clamp,118,5,bar\nG1,clamp,118,\n"),
      AllOf(HasSubstr("2: this row has more cells"), HasSubstr("3: value of G1: \"118\" has no unit")));
  EXPECT_THAT(complaints_about("at,step,when,time,value\nG1,clamp,end,1,3 bar\n"),
              HasSubstr("2: the row has both"));
  EXPECT_THAT(complaints_about("at,step,value\n,clamp,3 bar\n"), HasSubstr("does not say at what"));
  EXPECT_THAT(complaints_about("at,step,value\nG1,\"clamp,3 bar\n"), HasSubstr("2: the quotation mark"));
  EXPECT_THAT(complaints_about("at,step,value\nG1,clamp,\n"), HasSubstr("there is no reading in it"));
}

TEST(ReadingsInATable, a_time_of_the_cycle_is_not_guessed_behind_a_step_that_waits) {
  Job waits = stand::job();
  waits.steps[1].until.push_back({.signal = watches().front().signal, .above = true, .threshold = 1e5});
  EXPECT_THAT(complaints_about("at,time,value\nG1,6,80 bar\n", waits),
              HasSubstr("\"clamp\" waits for a condition; name the step"));
  EXPECT_NO_THROW(stand::read("at,time,value\nG1,0.9,80 bar\n", waits));
}

TEST(EmptyTable, is_read_when_it_is_filled_in) {
  const std::vector<double> sound(watches().size(), 1.0);
  const std::vector<std::size_t> sheet = usual_sheet(watches(), sound);
  ASSERT_GT(sheet.size(), 10U);
  const std::string empty = empty_table(sheet, stand::job(), watches());
  EXPECT_THAT(complaints_about(empty), HasSubstr("there is no reading in it"));
  std::string filled;
  for (std::size_t from = 0; from < empty.size();) {
    const std::size_t end = empty.find('\n', from);
    std::string line = empty.substr(from, end - from);
    const bool contact = line.starts_with("B1,");
    std::size_t value = 0;
    for (int comma = 0; comma < 3; ++comma) value = line.find(',', value) + 1;
    if (!line.starts_with('#') && !line.starts_with("at,")) line.insert(value, contact ? "off" : "1.5");
    filled += line + "\n";
    from = end + 1;
  }
  const Readings read = stand::read(filled);
  ASSERT_EQ(read.list.size(), sheet.size());
  for (std::size_t i = 0; i < sheet.size(); ++i) {
    EXPECT_EQ(read.list[i].watch, sheet[i]);
    EXPECT_NEAR(read.list[i].accuracy, watches()[sheet[i]].accuracy, 1e-3 * watches()[sheet[i]].accuracy);
  }
}

}  // namespace
}  // namespace poise::diagnose
