// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What becomes of the runs under way when the workbench is closed.
#include <gtest/gtest.h>

#include "desk/open_folder.hpp"
#include "desk/work.hpp"

namespace poise::desk {
namespace {

TEST(stopping, every_run_under_way_is_told_and_so_is_one_that_begins_later) {
  Works works;
  const auto first = works.begin("a"), second = works.begin("b");
  EXPECT_TRUE(first->at(0.5));
  works.close();
  EXPECT_FALSE(first->at(0.5));
  EXPECT_EQ(second->why(), Work::Why::stopped);
  EXPECT_EQ(works.begin("c")->why(), Work::Why::stopped);
}

TEST(stopping, a_run_that_was_overtaken_stays_so) {
  Works works;
  const auto first = works.begin("a");
  works.begin("a");
  works.close();
  EXPECT_EQ(first->why(), Work::Why::overtaken);
}

TEST(stopping, a_desk_that_is_stopped_proves_nothing_but_still_shows_and_saves) {
  OpenFolder folder;
  folder.write("stand.toml", text_of_job("drilling-stand.toml"));
  const auto outcome = [&](const Json& trial) {
    const Json wish = {{"tab", "a"}, {"trial", trial}};
    return folder.good(folder.post({"job", "stand.toml", "prove"}, wish))["outcome"].get<std::string>();
  };
  const Json other = Json::array({{{"do", "set"}, {"at", {"parts", "V2", "setting"}}, {"value", "119 bar"}}});
  EXPECT_EQ(outcome(Json::array()), "held");
  folder.stop();
  EXPECT_EQ(outcome(Json::array()), "held");  // it was proven before
  EXPECT_EQ(outcome(other), "not proven");
  const long revision = folder.page("stand.toml")["revision"].get<long>();
  EXPECT_EQ(
      folder.post({"job", "stand.toml", "text"}, {{"revision", revision}, {"text", "title = \"Stand\"\n"}})
          .status,
      200);
  EXPECT_EQ(folder.on_disk("stand.toml"), "title = \"Stand\"\n");
}

}  // namespace
}  // namespace poise::desk
