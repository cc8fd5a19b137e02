// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "diagnose/readings_file.hpp"
#include "diagnose/readings_stand.hpp"

namespace poise::diagnose {
namespace {

using stand::complaints_about;
using stand::has;
using stand::reading_of;
using testing::AllOf;
using testing::HasSubstr;

// The steps of the stand: start 0…0.5 s, clamp 0.5…4.5 s, drill 4.5…7 s, release 7…10 s. A made-up machine:
// K1 goes its 16 mm from 1.5 s on within 2 s; G1 rises by 30 bar a second from 0.5 s on and is let go at 7 s.
double clamp_at(double time) { return std::clamp((time - 1.5) * 8.0, 0.0, 16.0); }
double gauge_at(double time) { return time > 7.0 ? 0.0 : std::max(0.0, 30.0 * (time - 0.5)); }

std::string made_up_log(double until = 10.0, double every = 0.05) {
  std::string text = "time [s],G1 [bar],K1.position [mm],B1\n";
  const int rows = static_cast<int>(std::lround(until / every));
  for (int row = 0; row <= rows; ++row) {
    const double time = row * every;
    text +=
        fmt::format("{:.6g},{:.6g},{:.6g},{}\n", time, gauge_at(time), clamp_at(time), time > 4.0 ? 1 : 0);
  }
  return text;
}

TEST(ReadingsInALog, are_taken_at_the_ends_of_steps_and_all_along_them) {
  const Readings read = stand::read(made_up_log());
  EXPECT_NEAR(reading_of(read, "G1 at the end of \"clamp\"").value.value(), 120e5, 1.0);
  EXPECT_NEAR(reading_of(read, "G1 at the end of \"drill\"").value.value(), 195e5, 1.0);
  EXPECT_NEAR(reading_of(read, "K1.position at the end of \"clamp\"").value.value(), 0.016, 1e-9);
  EXPECT_EQ(reading_of(read, "B1 at the end of \"start\"").value, 0.0);
  EXPECT_EQ(reading_of(read, "B1 at the end of \"clamp\"").value, 1.0);
  // A quarter of 2.5 s lies between rows: straight between them.
  EXPECT_NEAR(reading_of(read, "G1 0.625 s into \"drill\"").value.value(), gauge_at(5.125) * 1e5, 1.0);
  EXPECT_EQ(reading_of(read, "G1 at the end of \"clamp\"").place.line, 2 + 90);
  EXPECT_TRUE(read.more.empty());
}

TEST(ReadingsInALog, are_taken_as_what_is_logged_starts_and_arrives) {
  const Readings read = stand::read(made_up_log());
  // The way is the sound machine's, a little more than 16 mm; the clamp in the log goes 8 mm/s from 1.5 s on.
  const auto there =
      std::ranges::find_if(stand::watches(), [](const Watch& watch) { return watch.at == "K1.time"; });
  const Way way = there->way;
  const auto when = [](double position) { return 1.5 + position / 0.008; };
  const double starts = when(0.02 * (way.to - way.from)), half = when(0.5 * (way.from + way.to)),
               arrives = when(way.from + 0.95 * (way.to - way.from));
  EXPECT_NEAR(way.to, 0.016, 5e-4);
  EXPECT_NEAR(reading_of(read, "G1 as K1 starts in \"clamp\"").value.value(), gauge_at(starts) * 1e5, 1.0);
  EXPECT_NEAR(reading_of(read, "G1 while K1 moves in \"clamp\"").value.value(), gauge_at(half) * 1e5, 1.0);
  EXPECT_NEAR(reading_of(read, "K1.time in \"clamp\"").value.value(), arrives - 0.5, 1e-6);
  // It does not come back in this log: that is a reading too.
  EXPECT_FALSE(reading_of(read, "K1.time in \"release\"").value);
  // What is not logged is not known.
  EXPECT_FALSE(has(read, "G1 as R1 starts in \"clamp\""));
  EXPECT_FALSE(has(read, "G2 at the end of \"clamp\""));
}

TEST(ReadingsInALog, end_with_it) {
  const Readings read = stand::read(made_up_log(6.0));
  EXPECT_TRUE(has(read, "G1 at the end of \"clamp\""));
  EXPECT_FALSE(has(read, "G1 at the end of \"drill\""));
  EXPECT_TRUE(has(read, "G1 1.25 s into \"drill\""));
  EXPECT_FALSE(has(read, "G1 2.00 s into \"drill\""));
}

TEST(ReadingsInALog, say_their_steps_where_these_wait) {
  Job waits = stand::job();
  waits.steps[1].until.push_back(
      {.signal = stand::watches().front().signal, .above = true, .threshold = 1e5});
  EXPECT_THAT(
      complaints_about(made_up_log(), waits),
      AllOf(HasSubstr("\"clamp\" ends when its condition is met"), HasSubstr("add a column \"step\"")));
  const Readings read = stand::read(
      "time_s;step;G1 (psi);V3.T.flow [L/min];oil "
      "[degC];(amps)\n0;clamp;0;0;40;1\n0,2;clamp;145,0377;1;40;1\n"
      "0,4;clamp;290,0754;1;40;1\n0,6;drill;725,1887;2;41;1\n0,8;drill;725,1887;3;41;1\n1;;0;0;42;1\n",
      waits);
  EXPECT_NEAR(reading_of(read, "G1 at the end of \"clamp\"").value.value(), 20e5, 10.0);
  // "drill" lasts 2.5 s, and the log goes on without a step after 0.2 s.
  EXPECT_FALSE(has(read, "G1 at the end of \"drill\""));
  EXPECT_NEAR(reading_of(read, "V3.T.flow at the end of \"clamp\"").value.value(), 1e-3 / 60, 1e-12);
  EXPECT_NEAR(reading_of(read, "oil").value.value(), 315.15, 1e-9);
}

TEST(ReadingsInALog, are_complained_about_by_line) {
  const std::string head = "time [s],G1 [bar]\n0,0\n0.1,1\n0.2,2\n";
  EXPECT_THAT(complaints_about(head + "0.15,3\n"), HasSubstr("5: the time 0.15 s does not come after 0.2 s"));
  EXPECT_THAT(complaints_about(head + "0.2,3\n"), HasSubstr("5: the time 0.2 s does not come after 0.2 s"));
  EXPECT_THAT(complaints_about(head + "2.9,3\n"), HasSubstr("5: nothing was logged from 0.2 s to 2.9 s"));
  EXPECT_THAT(complaints_about(head + "time [s],G1 [bar]\n"), HasSubstr("5: the header stands here again"));
  EXPECT_THAT(
      complaints_about(head + "0.3,nan\n0.4,x\n0.5,\n0.6,1 bar\n0.7,inf\n"),
      AllOf(HasSubstr("5: G1 has \"nan\" here"), HasSubstr("6: G1 has \"x\""), HasSubstr("7: G1 has a gap"),
            HasSubstr("the column \"G1\" has 2 more cells that are wrong")));
  EXPECT_THAT(complaints_about(head + "0.3,1,5\n"), HasSubstr("5: this row has 3 cells and the header 2"));
  EXPECT_THAT(complaints_about("time,G1 [bar]\n0,1\n"), HasSubstr("no unit; write \"time [s]\""));
  EXPECT_THAT(complaints_about("time [s],G1\n0,1\n"), HasSubstr("no unit; write \"G1 [bar]\""));
  EXPECT_THAT(complaints_about("time [s],G1 [mm]\n0,1\n"), HasSubstr("is a length; expected a pressure"));
  EXPECT_THAT(complaints_about("time [s],G9 [bar]\n0,1\n"),
              HasSubstr("nothing on this machine is read at \"G9\""));
  EXPECT_THAT(complaints_about("time [s],G1 [bar],G1_bar\n0,1,1\n"), HasSubstr("are one reading; keep one"));
  EXPECT_THAT(complaints_about("time [s],step,G1 [bar]\n0,clmp,1\n"),
              HasSubstr("2: there is no step \"clmp\""));
  EXPECT_THAT(complaints_about("time [s],step,G1 [bar]\n0,drill,1\n1,clamp,1\n"),
              HasSubstr("3: step \"clamp\" comes after \"drill\" here"));
  EXPECT_THAT(complaints_about("time [s],G1 [bar]\n100,1\n101,1\n"),
              HasSubstr("no row lies within the cycle"));
  EXPECT_THAT(complaints_about("time [s],G1 [bar]\n0,700\n0.5,700\n"), HasSubstr("is it psi?"));
  EXPECT_THAT(complaints_about("time [s],(G1)\n0,1\n"), HasSubstr("no column for an instrument"));
}

TEST(ReadingsInALog, have_at_most_two_hundred_thousand_rows) {
  std::string text = "time [s],G1 [bar]\n";
  for (int row = 0; row < 200'001; ++row) text += fmt::format("{},1\n", row);
  EXPECT_THAT(complaints_about(text), HasSubstr("200002: a log has at most 200000 rows"));
}

}  // namespace
}  // namespace poise::diagnose
