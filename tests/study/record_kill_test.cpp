// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A record whose writer is killed, and one that is read while it is written.
#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>

#include "desk/scratch_folder.hpp"
#include "study/record_scene.hpp"

namespace poise::study {
namespace {

using testing::ElementsAre;

constexpr long wanted = 20'000;

/// Goes on with a study until it is killed, telling the number of each run once it is recorded. Now and then
/// it closes the record and opens it again, so that this is cut short too.
[[noreturn]] void study_for_ever(const std::filesystem::path& path, int told) {
  for (;;) {
    auto opening = Record::open(path, Access::write);
    auto* record = std::get_if<Record>(&opening);
    if (record == nullptr) ::_exit(2);
    std::string complaint;
    const long id = record->study(heading("spread", wanted), complaint);
    const std::vector<long> done = record->done(id, complaint);
    if (!complaint.empty()) ::_exit(3);
    long number = done.empty() ? 0 : done.back() + 1;
    for (const long end = number + 25; number < end; ++number) {
      if (!record->keep(id, run(number)).empty()) ::_exit(4);
      if (::write(told, &number, sizeof number) != sizeof number) ::_exit(5);
    }
    if (!record->close().empty()) ::_exit(6);
  }
}

/// Lets it run from where the last one was killed, kills it, and gives the number of the last run it told of.
long killed_after(const std::filesystem::path& path, useconds_t moment, int& status) {
  std::array<int, 2> pipe{};
  if (::pipe2(pipe.data(), O_CLOEXEC) != 0) return -1;
  const pid_t child = ::fork();
  if (child == 0) study_for_ever(path, pipe[1]);
  ::close(pipe[1]);
  long told = -1;
  if (::read(pipe[0], &told, sizeof told) == sizeof told) {
    ::usleep(moment);
    ::kill(child, SIGKILL);
  }
  ::waitpid(child, &status, 0);
  for (long next = 0; ::read(pipe[0], &next, sizeof next) > 0;) told = next;
  ::close(pipe[0]);
  return told;
}

void hold_through_twenty_kills(const ScratchFolder& scratch, std::uint32_t seed) {
  const std::filesystem::path path = scratch / "lift.studies";
  std::mt19937 random(seed);
  std::uniform_int_distribution<useconds_t> moment(0, 15'000);
  for (int kill_number = 0; kill_number < 20; ++kill_number) {
    int status = 0;
    const long told = killed_after(path, moment(random), status);
    ASSERT_TRUE(WIFSIGNALED(status)) << "it gave up by itself, at " << WEXITSTATUS(status);
    const Record record = opened(path, Access::read);
    std::string complaint;
    const std::vector<Row> rows = record.rows(1, complaint);
    ASSERT_EQ(complaint, "") << "kill " << kill_number;
    ASSERT_TRUE(is_beginning_of_study(rows)) << "kill " << kill_number;
    const auto found = static_cast<long>(rows.size());
    ASSERT_TRUE(found == told + 1 || found == told + 2) << found << " runs after it told of number " << told;
  }
}

/// Finishes the study to a round number of runs and compares it with one that was never interrupted.
void expect_the_uninterrupted_study(const ScratchFolder& scratch) {
  long end = 0;
  {
    Record record = opened(scratch / "lift.studies", Access::write);
    std::string complaint;
    const long id = study_in(record, heading("spread", wanted));
    const std::vector<long> done = record.done(id, complaint);
    end = (done.back() / 100 + 1) * 100;
    for (long number = done.back() + 1; number < end; ++number) ASSERT_EQ(record.keep(id, run(number)), "");
    EXPECT_EQ(record.close(), "");
  }
  make(scratch / "uninterrupted.studies", heading("spread", wanted), runs(0, end));
  EXPECT_EQ(content_of(scratch / "lift.studies"), content_of(scratch / "uninterrupted.studies"));
  EXPECT_TRUE(scratch.text("lift.studies") == scratch.text("uninterrupted.studies")) << "not the same bytes";
}

TEST(RecordKilled, at_any_moment_loses_the_run_under_way_at_most_and_goes_on_to_the_same_study) {
  const ScratchFolder scratch;
  hold_through_twenty_kills(scratch, 20261126);
  expect_the_uninterrupted_study(scratch);
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.studies", "uninterrupted.studies"));
}

TEST(RecordKilled, the_same_without_shared_memory) {
  const ScratchFolder scratch;
  // A folder in the place of the shared memory: SQLite cannot have any.
  std::filesystem::create_directory(scratch / "lift.studies-shm");
  hold_through_twenty_kills(scratch, 20261127);
  expect_the_uninterrupted_study(scratch);
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.studies", "lift.studies-shm", "uninterrupted.studies"));
}

/// Reads again and again while a child writes 200 runs; every time a whole number of runs, and never fewer.
void read_while_written(const ScratchFolder& scratch) {
  const std::filesystem::path path = scratch / "lift.studies";
  make(path, heading(), {});
  std::array<int, 2> pipe{};
  ASSERT_EQ(::pipe2(pipe.data(), O_CLOEXEC), 0);
  const pid_t child = ::fork();
  if (child == 0) {
    auto opening = Record::open(path, Access::write);
    auto* record = std::get_if<Record>(&opening);
    bool well = record != nullptr && ::write(pipe[1], "", 1) == 1;
    for (long number = 0; well && number < 200; ++number) well = record->keep(1, run(number)).empty();
    if (record != nullptr) record->close();
    ::_exit(well ? 0 : 1);
  }
  ::close(pipe[1]);
  char ready = 0;
  ASSERT_EQ(::read(pipe[0], &ready, 1), 1) << "the writer gave up";
  ::close(pipe[0]);
  int status = 0;
  {
    const Record record = opened(path, Access::read);
    std::size_t seen = 0;
    for (bool written = false; !written;) {
      written = ::waitpid(child, &status, WNOHANG) == child;
      std::string complaint;
      const std::vector<Row> rows = record.rows(1, complaint);
      ASSERT_EQ(complaint, "");
      ASSERT_TRUE(is_beginning_of_study(rows));
      ASSERT_GE(rows.size(), seen);
      seen = rows.size();
    }
    EXPECT_EQ(seen, 200U);
  }
  EXPECT_EQ(status, 0);
}

TEST(RecordRead, while_it_is_written_whole_runs_are_seen_and_more_and_more_of_them) {
  const ScratchFolder scratch;
  read_while_written(scratch);
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.studies")) << "the last who has it open tidies up";
}

TEST(RecordRead, without_shared_memory_too) {
  const ScratchFolder scratch;
  std::filesystem::create_directory(scratch / "lift.studies-shm");
  read_while_written(scratch);
}

}  // namespace
}  // namespace poise::study
