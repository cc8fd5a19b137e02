// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Studies behind the jobs: begun, watched, stopped and gone on with, whoever asks.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "desk/made_up_studies.hpp"
#include "desk/open_folder.hpp"
#include "search/cores.hpp"

namespace poise::desk {
namespace {

using testing::HasSubstr;

const std::string stand = "stand.toml";

/// The drilling stand lying open, with studies that the test lets run.
struct Studied {
  Studied() { folder.write(stand, text_of_job("drilling-stand.toml")); }

  Json told(const std::string& kind = "spread", std::map<std::string, std::string> query = {}) {
    query["kind"] = kind;
    return folder.good(folder.get({"job", stand, "study"}, query));
  }
  Reply begin(const Json& wish) { return folder.post({"job", stand, "study"}, wish); }
  void begin_spread(long wanted) {
    folder.good(begin({{"tab", "a"}, {"kind", "spread"}, {"wanted", wanted}}));
  }
  void stop(const std::string& kind = "spread") {
    folder.good(folder.post({"job", stand, "study", "stop"}, {{"tab", "a"}, {"kind", kind}}));
  }
  /// Asks until what is told is so; that takes long only where something hangs.
  Json until(const std::function<bool(const Json&)>& is_so, const std::string& kind = "spread") {
    constexpr int most = 60'000;
    for (int i = 0; i < most; ++i) {
      Json now = told(kind);
      if (is_so(now)) return now;
      std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    ADD_FAILURE() << told(kind).dump();
    return told(kind);
  }
  Json until_done(long runs, const std::string& kind = "spread") {
    return until([&](const Json& now) { return now["answer"].is_object() && now["answer"]["done"] == runs; },
                 kind);
  }
  void change_the_text() {
    const Json page = folder.page(stand);
    folder.good(folder.post(
        {"job", stand, "text"},
        {{"revision", page["revision"]}, {"text", page["text"].get<std::string>() + "# later\n"}}));
  }

  MadeUpStudies made_up;
  OpenFolder folder{made_up.studies()};
};

bool has_ended(const Json& told) { return !told["running"]; }

TEST(studying, nothing_runs_and_nothing_is_known_before_it_is_begun) {
  Studied studied;
  const Json told = studied.told();
  EXPECT_FALSE(told["running"]);
  EXPECT_EQ(told["number"], 0);
  EXPECT_TRUE(told["answer"].is_null());
  EXPECT_TRUE(told["of_this_text"]);
  EXPECT_TRUE(studied.made_up.begun().empty());
}

TEST(studying, a_study_that_is_begun_tells_how_far_it_is_and_what_is_known_by_now) {
  Studied studied;
  studied.begin_spread(10);
  EXPECT_TRUE(studied.told()["running"]);
  studied.made_up.let(4);
  const Json amid = studied.until([](const Json& now) {
    return now["share"] == 0.4 && now["answer"].is_object() && now["answer"]["done"] == 4;
  });
  EXPECT_TRUE(amid["running"]);
  EXPECT_TRUE(amid["runs_this_text"]);
  EXPECT_TRUE(amid["left"].is_number());
  studied.made_up.let(6);
  const Json end = studied.until(has_ended);
  EXPECT_EQ(studied.until_done(10)["trouble"], "");
  EXPECT_FALSE(end["runs_this_text"]);
}

TEST(studying, what_was_stopped_goes_on_where_it_was_left_and_more_may_be_wanted) {
  Studied studied;
  studied.begin_spread(10);
  studied.made_up.let(3);
  studied.until_done(3);
  studied.stop();
  EXPECT_FALSE(studied.told()["running"]);
  EXPECT_EQ(studied.until_done(3)["answer"]["done"], 3);
  studied.begin_spread(20);
  studied.made_up.let(17);
  studied.until(has_ended);
  studied.until_done(20);  // the record has a line for each: none was run twice
}

TEST(studying, a_study_leaves_a_core_to_the_proofs_of_edits) {
  Studied studied;
  studied.begin_spread(1);
  studied.made_up.let(1);
  studied.until(has_ended);
  const auto cores = static_cast<unsigned>(search::cores_allowed());
  EXPECT_EQ(studied.made_up.threads(), std::vector<unsigned>{cores > 1 ? cores - 1 : 1});
}

TEST(studying, an_edit_is_proven_while_a_study_runs) {
  Studied studied;
  studied.begin_spread(10);
  studied.until([](const Json& now) { return now["left"].is_null() && now["running"]; });
  EXPECT_EQ(studied.folder.good(studied.folder.post({"job", stand, "prove"}, {{"tab", "a"}}))["outcome"],
            "held");
  EXPECT_TRUE(studied.told()["running"]);
}

TEST(studying, an_answer_about_an_earlier_text_says_so_until_the_study_is_begun_anew) {
  Studied studied;
  studied.begin_spread(2);
  studied.made_up.let(2);
  studied.until_done(2);
  EXPECT_TRUE(studied.told()["of_this_text"]);
  studied.change_the_text();
  const Json earlier = studied.until_done(2);
  EXPECT_FALSE(earlier["of_this_text"]);
  studied.begin_spread(2);
  EXPECT_FALSE(studied.told()["of_this_text"]);  // nothing is known of the new text yet
  EXPECT_TRUE(studied.told()["runs_this_text"]);
  studied.made_up.let(1);
  EXPECT_TRUE(studied.until_done(1)["of_this_text"]);
}

TEST(studying, a_text_that_changes_amid_a_study_leaves_it_running_until_another_is_begun) {
  Studied studied;
  studied.begin_spread(5);
  studied.made_up.let(1);
  studied.until_done(1);
  studied.change_the_text();
  const Json now = studied.told();
  EXPECT_TRUE(now["running"]);
  EXPECT_FALSE(now["runs_this_text"]);
  EXPECT_FALSE(now["of_this_text"]);
  studied.begin_spread(5);
  EXPECT_TRUE(studied.told()["runs_this_text"]);
  studied.made_up.let(6);  // the one that is ended may still take one
  studied.until(has_ended);
  EXPECT_TRUE(studied.until_done(5)["of_this_text"]);
}

TEST(studying, two_tabs_share_one_study_and_either_may_stop_it) {
  Studied studied;
  studied.begin_spread(10);
  studied.made_up.let(2);
  studied.until_done(2);
  studied.folder.good(studied.begin({{"tab", "b"}, {"kind", "spread"}, {"wanted", 10}}));
  studied.made_up.let(2);
  studied.until_done(4);
  EXPECT_EQ(studied.made_up.begun().size(), 1u);
  studied.folder.good(
      studied.folder.post({"job", stand, "study", "stop"}, {{"tab", "b"}, {"kind", "spread"}}));
  EXPECT_FALSE(studied.told()["running"]);
}

TEST(studying, the_answer_is_left_out_where_the_page_has_it_and_comes_in_the_units_asked_for) {
  Studied studied;
  studied.begin_spread(1);
  studied.made_up.let(1);
  studied.until(has_ended);
  const Json told = studied.until_done(1);
  EXPECT_EQ(told["answer"]["units"], "metric");
  const std::string known = std::to_string(told["number"].get<long>());
  EXPECT_TRUE(studied.told("spread", {{"known", known}})["answer"].is_null());
  const Json us = studied.told("spread", {{"known", known}, {"units", "us"}});
  EXPECT_EQ(us["answer"]["units"], "us");
  EXPECT_GT(us["number"], told["number"]);
}

TEST(studying, studies_take_turns) {
  Studied studied;
  studied.begin_spread(2);
  studied.made_up.let(1);
  studied.until_done(1);
  studied.folder.good(studied.begin({{"tab", "a"}, {"kind", "faults"}}));
  studied.until([](const Json& now) { return now["running"] && now["waits"]; }, "faults");
  EXPECT_EQ(studied.made_up.begun().size(), 1u);
  studied.made_up.let(4);
  studied.until(has_ended);
  studied.until(has_ended, "faults");
  EXPECT_EQ(studied.until_done(3, "faults")["waits"], false);
  EXPECT_EQ(studied.made_up.begun().back().kind, "faults");
}

TEST(studying, one_that_waits_for_its_turn_is_stopped_without_ever_running) {
  Studied studied;
  studied.begin_spread(2);
  studied.made_up.let(1);
  studied.until_done(1);
  studied.folder.good(studied.begin({{"tab", "a"}, {"kind", "faults"}}));
  studied.stop("faults");
  EXPECT_FALSE(studied.told("faults")["running"]);
  studied.made_up.let(1);
  studied.until(has_ended);
  EXPECT_EQ(studied.made_up.begun().size(), 1u);
}

TEST(studying, a_job_with_complaints_is_refused_and_so_is_what_is_no_study) {
  Studied studied;
  EXPECT_EQ(studied.begin({{"kind", "luck"}, {"wanted", 10}}).status, 400);
  EXPECT_EQ(studied.begin({{"kind", "spread"}}).status, 400);
  EXPECT_EQ(studied.begin({{"kind", "spread"}, {"wanted", 0}}).status, 422);
  EXPECT_EQ(studied.begin({{"kind", "spread"}, {"wanted", 1e300}}).status, 400);
  EXPECT_EQ(studied.folder.get({"job", stand, "study"}).status, 400);
  EXPECT_EQ(studied.folder.post({"job", stand, "study", "stop"}, {{"kind", "luck"}}).status, 400);
  studied.folder.write(stand, "title = \"x\"\n[parts.V1]\nkind = \"relief\"\nsetting = \"210\"\n");
  const Reply refused = studied.begin({{"kind", "spread"}, {"wanted", 10}});
  EXPECT_EQ(refused.status, 422);
  EXPECT_THAT(refused.body, HasSubstr("to mend"));
  EXPECT_TRUE(studied.made_up.begun().empty());
}

TEST(studying, what_went_wrong_is_told_until_it_is_begun_again) {
  Studied studied;
  studied.made_up.fail_with("stand.studies cannot be written: the disk is full");
  studied.begin_spread(3);
  EXPECT_EQ(studied.until(has_ended)["trouble"], "stand.studies cannot be written: the disk is full");
  studied.made_up.fail_with("throws");
  studied.begin_spread(3);
  EXPECT_THAT(studied.until(has_ended)["trouble"].get<std::string>(), HasSubstr("a made-up invariant"));
  studied.made_up.fail_with("");
  studied.begin_spread(3);
  EXPECT_EQ(studied.told()["trouble"], "");
}

TEST(studying, a_desk_that_is_stopped_ends_its_studies_and_begins_none) {
  Studied studied;
  studied.begin_spread(10);
  studied.made_up.let(1);
  studied.until_done(1);
  studied.folder.stop();
  EXPECT_FALSE(studied.told()["running"]);
  studied.begin_spread(10);
  EXPECT_FALSE(studied.told()["running"]);
  EXPECT_EQ(studied.told()["answer"]["done"], 1);  // what is recorded is still shown
}

}  // namespace
}  // namespace poise::desk
