// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/readings_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "diagnose/readings_stand.hpp"

namespace poise::diagnose {
namespace {

using stand::complaints_about;
using stand::has;
using stand::reading_of;
using stand::watches;
using testing::AllOf;
using testing::HasSubstr;

std::string entry(std::string_view keys) { return "[[readings]]\n" + std::string(keys) + "\n"; }

TEST(ReadingsInToml, say_what_was_read_and_what_people_tell) {
  const Readings read = stand::read(R"(date = "2026-11-20"
by = "shift B"
came = "after work"
since = "Monday morning"
after = "hose L1 changed"
level = "low"
filter = "good"
[[readings]]
at = "G1"
step = "clamp"
value = "118 bar"
accuracy = "4 bar"
[[readings]]
at = "oil"
value = "104 degF"
accuracy = "3 degC"
[[readings]]
at = "K1.time"
step = "clamp"
value = "none"
[[readings]]
at = "B1"
step = "clamp"
value = "on"
)");
  EXPECT_EQ(read.date, "2026-11-20");
  EXPECT_EQ(read.by, "shift B");
  EXPECT_EQ(read.came, Comes::after_work);
  EXPECT_EQ(read.since, "Monday morning");
  EXPECT_EQ(read.after, "hose L1 changed");
  EXPECT_EQ(read.level, Looked::bad);
  EXPECT_EQ(read.filter, Looked::good);
  ASSERT_EQ(read.list.size(), 4U);
  const Reading& gauge = reading_of(read, "G1 at the end of \"clamp\"");
  EXPECT_DOUBLE_EQ(gauge.value.value(), 118e5);
  EXPECT_DOUBLE_EQ(gauge.accuracy, 4e5);
  EXPECT_EQ(gauge.place.line, 9);
  EXPECT_NEAR(reading_of(read, "oil").value.value(), 313.15, 1e-9);  // 104 °F are 40 °C
  EXPECT_NEAR(reading_of(read, "oil").accuracy, 3.0, 1e-9);
  EXPECT_FALSE(reading_of(read, "K1.time in \"clamp\"").value);
  EXPECT_EQ(reading_of(read, "B1 at the end of \"clamp\"").value, 1.0);
}

TEST(ReadingsInToml, have_every_moment_of_a_step) {
  const Readings read = stand::read(entry("at='G1'\nstep='clamp'\nwhen='half way'\nvalue='1 bar'") +
                                    entry("at='G1'\nstep='clamp'\nwhen='K1 starts'\nvalue='2 bar'") +
                                    entry("at='G1'\nstep='clamp'\nwhen='R1 moves'\nvalue='3 bar'") +
                                    entry("at='G1'\nstep='2'\nwhen='1000 ms'\nvalue='4 bar'") +
                                    entry("at='G1'\nstep='clamp'\nwhen='4 s'\nvalue='5 bar'"));
  EXPECT_DOUBLE_EQ(reading_of(read, "G1 in the middle of \"clamp\"").value.value(), 1e5);
  EXPECT_DOUBLE_EQ(reading_of(read, "G1 as K1 starts in \"clamp\"").value.value(), 2e5);
  EXPECT_DOUBLE_EQ(reading_of(read, "G1 while R1 moves in \"clamp\"").value.value(), 3e5);
  // 1 s is a quarter of the 4 s: a watch of the list. The last moment of the step is its end.
  EXPECT_DOUBLE_EQ(reading_of(read, "G1 1.00 s into \"clamp\"").value.value(), 4e5);
  EXPECT_DOUBLE_EQ(reading_of(read, "G1 at the end of \"clamp\"").value.value(), 5e5);
  EXPECT_TRUE(read.more.empty());
}

TEST(ReadingsInToml, ask_for_moments_that_no_watch_has) {
  const Readings read = stand::read(entry("at='G1'\nstep='clamp'\nwhen='1.23 s'\nvalue='90 bar'") +
                                    entry("at='K1.position'\nstep='clamp'\nwhen='1.23 s'\nvalue='4 mm'") +
                                    entry("at='G1'\nwhen='1.73 s'\nvalue='90 bar'"));
  // The third is 1.73 s of the cycle, in which "start" has taken 0.5 s: the first once more.
  ASSERT_EQ(read.more.size(), 2U);
  ASSERT_EQ(read.list.size(), 2U);
  EXPECT_EQ(read.list[0].watch, watches().size());
  EXPECT_EQ(read.list[1].watch, watches().size() + 1);
  EXPECT_EQ(read.more[0].at, "G1");
  EXPECT_EQ(read.more[0].step, 1U);
  EXPECT_EQ(read.more[0].when, When::after);
  EXPECT_DOUBLE_EQ(read.more[0].after, 1.23);
  EXPECT_EQ(read.more[1].instrument, Instrument::rule);
}

TEST(ReadingsInToml, find_a_portable_gauge_by_any_port_of_the_same_oil) {
  // R1.A, R2.A and V2.A are joined without anything between them; G1.M is there too.
  const auto place_of = [](std::string_view at) {
    const Readings read = stand::read(entry("at='" + std::string(at) + "'\nstep='clamp'\nvalue='100 bar'"));
    EXPECT_EQ(watches()[read.list.at(0).watch].instrument, Instrument::portable_gauge);
    return read.list.at(0).watch;
  };
  const std::size_t expected = place_of("R2.A");
  EXPECT_EQ(place_of("V2.A"), expected);
  EXPECT_EQ(place_of("R1.A.pressure"), expected);
  EXPECT_EQ(place_of("G1.M"), expected);
  EXPECT_NE(place_of("K1.A"), expected);
  EXPECT_TRUE(
      has(stand::read(entry("at='G1.pressure'\nstep='clamp'\nvalue='9 bar'")), "G1 at the end of \"clamp\""));
}

TEST(ReadingsInToml, of_one_moment_agree_or_are_complained_about) {
  const std::string once = entry("at='G1'\nstep='clamp'\nvalue='118 bar'");
  EXPECT_EQ(stand::read(once + once).list.size(), 1U);
  EXPECT_THAT(complaints_about(once + entry("at='G1'\nstep='clamp'\nvalue='120 bar'")),
              HasSubstr("6: G1 at the end of \"clamp\" reads 120 bar here and 118 bar in line 2"));
}

struct Wrong {
  std::string text, expected;
};

TEST(ReadingsInToml, are_complained_about_in_words_of_the_trade) {
  const std::vector<Wrong> all{
      {entry("at='G7'\nstep='clamp'\nvalue='1 bar'"), "2: nothing on this machine is read at \"G7\""},
      {entry("at='K1.positon'\nstep='clamp'\nvalue='1 mm'"), "\"K1.position\""},
      {entry("at='K1'\nstep='clamp'\nvalue='1 mm'"),
       "on K1 there are \"K1.position\", \"K1.time\", \"K1.A\" and \"K1.B\""},
      {entry("at='T1.T'\nstep='clamp'\nvalue='1 bar'"), "its oil is the reservoir's"},
      {entry("at='G1'\nstep='clmp'\nvalue='1 bar'"), "3: there is no step \"clmp\"; did you mean \"clamp\"?"},
      {entry("at='G1'\nvalue='1 bar'"), "the reading of \"G1\" has no step"},
      {entry("at='G1'\nstep='clamp'\nwhen='ennd'\nvalue='1 bar'"), "did you mean \"end\"?"},
      {entry("at='G1'\nstep='clamp'\nwhen='K9 starts'\nvalue='1 bar'"), "no actuator \"K9\" moves"},
      {entry("at='G1'\nstep='drill'\nwhen='K1 starts'\nvalue='1 bar'"),
       "K1 does not move in \"drill\" of the sound machine; it does in \"clamp\" and \"release\""},
      {entry("at='G1'\nstep='clamp'\nwhen='-1 s'\nvalue='1 bar'"), "lies before the step begins"},
      {entry("at='G1'\nstep='clamp'\nwhen='5 s'\nvalue='1 bar'"),
       "later than step \"clamp\" can last, 4.00 s"},
      {entry("at='G1'\nwhen='11 s'\nvalue='1 bar'"), "\"11 s\" is later than the cycle ends"},
      {entry("at='G1'\nstep='clamp'\nvalue=118"), "value of G1: \"118\" has no unit"},
      {entry("at='G1'\nstep='clamp'\nvalue='118 mm'"), "\"118 mm\" is a length; expected a pressure"},
      {entry("at='G1'\nstep='clamp'\nvalue='high'"), "does not begin with a number"},
      {entry("at='G1'\nstep='clamp'\nvalue='1700 bar'"), "which ends at 400 bar; is it psi?"},
      {entry("at='G1'\nstep='clamp'\nvalue='61 MPa'"), "610 bar is beyond its dial"},
      {entry("at='R1.A'\nstep='clamp'\nvalue='2900 bar'"), "more than any gauge shows; is it psi?"},
      {entry("at='G1'\nstep='clamp'\nvalue='-2 bar'"), "a gauge pressure is never below -1.00 bar"},
      {entry("at='oil'\nvalue='180 degC'"), "no temperature that oil has in a machine"},
      {entry("at='oil'\nvalue='none'"), "oil always has a temperature"},
      {entry("at='K1.position'\nstep='clamp'\nvalue='14 cm'"), "far outside its stroke of 22.0 mm"},
      {entry("at='K1.time'\nstep='clamp'\nvalue='9 s'"), "write \"none\" where it did not get there"},
      {entry("at='K1.time'\nstep='clamp'\nvalue='-1 s'"), "a time cannot be negative"},
      {entry("at='K1.time'\nstep='clamp'\nwhen='half way'\nvalue='1 s'"), "leave out when"},
      {entry("at='K1.time'\nstep='drill'\nvalue='1 s'"), "K1 does not move in \"drill\""},
      {entry("at='B1'\nstep='clamp'\nvalue='lit'"), "\"lit\" is no state of a switch"},
      {entry("at='G1'\nstep='clamp'\nvalue='1 bar'\naccuracy='0 bar'"), "the usual 6.40 bar"},
      {entry("at='G1'\nstep='clamp'\nvalue='1 bar'\naccuracy='-1 bar'"), "off by something"},
      {entry("step='clamp'\nvalue='1 bar'"), "needs at"},
      {entry("at='G1'\nstep='clamp'"), "needs value"},
      {entry("at='G1'\nstep='clamp'\nvaleu='1 bar'\nvalue='1 bar'"), "did you mean \"value\"?"},
      {"came = 'quickly'\n", "1: came: \"quickly\" is not a word for it; write \"slowly\""},
      {"level = 'empty'\n", "write \"good\" or \"low\""},
      {"date = 2026-11-20\n", "quotation marks"},
      {"date = '2026-11-20'\n", "there is no reading in it"},
      {"[[readings]\n", "not TOML"},
      {"", "is empty"},
      {"at,step,value\nG1,cl\x01mp,1 bar\n", "2: this line holds a character"},
      {"at,step,value\nG1,cl\xFFmp,1 bar\n", "2: this line is not plain text"},
      {"what is this\n", "this begins neither as TOML nor as a table"},
  };
  for (const auto& [text, expected] : all) EXPECT_THAT(complaints_about(text), HasSubstr(expected)) << text;
}

TEST(ReadingsInToml, have_all_their_complaints_told) {
  EXPECT_THAT(complaints_about("came = 'quickly'\n" + entry("at='G7'\nstep='clmp'\nvalue='1 bar'") +
                               entry("at='G1'\nstep='clmp'\nwhen='ennd'\nvalue='1 mm'")),
              AllOf(HasSubstr("1: came"), HasSubstr("3: nothing"), HasSubstr("4: there is no step"),
                    HasSubstr("8: there is no step"), HasSubstr("9: when"), HasSubstr("10: value of G1")));
}

TEST(ReadingsInToml, are_the_same_after_they_are_written_and_read) {
  Readings given = stand::read(
      "by = \"shift \\\"B\\\"\"\ncame = 'in the cold'\nfilter = 'clogged'\n" +
      entry("at='G1'\nstep='clamp'\nwhen='1.23 s'\nvalue='1711 psi'\naccuracy='3 bar'") +
      entry("at='R2.A'\nstep='clamp'\nwhen='K1 starts'\nvalue='none'") +
      entry("at='B1'\nstep='clamp'\nvalue='off'") + entry("at='K1.time'\nstep='clamp'\nvalue='1.5 s'") +
      entry("at='oil'\nvalue='38.5 degC'\naccuracy='1 degC'"));
  const Readings again = stand::read(to_toml(given, stand::job(), watches()));
  EXPECT_EQ(again.by, "shift \"B\"");
  EXPECT_EQ(again.came, given.came);
  EXPECT_EQ(again.filter, given.filter);
  ASSERT_EQ(again.list.size(), given.list.size());
  ASSERT_EQ(again.more.size(), given.more.size());
  EXPECT_DOUBLE_EQ(again.more[0].after, 1.23);
  for (std::size_t i = 0; i < given.list.size(); ++i) {
    const Reading &a = given.list[i], &b = again.list[i];
    EXPECT_EQ(a.watch, b.watch);
    ASSERT_EQ(a.value.has_value(), b.value.has_value());
    // Written with twelve figures.
    EXPECT_NEAR(a.value.value_or(0.0), b.value.value_or(0.0), 1e-11 * std::abs(a.value.value_or(0.0)));
    EXPECT_NEAR(a.accuracy, b.accuracy, 1e-9 * a.accuracy);
  }
}

TEST(ReadingsFile, that_is_not_there_or_a_folder_is_complained_about) {
  const auto sentence = [](const std::filesystem::path& path) {
    const auto read = read_readings_file(path, stand::job(), watches());
    return std::get<Complaints>(read).list.at(0).sentence;
  };
  EXPECT_EQ(sentence(POISE_SOURCE_DIR "/jobs/nothing.toml"),
            "there is no such file; look at its name and its folder");
  EXPECT_THAT(sentence(POISE_SOURCE_DIR "/jobs"), HasSubstr("is a folder"));
}

TEST(ReadingsFile, of_commissioning_stands_beside_the_job) {
  EXPECT_EQ(baseline_of("jobs/stand.toml"), std::filesystem::path("jobs/stand.baseline.toml"));
  EXPECT_EQ(baseline_of("a.b/stand.v2.toml"), std::filesystem::path("a.b/stand.v2.baseline.toml"));
  EXPECT_EQ(baseline_of("stand"), std::filesystem::path("stand.baseline.toml"));
}

}  // namespace
}  // namespace poise::diagnose
