// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "diagnose/readings_intake.hpp"
#include "job/stock_csv.hpp"

namespace poise::diagnose {

/// The forms in which readings are written; each takes in what it finds.
void read_toml(std::string_view text, Intake& intake);
void read_csv(std::string_view text, Intake& intake);

/// A column of a header: "G1 [bar]", "time_s", "(shelf)".
struct Column {
  std::string name{};  ///< with the unit where that is not in brackets
  std::string unit{};
  Place place{};
  bool read = true;  ///< false: in round brackets, for people
};
std::vector<Column> columns_of(const job::Row& header);

/// The rows of a CSV text, one line each, split by what splits its header: a comma or, where there is one, a
/// semicolon. What a comment says of all readings is taken in; other comments and empty rows are passed over.
class CsvRows {
 public:
  CsvRows(std::string_view text, Intake& intake);

  /// The next row, or false at the end of the text. A row that is no CSV is complained about and passed over.
  bool next(job::Row& row);
  /// Whether decimals may have a comma.
  bool comma_is_decimal() const { return separator_ == ';'; }

 private:
  bool split(std::string_view line, job::Row& row);
  void take_comment(std::string_view line, Place place);

  std::string_view rest_;
  Intake* intake_;
  int line_ = 0;
  char separator_ = ',';
  bool has_separator_ = false;
};

/// The bodies below a header: one reading a row, or one moment a row.
void read_table(const std::vector<Column>& columns, CsvRows& rows, Intake& intake);
void read_log(const std::vector<Column>& columns, CsvRows& rows, Intake& intake);

/// A decimal comma as a point.
std::string with_point(std::string_view number);

}  // namespace poise::diagnose
