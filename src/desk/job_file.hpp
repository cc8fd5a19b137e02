// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace poise::desk {

/// The folder whose jobs lie open, and nothing outside it: names are those of files right in it that end in
/// ".toml", without slashes, not hidden, no links to elsewhere.
class Folder {
 public:
  /// The folder must exist; its path is resolved once, here.
  explicit Folder(const std::filesystem::path& folder);

  const std::filesystem::path& path() const { return path_; }
  /// Whether a name may stand for a job of this folder.
  static bool is_name(std::string_view name);
  /// Names of its jobs, sorted; what was read at their commissioning ("lift.baseline.toml") is no job.
  std::vector<std::string> names() const;

  /// A job's text as it is on disk; none where there is no such file, it is too large, or it is a link out of
  /// the folder.
  std::optional<std::string> read(const std::string& name) const;
  /// Whether something stands under the name that is no job which could be read: what it holds is not known
  /// here.
  bool holds_something_else(const std::string& name) const;
  /// Writes a job's text so that at any moment the file on disk is the old one or the new one, whole: a new
  /// file beside it, flushed to the disk, then put in its place; owner and mode are kept where they can be.
  /// Empty, or why it could not be written, in a sentence.
  std::string write(const std::string& name, std::string_view text) const;
  /// As `write` for a file that is not there yet; a sentence where it is.
  std::string create(const std::string& name, std::string_view text) const;

 private:
  std::filesystem::path path_;
};

}  // namespace poise::desk
