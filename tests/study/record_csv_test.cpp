// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A study as CSV, read back by the grammar of RFC 4180.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <sstream>

#include "desk/scratch_folder.hpp"
#include "study/record_csv.hpp"
#include "study/record_scene.hpp"

namespace poise::study {
namespace {

using testing::HasSubstr;

std::string csv_of(const ScratchFolder& scratch, const Heading& heading, const std::vector<Row>& rows,
                   const units::World& world) {
  make(scratch / "lift.studies", heading, rows);
  std::ostringstream out;
  EXPECT_EQ(write_csv(out, opened(scratch / "lift.studies", Access::read), 1, world), "");
  return out.str();
}

/// RFC 4180 read by its grammar: fields of records.
std::vector<std::vector<std::string>> records_of(const std::string& text) {
  std::vector<std::vector<std::string>> records{{""}};
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
      records.back().back() += text[++i];
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == ',') {
      records.back().emplace_back();
    } else if (!quoted && c == '\n') {
      records.push_back({""});
    } else {
      records.back().back() += c;
    }
  }
  records.pop_back();
  return records;
}

TEST(RecordCsv, one_line_for_each_run_with_units_in_the_head) {
  Heading two = heading();
  two.promises.resize(2);
  const Row row{.number = 12,
                .outcome = Outcome::broken,
                .promises = {{Mark::broken, -2.5e5, -0.02}, {Mark::unseen, std::nullopt, std::nullopt}}};
  const ScratchFolder scratch;
  EXPECT_EQ(csv_of(scratch, two, {row}, units::metric()),
            "number,answer,firm before the clamps,\"firm before the clamps, margin [bar]\",comes down "
            "slowly,\"comes down slowly, margin [mm/s]\"\n"
            "12,broken,broken,-2.5,not seen,\n");
  EXPECT_THAT(csv_of(scratch, two, {row}, units::us()), HasSubstr("margin [psi]"));
}

TEST(RecordCsv, every_margin_reads_back_to_the_same_double) {
  const ScratchFolder scratch;
  const std::vector<Row> rows = runs(0, 200);
  for (const units::World* world : {&units::metric(), &units::us()}) {
    const auto records = records_of(csv_of(scratch, heading(), rows, *world));
    ASSERT_EQ(records.size(), rows.size() + 1);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const auto& fields = records[i + 1];
      EXPECT_EQ(fields[0], std::to_string(rows[i].number));
      EXPECT_EQ(fields.back(), rows[i].detail);
      for (std::size_t k = 0; k < 4; ++k) {
        const auto& margin = rows[i].promises[k].margin;
        const std::string& field = fields[3 + 2 * k];
        ASSERT_EQ(field.empty(), !margin);
        if (!margin) continue;
        const double expected = units::difference_in_unit(*margin, heading().promises[k].quantity, *world);
        EXPECT_TRUE(same_bits(std::strtod(field.c_str(), nullptr), expected)) << field;
      }
    }
  }
}

TEST(RecordCsv, a_difference_of_temperatures_does_not_take_the_zero_of_its_scale) {
  Heading one = heading();
  one.promises = {one.promises[2]};
  const Row row{.number = 0, .outcome = Outcome::held, .promises = {{Mark::held, 10.0, 0.2}}};
  const ScratchFolder scratch;
  EXPECT_EQ(csv_of(scratch, one, {row}, units::us()),
            "number,answer,not too warm,\"not too warm, margin [degF]\"\n0,held,held,18\n");
}

TEST(RecordCsv, names_and_details_may_hold_any_sign) {
  Heading odd = heading();
  odd.promises = {{"up, \"fast\"\nand down", "", Quantity::none}};
  Row row{.number = 0, .outcome = Outcome::held, .promises = {{Mark::held, 1.0, 0.5}}};
  row.detail = "{\"of\":\"V2, V3\"}";
  const ScratchFolder scratch;
  const auto records = records_of(csv_of(scratch, odd, {row}, units::metric()));
  ASSERT_EQ(records.size(), 2U);
  EXPECT_THAT(records[0], testing::ElementsAre("number", "answer", odd.promises[0].name,
                                               odd.promises[0].name + ", margin", "detail"));
  EXPECT_THAT(records[1], testing::ElementsAre("0", "held", "held", "1", row.detail));
}

TEST(RecordCsv, a_study_that_is_not_there_is_said) {
  const ScratchFolder scratch;
  make(scratch / "lift.studies", heading(), {});
  std::ostringstream out;
  EXPECT_EQ(write_csv(out, opened(scratch / "lift.studies", Access::read), 7, units::metric()),
            "There is no such study in the file");
  EXPECT_EQ(out.str(), "");
}

}  // namespace
}  // namespace poise::study
