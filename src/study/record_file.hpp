// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "study/sql.hpp"

namespace poise::study {

/// The right to be the only one that writes a record: a lock on a file beside it, which the system takes back
/// when the process dies. A lock on the record itself would end those SQLite holds on it.
class WriteLock {
 public:
  WriteLock() = default;
  WriteLock(WriteLock&& other) noexcept;
  WriteLock& operator=(WriteLock&& other) noexcept;
  ~WriteLock();  ///< gives it back and clears its file away

  /// Takes the lock; empty, or why not.
  std::string take(const std::filesystem::path& record);

 private:
  std::filesystem::path path_;
  int file_ = -1;
};

/// The place that a path stands for, links followed; the path itself where there is nothing yet.
std::filesystem::path real_place(const std::filesystem::path& path);

/// Why no record can be at this place: no folder, no plain file. Empty: it can.
std::string place_complaint(const std::filesystem::path& path, bool must_be_there);

/// Whether other machines may have the file open too: there SQLite's shared memory does not reach them, and
/// it must keep a journal by which each locks the file instead.
bool on_a_network(const std::filesystem::path& path);

/// "\"x.studies\" cannot be written: the disk is full; ...": what could not be done, why, what would be
/// right.
std::string sentence(const std::filesystem::path& path, std::string_view what, const sql::Error& error);

/// The same for a call of the system that failed.
std::string system_sentence(const std::filesystem::path& path, std::string_view what, int error);

/// "\"x.studies\"": as it is named in sentences.
std::string named(const std::filesystem::path& path);

}  // namespace poise::study
