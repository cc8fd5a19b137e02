// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

// The glue for GoogleTest needs GoogleTest before it.
#include <rapidcheck/gtest.h>

#include <cmath>

#include "diagnose/readings_file.hpp"
#include "diagnose/readings_stand.hpp"

namespace poise::diagnose {
namespace {

constexpr std::string_view in_toml = R"(came = "slowly"
[[readings]]
at = "G1"
step = "clamp"
when = "K1 starts"
value = "118 bar"
accuracy = "4 bar"
[[readings]]
at = "V1.A"
step = "clamp"
when = "1.2 s"
value = "none"
)";
constexpr std::string_view in_a_table =
    "# came: slowly\nat;step;when;value;unit;accuracy\nG1;clamp;;118,5;bar;4\n\"K1.time\";clamp;;1,5 s;;\n";
constexpr std::string_view in_a_log =
    "time [s],step,G1 [bar],K1.position [mm],B1\n0,start,0,0,off\n0.5,clamp,0,0,off\n2,clamp,80,3,off\n"
    "4.5,clamp,120,16,on\n";

// Whatever the text, there are readings that can be used or complaints that can be printed.
void expect_an_answer(const std::string& text) {
  const auto read = read_readings(text, "any", stand::job(), stand::watches());
  if (const auto* complaints = std::get_if<Complaints>(&read)) {
    RC_ASSERT(!complaints->list.empty());
    for (const Remark& remark : complaints->list) RC_ASSERT(!remark.sentence.empty());
    RC_ASSERT(complaints->text(text).starts_with("any:"));
    return;
  }
  const auto& readings = std::get<Readings>(read);
  RC_ASSERT(!readings.list.empty());
  for (const Reading& reading : readings.list) {
    RC_ASSERT(reading.watch < stand::watches().size() + readings.more.size());
    RC_ASSERT(!reading.value || std::isfinite(*reading.value));
  }
  RC_ASSERT(!to_toml(readings, stand::job(), stand::watches()).empty());
}

std::string one_of_the_forms() {
  return std::string(*rc::gen::elementOf(std::vector<std::string_view>{in_toml, in_a_table, in_a_log}));
}

RC_GTEST_PROP(AnyReadings, random_bytes_end_in_an_answer, (const std::string& text)) {
  expect_an_answer(text);
  expect_an_answer("at,value\n" + text);
  expect_an_answer("time [s],step,G1 [bar]\n" + text);
}

RC_GTEST_PROP(AnyReadings, changed_letters_end_in_an_answer, ()) {
  std::string text = one_of_the_forms();
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    text[*rc::gen::inRange<std::size_t>(0, text.size())] =
        *rc::gen::elementOf(std::string("a1.\"[](),;:-> \n\r#\xC3\0=", 20));
  }
  expect_an_answer(text);
}

RC_GTEST_PROP(AnyReadings, pieces_put_in_end_in_an_answer, ()) {
  const std::vector<std::string> pieces{
      "ä",   "µm",   "\"",        ",", ";",    ",,,",   "\n",   "\r\n",        "[bar]", "(",
      ")",   "#",    "nan",       "=", "-inf", "1e999", "none", "oil",         "G2",    "K1",
      "at,", "T1.T", ".pressure", "_", "end",  "99 s",  "-1",   "# came: x\n", "on"};
  std::string text = one_of_the_forms();
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i)
    text.insert(*rc::gen::inRange<std::size_t>(0, text.size()), *rc::gen::elementOf(pieces));
  expect_an_answer(text);
}

TEST(AnyReadings, the_texts_that_are_changed_have_no_complaint_themselves) {
  EXPECT_EQ(stand::read(in_toml).list.size(), 2U);
  EXPECT_EQ(stand::read(in_a_table).list.size(), 2U);
  EXPECT_GT(stand::read(in_a_log).list.size(), 10U);
}

}  // namespace
}  // namespace poise::diagnose
