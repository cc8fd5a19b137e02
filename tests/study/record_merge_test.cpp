// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Files of shards put together.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/resource.h>

#include <algorithm>

#include "desk/child.hpp"
#include "desk/scratch_folder.hpp"
#include "study/record_merge.hpp"
#include "study/record_scene.hpp"

namespace poise::study {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

constexpr long wanted = 100, shards = 3;

/// A record with a part of two studies: every third run from a number on.
void make_shard(const std::filesystem::path& path, long first, long every) {
  Record record = opened(path, Access::write);
  EXPECT_EQ(record.keep(study_in(record, heading("spread", wanted)), runs(first, wanted, every)), "");
  EXPECT_EQ(record.keep(study_in(record, heading("faults", 40)), runs(first, 40, every)), "");
  EXPECT_EQ(record.close(), "");
}

/// Three shards and the whole in a folder of their own.
struct Shards {
  ScratchFolder scratch;
  std::vector<std::filesystem::path> paths{scratch / "1.studies", scratch / "2.studies",
                                           scratch / "3.studies"};

  Shards() {
    make_shard(scratch / "whole.studies", 0, 1);
    for (long i = 0; i < shards; ++i) make_shard(paths[static_cast<std::size_t>(i)], i, shards);
  }
  std::string named(const std::string& name) const {
    return "\"" + (std::filesystem::canonical(scratch.path()) / name).string() + "\"";
  }
};

TEST(RecordMerge, three_shards_in_any_order_are_the_unsharded_study_to_the_last_byte) {
  const Shards given;
  std::vector<std::filesystem::path> order = given.paths;
  do {
    const std::filesystem::path out = given.scratch / "out.studies";
    const Merged merged = merge(out, order);
    EXPECT_EQ(merged.complaint, "");
    EXPECT_THAT(merged.missing, IsEmpty());
    EXPECT_EQ(merged.studies, 2);
    EXPECT_EQ(merged.runs, wanted + 40);
    EXPECT_EQ(content_of(out), content_of(given.scratch / "whole.studies"));
    EXPECT_TRUE(given.scratch.text("out.studies") == given.scratch.text("whole.studies"))
        << "not the same bytes";
    std::filesystem::remove(out);
  } while (std::ranges::next_permutation(order).found);
  EXPECT_EQ(given.scratch.entries().size(), 4U) << "nothing else is left in the folder";
}

TEST(RecordMerge, runs_that_two_files_have_alike_are_taken_once) {
  const Shards given;
  const Merged merged =
      merge(given.scratch / "out.studies", {given.scratch / "whole.studies", given.paths[1], given.paths[1]});
  EXPECT_EQ(merged.complaint, "");
  EXPECT_TRUE(given.scratch.text("out.studies") == given.scratch.text("whole.studies"));
}

TEST(RecordMerge, studies_that_only_some_files_have_are_all_there) {
  const ScratchFolder scratch;
  make(scratch / "a.studies", heading("faults"), runs(0, 100));
  make(scratch / "b.studies", heading("spread"), runs(0, 100));
  Heading other = heading("spread");
  other.fingerprint = "77aa";
  make(scratch / "c.studies", other, runs(0, 100));
  const Merged one =
      merge(scratch / "one.studies", {scratch / "a.studies", scratch / "b.studies", scratch / "c.studies"});
  const Merged two =
      merge(scratch / "two.studies", {scratch / "c.studies", scratch / "b.studies", scratch / "a.studies"});
  EXPECT_EQ(one.complaint + two.complaint, "");
  EXPECT_EQ(one.studies, 3);
  EXPECT_TRUE(scratch.text("one.studies") == scratch.text("two.studies"));
}

TEST(RecordMerge, missing_runs_are_told_and_the_rest_is_put_together) {
  const Shards given;
  const Merged merged = merge(given.scratch / "out.studies", {given.paths[0], given.paths[2]});
  EXPECT_EQ(merged.complaint, "");
  EXPECT_THAT(
      merged.missing,
      ElementsAre("33 of the 100 runs of the study spread of \"Frame lift, bay 3\" are in none of the files: "
                  "1, 4, 7, 10, 13, 16, 19, 22, 25, 28, ...",
                  "13 of the 40 runs of the study faults of \"Frame lift, bay 3\" are in none of the files: "
                  "1, 4, 7, 10, 13, 16, 19, 22, 25, 28, ..."));
  EXPECT_EQ(merged.runs, 67 + 27);
}

TEST(RecordMerge, missing_runs_are_counted_from_the_first_that_the_study_has) {
  const ScratchFolder scratch;
  Heading from_one = heading("spread", 20);
  from_one.first = 1;
  make(scratch / "a.studies", from_one, runs(0, 5));
  make(scratch / "b.studies", from_one, runs(8, 19));
  EXPECT_THAT(
      merge(scratch / "out.studies", {scratch / "a.studies", scratch / "b.studies"}).missing,
      ElementsAre("5 of the 20 runs of the study spread of \"Frame lift, bay 3\" are in none of the files: 5 "
                  "to 7, 19 to 20"));
}

TEST(RecordMerge, files_that_contradict_each_other_are_both_named_and_nothing_is_made) {
  const Shards given;
  {
    Record record = opened(given.paths[2], Access::write);
    Row other = run(31);
    other.promises[3].margin = std::nextafter(other.promises[3].margin.value_or(1.0), 2.0);
    EXPECT_EQ(record.keep(1, other), "");
  }
  std::vector<std::filesystem::path> order = given.paths;
  do {
    EXPECT_EQ(merge(given.scratch / "out.studies", order).complaint,
              given.named("2.studies") + " and " + given.named("3.studies") +
                  " contradict each other: run 31 of the study spread of \"Frame lift, bay 3\" came out "
                  "differently; "
                  "find out which is right and make the other anew");
  } while (std::ranges::next_permutation(order).found);
  EXPECT_EQ(given.scratch.entries().size(), 4U);
}

TEST(RecordMerge, shards_of_studies_of_another_length_do_not_belong_together) {
  const Shards given;
  {
    Record record = opened(given.paths[1], Access::write);
    EXPECT_EQ(study_in(record, heading("spread", 1000)), 1);
  }
  EXPECT_EQ(merge(given.scratch / "out.studies", given.paths).complaint,
            given.named("1.studies") + " and " + given.named("2.studies") +
                " do not belong together: of the study spread of \"Frame lift, bay 3\" one wants 100 runs, "
                "the other "
                "1000");
}

TEST(RecordMerge, a_file_that_is_there_is_not_written_over) {
  const Shards given;
  const std::string bytes = given.scratch.text("1.studies");
  EXPECT_EQ(merge(given.paths[0], {given.paths[1], given.paths[2]}).complaint,
            "There is a file " + given.named("1.studies") + " already; name another one");
  EXPECT_TRUE(given.scratch.text("1.studies") == bytes);
}

TEST(RecordMerge, a_file_that_is_none_of_studies_or_not_there_is_named) {
  const Shards given;
  given.scratch.put("lift.toml", "title = \"Lift\"\n");
  EXPECT_EQ(merge(given.scratch / "out.studies", {given.paths[0], given.scratch / "lift.toml"}).complaint,
            given.named("lift.toml") + " cannot be read: it is no file of studies; name another one");
  EXPECT_EQ(merge(given.scratch / "out.studies", {given.paths[0], given.scratch / "4.studies"}).complaint,
            "There is no file " + given.named("4.studies") + "; look at its name and its folder");
  EXPECT_EQ(merge(given.scratch / "gone/out.studies", given.paths).complaint,
            "There is no folder " + std::filesystem::canonical(given.scratch.path()).string() +
                "/gone for \"out.studies\"; make it, or name a file in another one");
  EXPECT_EQ(given.scratch.entries().size(), 5U);
}

TEST(RecordMerge, where_the_merged_file_finds_no_room_none_is_left) {
  const Shards given;
  const std::string said = said_by_child([&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{30'000, 30'000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    return merge(given.scratch / "out.studies", given.paths).complaint;
  });
  EXPECT_THAT(said, testing::StartsWith(given.named("out.studies") +
                                        " cannot be written: the system allows no file of this size here"));
  EXPECT_EQ(given.scratch.entries().size(), 4U);
}

}  // namespace
}  // namespace poise::study
