// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What is said, and what stays, when a record's disk, folder or file is not as it should be.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sched.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <random>

#include "desk/child.hpp"
#include "desk/scratch_folder.hpp"
#include "study/record_scene.hpp"
#include "study/sql.hpp"

namespace poise::study {
namespace {

using testing::ElementsAre;
using testing::EndsWith;
using testing::HasSubstr;
using testing::StartsWith;

/// The place as it is named in sentences.
std::string there(const ScratchFolder& scratch, const std::string& name) {
  return "\"" + (std::filesystem::canonical(scratch.path()) / name).string() + "\"";
}

/// Opens for writing and records runs from a number on until one is refused: how many were taken, and the
/// complaint.
std::pair<long, std::string> keep_until_refused(const std::filesystem::path& path, long first, long most) {
  auto opening = Record::open(path, Access::write);
  if (const auto* said = std::get_if<std::string>(&opening)) return {0, *said};
  Record& record = std::get<Record>(opening);
  std::string complaint;
  const long id = record.study(heading(), complaint);
  if (!complaint.empty()) return {0, complaint};
  for (long number = first; number < first + most; ++number) {
    if (std::string said = record.keep(id, run(number)); !said.empty()) return {number - first, said};
  }
  return {most, {}};
}

/// "whole 120" where a record holds the first 120 runs as they should be.
std::string holds(const std::filesystem::path& path) {
  auto opening = Record::open(path, Access::read);
  if (const auto* said = std::get_if<std::string>(&opening)) return *said;
  std::string complaint;
  const std::vector<Row> rows = std::get<Record>(opening).rows(1, complaint);
  if (!complaint.empty()) return complaint;
  return (is_beginning_of_study(rows) ? "whole " : "wrong ") + std::to_string(rows.size());
}

/// A mount that only this process sees; whether it may have any.
bool has_own_mounts() {
  if (::unshare(CLONE_NEWNS) != 0 && ::unshare(CLONE_NEWUSER | CLONE_NEWNS) != 0) return false;
  return ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0;
}

TEST(RecordFailure, a_full_disk_is_named_keeps_what_was_there_and_takes_more_once_there_is_room) {
  const ScratchFolder scratch;
  const std::string said = said_by_child([&] {
    if (!has_own_mounts() || ::mount("tmpfs", scratch.path().c_str(), "tmpfs", 0, "size=640k") != 0)
      return std::string("no disk");
    const auto path = scratch / "lift.studies";
    scratch.put("ballast", std::string(300'000, 'x'));
    const auto [taken, complaint] = keep_until_refused(path, 0, 100'000);
    std::string told = std::to_string(taken > 0) + "; " + complaint + "; ";
    told += holds(path) == "whole " + std::to_string(taken) ? "kept" : holds(path);
    std::filesystem::remove(scratch / "ballast");
    const auto [more, none] = keep_until_refused(path, taken, 50);
    told += "; " + none + std::to_string(more) + " more; ";
    return told + (holds(path) == "whole " + std::to_string(taken + 50) ? "kept" : holds(path));
  });
  if (said == "no disk") GTEST_SKIP() << "this machine lets nobody mount a small disk";
  EXPECT_EQ(said, "1; " + there(scratch, "lift.studies") +
                      " cannot be written: the disk is full; make room and go on: what was recorded "
                      "before is kept; kept; 50 more; kept");
}

TEST(RecordFailure, a_disk_without_room_for_a_new_file_keeps_none) {
  const ScratchFolder scratch;
  const std::string said = said_by_child([&] {
    if (!has_own_mounts() || ::mount("tmpfs", scratch.path().c_str(), "tmpfs", 0, "size=64k") != 0)
      return std::string("no disk");
    scratch.put("ballast", std::string(65'536, 'x'));
    const std::string complaint = keep_until_refused(scratch / "lift.studies", 0, 1).second;
    return complaint + "; " + std::to_string(scratch.entries().size());
  });
  if (said == "no disk") GTEST_SKIP() << "this machine lets nobody mount a small disk";
  EXPECT_EQ(said, there(scratch, "lift.studies") +
                      " cannot be written: the disk is full; make room and go on: what was recorded "
                      "before is kept; 1");
}

TEST(RecordFailure, a_limit_on_the_size_of_files_is_named_and_keeps_what_was_there) {
  const ScratchFolder scratch;
  const auto path = scratch / "lift.studies";
  const std::string said = said_by_child([&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{300'000, 300'000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    const auto [taken, complaint] = keep_until_refused(path, 0, 100'000);
    return complaint + "; whole " + std::to_string(taken);
  });
  EXPECT_EQ(
      said,
      there(scratch, "lift.studies") +
          " cannot be written: the system allows no file of this size here; raise the limit (ulimit -f): "
          "what was recorded before is kept; " +
          holds(path));
  EXPECT_THAT(holds(path), testing::Not(StartsWith("whole 0")));
  const long there_already = std::stol(holds(path).substr(6));
  EXPECT_EQ(keep_until_refused(path, there_already, 10).second, "") << "without the limit";
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.studies"));
}

TEST(RecordFailure, a_read_only_folder_is_named_and_its_record_read) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 20));
  const std::string said = said_by_child([&] {
    const std::string folder = scratch.path().string();
    if (!has_own_mounts() || ::mount(folder.c_str(), folder.c_str(), nullptr, MS_BIND, nullptr) != 0 ||
        ::mount(nullptr, folder.c_str(), nullptr, MS_BIND | MS_REMOUNT | MS_RDONLY, nullptr) != 0)
      return std::string("no mount");
    return keep_until_refused(scratch / "lift.studies", 20, 1).second + "; " +
           keep_until_refused(scratch / "new.studies", 0, 1).second + "; " + holds(scratch / "lift.studies");
  });
  if (said == "no mount") GTEST_SKIP() << "this machine lets nobody mount a folder read-only";
  const std::string why = " cannot be written: the folder " +
                          std::filesystem::canonical(scratch.path()).string() +
                          " is read-only; name a file in another one; ";
  EXPECT_EQ(said, there(scratch, "lift.studies") + why + there(scratch, "new.studies") + why + "whole 20");
}

TEST(RecordFailure, a_folder_or_a_file_that_one_may_not_write_is_named_and_the_record_read) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 20));
  std::filesystem::create_directory(scratch / "open");
  std::filesystem::copy_file(scratch / "lift.studies", scratch / "open/lift.studies");
  ASSERT_EQ(::chmod((scratch / "open").c_str(), 0777), 0);
  ASSERT_EQ(::chmod((scratch / "open/lift.studies").c_str(), 0444), 0);
  ASSERT_EQ(::chmod(scratch.path().c_str(), 0555), 0);
  const std::string said = said_by_child([&] {
    if (!become_ordinary()) return std::string("no other rights");
    return keep_until_refused(scratch / "lift.studies", 20, 1).second + "; " +
           holds(scratch / "lift.studies") + "; " +
           keep_until_refused(scratch / "open/lift.studies", 20, 1).second + "; " +
           holds(scratch / "open/lift.studies");
  });
  ::chmod(scratch.path().c_str(), 0755);
  EXPECT_EQ(said, there(scratch, "lift.studies") + " cannot be written: you may not write in the folder " +
                      std::filesystem::canonical(scratch.path()).string() +
                      "; name a file in another one; whole 20; " + there(scratch, "open/lift.studies") +
                      " cannot be written: it is write-protected; name another file, or allow writing to "
                      "this one and its "
                      "folder; whole 20");
}

TEST(RecordFailure, a_record_left_by_a_killed_writer_is_read_in_a_read_only_folder) {
  const ScratchFolder scratch;
  const auto path = scratch / "lift.studies";
  said_by_child([&] {
    Record record = opened(path, Access::write);
    record.keep(study_in(record, heading()), runs(0, 20));
    ::raise(SIGKILL);
    return std::string();
  });
  ASSERT_TRUE(scratch.entries().contains("lift.studies-wal"));
  const std::string said = said_by_child([&] {
    const std::string folder = scratch.path().string();
    if (!has_own_mounts() || ::mount(folder.c_str(), folder.c_str(), nullptr, MS_BIND, nullptr) != 0 ||
        ::mount(nullptr, folder.c_str(), nullptr, MS_BIND | MS_REMOUNT | MS_RDONLY, nullptr) != 0)
      return std::string("no mount");
    return holds(path);
  });
  if (said == "no mount") GTEST_SKIP() << "this machine lets nobody mount a folder read-only";
  EXPECT_EQ(said, "whole 20");
}

TEST(RecordFailure, a_place_where_no_file_can_be_is_named) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", "title = \"Lift\"\n");
  std::filesystem::create_directory(scratch / "folder.studies");
  ASSERT_EQ(::mkfifo((scratch / "pipe.studies").c_str(), 0600), 0);
  const std::string here = std::filesystem::canonical(scratch.path()).string();
  for (const Access access : {Access::read, Access::write}) {
    EXPECT_EQ(
        refused(scratch / "gone/lift.studies", access),
        "There is no folder " + here + "/gone for \"lift.studies\"; make it, or name a file in another one");
    EXPECT_EQ(refused(scratch / "lift.toml/lift.studies", access),
              "There is no folder " + here +
                  "/lift.toml for \"lift.studies\"; make it, or name a file in another one");
    EXPECT_EQ(refused(scratch / "folder.studies", access),
              there(scratch, "folder.studies") + " is a folder; name a file in it");
    EXPECT_EQ(refused(scratch / "pipe.studies", access),
              there(scratch, "pipe.studies") + " is no plain file; name another one");
  }
  EXPECT_EQ(refused(scratch / "none.studies", Access::read),
            "There is no file " + there(scratch, "none.studies") + "; look at its name and its folder");
  scratch.put("empty.studies", "");
  EXPECT_EQ(refused(scratch / "empty.studies", Access::read),
            there(scratch, "empty.studies") + " holds no studies: it is empty; name another one");
  EXPECT_THAT(scratch.entries(), ElementsAre("empty.studies", "folder.studies", "lift.toml", "pipe.studies"));
}

TEST(RecordFailure, a_file_of_another_kind_is_refused_and_left_alone) {
  const ScratchFolder scratch;
  const std::string short_text = "title = \"Lift\"\n", long_text(10'000, 'x');
  scratch.put("short.toml", short_text);
  scratch.put("long.toml", long_text);
  sql::Connection((scratch / "stock.db").string(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE)
      .run("CREATE TABLE bolt (size)");
  const std::string stock = scratch.text("stock.db");
  for (const Access access : {Access::read, Access::write}) {
    for (const std::string name : {"short.toml", "long.toml"}) {
      EXPECT_EQ(refused(scratch / name, access),
                there(scratch, name) + " cannot be read: it is no file of studies; name another one");
    }
    EXPECT_EQ(refused(scratch / "stock.db", access),
              there(scratch, "stock.db") +
                  " is an SQLite file of another kind, not one of studies; name another file");
  }
  EXPECT_EQ(scratch.text("short.toml"), short_text);
  EXPECT_EQ(scratch.text("long.toml"), long_text);
  EXPECT_TRUE(scratch.text("stock.db") == stock);
  EXPECT_THAT(scratch.entries(), ElementsAre("long.toml", "short.toml", "stock.db"));
}

TEST(RecordFailure, a_file_of_a_newer_version_is_refused_and_left_alone) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 5));
  sql::Connection((scratch / "lift.studies").string(), SQLITE_OPEN_READWRITE).run("PRAGMA user_version = 2");
  const std::string bytes = scratch.text("lift.studies");
  for (const Access access : {Access::read, Access::write}) {
    EXPECT_EQ(refused(scratch / "lift.studies", access),
              there(scratch, "lift.studies") +
                  " was written by a newer version of Poise (form 2 of such files; this version knows form "
                  "1); take "
                  "that version, or name another file");
  }
  EXPECT_TRUE(scratch.text("lift.studies") == bytes);
}

TEST(RecordFailure, a_second_writer_is_refused_until_the_first_is_done_or_dead) {
  const ScratchFolder scratch;
  const auto path = scratch / "lift.studies";
  {
    Record first = opened(path, Access::write);
    EXPECT_EQ(first.keep(study_in(first, heading()), runs(0, 5)), "");
    const std::string why = there(scratch, "lift.studies") +
                            " is being written by another run of Poise (process " +
                            std::to_string(::getpid()) + " on ";
    EXPECT_THAT(refused(path, Access::write), StartsWith(why));
    EXPECT_THAT(said_by_child([&] { return refused(path, Access::write); }), StartsWith(why));
    EXPECT_THAT(said_by_child([&] { return refused(path, Access::write); }),
                EndsWith("); wait until that one is done, or name another file"));
    EXPECT_EQ(holds(path), "whole 5") << "readers are not hindered";
  }
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.studies"));
  said_by_child([&] {
    Record other = opened(path, Access::write);
    other.keep(1, run(5));
    ::raise(SIGKILL);
    return std::string();
  });
  EXPECT_TRUE(scratch.entries().contains("lift.studies-lock"));
  EXPECT_EQ(keep_until_refused(path, 6, 1).second, "");
  EXPECT_EQ(holds(path), "whole 7");
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.studies"));
}

TEST(RecordFailure, a_record_that_was_removed_while_it_is_written_takes_no_more_runs) {
  const ScratchFolder scratch;
  Record record = opened(scratch / "lift.studies", Access::write);
  const long id = study_in(record, heading());
  std::filesystem::remove(scratch / "lift.studies");
  EXPECT_EQ(record.keep(id, run(0)),
            there(scratch, "lift.studies") +
                " was moved or removed while it was written; put it back, or begin again");
}

TEST(RecordFailure, a_truncated_record_is_called_damaged_and_not_written) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 400));
  const std::string bytes = scratch.text("lift.studies").substr(0, std::size_t{3} * 4096);
  scratch.put("lift.studies", bytes);
  EXPECT_EQ(refused(scratch / "lift.studies", Access::write),
            there(scratch, "lift.studies") +
                " cannot be read: it is damaged; put a copy back or begin another file");
  EXPECT_EQ(holds(scratch / "lift.studies"),
            there(scratch, "lift.studies") +
                " cannot be read: it is damaged; put a copy back or begin another file");
  EXPECT_TRUE(scratch.text("lift.studies") == bytes);
}

TEST(RecordFailure, whatever_page_is_damaged_is_answered_with_runs_or_a_sentence) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 200));
  const std::string sound = scratch.text("lift.studies");
  std::mt19937 random(20261126);
  int sentences = 0;
  for (int i = 0; i < 60; ++i) {
    std::string bytes = sound;
    const std::size_t at = random() % bytes.size(), length = 1 + random() % 600;
    for (std::size_t k = at; k < std::min(at + length, bytes.size()); ++k)
      bytes[k] = static_cast<char>(random());
    scratch.put("damaged.studies", bytes);
    const std::string read = holds(scratch / "damaged.studies");
    const std::string written = keep_until_refused(scratch / "damaged.studies", 200, 1).second;
    for (const std::string& said : {read, written}) {
      if (said.empty() || said.starts_with("whole ") || said.starts_with("wrong ")) continue;
      EXPECT_THAT(said, StartsWith(there(scratch, "damaged.studies")));
      EXPECT_THAT(said, HasSubstr("; ")) << "no remedy";
      ++sentences;
    }
  }
  EXPECT_GT(sentences, 40);
}

}  // namespace
}  // namespace poise::study
