// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The commands that look for values and circuits, as a practitioner meets them. Whole machines stand in
// tests/answers.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr int held = 0, broken = 1, cannot = 2;

const std::string known = contents(POISE_SOURCE_DIR "/tests/search/known/relief-between.toml");
const std::string impossible =
    contents(POISE_SOURCE_DIR "/tests/search/impossible/force-against-pressure.toml");

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  return text.replace(text.find(from), from.size(), to);
}

TEST(find, writes_the_found_value_into_the_job_and_says_where_it_would_break) {
  const ScratchFile job("relief.toml", known);
  const Ran ran = run_program("find '" + job.path() + "'");
  EXPECT_EQ(ran.exit_code, held) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("FOUND: every requirement holds"));
  EXPECT_THAT(ran.text,
              testing::ContainsRegex("setting +[0-9.]+ bar +holds from [0-9.]+ bar to [0-9.]+ bar"));
  EXPECT_THAT(ran.text, HasSubstr("Local codes and a licensed person decide"));
  EXPECT_THAT(contents(job.path()), Not(HasSubstr("\"find\"")));
  EXPECT_EQ(run_program("prove '" + job.path() + "'").exit_code, held);
}

TEST(find, dry_leaves_the_file_as_it_is) {
  const ScratchFile job("relief.toml", known);
  EXPECT_EQ(run_program("find --dry '" + job.path() + "'").exit_code, held);
  EXPECT_EQ(contents(job.path()), known);
}

TEST(find, writes_nothing_where_nothing_can_hold_everything_and_names_the_conflict) {
  const ScratchFile job("press.toml", impossible);
  const Ran ran = run_program("find '" + job.path() + "'");
  EXPECT_EQ(ran.exit_code, broken) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("No trial held these together:"));
  EXPECT_THAT(ran.text, HasSubstr("it would have to give"));
  EXPECT_EQ(contents(job.path()), impossible);
}

TEST(find, a_job_without_an_open_value_is_told_how_to_leave_one_open) {
  const Ran ran = run_program("find jobs/drilling-stand.toml 2>&1");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("leaves nothing open; write \"find\" in place of a value"));
}

TEST(find, a_job_with_an_open_value_is_not_proven) {
  const ScratchFile job("relief.toml", known);
  const Ran ran = run_program("prove '" + job.path() + "' 2>&1");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("is left open; \"poise find\" works it out and writes it here"));
}

TEST(find, a_stock_without_a_fitting_item_says_why_each_does_not_fit) {
  const ScratchFile list("valves.csv",
                         "model,kind,cost,rated_flow [L/min],setting_from [bar],setting_to [bar]\n"
                         "soft valve,relief,10,10,1,20\n");
  std::string text =
      replaced(known, "units = \"metric\"", "units = \"metric\"\nstock = \"" + list.path() + "\"");
  text = replaced(text, "setting = \"find\"", "setting = \"120 bar\"");
  text = replaced(text, "kind = \"relief\"", "kind = \"relief\"\nmodel = \"find\"");
  text = replaced(text, "\nrated_flow = \"10 L/min\"", "");
  const ScratchFile job("relief.toml", text);
  const Ran ran = run_program("find '" + job.path() + "' 2>&1");
  EXPECT_EQ(ran.exit_code, broken) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("NOT FOUND: the stock has nothing that fits"));
  EXPECT_THAT(ran.text, HasSubstr("soft valve  setting from 1.00 bar to 20.0 bar, the job sets 120 bar"));
}

TEST(propose, a_job_without_a_circuit_is_not_proven_and_is_told_what_composes_one) {
  const Ran ran = run_program("prove jobs/without-circuit/single-lift.toml 2>&1");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("\"poise propose\" composes"));
}

TEST(propose, what_is_there_already_is_not_written_over) {
  const ScratchFile mine("single-lift-1.toml", "# worked on by hand\n");
  const std::string folder = std::filesystem::path(mine.path()).parent_path();
  const Ran ran = run_program("propose jobs/without-circuit/single-lift.toml -o '" + folder + "'");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("is there already and is not written over"));
  EXPECT_EQ(contents(mine.path()), "# worked on by hand\n");
}

TEST(propose, a_job_that_has_its_circuit_is_refused) {
  const Ran ran = run_program("propose jobs/drilling-stand.toml 2>&1");
  EXPECT_EQ(ran.exit_code, cannot) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("no step says what is to move"));
  EXPECT_THAT(ran.text, HasSubstr("1 complaint"));
}

}  // namespace
}  // namespace poise
