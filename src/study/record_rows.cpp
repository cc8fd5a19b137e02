// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/record_rows.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <cmath>

#include "judge/outcome.hpp"
#include "study/record_schema.hpp"
#include "units/units.hpp"

namespace poise::study {
namespace {

constexpr std::string_view rows_of_study = R"(
SELECT run.number, run.outcome, run.detail, finding.place, finding.answer, finding.margin, finding.share
FROM run LEFT JOIN finding ON finding.study = run.study AND finding.number = run.number
WHERE run.study = ? AND run.number BETWEEN ? AND ? ORDER BY run.number, finding.place)";
constexpr int number = 0, outcome = 1, detail = 2, place = 3, answer = 4, margin = 5, share = 6;

std::optional<double> known(const std::optional<double>& value) {
  return value && std::isnan(*value) ? std::nullopt : value;
}

/// The promise of the row that the statement stands on; false where the words are none of ours.
bool add_promise(const sql::Statement& rows, Row& row) {
  const auto mark = mark_of(rows.text(answer));
  if (!mark || rows.integer(place) != static_cast<long>(row.promises.size())) return false;
  row.promises.push_back({*mark, rows.number(margin), rows.number(share)});
  return true;
}

bool read_promises(const sql::Connection& base, Study& study) {
  sql::Statement promises(base,
                          "SELECT name, promised, quantity FROM promise WHERE study = ? ORDER BY place");
  promises.with(study.id);
  while (promises.next())
    study.heading.promises.push_back({promises.text(0), promises.text(1), quantity_of(promises.text(2))});
  return promises.code() == SQLITE_OK;
}

}  // namespace

RowWriter::RowWriter(const sql::Connection& base)
    : run_(base, "INSERT INTO run VALUES (?, ?, ?, ?)"),
      finding_(base, "INSERT INTO finding VALUES (?, ?, ?, ?, ?, ?)") {}

bool RowWriter::insert(long study, const Row& row) {
  if (!run_.with(study, row.number, word(row.outcome), std::string_view(row.detail)).run()) return false;
  long at = 0;
  for (const Kept& kept : row.promises) {
    if (!finding_.with(study, row.number, at++, word(kept.mark), known(kept.margin), known(kept.share)).run())
      return false;
  }
  return true;
}

Was read_rows(const sql::Connection& base, long study, std::optional<long> only,
              const std::function<void(const Row&)>& take) {
  sql::Statement rows(base, rows_of_study);
  rows.with(study, only.value_or(std::numeric_limits<long>::min()),
            only.value_or(std::numeric_limits<long>::max()));
  std::optional<Row> row;
  while (rows.next()) {
    if (!row || row->number != rows.integer(number)) {
      if (row) take(*row);
      const auto came_out = outcome_of(rows.text(outcome));
      if (!came_out) return Was::damaged;
      row = Row{.number = rows.integer(number), .outcome = *came_out, .detail = rows.text(detail)};
    }
    if (!rows.text(answer).empty() && !add_promise(rows, *row)) return Was::damaged;
  }
  if (rows.code() != SQLITE_OK) return Was::refused;
  if (row) take(*row);
  return Was::read;
}

Was read_studies(const sql::Connection& base, std::vector<Study>& studies) {
  sql::Statement rows(base,
                      "SELECT id, kind, title, fingerprint, options, version, job, first, wanted FROM study"
                      " ORDER BY id");
  while (rows.next()) {
    Study study{.id = rows.integer(0),
                .heading = {.kind = rows.text(1),
                            .title = rows.text(2),
                            .fingerprint = rows.text(3),
                            .options = rows.text(4),
                            .version = rows.text(5),
                            .job = rows.text(6),
                            .first = rows.integer(7),
                            .wanted = rows.integer(8)}};
    if (!read_promises(base, study)) return Was::refused;
    studies.push_back(std::move(study));
  }
  return rows.code() == SQLITE_OK ? Was::read : Was::refused;
}

long insert_study(const sql::Connection& base, const Heading& heading) {
  sql::Statement study(base, "INSERT INTO study VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?)");
  study.with(std::string_view(heading.kind), std::string_view(heading.title),
             std::string_view(heading.fingerprint), std::string_view(heading.options),
             std::string_view(heading.version), std::string_view(heading.job), heading.first, heading.wanted);
  if (!study.run()) return 0;
  const long id = sqlite3_last_insert_rowid(base.get());
  sql::Statement promise(base, "INSERT INTO promise VALUES (?, ?, ?, ?, ?)");
  long at = 0;
  for (const Promise& each : heading.promises) {
    promise.with(id, at++, std::string_view(each.name), std::string_view(each.promised),
                 units::name(each.quantity));
    if (!promise.run()) return 0;
  }
  return id;
}

bool same_row(const Row& a, const Row& b) {
  const auto same = [](const Kept& one, const Kept& other) {
    return one.mark == other.mark && known(one.margin) == known(other.margin) &&
           known(one.share) == known(other.share);
  };
  return a.number == b.number && a.outcome == b.outcome && a.detail == b.detail &&
         std::ranges::equal(a.promises, b.promises, same);
}

}  // namespace poise::study
