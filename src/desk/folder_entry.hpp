// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace poise::desk {

/// An open file or folder of the system, closed when it goes.
class Descriptor {
 public:
  explicit Descriptor(int number = -1) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
  }
  ~Descriptor();

  explicit operator bool() const { return number_ >= 0; }
  int get() const { return number_; }
  /// Leaves it open for another to close.
  int release() { return std::exchange(number_, -1); }

 private:
  int number_;
};

/// What stands under a name in a folder, without following a link.
struct Entry {
  enum class Kind { nothing, file, other };
  Kind kind = Kind::nothing;
  mode_t mode = 0;  ///< permissions
  uid_t owner = 0;
  gid_t group = 0;
};

Descriptor open_folder(const std::filesystem::path& folder);
/// Names of all that stands in an open folder, hidden ones too, in no order.
std::vector<std::string> entries_of(int folder);
Entry entry_of(int folder, const std::string& name);

/// Opens a plain file for reading; nothing else is so much as touched: opening a device or a pipe can do
/// things.
Descriptor open_plain_file(int folder, const std::string& name);

/// The name in the same folder that a name stands for: itself, or where its links lead as long as each of
/// them leads to a job's name right in this folder. None where a link leads elsewhere.
std::optional<std::string> target_of(int folder, const std::filesystem::path& path, std::string name);

}  // namespace poise::desk
