// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "study/record.hpp"
#include "study/sql.hpp"

namespace poise::study {

/// Adds runs to the tables. Whoever calls sees to the transaction.
class RowWriter {
 public:
  explicit RowWriter(const sql::Connection& base);
  /// Whether the run is in the tables now; else the connection knows why not.
  bool insert(long study, const Row& row);

 private:
  sql::Statement run_, finding_;
};

/// What came of reading tables.
enum class Was { read, damaged, refused };  ///< `refused`: the connection knows why

/// Hands over the runs of a study by number, or the one of a number.
Was read_rows(const sql::Connection& base, long study, std::optional<long> only,
              const std::function<void(const Row&)>& take);
/// Adds the studies of a file in the order of their numbers.
Was read_studies(const sql::Connection& base, std::vector<Study>& studies);

/// Adds a study with its promises; its number, 0 where that did not work.
long insert_study(const sql::Connection& base, const Heading& heading);

/// Whether two runs are the same to the last bit that a table keeps.
bool same_row(const Row& a, const Row& b);

}  // namespace poise::study
