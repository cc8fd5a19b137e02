// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/run_program.hpp"

namespace poise {
namespace {

constexpr int held = 0, cannot = 2;

TEST(schema, it_is_printed_and_written_as_it_is_kept) {
  const std::string kept = contents(std::filesystem::path(POISE_SOURCE_DIR) / "docs/schema/job.json");
  const Ran printed = run_program("schema");
  EXPECT_EQ(printed.exit_code, held);
  EXPECT_TRUE(printed.text == kept) << "run build/release/poise schema --write docs/schema/job.json";
  const ScratchFile file("job.json", "");
  EXPECT_EQ(run_program("schema --write '" + file.path() + "'").exit_code, held);
  EXPECT_TRUE(contents(file.path()) == kept);
}

TEST(schema, a_file_that_cannot_be_written_is_named) {
  const Ran ran = run_program("schema --write /no-such-folder/job.json");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, testing::HasSubstr("/no-such-folder/job.json"));
}

}  // namespace
}  // namespace poise
