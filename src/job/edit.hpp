// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace poise::job {

/// The way to a value in the job's tree: keys of tables, and places in lists counted from 0.
using Way = std::vector<std::variant<std::string, std::size_t>>;

/// A value as it is to be written.
struct Written {
  using List = std::vector<Written>;
  using Table = std::vector<std::pair<std::string, Written>>;  ///< in the order in which it is written
  std::variant<std::string, double, bool, List, Table> is;
};

/// One change of a job's text.
struct Edit {
  enum class Does {
    set,     ///< what stands at `at` becomes `value`; a key that is not there yet is added to its table
    remove,  ///< key and value, table, or entry of a list
    add,     ///< a new entry in the list `at`, before the present one at `place`, else behind the last
    move,    ///< the entry `at` of a list comes to stand at `place`, or behind the last
    rename,  ///< the key `at` gets the name `value`, a text; what stands behind it stays where it is
  };
  Does does = Does::set;
  Way at;
  Written value{};
  std::optional<std::size_t> place{};
};

/// A text after its changes; where one cannot be made the text is empty and `complaint` says why.
struct Edited {
  std::string text;
  std::string complaint;
};

/// Changes the text of a job as a person would: what is not asked for stays as it is, comments, blanks and
/// the order of lines included. The result is TOML again, or there is a complaint.
Edited edited(std::string_view text, std::span<const Edit> edits);

}  // namespace poise::job
