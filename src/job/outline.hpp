// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <limits>
#include <string_view>
#include <vector>

#include "job/edit.hpp"

namespace poise::job {

/// A stretch of a text, in bytes; the end is behind its last.
struct Stretch {
  std::size_t begin = 0, end = 0;
};

inline constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max();

struct Member;

/// A value as it is written: a plain one, a list in brackets, a table in braces.
struct Value {
  enum class Form { plain, list, table };
  Form form = Form::plain;
  Stretch at;
  std::vector<Member> members;  ///< of a list or table
};

/// What stands between two commas.
struct Member {
  Way way;  ///< of a table: its key, of several parts where it has dots in it; of a list: empty
  std::vector<Stretch> key;     ///< each part of it
  Stretch at;                   ///< from the key, or the value, to the end of the value
  Value value;                  ///< what stands there
  std::size_t comma = nowhere;  ///< behind it
};

/// A key with its value, or a heading in brackets, with the lines that it takes.
struct Entry {
  enum class Form {
    pair,     ///< key = value
    section,  ///< [table]
    item,     ///< [[list]]
  };
  Form form = Form::pair;
  Way way;                   ///< from the job to what it gives a value, or opens
  std::vector<Stretch> key;  ///< each part of its key, or of the heading
  Stretch at;                ///< from the key or bracket to the end of the value or bracket
  Stretch lines;  ///< whole lines, from the first letter of the first to behind the end of the last
  Value value;    ///< of a pair
};

/// Where everything stands in a text. The byte order mark and what is not in an entry's lines are blank lines
/// and comments.
struct Outline {
  std::vector<Entry> entries;
  std::vector<std::size_t> comments;  ///< where each begins, with its #
  std::size_t begin = 0;              ///< behind the byte order mark
};

/// The outline of a text that is TOML 1.0; of another one, something without sense, but it comes to an end.
Outline outline_of(std::string_view text);

/// Whether a way begins with another, or is the same.
bool begins_with(const Way& way, const Way& other);

/// What a way leads to in a text.
struct Spot {
  const Entry* entry = nullptr;    ///< the line of the value, where it stands within one
  const Value* value = nullptr;    ///< what stands there; null where nothing does, or it is scattered
  const Value* holder = nullptr;   ///< the list or table in whose brackets it stands, if it stands in any
  Way within;                      ///< what is left of the way inside the holder
  std::vector<std::size_t> parts;  ///< places of it in the holder, without one in the outline's entries
};
Spot spot_of(const Outline& outline, const Way& way);

}  // namespace poise::job
