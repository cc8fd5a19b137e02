// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Invented studies for the tests of records.
#pragma once

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <random>
#include <utility>

#include "study/record.hpp"

namespace poise::study {

inline Heading heading(std::string kind = "spread", long wanted = 100) {
  return {.kind = std::move(kind),
          .title = "Frame lift, bay 3",
          .fingerprint = "5f0c",
          .options = R"({"seed":7})",
          .version = "0.1.0",
          .job = "title = \"Frame lift, bay 3\"\n",
          .wanted = wanted,
          .promises = {{"firm before the clamps", "C1.A.pressure above 120 bar", Quantity::pressure},
                       {"comes down slowly", "C1.speed never above 3 mm/s", Quantity::speed},
                       {"not too warm", "oil never above 60 degC", Quantity::temperature},
                       {"cycles", "at least 3", Quantity::none}}};
}

/// Any double but those that are not a number.
inline double any_double(std::mt19937_64& random) {
  for (;;) {
    const auto value = std::bit_cast<double>(random());
    if (!std::isnan(value)) return value;
  }
}

/// The run of a number, always the same one: its margins are of every size a double can have.
inline Row run(long number, std::size_t promises = 4) {
  std::mt19937_64 random(static_cast<std::uint64_t>(number) + 20261126U);
  Row row{.number = number, .outcome = static_cast<Outcome>(random() % 3)};
  for (std::size_t i = 0; i < promises; ++i) {
    Kept kept{.mark = static_cast<Mark>(random() % 3)};
    if (random() % 4 != 0) kept.margin = random() % 4 == 0 ? double(random() % 50) : any_double(random);
    if (random() % 4 != 0) kept.share = any_double(random);
    row.promises.push_back(kept);
  }
  if (random() % 3 == 0) row.detail = R"({"machine":)" + std::to_string(random() % 1000) + "}";
  return row;
}

inline std::vector<Row> runs(long first, long end, long every = 1) {
  std::vector<Row> rows;
  for (long number = first; number < end; number += every) rows.push_back(run(number));
  return rows;
}

/// A record that must open.
inline Record opened(const std::filesystem::path& path, Access access) {
  auto record = Record::open(path, access);
  if (const auto* complaint = std::get_if<std::string>(&record)) ADD_FAILURE() << *complaint;
  return std::get<Record>(std::move(record));
}

/// The complaint of a record that must not open.
inline std::string refused(const std::filesystem::path& path, Access access) {
  const auto record = Record::open(path, access);
  const auto* complaint = std::get_if<std::string>(&record);
  return complaint == nullptr ? "it opened" : *complaint;
}

/// The study of a heading in a record that takes it.
inline long study_in(Record& record, const Heading& heading) {
  std::string complaint;
  const long id = record.study(heading, complaint);
  EXPECT_EQ(complaint, "");
  return id;
}

/// Makes a file with one study.
inline void make(const std::filesystem::path& path, const Heading& heading, const std::vector<Row>& rows) {
  Record record = opened(path, Access::write);
  EXPECT_EQ(record.keep(study_in(record, heading), rows), "");
  EXPECT_EQ(record.close(), "");
}

inline std::string content_of(const std::filesystem::path& path) {
  std::string complaint;
  std::string text = content(opened(path, Access::read), complaint);
  EXPECT_EQ(complaint, "");
  return text;
}

/// Numbers from 0, one each, all as they should be: what a record that was written in order holds at any
/// moment.
inline ::testing::AssertionResult is_beginning_of_study(const std::vector<Row>& rows);

/// To the last bit; what is not a number and the sign of zero are not kept.
inline bool same_bits(const std::optional<double>& a, const std::optional<double>& b) {
  if (!a || !b || *a == 0.0) return a == b;
  return std::bit_cast<std::uint64_t>(*a) == std::bit_cast<std::uint64_t>(*b);
}

inline bool same_run(const Row& a, const Row& b) {
  bool same = a.number == b.number && a.outcome == b.outcome && a.detail == b.detail &&
              a.promises.size() == b.promises.size();
  for (std::size_t i = 0; same && i < a.promises.size(); ++i) {
    same = a.promises[i].mark == b.promises[i].mark &&
           same_bits(a.promises[i].margin, b.promises[i].margin) &&
           same_bits(a.promises[i].share, b.promises[i].share);
  }
  return same;
}

inline ::testing::AssertionResult is_beginning_of_study(const std::vector<Row>& rows) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!same_run(rows[i], run(static_cast<long>(i))))
      return ::testing::AssertionFailure() << "run " << rows[i].number << " at place " << i << " is another";
  }
  return ::testing::AssertionSuccess();
}

}  // namespace poise::study
