// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/to_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>

#include "desk/whole_file.hpp"

namespace poise::cli {
namespace {

namespace fs = std::filesystem;

/// What a path stands for once every link is followed.
struct Target {
  fs::path path, folder;
  bool there = false, plain = false, is_folder = false, printed_to = false;
};

Target target_of(const fs::path& path) {
  Target target{.path = path};
  struct stat found {
  }, printed{};
  target.there = ::stat(path.c_str(), &found) == 0;
  target.plain = target.there && S_ISREG(found.st_mode);
  target.is_folder = target.there && S_ISDIR(found.st_mode);
  target.printed_to = target.plain && ::fstat(STDOUT_FILENO, &printed) == 0 &&
                      printed.st_dev == found.st_dev && printed.st_ino == found.st_ino;
  std::error_code unknown;
  if (target.plain) target.path = fs::canonical(path, unknown);
  if (unknown) target.path = path;
  target.folder = target.path.has_parent_path() ? target.path.parent_path() : fs::path(".");
  return target;
}

std::string why_not(const fs::path& path, const fs::path& folder, int error) {
  return desk::why_not_written(path.string(), folder, error);
}

/// Empty, or what can be told beforehand.
std::string why_not(const fs::path& path, const Target& target) {
  if (path.filename().empty() || target.is_folder)
    return fmt::format("{} cannot be written: it is a folder; name a file in it", path.string());
  if (target.there && ::faccessat(AT_FDCWD, target.path.c_str(), W_OK, AT_EACCESS) != 0 && errno != ENOENT) {
    if (errno == EROFS) return why_not(path, target.folder, errno);
    return fmt::format(
        "{} cannot be written: it is write-protected; allow writing to it (chmod u+w), or name another file",
        path.string());
  }
  if (target.there && (!target.plain || target.printed_to)) return {};
  if (::faccessat(AT_FDCWD, target.folder.c_str(), W_OK | X_OK, AT_EACCESS) != 0)
    return why_not(path, target.folder, errno);
  std::error_code unknown;
  if (!fs::is_directory(target.folder, unknown)) return why_not(path, target.folder, ENOTDIR);
  return {};
}

/// Into a pipe or a device, which have no whole files.
std::string write_straight(const fs::path& path, const Target& target, std::string_view bytes) {
  const desk::Descriptor file(::open(target.path.c_str(), O_WRONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC));
  if (!file && errno == ENXIO)
    return fmt::format("{} cannot be written: nobody reads from this pipe; start its reader first",
                       path.string());
  if (!file) return why_not(path, target.folder, errno);
  ::fcntl(file.get(), F_SETFL, ::fcntl(file.get(), F_GETFL) & ~O_NONBLOCK);
  while (!bytes.empty()) {
    const ssize_t done = ::write(file.get(), bytes.data(), bytes.size());
    if (done < 0 && errno == EINTR) continue;
    if (done < 0 && errno == EPIPE)
      return fmt::format("{} could not be written to its end: its reader has gone; let it read to the end",
                         path.string());
    if (done < 0) return why_not(path, target.folder, errno);
    bytes.remove_prefix(static_cast<std::size_t>(done));
  }
  return {};
}

std::string put(const fs::path& path, std::string_view bytes) {
  const Target target = target_of(path);
  if (std::string why = why_not(path, target); !why.empty()) return why;
  // Renaming would leave what is printed there on the old file, which nobody finds any more.
  if (target.printed_to) return std::fwrite(bytes.data(), 1, bytes.size(), stdout), std::string();
  if (target.there && !target.plain) return write_straight(path, target, bytes);
  std::error_code unknown;
  const fs::path folder_path = fs::canonical(target.folder, unknown);
  const desk::Descriptor folder = desk::open_folder(unknown ? target.folder : folder_path);
  if (!folder) return why_not(path, target.folder, errno);
  const std::string name = target.path.filename().string();
  return desk::put(folder.get(), target.folder, name, bytes, desk::entry_of(folder.get(), name),
                   desk::Place::may_be_taken);
}

bool is_empty_or_said(const std::string& why) {
  if (!why.empty()) fmt::print(stderr, "{}\n", why);
  return why.empty();
}

}  // namespace

bool may_write_or_complain(const fs::path& path) { return is_empty_or_said(why_not(path, target_of(path))); }

bool may_make_folder_or_complain(const fs::path& folder) {
  std::error_code unknown;
  fs::path there = fs::absolute(folder, unknown).lexically_normal();
  while (!fs::exists(there, unknown) && there.has_relative_path()) there = there.parent_path();
  if (!fs::is_directory(there, unknown)) return is_empty_or_said(desk::why_no_folder(there, ENOTDIR));
  if (::faccessat(AT_FDCWD, there.c_str(), W_OK | X_OK, AT_EACCESS) == 0) return true;
  return is_empty_or_said(why_not(folder, there, errno));
}

bool made_folder_or_complain(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  std::error_code unknown;
  if (fs::is_directory(folder, unknown)) return true;
  const fs::path above = folder.has_parent_path() ? folder.parent_path() : fs::path(".");
  return is_empty_or_said(error == std::errc::not_a_directory || error == std::errc::file_exists
                              ? desk::why_no_folder(folder, ENOTDIR)
                              : why_not(folder, above, error.value()));
}

bool written_or_complain(const fs::path& path, std::string_view bytes) {
  return is_empty_or_said(put(path, bytes));
}

}  // namespace poise::cli
