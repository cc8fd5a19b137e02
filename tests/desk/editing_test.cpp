// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

#include "desk/open_folder.hpp"

namespace poise::desk {
namespace {

using testing::HasSubstr;
using testing::Not;

const std::string lift = "lift.toml";

/// One valve; commented, so that what is kept can be seen.
constexpr const char* valve =
    "# a valve on the shelf, data invented\n"
    "title = \"Shelf\"\n"
    "\n"
    "[parts.V1]\n"
    "kind = \"relief\"\n"
    "setting = \"210 bar\"   # as delivered\n"
    "rated_flow = \"12 L/min\"\n";

Json set(const Json& at, const Json& value) { return {{"do", "set"}, {"at", at}, {"value", value}}; }

TEST(editing, a_value_changes_in_the_file_and_the_comment_behind_it_stays) {
  OpenFolder folder;
  folder.write(lift, valve);
  const Json before = folder.page(lift);
  const Json after = folder.good(
      folder.edit(lift, before["revision"], Json::array({set({"parts", "V1", "setting"}, "195 bar")})));
  EXPECT_GT(after["revision"], before["revision"]);
  EXPECT_EQ(after["tree"]["parts"]["V1"]["setting"], "195 bar");
  EXPECT_THAT(folder.on_disk(lift), HasSubstr("setting = \"195 bar\"   # as delivered\n"));
  EXPECT_THAT(folder.on_disk(lift), HasSubstr("# a valve on the shelf"));
}

TEST(editing, undo_and_redo_go_back_and_forth_on_disk_and_say_what_they_take_back) {
  OpenFolder folder;
  folder.write(lift, valve);
  const Json first = folder.page(lift);
  EXPECT_TRUE(first["undo"].is_null());
  const Json second = folder.good(folder.edit(
      lift, first["revision"], Json::array({set({"parts", "V1", "setting"}, "195 bar")}), "setting of V1"));
  EXPECT_EQ(second["undo"], "setting of V1");
  const Json back = folder.good(folder.post({"job", lift, "undo"}, {{"revision", second["revision"]}}));
  EXPECT_EQ(folder.on_disk(lift), valve);
  EXPECT_TRUE(back["undo"].is_null());
  EXPECT_EQ(back["redo"], "setting of V1");
  const Json forth = folder.good(folder.post({"job", lift, "redo"}, {{"revision", back["revision"]}}));
  EXPECT_EQ(forth["tree"]["parts"]["V1"]["setting"], "195 bar");
  EXPECT_THAT(folder.on_disk(lift), HasSubstr("195 bar"));
}

TEST(editing, undoing_where_there_is_nothing_to_undo_changes_nothing) {
  OpenFolder folder;
  folder.write(lift, valve);
  const Json page = folder.page(lift);
  const Json same = folder.good(folder.post({"job", lift, "undo"}, {{"revision", page["revision"]}}));
  EXPECT_EQ(same["revision"], page["revision"]);
  EXPECT_EQ(folder.on_disk(lift), valve);
}

TEST(editing, a_change_made_for_an_earlier_revision_is_refused_with_the_present_page) {
  OpenFolder folder;
  folder.write(lift, valve);
  const Json page = folder.page(lift);
  folder.good(folder.edit(lift, page["revision"], Json::array({set({"parts", "V1", "setting"}, "195 bar")})));
  const Reply late =
      folder.edit(lift, page["revision"], Json::array({set({"parts", "V1", "setting"}, "180 bar")}));
  EXPECT_EQ(late.status, 409);
  const Json body = Json::parse(late.body);
  EXPECT_EQ(body["page"]["tree"]["parts"]["V1"]["setting"], "195 bar");
  EXPECT_THAT(folder.on_disk(lift), Not(HasSubstr("180 bar")));
}

TEST(editing, a_file_changed_by_an_editor_is_taken_over_and_can_be_undone) {
  OpenFolder folder;
  folder.write(lift, valve);
  const Json page = folder.page(lift);
  std::string theirs = valve;
  theirs.replace(theirs.find("210"), 3, "160");
  folder.write(lift, theirs);
  const Json taken = folder.page(lift);
  EXPECT_GT(taken["revision"], page["revision"]);
  EXPECT_EQ(taken["tree"]["parts"]["V1"]["setting"], "160 bar");
  EXPECT_EQ(
      folder.edit(lift, page["revision"], Json::array({set({"parts", "V1", "setting"}, "180 bar")})).status,
      409);
  folder.good(folder.post({"job", lift, "undo"}, {{"revision", taken["revision"]}}));
  EXPECT_EQ(folder.on_disk(lift), valve);
}

TEST(editing, a_file_broken_on_disk_is_shown_with_the_place_and_can_be_mended_as_text) {
  OpenFolder folder;
  folder.write(lift, valve);
  folder.page(lift);
  folder.write(lift, "title = \"Shelf\n");
  const Json broken = folder.page(lift);
  EXPECT_FALSE(broken["runnable"]);
  ASSERT_EQ(broken["complaints"].size(), 1u);
  EXPECT_EQ(broken["complaints"][0]["line"], 1);
  const Reply refused =
      folder.edit(lift, broken["revision"], Json::array({set(Json::array({"title"}), "Shelf")}));
  EXPECT_EQ(refused.status, 422);
  const Json mended =
      folder.good(folder.post({"job", lift, "text"}, {{"revision", broken["revision"]}, {"text", valve}}));
  EXPECT_EQ(mended["title"], "Shelf");
  EXPECT_EQ(folder.on_disk(lift), valve);
}

TEST(editing, a_value_that_cannot_be_is_saved_and_complained_of_at_its_field) {
  OpenFolder folder;
  folder.write(lift, valve);
  const Json page = folder.good(folder.edit(lift, folder.page(lift)["revision"],
                                            Json::array({set({"parts", "V1", "setting"}, "195")})));
  const auto at_setting = [](const Json& c) { return c["at"] == Json({"parts", "V1", "setting"}); };
  const auto complaint = std::ranges::find_if(page["complaints"], at_setting);
  ASSERT_NE(complaint, page["complaints"].end()) << page["complaints"].dump(1);
  EXPECT_THAT((*complaint)["sentence"].get<std::string>(), HasSubstr("has no unit"));
  EXPECT_THAT(folder.on_disk(lift), HasSubstr("setting = \"195\""));
}

TEST(editing, what_is_no_change_is_refused_and_nothing_is_written) {
  OpenFolder folder;
  folder.write(lift, valve);
  const long revision = folder.page(lift)["revision"];
  for (const Json& wrong :
       {Json("set"), Json{{{"do", "set"}}}, Json{{{"do", "explode"}, {"at", {"title"}}}},
        Json{{{"do", "set"}, {"at", Json::array()}, {"value", 1}}}, Json{{{"do", "set"}, {"at", {"title"}}}},
        Json{{{"do", "set"}, {"at", {-1}}, {"value", 1}}},
        Json{{{"do", "set"}, {"at", {"title"}}, {"value", nullptr}}}}) {
    EXPECT_EQ(folder.edit(lift, revision, wrong).status, 400) << wrong.dump();
  }
  EXPECT_EQ(folder.post({"job", lift, "edit"}, {{"edits", Json::array()}}).status, 400);
  EXPECT_EQ(folder.on_disk(lift), valve);
}

TEST(editing, a_new_job_begins_as_its_start_under_its_own_title_and_never_over_another) {
  OpenFolder folder;
  const Json wish = {{"start", "single-lift"}, {"name", lift}, {"title", "Lift at pit 3"}, {"units", "us"}};
  EXPECT_EQ(folder.good(folder.post({"jobs"}, wish))["name"], lift);
  const Json page = folder.page(lift);
  EXPECT_EQ(page["title"], "Lift at pit 3");
  EXPECT_EQ(page["units"], "us");
  EXPECT_TRUE(page["runnable"]) << page["complaints"].dump(1);
  const std::string text = folder.on_disk(lift);
  EXPECT_EQ(folder.post({"jobs"}, wish).status, 409);
  EXPECT_EQ(folder.on_disk(lift), text);
  EXPECT_EQ(folder.post({"jobs"}, {{"start", "single-lift"}, {"name", "../lift.toml"}}).status, 422);
  EXPECT_EQ(folder.post({"jobs"}, {{"start", "no such"}, {"name", "a.toml"}}).status, 422);
}

TEST(editing, a_nudged_part_stands_a_module_further_and_settles_again) {
  OpenFolder folder;
  folder.write(lift, text_of_job("axle-box-lift.toml"));
  Json page = folder.page(lift);
  const std::string tag = page["parts"][0]["tag"];
  const auto change = [&](const Json& wish) {
    page = folder.good(
        folder.post({"job", lift, "circuit"}, {{"revision", page["revision"]}, {"change", wish}}));
  };
  change({{"what", "nudge"}, {"part", tag}, {"by", {0, 0}}});
  const Json here = page["tree"]["parts"][tag]["drawn_at"];
  change({{"what", "nudge"}, {"part", tag}, {"by", {1, 2}}});
  const Json there = page["tree"]["parts"][tag]["drawn_at"];
  EXPECT_EQ(there[0].get<double>() - here[0].get<double>(), 1.0);
  EXPECT_EQ(there[1].get<double>() - here[1].get<double>(), 2.0);
  change({{"what", "settle"}, {"part", tag}});
  EXPECT_FALSE(page["tree"]["parts"][tag].contains("drawn_at"));
}

TEST(editing, a_change_of_the_circuit_says_which_part_it_is_about) {
  OpenFolder folder;
  folder.write(lift, "title = \"Shelf\"\n");
  const long revision = folder.page(lift)["revision"];
  const Json page = folder.good(
      folder.post({"job", lift, "circuit"},
                  {{"revision", revision}, {"change", {{"what", "first"}, {"kind", "reservoir"}}}}));
  EXPECT_EQ(page["select"], "T1");
  EXPECT_EQ(page["tree"]["parts"]["T1"]["kind"], "reservoir");
  EXPECT_EQ(
      folder.post({"job", lift, "circuit"}, {{"revision", page["revision"]}, {"change", {{"what", "fly"}}}})
          .status,
      422);
}

TEST(editing, what_is_not_there_is_said_to_be_not_there) {
  OpenFolder folder;
  EXPECT_EQ(folder.get({"job", "none.toml"}).status, 404);
  EXPECT_EQ(folder.get({"job", "../etc/passwd"}).status, 404);
  EXPECT_EQ(folder.get({"elsewhere"}).status, 404);
  EXPECT_EQ(folder.get({}).status, 404);
}

}  // namespace
}  // namespace poise::desk
