// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/record_tidy.hpp"

#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "study/record_file.hpp"

namespace poise::study {
namespace {

// Three numbers in the head of an SQLite file tell other programs that it changed; left alone they count how
// often it was written. Places from "Database File Format", 1.3 (sqlite.org/fileformat2.html).
constexpr std::size_t change_counter = 24, schema_cookie = 40, valid_for = 92, number_length = 4;
constexpr std::size_t stamped_length = valid_for + number_length - change_counter;

void put(std::vector<unsigned char>& bytes, std::size_t place, std::uint32_t number) {
  for (std::size_t i = 0; i < number_length; ++i)
    bytes[place + i] = static_cast<unsigned char>(number >> (8 * (number_length - 1 - i)));
}

/// A number that follows from all bytes of a file but the three numbers (FNV-1a); none where it cannot be
/// read.
std::optional<std::uint32_t> number_of(sqlite3_file* file, std::vector<unsigned char>& head) {
  if (file == nullptr || file->pMethods == nullptr) return std::nullopt;
  sqlite3_int64 size = 0;
  if (file->pMethods->xFileSize(file, &size) != SQLITE_OK || size < 4096) return std::nullopt;
  std::vector<unsigned char> piece(1 << 16);
  std::uint64_t sum = 14695981039346656037U;
  for (sqlite3_int64 at = 0; at < size; at += static_cast<sqlite3_int64>(piece.size())) {
    piece.resize(static_cast<std::size_t>(std::min<sqlite3_int64>(size - at, 1 << 16)));
    if (file->pMethods->xRead(file, piece.data(), static_cast<int>(piece.size()), at) != SQLITE_OK)
      return std::nullopt;
    if (at == 0) {
      head.assign(piece.begin(), piece.begin() + valid_for + number_length);
      for (const std::size_t place : {change_counter, schema_cookie, valid_for}) put(piece, place, 0);
    }
    for (const unsigned char byte : piece) sum = (sum ^ byte) * 1099511628211U;
  }
  const auto folded = static_cast<std::uint32_t>(sum ^ (sum >> 32));
  return folded == 0 ? 1 : folded;
}

sqlite3_file* file_of(const sql::Connection& base) {
  sqlite3_file* file = nullptr;
  sqlite3_file_control(base.get(), "main", SQLITE_FCNTL_FILE_POINTER, &file);
  return file;
}

/// Puts a number that follows from the content in the place of the three counters: files of the same content
/// get the same bytes, and whoever has pages of another content in memory still sees that the file changed.
void stamp(sql::Connection& base) {
  if (!base.run("BEGIN EXCLUSIVE")) return;
  sqlite3_file* file = file_of(base);
  std::vector<unsigned char> head;
  if (const auto number = number_of(file, head)) {
    for (const std::size_t place : {change_counter, schema_cookie, valid_for}) put(head, place, *number);
    // One short write: a program that dies finds the old numbers or the new ones.
    file->pMethods->xWrite(file, head.data() + change_counter, static_cast<int>(stamped_length),
                           change_counter);
    file->pMethods->xSync(file, SQLITE_SYNC_NORMAL);
  }
  base.run("ROLLBACK");
}

/// Leaves the journal that needs shared memory. A reader who has the file open stands in the way: most are
/// done soon, and the last one of the others puts the journal's pages in their place.
bool leave_shared_journal(sql::Connection& base) {
  constexpr int patience = 20;
  constexpr useconds_t pause = 50'000;
  for (int i = 0; i < patience; ++i) {
    if (base.value("PRAGMA journal_mode = DELETE") == "delete") return true;
    if ((base.error().code & 0xff) != SQLITE_BUSY && (base.error().code & 0xff) != SQLITE_LOCKED)
      return false;
    ::usleep(pause);
  }
  return false;
}

}  // namespace

bool is_tidy(sql::Connection& base) {
  std::vector<unsigned char> head;
  const auto number = number_of(file_of(base), head);
  if (!number) return false;
  std::vector<unsigned char> stamped = head;
  for (const std::size_t place : {change_counter, schema_cookie, valid_for}) put(stamped, place, *number);
  return stamped == head;
}

std::string tidy(sql::Connection& base, const std::filesystem::path& path, bool changed) {
  // Written anew the tables lie in the order of their rows, however these came. Where there is no room for
  // that they stay as they are.
  const bool in_order = !changed || (base.run("PRAGMA secure_delete = ON") && base.run("VACUUM"));
  if (!leave_shared_journal(base)) {
    return fmt::format(
        "{}-wal holds a part of the runs for now; leave it beside {} until that was written again",
        named(path), named(path.filename()));
  }
  if (in_order) stamp(base);
  return {};
}

}  // namespace poise::study
