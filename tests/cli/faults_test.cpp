// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "study/load_on_a_shut_jack.hpp"

namespace poise {
namespace {

using testing::HasSubstr;
using testing::Not;

ScratchFile job() { return {"jack.toml", std::string(study::load_on_a_shut_jack)}; }

std::string beside(const ScratchFile& file, const std::string& name) {
  return (std::filesystem::path(file.path()).parent_path() / name).string();
}

Ran faults(const ScratchFile& file, const std::string& more) {
  return run_program("faults " + file.path() + " " + more);
}

// A force half as great again brings the pressure from 139 bar over its 150 bar; nothing in this circuit
// shows it, since there is no gauge.
TEST(faults, name_what_breaks_from_what_size_on_and_what_shows_it) {
  const ScratchFile file = job();
  const Ran ran = faults(file, "");
  EXPECT_EQ(ran.exit_code, 1) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("F1 greater than reckoned"));
  EXPECT_THAT(ran.text, HasSubstr("pressure under the load: highest"));
  EXPECT_THAT(ran.text, HasSubstr("by nothing in this circuit"));
  EXPECT_THAT(ran.text, HasSubstr("Keep clear of held loads"));
}

TEST(faults, are_shown_from_the_file_once_they_are_through) {
  const ScratchFile file = job();
  const std::string first = faults(file, "").text;
  EXPECT_EQ(faults(file, "").text, first);
  EXPECT_EQ(faults(file, "--anew").text, first);
}

TEST(faults, give_their_answer_as_json_and_as_a_table) {
  const ScratchFile file = job();
  const auto json = nlohmann::json::parse(faults(file, "--json").text);
  EXPECT_EQ(json["done"], json["wanted"]);
  EXPECT_EQ(json["faults"].size(), json["wanted"].get<std::size_t>());
  faults(file, "--csv " + beside(file, "faults.csv"));
  const std::string csv = contents(beside(file, "faults.csv"));
  EXPECT_EQ(std::ranges::count(csv, '\n'), json["wanted"].get<long>() + 1);
  EXPECT_THAT(csv, HasSubstr("can damage"));
}

TEST(faults, parts_of_their_study_put_together_are_the_whole) {
  const ScratchFile file = job();
  const std::string whole = beside(file, "whole.studies"), a = beside(file, "a"), b = beside(file, "b");
  faults(file, "--file " + whole);
  EXPECT_EQ(faults(file, "--shard 1/2 --file " + a).exit_code, 0);
  const Ran half = run_program("merge -o " + beside(file, "half") + " " + a);
  EXPECT_EQ(half.exit_code, 1) << half.text;
  EXPECT_THAT(half.text, HasSubstr("in none of the files"));
  EXPECT_EQ(faults(file, "--shard 2/2 --file " + b).exit_code, 0);
  const Ran merged = run_program("merge -o " + beside(file, "merged") + " " + b + " " + a);
  EXPECT_EQ(merged.exit_code, 0) << merged.text;
  EXPECT_EQ(contents(beside(file, "merged")), contents(whole));
}

TEST(faults, a_part_has_no_answer_of_its_own) {
  const ScratchFile file = job();
  for (const char* wish : {"--csv x.csv", "--json", "--pairs"}) {
    const Ran ran = faults(file, std::string("--shard 1/2 ") + wish);
    EXPECT_EQ(ran.exit_code, 2) << wish;
    EXPECT_THAT(ran.text, HasSubstr("poise merge"));
  }
}

// Pairs hang on what single faults do: a part of them begins with a copy of the merged file.
TEST(faults, pairs_in_parts_are_the_whole) {
  const ScratchFile file = job();
  const std::string all = beside(file, "all"), whole = beside(file, "whole.studies");
  faults(file, "--file " + all);
  std::string parts;
  for (const char* part : {"1", "2"}) {
    const std::string name = beside(file, std::string("pairs") + part);
    std::filesystem::copy(all, name);
    const Ran ran = faults(file, "--pairs --resume --file " + name + " --shard " + part + "/2");
    EXPECT_EQ(ran.exit_code, 0) << ran.text;
    parts += " " + name;
  }
  EXPECT_EQ(run_program("merge -o " + beside(file, "merged") + parts).exit_code, 0);
  faults(file, "--pairs --file " + whole);
  EXPECT_EQ(contents(beside(file, "merged")), contents(whole));
}

TEST(faults, that_break_nothing_alone_are_tried_in_pairs_on_request) {
  const ScratchFile file = job();
  EXPECT_THAT(faults(file, "").text, Not(HasSubstr(", with ")));
  const auto json = nlohmann::json::parse(faults(file, "--pairs --json").text);
  EXPECT_GT(json["pairs"].size(), 0u);
}

}  // namespace
}  // namespace poise
