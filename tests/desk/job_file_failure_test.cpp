// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What is left of a job when its disk, its folder or its writer fails.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sched.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <random>

#include "desk/child.hpp"
#include "desk/job_file.hpp"
#include "desk/scratch_folder.hpp"

namespace poise {
namespace {

using desk::Folder;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

TEST(JobFileFailure, a_folder_that_one_may_not_write_in_is_named_and_keeps_its_job) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", "old");
  ASSERT_EQ(::chmod(scratch.path().c_str(), 0555), 0);
  const std::string said = said_by_child([&] {
    if (!become_ordinary()) return std::string("no other rights");
    const Folder folder(scratch.path());
    return folder.read("lift.toml").value_or("unread") + "; " + folder.write("lift.toml", "new") + "; " +
           folder.create("new.toml", "new");
  });
  ::chmod(scratch.path().c_str(), 0755);
  const std::string here =
      "you may not write in the folder " + std::filesystem::canonical(scratch.path()).string();
  EXPECT_THAT(said, StartsWith("old; "));
  EXPECT_THAT(said, HasSubstr("\"lift.toml\" cannot be written: "));
  EXPECT_THAT(said, HasSubstr("\"new.toml\" cannot be written: " + here));
  EXPECT_EQ(scratch.text("lift.toml"), "old");
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.toml"));
}

TEST(JobFileFailure, a_write_protected_job_is_not_replaced_although_the_folder_would_allow_it) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", "old");
  ASSERT_EQ(::chmod((scratch / "lift.toml").c_str(), 0444), 0);
  ASSERT_EQ(::chmod(scratch.path().c_str(), 0777), 0);
  const std::string said = said_by_child([&] {
    if (!become_ordinary()) return std::string("no other rights");
    return Folder(scratch.path()).write("lift.toml", "new");
  });
  EXPECT_EQ(said,
            "\"lift.toml\" cannot be written: it is write-protected; allow writing to it (chmod u+w), or use "
            "another "
            "name");
  EXPECT_EQ(scratch.text("lift.toml"), "old");
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.toml"));
}

TEST(JobFileFailure, a_file_that_one_may_not_read_is_no_job) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", "secret");
  ASSERT_EQ(::chmod((scratch / "lift.toml").c_str(), 0000), 0);
  ASSERT_EQ(::chmod(scratch.path().c_str(), 0755), 0);
  EXPECT_EQ(said_by_child([&] {
              if (!become_ordinary()) return std::string("no other rights");
              return Folder(scratch.path()).read("lift.toml").value_or("unread");
            }),
            "unread");
}

TEST(JobFileFailure, a_limit_on_the_size_of_files_leaves_the_old_job_and_no_draft) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", "old");
  const std::string said = said_by_child([&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1000, 1000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    return Folder(scratch.path()).write("lift.toml", std::string(5000, 'x'));
  });
  EXPECT_EQ(
      said,
      "\"lift.toml\" cannot be written: the system allows no file of this size here; raise the limit (ulimit "
      "-f)");
  EXPECT_EQ(scratch.text("lift.toml"), "old");
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.toml"));
}

TEST(JobFileFailure, a_full_disk_leaves_the_old_job_and_no_draft) {
  const ScratchFolder scratch;
  const std::string said = said_by_child([&] {
    // A disk of 64 kB that only this process sees.
    if (::unshare(CLONE_NEWNS) != 0 && ::unshare(CLONE_NEWUSER | CLONE_NEWNS) != 0)
      return std::string("no disk");
    ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr);
    if (::mount("tmpfs", scratch.path().c_str(), "tmpfs", 0, "size=64k") != 0) return std::string("no disk");
    const Folder folder(scratch.path());
    const std::string small = folder.write("lift.toml", "old");
    const std::string large = folder.write("lift.toml", std::string(200'000, 'x'));
    return small + large + "; " + scratch.text("lift.toml") + "; " + std::to_string(scratch.entries().size());
  });
  if (said == "no disk") GTEST_SKIP() << "this machine lets nobody mount a small disk";
  EXPECT_EQ(said, "\"lift.toml\" cannot be written: the disk is full; make room and try again; old; 1");
}

TEST(JobFileFailure, a_folder_that_is_gone_is_named) {
  const ScratchFolder scratch;
  std::filesystem::create_directory(scratch / "jobs");
  scratch.put("jobs/lift.toml", "old");
  const Folder folder(scratch / "jobs");
  std::filesystem::remove_all(scratch / "jobs");
  const std::string gone =
      "The folder " + folder.path().string() + " is no longer there; make it again, or use another one";
  EXPECT_EQ(folder.write("lift.toml", "new"), gone);
  EXPECT_EQ(folder.create("new.toml", "new"), gone);
  EXPECT_EQ(folder.read("lift.toml"), std::nullopt);
  EXPECT_THAT(folder.names(), IsEmpty());
}

TEST(JobFileFailure, a_folder_that_became_a_link_to_another_one_is_not_followed) {
  const ScratchFolder scratch;
  std::filesystem::create_directories(scratch / "elsewhere");
  std::filesystem::create_directory(scratch / "jobs");
  scratch.put("elsewhere/lift.toml", "theirs");
  const Folder folder(scratch / "jobs");
  std::filesystem::remove(scratch / "jobs");
  std::filesystem::create_symlink("elsewhere", scratch / "jobs");
  EXPECT_EQ(folder.read("lift.toml"), std::nullopt);
  EXPECT_THAT(folder.write("lift.toml", "new"), HasSubstr("no longer there"));
  EXPECT_EQ(scratch.text("elsewhere/lift.toml"), "theirs");
}

TEST(JobFileFailure, a_file_that_turns_into_a_link_at_any_moment_leads_nowhere) {
  const ScratchFolder scratch;
  std::filesystem::create_directory(scratch / "jobs");
  scratch.put("secret.toml", "secret");
  scratch.put("jobs/lift.toml", "ours");
  const pid_t attacker = ::fork();
  // NOLINTNEXTLINE(bugprone-infinite-loop): the attacker goes on until it is killed
  for (unsigned turn = 0; attacker == 0; ++turn) {
    const auto next = scratch / "next";
    if (turn % 2 == 0) {
      std::filesystem::create_symlink("../secret.toml", next);
    } else {
      scratch.put("next", "ours");
    }
    std::filesystem::rename(next, scratch / "jobs/lift.toml");
  }
  const Folder folder(scratch / "jobs");
  for (int i = 0; i < 3000; ++i) {
    const auto text = folder.read("lift.toml");
    EXPECT_NE(text, "secret");
    if (i % 50 == 0) folder.write("lift.toml", "ours");
  }
  ::kill(attacker, SIGKILL);
  ::waitpid(attacker, nullptr, 0);
  EXPECT_EQ(scratch.text("secret.toml"), "secret");
}

/// The text with a number: 4 to 68 kB, so that writing it takes several pages, and none is the beginning of
/// another.
std::string version(int number) {
  std::string text = "# " + std::to_string(number) + "\n";
  const std::string line = "line of version " + std::to_string(number) + "\n";
  for (int i = 0; i < 200 + number % 7 * 500; ++i) text += line;
  return text;
}

/// Writes version after version without pause from a number on, telling of each when it is on disk.
[[noreturn]] void write_for_ever(const ScratchFolder& scratch, int number, int told) {
  const Folder folder(scratch.path());
  for (;; ++number) {
    if (!folder.write("lift.toml", version(number)).empty()) ::_exit(1);
    if (::write(told, &number, sizeof number) != sizeof number) ::_exit(1);
  }
}

TEST(JobFileFailure,
     a_writer_killed_at_any_moment_leaves_a_whole_version_not_older_than_the_last_one_it_told_of) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", version(0));
  std::mt19937 random(20261126);
  std::uniform_int_distribution<useconds_t> moment(0, 1500);
  int told = 0, drafts_left = 0;
  for (int kill_number = 0; kill_number < 200; ++kill_number) {
    std::array<int, 2> pipe{};
    ASSERT_EQ(::pipe2(pipe.data(), O_CLOEXEC), 0);
    const pid_t child = ::fork();
    if (child == 0) write_for_ever(scratch, told + 1, pipe[1]);
    ::close(pipe[1]);
    ASSERT_EQ(::read(pipe[0], &told, sizeof told), static_cast<ssize_t>(sizeof told)) << "the writer gave up";
    ::usleep(moment(random));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    for (int next = 0; ::read(pipe[0], &next, sizeof next) > 0;) told = next;
    ::close(pipe[0]);
    const std::string text = scratch.text("lift.toml");
    const int found = std::stoi(text.substr(2));
    ASSERT_TRUE(text == version(found)) << "kill " << kill_number << ": version " << found << " is not whole";
    ASSERT_TRUE(found == told || found == told + 1)
        << "kill " << kill_number << ": " << found << " after " << told;
    ASSERT_LE(scratch.entries().size(), 2U) << "drafts of earlier runs are cleared by the next one";
    if (scratch.entries().size() == 2) ++drafts_left;
    told = found;
  }
  RecordProperty("drafts_left", drafts_left);
  EXPECT_EQ(Folder(scratch.path()).write("lift.toml", "the last"), "");
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.toml"));
}

TEST(JobFileFailure, two_programs_that_write_in_one_folder_do_not_clear_each_others_drafts) {
  const ScratchFolder scratch;
  const auto write_many = [&](const std::string& name) {
    const Folder folder(scratch.path());
    for (int i = 0; i < 200; ++i) {
      if (const std::string why = folder.write(name, version(i)); !why.empty()) return why;
    }
    return std::string("all");
  };
  const pid_t other = ::fork();
  if (other == 0) ::_exit(write_many("press.toml") == "all" ? 0 : 1);
  EXPECT_EQ(write_many("lift.toml"), "all");
  int status = -1;
  ::waitpid(other, &status, 0);
  EXPECT_EQ(status, 0);
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.toml", "press.toml"));
}

}  // namespace
}  // namespace poise
