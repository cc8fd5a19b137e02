// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <spawn.h>
#include <sys/resource.h>
#include <unistd.h>

#include <nlohmann/json.hpp>
#include <random>

#include "cli/run_program.hpp"
#include "study/load_on_a_shut_jack.hpp"

namespace poise {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr long machines = study::fewer(600);

ScratchFile job() { return {"jack.toml", std::string(study::load_on_a_shut_jack)}; }

std::filesystem::path beside(const ScratchFile& file, const std::string& name) {
  return std::filesystem::path(file.path()).parent_path() / name;
}

std::string spread(const ScratchFile& file, const std::string& more) {
  return "spread " + file.path() + " -n " + std::to_string(machines) + " " + more;
}

/// What the whole study says, run without a break; the same for every test.
const std::string& uninterrupted() {
  static const std::string csv = [] {
    const ScratchFile file = job();
    run_program(spread(file, "--csv " + beside(file, "whole.csv").string()));
    return contents(beside(file, "whole.csv"));
  }();
  return csv;
}

TEST(spread, says_the_share_what_drives_it_and_where_it_breaks_first) {
  const ScratchFile file = job();
  const Ran ran = run_program(spread(file, ""));
  EXPECT_EQ(ran.exit_code, 1) << ran.text;  // a ninth of these machines breaks the promise
  EXPECT_THAT(ran.text, HasSubstr("machines keep every promise"));
  EXPECT_THAT(ran.text, HasSubstr("driven by: F1.force 7"));
  EXPECT_THAT(ran.text, HasSubstr("breaks first: at 0.6"));
  EXPECT_THAT(ran.text, HasSubstr("Keep clear of held loads"));
}

TEST(spread, gives_its_answer_as_json) {
  const ScratchFile file = job();
  const auto json = nlohmann::json::parse(run_program(spread(file, "--json")).text);
  EXPECT_EQ(json["done"], machines);
  EXPECT_EQ(json["promises"][0]["drivers"][0]["name"], "F1.force");
  EXPECT_EQ(json["promises"][0]["nearest"]["inside"], true);
  long counted = 0;
  for (const auto& bar : json["promises"][0]["histogram"]["counts"]) counted += bar.get<long>();
  EXPECT_EQ(counted, machines);
}

TEST(spread, shows_one_machine_with_its_whole_verdict) {
  const ScratchFile file = job();
  const Ran worst = run_program(spread(file, "--sample 0"));
  EXPECT_EQ(worst.exit_code, 0);
  EXPECT_THAT(worst.text, HasSubstr("Machine 0: the job as stated"));
  const Ran off = run_program(spread(file, "--sample 17"));
  EXPECT_THAT(off.text, HasSubstr("F1.force "));
  EXPECT_THAT(off.text, HasSubstr("pressure under the load"));
}

TEST(spread, a_finished_study_is_shown_from_its_file) {
  const ScratchFile file = job();
  const std::string first = run_program(spread(file, "")).text;
  const auto written = std::filesystem::last_write_time(beside(file, "jack.studies"));
  EXPECT_EQ(run_program(spread(file, "")).text, first);
  EXPECT_GE(std::filesystem::last_write_time(beside(file, "jack.studies")), written);
}

TEST(spread, parts_of_it_put_together_are_the_whole) {
  const ScratchFile file = job();
  std::string parts;
  for (const char* shard : {"1/3", "2/3", "3/3"}) {
    const std::string part = beside(file, std::string("part") + shard[0]).string();
    parts += " " + part;
    EXPECT_EQ(run_program(spread(file, "--shard " + std::string(shard) + " --file " + part)).exit_code, 0);
  }
  const std::string whole = beside(file, "whole.studies").string(), csv = beside(file, "whole.csv").string();
  EXPECT_EQ(run_program("merge -o " + whole + parts).exit_code, 0);
  run_program(spread(file, "--file " + whole + " --csv " + csv));
  EXPECT_EQ(contents(csv), uninterrupted());
}

TEST(spread, says_which_parts_are_missing) {
  const ScratchFile file = job();
  const std::string part = beside(file, "part").string();
  run_program(spread(file, "--shard 2/3 --file " + part));
  const Ran ran = run_program("merge -o " + beside(file, "whole").string() + " " + part);
  EXPECT_EQ(ran.exit_code, 1);
  EXPECT_THAT(ran.text, HasSubstr("in none of the files"));
}

/// Starts the program without waiting for it.
pid_t start(const std::string& arguments) {
  const std::string command = "exec '" POISE_PROGRAM "' " + arguments + " >/dev/null 2>&1";
  std::string shell = "sh", flag = "-c", text = command;
  char* const words[] = {shell.data(), flag.data(), text.data(), nullptr};
  pid_t child = 0;
  return posix_spawn(&child, "/bin/sh", nullptr, nullptr, words, environ) == 0 ? child : -1;
}

// Killed at twenty random moments and gone on with each time, it leaves the very rows of the study that
// nobody disturbed. Moments are drawn by what has been recorded, not by the clock: a slow machine is killed
// as often.
TEST(spread, killed_at_twenty_moments_and_resumed_it_says_the_same) {
  const ScratchFile file = job();
  const std::string many = "spread " + file.path() + " -n " + std::to_string(study::fewer(3200)) + " ";
  const std::string csv = beside(file, "broken.csv").string(), whole = beside(file, "whole.csv").string();
  run_program(many + "--file " + beside(file, "whole.studies").string() + " --csv " + whole);
  std::mt19937 bits(20261126);
  std::uniform_int_distribution<int> wait_ms(1, 150);
  int killed = 0;
  for (int round = 0; round < 20; ++round) {
    const pid_t child = start(many + "--resume");
    ASSERT_GT(child, 0);
    usleep(static_cast<useconds_t>(wait_ms(bits)) * 1000);
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    killed += WIFSIGNALED(status);
  }
  EXPECT_GT(killed, 0);
  const Ran ran = run_program(many + "--resume --csv " + csv);
  EXPECT_EQ(ran.exit_code, 1) << ran.text;
  EXPECT_EQ(contents(csv), contents(whole));
  EXPECT_EQ(contents(beside(file, "jack.studies")), contents(beside(file, "whole.studies")));
}

TEST(spread, of_an_unfinished_study_it_asks_what_to_do) {
  const ScratchFile file = job();
  run_program("spread " + file.path() + " -n 100");
  const Ran more = run_program("spread " + file.path() + " -n 200");
  EXPECT_EQ(more.exit_code, 2);
  EXPECT_THAT(more.text, HasSubstr("go on with --resume, or begin again with --anew"));
  EXPECT_EQ(run_program("spread " + file.path() + " -n 200 --resume").exit_code, 1);
}

TEST(spread, says_what_is_wrong_with_its_file) {
  const ScratchFile file = job();
  const Ran nowhere = run_program(spread(file, "--file /nowhere/here.studies"));
  EXPECT_EQ(nowhere.exit_code, 2);
  EXPECT_THAT(nowhere.text, HasSubstr("/nowhere"));
  const Ran itself = run_program(spread(file, "--file " + file.path()));
  EXPECT_EQ(itself.exit_code, 2);
  EXPECT_EQ(contents(file.path()), study::load_on_a_shut_jack);
  EXPECT_EQ(run_program(spread(file, "--shard 4/3")).exit_code, 2);
}

TEST(spread, a_job_that_gives_no_answer_is_not_spread) {
  const ScratchFile file("broken.toml", "title = \"nothing\"\n[parts.C1]\nkind = \"sprocket\"\n");
  const Ran ran = run_program("spread " + file.path());
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.text, HasSubstr("sprocket"));
  EXPECT_THAT(ran.text, Not(HasSubstr("machines")));
}

}  // namespace
}  // namespace poise
