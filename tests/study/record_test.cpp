// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Studies in their file: what comes back of them, by Poise and by any other program that reads SQLite.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>

#include <limits>

#include "desk/scratch_folder.hpp"
#include "study/record_scene.hpp"
#include "study/sql.hpp"

namespace poise::study {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(Record, runs_come_back_to_the_last_bit) {
  const ScratchFolder scratch;
  const std::vector<Row> given = runs(0, 300);
  make(scratch / "lift.studies", heading(), given);
  const Record record = opened(scratch / "lift.studies", Access::read);
  std::string complaint;
  const auto id = record.find(heading(), complaint);
  ASSERT_TRUE(id);
  const std::vector<Row> rows = record.rows(*id, complaint);
  EXPECT_EQ(complaint, "");
  ASSERT_EQ(rows.size(), given.size());
  EXPECT_TRUE(is_beginning_of_study(rows));
}

TEST(Record, the_ends_of_what_a_double_can_be_come_back) {
  using Limits = std::numeric_limits<double>;
  const std::vector<double> ends{
      0.1,       Limits::max(), -Limits::min(), Limits::denorm_min(), 9007199254740993.0, -Limits::infinity(),
      1.0 / 3.0, 9.2e18};
  Heading wide = heading();
  wide.promises.resize(ends.size());
  Row given{.number = std::numeric_limits<long>::max(), .outcome = Outcome::broken};
  for (const double end : ends) given.promises.push_back({Mark::broken, end, -end});
  const ScratchFolder scratch;
  make(scratch / "lift.studies", wide, {given});
  std::string complaint;
  const auto row = opened(scratch / "lift.studies", Access::read).row(1, given.number, complaint);
  ASSERT_TRUE(row) << complaint;
  EXPECT_TRUE(same_run(*row, given));
}

TEST(Record, what_is_not_a_number_is_no_margin) {
  const ScratchFolder scratch;
  Row odd = run(0);
  odd.promises[1].margin = std::numeric_limits<double>::quiet_NaN();
  Record record = opened(scratch / "lift.studies", Access::write);
  const long id = study_in(record, heading());
  EXPECT_EQ(record.keep(id, odd), "");
  EXPECT_EQ(record.keep(id, odd), "") << "the same once more";
  std::string complaint;
  EXPECT_EQ(record.row(id, 0, complaint)->promises[1].margin, std::nullopt);
}

TEST(Record, the_heading_comes_back_and_tells_one_study_from_another) {
  const ScratchFolder scratch;
  Record record = opened(scratch / "lift.studies", Access::write);
  const long spread = study_in(record, heading());
  std::vector<Heading> others(8, heading());
  others[0].kind = "faults";
  others[1].title = "Frame lift, bay 4";
  others[2].fingerprint = "5f0d";
  others[3].options = R"({"seed":8})";
  others[4].version = "0.1.1";
  others[5].job += "# changed\n";
  others[6].first = 1;
  others[7].promises[2].quantity = Quantity::warming;
  std::string complaint;
  for (const Heading& other : others) {
    EXPECT_EQ(record.find(other, complaint), std::nullopt);
    const long id = study_in(record, other);
    EXPECT_NE(id, spread);
    EXPECT_EQ(study_in(record, other), id) << "found again, not added";
  }
  EXPECT_EQ(record.find(heading(), complaint), spread);
  const std::vector<Study> studies = record.studies(complaint);
  ASSERT_EQ(studies.size(), 9U);
  EXPECT_TRUE(same_study(studies.back().heading, others.back()));
  EXPECT_EQ(studies.front().heading.wanted, 100);
  EXPECT_EQ(complaint, "");
}

TEST(Record, more_runs_may_be_wanted_later_and_those_that_are_there_stay) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading("spread", 1000), runs(0, 30));
  Record record = opened(scratch / "lift.studies", Access::write);
  const long id = study_in(record, heading("spread", 10'000));
  std::string complaint;
  EXPECT_EQ(record.studies(complaint).front().heading.wanted, 10'000);
  EXPECT_EQ(record.done(id, complaint).size(), 30U);
  EXPECT_EQ(study_in(record, heading("spread", 500)), id);
  EXPECT_EQ(record.studies(complaint).front().heading.wanted, 10'000) << "lowered";
  EXPECT_EQ(complaint, "");
}

TEST(Record, a_study_begun_anew_has_no_runs_and_others_keep_theirs) {
  const ScratchFolder scratch;
  Record record = opened(scratch / "lift.studies", Access::write);
  const long spread = study_in(record, heading("spread", 1000)), faults = study_in(record, heading("faults"));
  EXPECT_EQ(record.keep(spread, runs(0, 30)), "");
  EXPECT_EQ(record.keep(faults, runs(0, 20)), "");
  EXPECT_EQ(record.forget(spread), "");
  std::string complaint;
  EXPECT_THAT(record.rows(spread, complaint), IsEmpty());
  EXPECT_EQ(record.rows(faults, complaint).size(), 20U);
  EXPECT_EQ(study_in(record, heading("spread", 10)), spread);
  EXPECT_EQ(record.studies(complaint).front().heading.wanted, 10)
      << "nothing is there that a lower number would hide";
  EXPECT_EQ(record.keep(spread, run(3)), "");
  EXPECT_THAT(record.done(spread, complaint), ElementsAre(3));
  EXPECT_EQ(complaint, "");
}

TEST(Record, a_run_that_comes_out_differently_is_refused_and_the_first_one_stays) {
  const ScratchFolder scratch;
  Record record = opened(scratch / "lift.studies", Access::write);
  const long id = study_in(record, heading());
  EXPECT_EQ(record.keep(id, runs(0, 10)), "");
  Row other = run(4);
  other.promises[0].share = other.promises[0].share.value_or(0.0) / 2 + 0.125;
  const std::vector<Row> together{run(10), other};
  EXPECT_EQ(record.keep(id, together),
            "\"" + std::filesystem::canonical(scratch.path()).string() +
                "/lift.studies\" holds run 4 already, with another outcome; begin the "
                "study anew");
  std::string complaint;
  EXPECT_TRUE(is_beginning_of_study(record.rows(id, complaint)));
  EXPECT_EQ(record.done(id, complaint).size(), 10U) << "all of them or none";
  EXPECT_EQ(record.keep(id, run(10)), "");
}

TEST(Record, a_closed_record_is_one_plain_file_that_any_program_reads) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 50));
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.studies"));
  const sql::Connection base((scratch / "lift.studies").string(), SQLITE_OPEN_READONLY);
  EXPECT_EQ(base.value("PRAGMA journal_mode"), "delete");
  EXPECT_EQ(base.value("PRAGMA integrity_check"), "ok");
  EXPECT_EQ(base.value("PRAGMA foreign_key_check"), std::nullopt);
  EXPECT_EQ(base.value("SELECT kind || ', ' || title || ', ' || wanted FROM study"),
            "spread, Frame lift, bay 3, 100");
  EXPECT_EQ(base.value("SELECT name || ', ' || quantity FROM promise WHERE place = 1"),
            "comes down slowly, speed");
  EXPECT_EQ(base.value("SELECT count(*) FROM run WHERE outcome IN ('held', 'broken', 'not proven')"), "50");
  EXPECT_EQ(base.value("SELECT count(*) FROM finding WHERE answer IN ('held', 'broken', 'not seen')"), "200");
}

TEST(Record, the_same_studies_make_the_same_bytes_however_they_came) {
  const ScratchFolder scratch;
  make(scratch / "whole.studies", heading(), runs(0, 200));
  {
    Record record = opened(scratch / "pieces.studies", Access::write);
    const long id = study_in(record, heading("spread", 7));
    for (long number = 199; number >= 0; number -= 2) EXPECT_EQ(record.keep(id, run(number)), "");
    EXPECT_EQ(record.forget(id), "");
    for (long number = 199; number >= 0; number -= 2) EXPECT_EQ(record.keep(id, run(number)), "");
  }
  {
    Record record = opened(scratch / "pieces.studies", Access::write);
    EXPECT_EQ(record.keep(study_in(record, heading()), runs(0, 200)), "");
  }
  EXPECT_EQ(content_of(scratch / "pieces.studies"), content_of(scratch / "whole.studies"));
  EXPECT_TRUE(scratch.text("pieces.studies") == scratch.text("whole.studies"));
  { const Record untouched = opened(scratch / "pieces.studies", Access::write); }
  EXPECT_TRUE(scratch.text("pieces.studies") == scratch.text("whole.studies")) << "opened and closed again";
}

TEST(Record, whoever_has_a_tidied_file_open_sees_what_comes_into_it_later) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 40));
  const Record reader = opened(scratch / "lift.studies", Access::read);
  std::string complaint;
  EXPECT_EQ(reader.rows(1, complaint).size(), 40U);
  for (long number = 40; number < 60; ++number) {
    make(scratch / "lift.studies", heading(), {run(number)});
    const std::vector<Row> rows = reader.rows(1, complaint);
    EXPECT_EQ(rows.size(), static_cast<std::size_t>(number) + 1);
    EXPECT_TRUE(is_beginning_of_study(rows));
  }
  EXPECT_EQ(complaint, "");
}

TEST(Record, its_text_tells_every_difference) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), runs(0, 20));
  const std::string text = content_of(scratch / "lift.studies");
  EXPECT_THAT(text, testing::StartsWith("study \"spread\"\n  title \"Frame lift, bay 3\"\n"));
  std::vector<Row> changed = runs(0, 20);
  changed[7].promises[2].margin = std::nextafter(changed[7].promises[2].margin.value_or(1.0), 0.0);
  make(scratch / "other.studies", heading(), changed);
  EXPECT_NE(content_of(scratch / "other.studies"), text);
}

}  // namespace
}  // namespace poise::study
