// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/whole_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstring>

namespace poise::desk {
namespace {

// A text on its way to its place. The dot keeps it out of the list of jobs.
constexpr std::string_view draft_begin = ".poise-draft-", draft_end = ".tmp";

std::string why_not(const std::string& name, const std::filesystem::path& path, int error) {
  if (error == EEXIST)
    return fmt::format("There is a file \"{}\" in this folder already; choose another name", name);
  return why_not_written(fmt::format("\"{}\"", name), path, error);
}

/// A draft under a name of its own, gone again unless it was put in its place.
struct Draft {
  int folder;
  std::string name;
  Descriptor file;

  ~Draft() {
    if (!name.empty()) ::unlinkat(folder, name.c_str(), 0);
  }
};

/// Clears away drafts whose writer is gone. A writer keeps its draft locked, and the system unlocks it when
/// the writer dies.
void clear_stale_drafts(int folder) {
  for (const std::string& name : entries_of(folder)) {
    if (!name.starts_with(draft_begin) || !name.ends_with(draft_end)) continue;
    const Descriptor file = open_plain_file(folder, name);
    if (file && ::flock(file.get(), LOCK_EX | LOCK_NB) == 0) ::unlinkat(folder, name.c_str(), 0);
  }
}

/// A new empty draft, locked. Without a file and with errno set where there can be none.
Draft new_draft(int folder, mode_t mode) {
  for (int attempt = 0; attempt < 16; ++attempt) {
    std::uint64_t number = 0;
    if (::getrandom(&number, sizeof number, 0) != sizeof number) break;
    std::string name = fmt::format("{}{:016x}{}", draft_begin, number, draft_end);
    Descriptor file(::openat(folder, name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode));
    if (!file && errno == EEXIST) continue;
    if (!file) break;
    // Between its birth and its lock another writer may have taken it for a stale one: it holds the lock
    // then, or has cleared it away.
    if (::flock(file.get(), LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) continue;
    struct stat found {};
    if (::fstat(file.get(), &found) == 0 && found.st_nlink == 1)
      return {folder, std::move(name), std::move(file)};
  }
  return {folder, {}, Descriptor()};
}

/// Owner, group and mode of the file it is to replace. Where the group cannot be kept, what was granted to
/// that group is not granted to another.
bool dress(int file, const Entry& old) {
  mode_t mode = old.mode & 0777U;
  if (::fchown(file, old.owner, old.group) != 0 && ::fchown(file, static_cast<uid_t>(-1), old.group) != 0) {
    mode &= ~mode_t{0070};
  }
  return ::fchmod(file, mode) == 0;
}

bool write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t done = ::write(file, text.data(), text.size());
    if (done < 0 && errno == EINTR) continue;
    if (done < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(done));
  }
  return true;
}

bool move_to(Draft& draft, const std::string& name, Place place) {
  const char *from = draft.name.c_str(), *to = name.c_str();
  if (place == Place::may_be_taken) {
    if (::renameat(draft.folder, from, draft.folder, to) != 0) return false;
    draft.name.clear();
    return true;
  }
  if (::renameat2(draft.folder, from, draft.folder, to, RENAME_NOREPLACE) == 0) {
    draft.name.clear();
    return true;
  }
  if (errno != EINVAL && errno != ENOSYS) return false;
  // A file system that knows no such renaming: a second name does it, and the draft's own one goes with the
  // draft.
  return ::linkat(draft.folder, from, draft.folder, to, 0) == 0;
}

}  // namespace

std::string why_not_written(std::string_view what, const std::filesystem::path& folder, int error) {
  const std::string begin = fmt::format("{} cannot be written: ", what);
  switch (error) {
    case EACCES:
    case EPERM:
      return begin + fmt::format("you may not write in the folder {}; use another one, or ask its owner",
                                 folder.string());
    case EROFS:
      return begin + fmt::format("the folder {} is read-only; use another one", folder.string());
    case ENOSPC:
    case EDQUOT:
      return begin + "the disk is full; make room and try again";
    case EFBIG:
      return begin + "the system allows no file of this size here; raise the limit (ulimit -f)";
    case ENOENT:
    case ENOTDIR:
      return begin + fmt::format("there is no folder {}; make it, or use another one", folder.string());
    case EISDIR:
    case EEXIST:
    case ENOTEMPTY:
      return begin + "a folder has this name; choose another one";
    case ENAMETOOLONG:
      return begin + "its name is too long; choose a shorter one";
    case EIO:
      return begin + "the disk reports an error; use another one";
    default:
      return begin + std::strerror(error);
  }
}

std::string why_no_folder(const std::filesystem::path& path, int error) {
  std::error_code unknown;
  if (error == ENOTDIR && std::filesystem::is_regular_file(path, unknown))
    return fmt::format("{} is a file and no folder; use another name", path.string());
  if (error == ENOENT || error == ENOTDIR || error == ELOOP) {
    return fmt::format("The folder {} is no longer there; make it again, or use another one", path.string());
  }
  if (error == EACCES)
    return fmt::format("The folder {} cannot be opened: you may not; use another one, or ask its owner",
                       path.string());
  return fmt::format("The folder {} cannot be opened: {}", path.string(), std::strerror(error));
}

std::string put(int folder, const std::filesystem::path& path, const std::string& name, std::string_view text,
                const Entry& old, Place place) {
  const bool replaces = old.kind == Entry::Kind::file;
  // Taking the place of a file asks nothing of the file itself; its owner's write protection counts all the
  // same.
  if (replaces && ::faccessat(folder, name.c_str(), W_OK, AT_EACCESS) != 0 && errno == EACCES) {
    return fmt::format(
        "\"{}\" cannot be written: it is write-protected; allow writing to it (chmod u+w), or use another "
        "name",
        name);
  }
  clear_stale_drafts(folder);
  Draft draft = new_draft(folder, replaces ? 0600 : 0666);
  if (!draft.file) return why_not(name, path, errno);
  if ((replaces && !dress(draft.file.get(), old)) || !write_all(draft.file.get(), text) ||
      ::fsync(draft.file.get()) != 0 || !move_to(draft, name, place)) {
    return why_not(name, path, errno);
  }
  // The new name is on the disk only when the folder is; file systems that have nothing to flush there say
  // so.
  if (::fsync(folder) != 0 && errno != EINVAL && errno != ENOTSUP && errno != EROFS) {
    return why_not(name, path, errno);
  }
  return {};
}

}  // namespace poise::desk
