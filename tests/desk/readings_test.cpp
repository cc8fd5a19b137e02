// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The room Readings: what can be read, what is typed, and what may be wrong.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <numbers>
#include <set>
#include <thread>

#include "desk/open_folder.hpp"
#include "study/load_on_a_shut_jack.hpp"

namespace poise::desk {
namespace {

using testing::HasSubstr;

const std::string jack = "jack.toml";
const std::string gauge_at_the_end = "C1.A at the end of \"hold\"";

/// A jack with 70 kN on it lying open; its sound pressure is force over area.
struct AtTheJack {
  AtTheJack() { folder.write(jack, std::string(study::load_on_a_shut_jack)); }

  static double sound_bar() { return 70e3 / (std::numbers::pi / 4 * 0.08 * 0.08) / 1e5; }

  Json can_read(std::map<std::string, std::string> query = {}) {
    return folder.good(folder.get({"job", jack, "readings"}, std::move(query)));
  }
  Json watch(const std::string& key, std::map<std::string, std::string> query = {}) {
    const Json all = can_read(std::move(query));
    for (const Json& each : all["watches"]) {
      if (each["key"] == key) return each;
    }
    ADD_FAILURE() << key;
    return {};
  }
  Json weigh(const Json& readings, std::map<std::string, std::string> query = {}) {
    return folder.good(folder.post({"job", jack, "readings"}, {{"readings", readings}}, std::move(query)));
  }
  static Json typed(const std::string& text, const std::string& key = gauge_at_the_end) {
    return Json::array({{{"key", key}, {"text", text}}});
  }
  Json told() { return folder.good(folder.get({"job", jack, "study"}, {{"kind", "readings"}})); }
  /// Only a hung study takes that long.
  void work_out() {
    folder.good(folder.post({"job", jack, "study"}, {{"kind", "readings"}}));
    for (int i = 0; i < 60'000 && told()["running"]; ++i)
      std::this_thread::sleep_for(std::chrono::milliseconds(2));
    EXPECT_EQ(told()["trouble"], "");
  }

  OpenFolder folder;
};

TEST(readings, what_can_be_read_is_told_before_any_fault_is_run) {
  AtTheJack at;
  const Json all = at.can_read();
  EXPECT_FALSE(all["ready"]);
  EXPECT_GT(all["runs"], 10);
  EXPECT_TRUE(all["baseline"].is_null());
  EXPECT_THAT(all["notice"].get<std::string>(), HasSubstr("licensed person"));
  const Json gauge = at.watch(gauge_at_the_end);
  EXPECT_EQ(gauge["instrument"], "portable gauge");
  EXPECT_EQ(gauge["step"], "hold");
  EXPECT_EQ(gauge["unit"], "bar");
  EXPECT_NEAR(std::stod(gauge["sound"].get<std::string>()), AtTheJack::sound_bar(), 1.0);
  EXPECT_TRUE(gauge["band"].is_null());
  EXPECT_FALSE(gauge["usual"]);
  EXPECT_TRUE(at.watch("oil")["usual"]);
  EXPECT_TRUE(at.weigh(AtTheJack::typed("139"))["answer"].is_null());
}

TEST(readings, moments_of_logs_are_left_out_and_every_key_is_one_of_its_own) {
  AtTheJack at;
  std::set<std::string> keys;
  const Json all = at.can_read();
  for (const Json& each : all["watches"]) {
    EXPECT_THAT(each["moment"].get<std::string>(), testing::Not(HasSubstr(" into ")));
    EXPECT_TRUE(keys.insert(each["key"].get<std::string>()).second) << each;
  }
}

TEST(readings, a_value_that_cannot_be_is_answered_beside_its_field_and_the_others_count) {
  AtTheJack at;
  at.work_out();
  Json readings = AtTheJack::typed("12 mm");
  readings.push_back({{"key", "oil"}, {"text", "41"}});
  readings.push_back({{"key", "G9 at the end of \"hold\""}, {"text", "10"}});
  const Json weighed = at.weigh(readings);
  ASSERT_EQ(weighed["complaints"].size(), 2u);
  EXPECT_EQ(weighed["complaints"][0]["key"], gauge_at_the_end);
  EXPECT_EQ(weighed["complaints"][1]["key"], "G9 at the end of \"hold\"");
  ASSERT_EQ(weighed["marks"].size(), 1u);
  EXPECT_EQ(weighed["marks"][0]["key"], "oil");
  EXPECT_TRUE(weighed["answer"].is_object());
}

TEST(readings, once_worked_out_each_reading_has_a_band_and_a_sound_one_lies_in_it) {
  AtTheJack at;
  at.work_out();
  EXPECT_TRUE(at.can_read()["ready"]);
  EXPECT_THAT(at.watch(gauge_at_the_end)["band"].get<std::string>(), HasSubstr(" … "));
  const Json weighed = at.weigh(AtTheJack::typed(std::to_string(AtTheJack::sound_bar())));
  EXPECT_EQ(weighed["marks"][0]["mark"], "within");
  EXPECT_TRUE(weighed["answer"]["groups"][0]["is_sound"]);
  EXPECT_EQ(at.weigh(AtTheJack::typed("60"))["marks"][0]["mark"], "below");
  EXPECT_EQ(at.weigh(AtTheJack::typed("190"))["marks"][0]["mark"], "above");
  EXPECT_EQ(at.weigh(AtTheJack::typed("none"))["marks"][0]["mark"], "missing");
}

TEST(readings, the_same_reading_in_other_units_says_the_same) {
  AtTheJack at;
  at.work_out();
  const Json bar = at.weigh(AtTheJack::typed("60"));
  const Json psi = at.weigh(AtTheJack::typed("870.226"), {{"units", "us"}});  // 1 bar: 14.50377 psi
  EXPECT_EQ(at.watch(gauge_at_the_end, {{"units", "us"}})["unit"], "psi");
  EXPECT_NEAR(bar["answer"]["groups"][0]["share"], psi["answer"]["groups"][0]["share"], 1e-4);
  EXPECT_EQ(bar["marks"], psi["marks"]);
}

TEST(readings, what_was_said_and_looked_at_is_not_asked_for_again) {
  AtTheJack at;
  at.work_out();
  const auto asked = [&](const Json& said) {
    return at.folder.good(at.folder.post({"job", jack, "readings"}, said))["answer"]["ask_first"].size();
  };
  const Json readings = Json::array({{{"key", "oil"}, {"text", "41"}}});
  EXPECT_EQ(asked({{"readings", Json::array()}}), 3u);  // since when, level, temperature; there is no filter
  EXPECT_EQ(asked({{"readings", readings}, {"came", "slowly"}, {"level", "good"}}), 0u);
}

TEST(readings, the_next_measurement_is_one_of_those_that_can_be_read) {
  AtTheJack at;
  at.work_out();
  const Json weighed = at.weigh(AtTheJack::typed("60"));
  for (const Json& next : weighed["answer"]["next"]) {
    const Json watch = at.watch(next["key"].get<std::string>());
    EXPECT_THAT(next["name"].get<std::string>(), HasSubstr(watch["at"].get<std::string>()));
  }
}

TEST(readings, an_atlas_is_of_one_text_and_is_found_again_beside_the_job) {
  AtTheJack at;
  at.work_out();
  const std::string heavier = [&] {
    std::string text(study::load_on_a_shut_jack);
    text.replace(text.find("\"50 kN\""), 7, "\"55 kN\"");
    return text;
  }();
  at.folder.write(jack, heavier);
  EXPECT_FALSE(at.can_read()["ready"]);
  at.folder.write(jack, std::string(study::load_on_a_shut_jack));
  EXPECT_TRUE(at.can_read()["ready"]);
  EXPECT_THAT(at.folder.on_disk("jack.studies"), HasSubstr("SQLite"));
}

TEST(readings, the_readings_of_commissioning_beside_the_job_are_used_and_said_to_be) {
  AtTheJack at;
  at.work_out();
  const auto sound_share = [&] {
    const Json weighed = at.weigh(AtTheJack::typed("142"));
    for (const Json& group : weighed["answer"]["groups"]) {
      if (group["is_sound"]) return group["share"].get<double>();
    }
    return 0.0;
  };
  const double of_any_machine = sound_share();
  at.folder.write("jack.baseline.toml",
                  "date = \"2026-03-02\"\nby = \"shift B\"\n"
                  "[[readings]]\nat = \"C1.A\"\nstep = \"hold\"\nvalue = \"142 bar\"\n");
  const Json baseline = at.can_read()["baseline"];
  EXPECT_EQ(baseline["file"], "jack.baseline.toml");
  EXPECT_EQ(baseline["date"], "2026-03-02");
  EXPECT_EQ(baseline["by"], "shift B");
  EXPECT_EQ(baseline["readings"], 1);
  EXPECT_EQ(baseline["trouble"], "");
  EXPECT_NE(sound_share(), of_any_machine);
  const Json jobs = at.folder.good(at.folder.get({"jobs"}))["jobs"];
  ASSERT_EQ(jobs.size(), 1u);
  EXPECT_EQ(jobs[0]["name"], jack);
}

TEST(readings, a_baseline_that_cannot_be_read_is_not_used_and_says_where_it_is_wrong) {
  AtTheJack at;
  at.folder.write("jack.baseline.toml", "[[readings]]\nat = \"G9\"\nstep = \"hold\"\nvalue = \"142 bar\"\n");
  EXPECT_THAT(at.can_read()["baseline"]["trouble"].get<std::string>(), HasSubstr("line 2"));
}

TEST(readings, a_job_with_complaints_is_refused) {
  AtTheJack at;
  at.folder.write(jack, "title = \"x\"\n[parts.V1]\nkind = \"relief\"\nsetting = \"210\"\n");
  EXPECT_EQ(at.folder.get({"job", jack, "readings"}).status, 422);
  EXPECT_EQ(at.folder.post({"job", jack, "readings"}, {{"readings", Json::array()}}).status, 422);
  EXPECT_EQ(at.folder.get({"job", "none.toml", "readings"}).status, 404);
}

TEST(readings, whatever_is_sent_is_answered) {
  AtTheJack at;
  at.work_out();
  for (const Json& odd : {Json{{"readings", 3}}, Json{{"readings", {1, nullptr, "x"}}},
                          Json{{"readings", Json::array()}, {"came", 7}},
                          Json{{"readings", {{{"key", 1}, {"text", 2}}}}}, Json::object()})
    EXPECT_EQ(at.folder.post({"job", jack, "readings"}, odd).status, 200) << odd;
}

}  // namespace
}  // namespace poise::desk
