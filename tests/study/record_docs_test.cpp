// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// docs/studies.md says of the file what is true.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>

#include <fstream>
#include <iterator>

#include "desk/scratch_folder.hpp"
#include "study/record_scene.hpp"
#include "study/sql.hpp"

namespace poise::study {
namespace {

using testing::HasSubstr;

std::string page() {
  std::ifstream in(std::filesystem::path(POISE_SOURCE_DIR) / "docs/studies.md", std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(RecordPage, its_questions_are_answered_by_a_record) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 50));
  const sql::Connection base((scratch / "lift.studies").string(), SQLITE_OPEN_READONLY);
  const std::string text = page(), begin = "```sql\n";
  int questions = 0;
  for (std::size_t at = text.find(begin); at != std::string::npos;
       at = text.find(begin, at + 1), ++questions) {
    const std::size_t from = at + begin.size();
    const std::string question = text.substr(from, text.find("```", from) - from);
    EXPECT_TRUE(base.value(question)) << question << base.error().message;
  }
  EXPECT_EQ(questions, 2);
}

TEST(RecordPage, it_names_every_table_and_column) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), {});
  const sql::Connection base((scratch / "lift.studies").string(), SQLITE_OPEN_READONLY);
  sql::Statement columns(base,
                         "SELECT t.name, c.name FROM sqlite_schema AS t, pragma_table_info(t.name) AS c"
                         " WHERE t.type = 'table'");
  const std::string text = page();
  int count = 0;
  for (columns.with(); columns.next(); ++count) {
    const std::size_t line = text.find("| `" + columns.text(0) + "` |");
    ASSERT_NE(line, std::string::npos) << columns.text(0);
    EXPECT_THAT(text.substr(line, text.find('\n', line) - line), HasSubstr("`" + columns.text(1) + "`"));
  }
  EXPECT_EQ(count, 9 + 5 + 4 + 6);
}

}  // namespace
}  // namespace poise::study
