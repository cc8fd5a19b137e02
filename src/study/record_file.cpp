// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/record_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/vfs.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <utility>

namespace poise::study {
namespace {

constexpr std::string_view kept = "what was recorded before is kept";

std::string why_system(int error, const std::filesystem::path& path) {
  switch (error) {
    case ENOSPC:
      return fmt::format("the disk is full; make room and go on: {}", kept);
    case EDQUOT:
      return fmt::format("your share of the disk is used up; make room and go on: {}", kept);
    case EFBIG:
      return fmt::format("the system allows no file of this size here; raise the limit (ulimit -f): {}",
                         kept);
    case EROFS:
      return fmt::format("the folder {} is read-only; name a file in another one",
                         path.parent_path().string());
    case EACCES:
    case EPERM:
      return fmt::format("you may not write in the folder {}; name a file in another one",
                         path.parent_path().string());
    case EIO:
      return fmt::format("the disk reports an error: {}", kept);
    default:
      return {};
  }
}

std::string why(const sql::Error& error, const std::filesystem::path& path) {
  switch (error.code & 0xff) {
    case SQLITE_FULL:
      return why_system(ENOSPC, path);
    case SQLITE_NOTADB:
      return "it is no file of studies; name another one";
    case SQLITE_CORRUPT:
      return "it is damaged; put a copy back or begin another file";
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return "another program holds it; try again when that one is done";
    case SQLITE_READONLY:
      return "it is write-protected; name another file, or allow writing to this one and its folder";
    case SQLITE_NOMEM:
      return "there is not enough memory";
    default:
      break;
  }
  if (std::string said = why_system(error.system, path); !said.empty()) return said;
  if (error.system != 0) return std::strerror(error.system);
  return error.message;
}

/// Who holds a lock has written there who it is.
std::string holder(int file) {
  std::array<char, 200> text{};
  const ssize_t length = ::pread(file, text.data(), text.size(), 0);
  if (length <= 0) return {};
  return fmt::format(" ({})", std::string_view(text.data(), static_cast<std::size_t>(length)));
}

/// Best effort: it only makes another's complaint clearer.
void sign(int file) {
  std::array<char, 100> machine{};
  if (::gethostname(machine.data(), machine.size() - 1) != 0) machine[0] = '\0';
  const std::string text = fmt::format("process {} on {}", ::getpid(), machine.data());
  if (::ftruncate(file, 0) != 0) return;
  [[maybe_unused]] const ssize_t written = ::pwrite(file, text.data(), text.size(), 0);
}

/// Whether the open file is still the one that stands under the name.
bool stands_there(int file, const std::filesystem::path& path) {
  struct stat open {
  }, there{};
  return ::fstat(file, &open) == 0 && ::stat(path.c_str(), &there) == 0 && open.st_ino == there.st_ino &&
         open.st_dev == there.st_dev;
}

}  // namespace

WriteLock::WriteLock(WriteLock&& other) noexcept
    : path_(std::move(other.path_)), file_(std::exchange(other.file_, -1)) {}

WriteLock& WriteLock::operator=(WriteLock&& other) noexcept {
  std::swap(path_, other.path_);
  std::swap(file_, other.file_);
  return *this;
}

WriteLock::~WriteLock() {
  if (file_ < 0) return;
  if (stands_there(file_, path_)) ::unlink(path_.c_str());
  ::close(file_);
}

std::string WriteLock::take(const std::filesystem::path& record) {
  path_ = record.string() + "-lock";
  for (;;) {
    const int file = ::open(path_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (file < 0) return system_sentence(record, "cannot be written", errno);
    if (::flock(file, LOCK_EX | LOCK_NB) != 0) {
      const int error = errno;
      std::string said =
          error == EWOULDBLOCK
              ? fmt::format(
                    "{} is being written by another run of Poise{}; wait until that one is done, or name "
                    "another file",
                    named(record), holder(file))
              : fmt::format("{} cannot be locked for writing ({}); name a file on another disk",
                            named(record), std::strerror(error));
      ::close(file);
      return said;
    }
    // Who gave it back may have cleared the file away between our opening and our lock.
    if (stands_there(file, path_)) {
      sign(file);
      file_ = file;
      return {};
    }
    ::close(file);
  }
}

std::filesystem::path real_place(const std::filesystem::path& path) {
  std::error_code error;
  const std::filesystem::path real =
      std::filesystem::weakly_canonical(std::filesystem::absolute(path), error);
  return error ? std::filesystem::absolute(path) : real;
}

std::string place_complaint(const std::filesystem::path& path, bool must_be_there) {
  std::error_code error;
  const auto there = std::filesystem::status(path, error);
  if (std::filesystem::is_directory(there))
    return fmt::format("{} is a folder; name a file in it", named(path));
  if (std::filesystem::exists(there) && !std::filesystem::is_regular_file(there))
    return fmt::format("{} is no plain file; name another one", named(path));
  if (std::filesystem::exists(there)) return {};
  const std::filesystem::path folder = path.parent_path();
  if (!std::filesystem::is_directory(folder, error))
    return fmt::format("There is no folder {} for {}; make it, or name a file in another one",
                       folder.string(), named(path.filename()));
  if (must_be_there) return fmt::format("There is no file {}; look at its name and its folder", named(path));
  return {};
}

bool on_a_network(const std::filesystem::path& path) {
  // The kinds of file systems by their numbers, from Linux' magic.h and from those who make the file systems:
  // NFS, SMB (three), AFS, Ceph, 9P, FUSE, Lustre, GPFS, BeeGFS, OCFS2, GFS2, PanFS, Coda.
  constexpr std::array<unsigned long, 15> kinds{0x6969,     0x517b,     0xff534d42, 0xfe534d42, 0x5346414f,
                                                0x00c36400, 0x01021997, 0x65735546, 0x0bd00bd0, 0x47504653,
                                                0x19830326, 0x7461636f, 0x01161970, 0xaad7aaea, 0x73757245};
  struct statfs found {};
  if (::statfs(path.parent_path().c_str(), &found) != 0) return false;
  return std::ranges::count(kinds, static_cast<unsigned long>(found.f_type) & 0xffffffffUL) > 0;
}

std::string named(const std::filesystem::path& path) { return fmt::format("\"{}\"", path.string()); }

std::string sentence(const std::filesystem::path& path, std::string_view what, const sql::Error& error) {
  return fmt::format("{} {}: {}", named(path), what, why(error, path));
}

std::string system_sentence(const std::filesystem::path& path, std::string_view what, int error) {
  return sentence(path, what, {SQLITE_CANTOPEN, error, {}});
}

}  // namespace poise::study
