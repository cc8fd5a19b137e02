// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/keys.hpp"

#include <span>
#include <vector>

#include "job/outline.hpp"
#include "job/written.hpp"

namespace poise::compose {
namespace {

using job::Stretch;
using job::Way;

/// One stretch of the text and what stands there instead.
struct Swap {
  Stretch at;
  std::string with;
};

class Renaming {
 public:
  Renaming(std::string_view text, const std::function<Way(Way)>& rename) : text_(text), rename_(rename) {}

  std::string renamed() {
    const job::Outline outline = job::outline_of(text_);
    for (const job::Entry& entry : outline.entries) {
      if (entry.form == job::Entry::Form::pair) {
        rename_key({entry.at.begin, entry.value.at.begin}, entry.way, entry.key.size());
        rename_members(entry.value, entry.way);
      } else {
        rename_heading(entry);
      }
    }
    std::string result(text_);
    for (auto swap = swaps_.rbegin(); swap != swaps_.rend(); ++swap)
      result.replace(swap->at.begin, swap->at.end - swap->at.begin, swap->with);
    return result;
  }

 private:
  void rename_heading(const job::Entry& entry) {
    const Way other = rename_(entry.way);
    if (other == entry.way) return;
    const bool item = entry.form == job::Entry::Form::item;
    swaps_.push_back({entry.at, (item ? "[[" : "[") + job::key_in_toml(other) + (item ? "]]" : "]")});
  }

  /// A key of `keys` parts at the end of a way; `at` goes on to the value.
  void rename_key(Stretch at, const Way& way, std::size_t keys) {
    const Way other = rename_(way);
    if (other == way) return;
    at.end = text_.rfind('=', at.end - 1);
    while (at.end > at.begin && (text_[at.end - 1] == ' ' || text_[at.end - 1] == '\t')) --at.end;
    swaps_.push_back({at, job::key_in_toml(std::span(other).last(keys))});
  }

  void rename_members(const job::Value& value, const Way& way) {
    for (std::size_t i = 0; i < value.members.size(); ++i) {
      const job::Member& member = value.members[i];
      Way inner = way;
      if (value.form == job::Value::Form::table) {
        inner.insert(inner.end(), member.way.begin(), member.way.end());
        rename_key({member.at.begin, member.value.at.begin}, inner, member.way.size());
      } else {
        inner.emplace_back(i);
      }
      rename_members(member.value, inner);
    }
  }

  std::string_view text_;
  const std::function<Way(Way)>& rename_;
  std::vector<Swap> swaps_;
};

}  // namespace

std::string with_renamed_keys(std::string_view text, const std::function<Way(Way)>& rename) {
  return Renaming(text, rename).renamed();
}

}  // namespace poise::compose
