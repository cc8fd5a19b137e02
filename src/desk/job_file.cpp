// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/job_file.hpp"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <utility>

#include "desk/folder_entry.hpp"
#include "desk/whole_file.hpp"
#include "job/file_text.hpp"

namespace poise::desk {
namespace {

constexpr std::string_view ending = ".toml";
constexpr std::size_t longest_name = 255;  // bytes; what file systems of Linux allow

/// Text of an open file; none where it cannot be read or is larger than a job may be.
std::optional<std::string> text_of(int file) {
  std::string text;
  std::array<char, 65'536> piece;
  while (true) {
    const ssize_t got = ::read(file, piece.data(), piece.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return std::nullopt;
    if (got == 0) return text;
    text.append(piece.data(), static_cast<std::size_t>(got));
    if (text.size() > job::largest_job) return std::nullopt;
  }
}

std::string not_here(const std::string& name) {
  return "\"" + name + "\" is no job of this folder: it is not a plain file right in it";
}

}  // namespace

Folder::Folder(const std::filesystem::path& folder) : path_(std::filesystem::canonical(folder)) {}

bool Folder::is_name(std::string_view name) {
  const auto unfit = [](unsigned char c) { return c < 0x20 || c == 0x7F || c == '/' || c == '\\'; };
  return name.size() > ending.size() && name.size() <= longest_name && name.ends_with(ending) &&
         name.front() != '.' && std::ranges::none_of(name, unfit) && job::is_text(name);
}

std::vector<std::string> Folder::names() const {
  std::vector<std::string> names;
  const Descriptor folder = open_folder(path_);
  if (!folder) return names;
  for (std::string& name : entries_of(folder.get())) {
    if (!is_name(name) || name.ends_with(".baseline.toml")) continue;
    const auto target = target_of(folder.get(), path_, name);
    if (target && entry_of(folder.get(), *target).kind == Entry::Kind::file) names.push_back(std::move(name));
  }
  std::ranges::sort(names);
  return names;
}

std::optional<std::string> Folder::read(const std::string& name) const {
  if (!is_name(name)) return std::nullopt;
  const Descriptor folder = open_folder(path_);
  if (!folder) return std::nullopt;
  const auto target = target_of(folder.get(), path_, name);
  if (!target) return std::nullopt;
  const Descriptor file = open_plain_file(folder.get(), *target);
  if (!file) return std::nullopt;
  return text_of(file.get());
}

bool Folder::holds_something_else(const std::string& name) const {
  const Descriptor folder = open_folder(path_);
  return folder && entry_of(folder.get(), name).kind != Entry::Kind::nothing && !read(name);
}

std::string Folder::write(const std::string& name, std::string_view text) const {
  if (!is_name(name)) return not_here(name);
  if (text.size() > job::largest_job)
    return "\"" + name + "\" would be larger than 4 MB; a job is a short text";
  const Descriptor folder = open_folder(path_);
  if (!folder) return why_no_folder(path_, errno);
  const auto target = target_of(folder.get(), path_, name);
  if (!target) return not_here(name);
  const Entry entry = entry_of(folder.get(), *target);
  if (entry.kind == Entry::Kind::other) return not_here(name);
  return put(folder.get(), path_, *target, text, entry, Place::may_be_taken);
}

std::string Folder::create(const std::string& name, std::string_view text) const {
  if (!is_name(name)) {
    return "\"" + name +
           "\" cannot be the name of a job: it must end in .toml, not begin with a dot, and hold no slash";
  }
  if (text.size() > job::largest_job)
    return "\"" + name + "\" would be larger than 4 MB; a job is a short text";
  const Descriptor folder = open_folder(path_);
  if (!folder) return why_no_folder(path_, errno);
  return put(folder.get(), path_, name, text, {}, Place::must_be_free);
}

}  // namespace poise::desk
