// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/folder_entry.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <limits.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <memory>

#include "desk/job_file.hpp"

namespace poise::desk {
namespace {

constexpr int most_links = 8;  // one behind the other; more is a ring or a prank

/// Where a link leads; empty where the name is no link.
std::string link_of(int folder, const std::string& name) {
  std::array<char, PATH_MAX> target;
  const ssize_t length = ::readlinkat(folder, name.c_str(), target.data(), target.size());
  return length > 0 ? std::string(target.data(), static_cast<std::size_t>(length)) : std::string();
}

}  // namespace

Descriptor::~Descriptor() {
  if (number_ >= 0) ::close(number_);
}

Descriptor open_folder(const std::filesystem::path& folder) {
  return Descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
}

std::vector<std::string> entries_of(int folder) {
  // Opened anew: a listing moves the descriptor's place in the folder.
  Descriptor again(::openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  const auto close = [](DIR* list) { ::closedir(list); };
  const std::unique_ptr<DIR, decltype(close)> list(::fdopendir(again.get()), close);
  std::vector<std::string> names;
  if (!list) return names;
  again.release();
  while (const dirent* entry = ::readdir(list.get())) names.emplace_back(entry->d_name);
  return names;
}

Entry entry_of(int folder, const std::string& name) {
  struct stat found {};
  if (::fstatat(folder, name.c_str(), &found, AT_SYMLINK_NOFOLLOW) != 0) {
    return {.kind = errno == ENOENT ? Entry::Kind::nothing : Entry::Kind::other};
  }
  return {.kind = S_ISREG(found.st_mode) ? Entry::Kind::file : Entry::Kind::other,
          .mode = found.st_mode & 07777U,
          .owner = found.st_uid,
          .group = found.st_gid};
}

Descriptor open_plain_file(int folder, const std::string& name) {
  if (entry_of(folder, name).kind != Entry::Kind::file) return Descriptor();
  // It may have been changed for something else since: a pipe must not make us wait, and is looked at once
  // more.
  Descriptor file(::openat(folder, name.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC));
  struct stat found {};
  if (!file || ::fstat(file.get(), &found) != 0 || !S_ISREG(found.st_mode)) return Descriptor();
  return file;
}

std::optional<std::string> target_of(int folder, const std::filesystem::path& path, std::string name) {
  for (int links = 0; links <= most_links; ++links) {
    std::string next = link_of(folder, name);
    if (next.empty()) return name;
    const std::string here = path.string() + "/";
    if (next.starts_with(here)) next.erase(0, here.size());
    if (next.starts_with("./")) next.erase(0, 2);
    if (!Folder::is_name(next)) return std::nullopt;
    name = std::move(next);
  }
  return std::nullopt;
}

}  // namespace poise::desk
