// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/record_schema.hpp"

#include <fmt/format.h>

#include "study/record_file.hpp"
#include "units/catalogue.hpp"

namespace poise::study {
namespace {

constexpr long our_files = 0x506f6973, form = 1;  // "Pois"; the form of the tables below

// Margins and shares are SI; a value that is not a number has no place in a table and is NULL. A run is found
// by its study and number alone, so the tables are sorted by these and need no numbering of their own.
constexpr std::string_view tables = R"(
CREATE TABLE study (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  title TEXT NOT NULL,
  fingerprint TEXT NOT NULL,
  options TEXT NOT NULL,
  version TEXT NOT NULL,
  job TEXT NOT NULL,
  first INTEGER NOT NULL,
  wanted INTEGER NOT NULL
) STRICT;
CREATE TABLE promise (
  study INTEGER NOT NULL REFERENCES study (id),
  place INTEGER NOT NULL,
  name TEXT NOT NULL,
  promised TEXT NOT NULL,
  quantity TEXT NOT NULL,
  PRIMARY KEY (study, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE run (
  study INTEGER NOT NULL REFERENCES study (id),
  number INTEGER NOT NULL,
  outcome TEXT NOT NULL,
  detail TEXT NOT NULL,
  PRIMARY KEY (study, number)
) STRICT, WITHOUT ROWID;
CREATE TABLE finding (
  study INTEGER NOT NULL,
  number INTEGER NOT NULL,
  place INTEGER NOT NULL,
  answer TEXT NOT NULL,
  margin REAL,
  share REAL,
  PRIMARY KEY (study, number, place),
  FOREIGN KEY (study, number) REFERENCES run (study, number)
) STRICT, WITHOUT ROWID;
)";

enum class Found { record, empty, refused };

/// What a file is; a complaint where it is refused.
Found look(sql::Connection& base, const std::filesystem::path& path, std::string& complaint) {
  const auto id = base.value("PRAGMA application_id");
  const auto version = base.value("PRAGMA user_version");
  const auto entries = base.value("SELECT count(*) FROM sqlite_schema");
  if (!id || !version || !entries) {
    complaint = sentence(path, "cannot be read", base.error());
    return Found::refused;
  }
  if (*entries == "0" && *id == "0" && *version == "0") return Found::empty;
  if (*id != std::to_string(our_files)) {
    complaint = fmt::format("{} is an SQLite file of another kind, not one of studies; name another file",
                            named(path));
    return Found::refused;
  }
  if (std::stol(*version) > form) {
    complaint = fmt::format(
        "{} was written by a newer version of Poise (form {} of such files; this version knows form {}); "
        "take that "
        "version, or name another file",
        named(path), *version, form);
    return Found::refused;
  }
  return Found::record;
}

}  // namespace

std::string make_tables(sql::Connection& base, const std::filesystem::path& path) {
  std::string complaint;
  if (look(base, path, complaint) != Found::empty) return complaint;
  const bool made =
      base.run(fmt::format("BEGIN IMMEDIATE; PRAGMA application_id = {}; PRAGMA user_version = {}; {}"
                           " COMMIT;",
                           our_files, form, tables));
  if (made) return {};
  const sql::Error error = base.error();
  if (base.in_transaction()) base.run("ROLLBACK");
  return sentence(path, "cannot be written", error);
}

std::string check_tables(sql::Connection& base, const std::filesystem::path& path) {
  std::string complaint;
  if (look(base, path, complaint) == Found::empty)
    return fmt::format("{} holds no studies: it is empty; name another one", named(path));
  return complaint;
}

Quantity quantity_of(std::string_view name) {
  for (const units::Kind& kind : units::kinds()) {
    if (kind.name == name) return kind.quantity;
  }
  return Quantity::none;
}

}  // namespace poise::study
