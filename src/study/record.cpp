// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/record.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <limits>
#include <map>
#include <stdexcept>

#include "study/record_file.hpp"
#include "study/record_rows.hpp"
#include "study/record_schema.hpp"
#include "study/record_tidy.hpp"

namespace poise::study {
namespace {

constexpr int patience = 20'000;  // ms that a lock of another program is waited for

constexpr std::string_view not_written = "cannot be written", not_read = "cannot be read";

}  // namespace

struct Record::File {
  std::filesystem::path path;
  Access access;
  WriteLock lock;
  sql::Connection base;
  sql::Statement begin, commit, rollback;
  std::optional<RowWriter> rows;
  std::map<long, std::size_t> promises = {};  ///< how many a study has
  bool changed = false;                       ///< since it was tidy

  File(std::filesystem::path place, Access wanted, WriteLock taken)
      : path(std::move(place)),
        access(wanted),
        lock(std::move(taken)),
        base(path.string(), SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_READWRITE |
                                (wanted == Access::write ? SQLITE_OPEN_CREATE : 0)),
        begin(base, "BEGIN IMMEDIATE"),
        commit(base, "COMMIT"),
        rollback(base, "ROLLBACK") {}

  /// Makes it ready. `shared`: with the journal that needs shared memory.
  std::string prepare(bool shared);
  std::string prepare_writing(bool shared);
  std::string complain(std::string_view what) const { return sentence(path, what, base.error()); }
  std::string damaged() const { return sentence(path, not_read, {SQLITE_CORRUPT, 0, {}}); }
  bool moved() const;
  void must_be_written() const;
  /// Ends what was begun, without a trace; the complaint why.
  std::string undo();
  std::size_t promises_of(long study);
};

std::string Record::File::prepare(bool shared) {
  if (base.error()) return complain(access == Access::write ? not_written : not_read);
  sqlite3_busy_timeout(base.get(), patience);
  // Whoever has a file for himself can read what another left in the shared journal without sharing memory.
  if (!shared && !base.run("PRAGMA locking_mode = EXCLUSIVE")) return complain(not_read);
  if (access == Access::write) return prepare_writing(shared);
  // A journal that a killed program left behind is put right by whoever reads next; nothing else is written.
  if (std::string said = check_tables(base, path); !said.empty()) return said;
  return base.run("PRAGMA query_only = ON") ? std::string() : complain(not_read);
}

std::string Record::File::prepare_writing(bool shared) {
  if (sqlite3_db_readonly(base.get(), "main") == 1)
    return sentence(path, not_written, {SQLITE_READONLY, 0, {}});
  if (std::string said = make_tables(base, path); !said.empty()) return said;
  if (const auto sound = base.value("PRAGMA quick_check(1)"); sound != "ok")
    return sound ? damaged() : complain(not_read);
  changed = !is_tidy(base);
  // With the journal that needs shared memory others read while we write, and what was written outlives us
  // without waiting for the disk; whether it can be had shows at the first use. The other one waits for the
  // disk.
  const bool ready = shared ? base.value("PRAGMA journal_mode = WAL") == "wal" &&
                                  base.run("PRAGMA synchronous = NORMAL; BEGIN IMMEDIATE; ROLLBACK")
                            : base.value("PRAGMA journal_mode = DELETE") == "delete" &&
                                  base.run(
                                      "PRAGMA synchronous = FULL; PRAGMA locking_mode = NORMAL;"
                                      "SELECT count(*) FROM study");
  if (!ready) return complain(not_written);
  rows.emplace(base);
  return {};
}

bool Record::File::moved() const {
  int has = 0;
  sqlite3_file_control(base.get(), "main", SQLITE_FCNTL_HAS_MOVED, &has);
  return has != 0;
}

void Record::File::must_be_written() const {
  if (access != Access::write) throw std::logic_error("a record that is only read was to be written");
}

std::string Record::File::undo() {
  std::string why = complain(not_written);
  if (base.in_transaction()) {
    rollback.restart();
    rollback.run();
  }
  return why;
}

std::size_t Record::File::promises_of(long study) {
  const auto known = promises.find(study);
  if (known != promises.end()) return known->second;
  sql::Statement count(base,
                       "SELECT count(promise.place) FROM study LEFT JOIN promise ON promise.study = study.id"
                       " WHERE study.id = ? GROUP BY study.id");
  if (!count.with(study).next()) throw std::logic_error("a run of a study that the record does not have");
  return promises[study] = static_cast<std::size_t>(count.integer(0));
}

Record::Record(std::unique_ptr<File> file) : file_(std::move(file)) {}
Record::Record(Record&&) noexcept = default;
Record& Record::operator=(Record&& other) noexcept {
  if (this != &other) {
    close();
    file_ = std::move(other.file_);
  }
  return *this;
}
Record::~Record() { close(); }

std::variant<Record, std::string> Record::open(const std::filesystem::path& path, Access access) {
  const std::filesystem::path place = real_place(path);
  if (std::string said = place_complaint(place, access == Access::read); !said.empty()) return said;
  WriteLock lock;
  if (access == Access::write) {
    if (std::string said = lock.take(place); !said.empty()) return said;
  }
  std::error_code error;
  const bool is_new = !std::filesystem::exists(place, error);
  std::string said;
  for (const bool shared : {true, false}) {
    if (shared && access == Access::write && on_a_network(place)) continue;
    auto file = std::make_unique<File>(place, access, std::move(lock));
    said = file->prepare(shared);
    if (said.empty()) return Record(std::move(file));
    lock = std::move(file->lock);
  }
  if (is_new && access == Access::write) std::filesystem::remove(place, error);
  return said;
}

const std::filesystem::path& Record::path() const { return file_->path; }

std::string Record::close() {
  if (!file_) return {};
  const std::unique_ptr<File> file = std::move(file_);
  return file->access == Access::write ? tidy(file->base, file->path, file->changed) : std::string();
}

bool same_study(const Heading& a, const Heading& b) {
  const auto same = [](const Promise& one, const Promise& other) {
    return one.name == other.name && one.promised == other.promised && one.quantity == other.quantity;
  };
  return a.kind == b.kind && a.title == b.title && a.fingerprint == b.fingerprint && a.options == b.options &&
         a.version == b.version && a.job == b.job && a.first == b.first &&
         std::ranges::equal(a.promises, b.promises, same);
}

long Record::study(const Heading& heading, std::string& complaint) {
  file_->must_be_written();
  if (!file_->begin.with().run()) {
    complaint = file_->undo();
    return 0;
  }
  std::string said;
  const auto found = find(heading, said);
  long id = found.value_or(0);
  bool went_well = said.empty();
  if (went_well && found) {
    sql::Statement raise(
        file_->base,
        "UPDATE study SET wanted = ?1 WHERE id = ?2 AND (wanted < ?1 OR wanted <> ?1 AND NOT EXISTS"
        " (SELECT 1 FROM run WHERE study = ?2))");
    went_well = raise.with(heading.wanted, id).run();
    file_->changed |= sqlite3_changes(file_->base.get()) > 0;
  } else if (went_well) {
    id = insert_study(file_->base, heading);
    went_well = id != 0;
    file_->changed = true;
  }
  if (went_well && file_->commit.with().run()) return id;
  const std::string undone = file_->undo();
  complaint = said.empty() ? undone : said;
  return 0;
}

std::string Record::keep(long study, const Row& row) { return keep(study, std::span(&row, 1)); }

std::string Record::keep(long study, std::span<const Row> rows) {
  File& file = *file_;
  file.must_be_written();
  if (file.moved()) {
    return fmt::format("{} was moved or removed while it was written; put it back, or begin again",
                       named(file.path));
  }
  const std::size_t promises = file.promises_of(study);
  if (!file.begin.with().run()) return file.undo();
  for (const Row& each : rows) {
    if (each.promises.size() != promises) {
      file.undo();
      throw std::logic_error("a run with another number of promises than its study");
    }
    if (file.rows->insert(study, each)) continue;
    if (file.base.error().code != SQLITE_CONSTRAINT_PRIMARYKEY) return file.undo();
    std::string said;
    const auto there = row(study, each.number, said);
    if (there && same_row(*there, each)) continue;
    file.undo();
    return said.empty() ? fmt::format("{} holds run {} already, with another outcome; begin the study anew",
                                      named(file.path), each.number)
                        : said;
  }
  file.changed = true;
  return file.commit.with().run() ? std::string() : file.undo();
}

std::string Record::forget(long study) {
  File& file = *file_;
  file.must_be_written();
  sql::Statement findings(file.base, "DELETE FROM finding WHERE study = ?");
  sql::Statement runs(file.base, "DELETE FROM run WHERE study = ?");
  if (!file.begin.with().run() || !findings.with(study).run() || !runs.with(study).run() ||
      !file.commit.with().run()) {
    return file.undo();
  }
  file.changed = true;
  return {};
}

std::optional<long> Record::find(const Heading& heading, std::string& complaint) const {
  for (const Study& each : studies(complaint)) {
    if (same_study(each.heading, heading)) return each.id;
  }
  return std::nullopt;
}

std::vector<Study> Record::studies(std::string& complaint) const {
  std::vector<Study> studies;
  const Was was = read_studies(file_->base, studies);
  if (was == Was::read) return studies;
  complaint = was == Was::damaged ? file_->damaged() : file_->complain(not_read);
  return {};
}

std::vector<long> Record::done(long study, std::string& complaint) const {
  std::vector<long> numbers;
  sql::Statement runs(file_->base, "SELECT number FROM run WHERE study = ? ORDER BY number");
  runs.with(study);
  while (runs.next()) numbers.push_back(runs.integer(0));
  if (runs.code() == SQLITE_OK) return numbers;
  complaint = file_->complain(not_read);
  return {};
}

bool Record::has_details(long study, std::string& complaint) const {
  sql::Statement any(file_->base, "SELECT 1 FROM run WHERE study = ? AND detail <> '' LIMIT 1");
  const bool has = any.with(study).next();
  if (any.code() != SQLITE_OK) complaint = file_->complain(not_read);
  return has;
}

std::string Record::each_row(long study, const std::function<void(const Row&)>& take) const {
  const Was was = read_rows(file_->base, study, std::nullopt, take);
  if (was == Was::read) return {};
  return was == Was::damaged ? file_->damaged() : file_->complain(not_read);
}

std::vector<Row> Record::rows(long study, std::string& complaint) const {
  std::vector<Row> rows;
  const std::string said = each_row(study, [&](const Row& row) { rows.push_back(row); });
  if (said.empty()) return rows;
  complaint = said;
  return {};
}

std::optional<Row> Record::row(long study, long number, std::string& complaint) const {
  std::optional<Row> found;
  const Was was = read_rows(file_->base, study, number, [&](const Row& row) { found = row; });
  if (was == Was::read) return found;
  complaint = was == Was::damaged ? file_->damaged() : file_->complain(not_read);
  return std::nullopt;
}

}  // namespace poise::study
