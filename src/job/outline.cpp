// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/outline.hpp"

#include <algorithm>
#include <map>

#include "job/node.hpp"

namespace poise::job {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool is_blank_letter(char c) { return c == ' ' || c == '\t' || c == '\r'; }

/// The key that quotation marks and escapes stand for.
std::string unquoted(std::string_view key) {
  const auto parsed = parse(std::string(key) + " = 0");
  const auto* table = std::get_if<Node>(&parsed);
  return table && table->fields.size() == 1 ? table->fields[0].key : std::string(key);
}

/// A key as it stands in the text: each of its parts, and where.
struct Key {
  std::vector<std::string> names{};
  std::vector<Stretch> parts{};
};

/// Goes over a text from its beginning to its end.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  Outline outline() {
    if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
    outline_.begin = at_;
    for (skip_between(); at_ < text_.size(); skip_between()) outline_.entries.push_back(entry());
    return std::move(outline_);
  }

 private:
  char now() const { return at_ < text_.size() ? text_[at_] : '\0'; }
  bool is_now(std::string_view mark) const { return text_.substr(at_).starts_with(mark); }
  void step(std::size_t count = 1) { at_ = std::min(at_ + count, text_.size()); }

  void skip_blanks() {
    while (is_blank_letter(now())) step();
  }

  void skip_comment() {
    if (now() != '#') return;
    outline_.comments.push_back(at_);
    at_ = std::min(text_.find('\n', at_), text_.size());
  }

  /// Blanks, comments and ends of lines.
  void skip_between() {
    for (skip_blanks(); now() == '#' || now() == '\n'; skip_blanks()) {
      skip_comment();
      if (now() == '\n') step();
    }
  }

  Entry entry() {
    Entry entry;
    entry.at.begin = at_;
    const std::size_t line = text_.rfind('\n', at_ == 0 ? 0 : at_ - 1);
    entry.lines.begin = at_ > 0 && line != std::string_view::npos ? line + 1 : outline_.begin;
    if (now() == '[') {
      heading(entry);
    } else {
      pair(entry);
    }
    entry.at.end = at_;
    skip_blanks();
    skip_comment();
    if (now() == '\n') step();
    // Whatever stands here in a text that is not TOML is passed over, so that there is an end.
    if (at_ == entry.at.begin) step();
    entry.lines.end = at_;
    return entry;
  }

  void heading(Entry& entry) {
    entry.form = is_now("[[") ? Entry::Form::item : Entry::Form::section;
    const std::size_t brackets = entry.form == Entry::Form::item ? 2 : 1;
    step(brackets);
    Key written = key();
    skip_blanks();
    step(brackets);
    entry.way = way_of(written.names, entry.form == Entry::Form::item);
    entry.key = std::move(written.parts);
    table_ = entry.way;
  }

  void pair(Entry& entry) {
    Key written = key();
    entry.way = table_;
    entry.way.insert(entry.way.end(), written.names.begin(), written.names.end());
    entry.key = std::move(written.parts);
    skip_to_value();
    entry.value = value();
  }

  void skip_to_value() {
    skip_blanks();
    if (now() == '=') step();
    skip_blanks();
  }

  /// The way that a heading means: a list's name stands for the last of its items so far.
  Way way_of(const std::vector<std::string>& keys, bool opens_item) {
    Way way;
    for (std::size_t i = 0; i < keys.size(); ++i) {
      way.emplace_back(keys[i]);
      const bool last = i + 1 == keys.size();
      if (last && opens_item) {
        way.emplace_back(items_[way]++);
      } else if (const auto items = items_.find(way); items != items_.end()) {
        way.emplace_back(items->second - 1);
      }
    }
    return way;
  }

  Key key() {
    Key key;
    do {
      if (now() == '.') step();
      skip_blanks();
      const std::size_t begin = at_;
      const bool quoted = now() == '"' || now() == '\'';
      if (quoted) {
        text();
      } else {
        at_ = std::min(text_.find_first_of(" \t\r\n.=]#", at_), text_.size());
      }
      const std::string_view written = text_.substr(begin, at_ - begin);
      key.names.push_back(quoted ? unquoted(written) : std::string(written));
      key.parts.push_back({begin, at_});
      const std::size_t end = at_;
      skip_blanks();
      if (now() != '.') at_ = end;
    } while (now() == '.');
    return key;
  }

  Value value() {
    Value value;
    value.at.begin = at_;
    if (now() == '"' || now() == '\'') {
      text();
    } else if (now() == '[' || now() == '{') {
      value.form = now() == '[' ? Value::Form::list : Value::Form::table;
      members(value);
    } else {
      at_ = std::min(text_.find_first_of(",]}#\n", at_), text_.size());
      while (at_ > value.at.begin && is_blank_letter(text_[at_ - 1])) --at_;
    }
    value.at.end = at_;
    return value;
  }

  void members(Value& value) {
    const char closing = value.form == Value::Form::list ? ']' : '}';
    step();
    for (skip_between(); at_ < text_.size() && now() != closing; skip_between()) {
      const std::size_t before = at_;
      value.members.push_back(member(value.form));
      skip_between();
      if (now() == ',') {
        value.members.back().comma = at_;
        step();
      }
      if (at_ == before) step();
    }
    step();
  }

  Member member(Value::Form of) {
    Member member;
    member.at.begin = at_;
    if (of == Value::Form::table) {
      Key written = key();
      member.way.assign(written.names.begin(), written.names.end());
      member.key = std::move(written.parts);
      skip_to_value();
    }
    member.value = value();
    member.at.end = at_;
    return member;
  }

  /// A text in quotation marks of one of the four kinds.
  void text() {
    const char mark = now();
    const bool escapes = mark == '"';
    const std::string_view three = escapes ? "\"\"\"" : "'''";
    const bool is_long = is_now(three);
    step(is_long ? 3 : 1);
    while (at_ < text_.size() && !(is_long ? is_now(three) : now() == mark))
      step(escapes && now() == '\\' ? 2 : 1);
    step(is_long ? 3 : 1);
    // A long text may end in one or two quotation marks of its own.
    for (int own = 0; is_long && own < 2 && now() == mark; ++own) step();
  }

  std::string_view text_;
  std::size_t at_ = 0;
  Way table_{};                         ///< that the last heading opened
  std::map<Way, std::size_t> items_{};  ///< of each list of headings so far
  Outline outline_{};
};

Way behind(const Way& way, const Way& start) {
  return {way.begin() + static_cast<std::ptrdiff_t>(start.size()), way.end()};
}

/// Follows what is left of a way into a value.
void descend(Spot& spot, const Value& value, const Way& rest) {
  spot.value = &value;
  if (rest.empty()) return;
  spot.value = nullptr;
  spot.holder = &value;
  spot.within = rest;
  spot.parts.clear();
  for (std::size_t i = 0; i < value.members.size(); ++i) {
    const Member& member = value.members[i];
    const bool is_item = value.form == Value::Form::list;
    const Way step = is_item ? Way{i} : member.way;
    if (begins_with(rest, step)) {
      spot.parts = {i};
      return descend(spot, member.value, behind(rest, step));
    }
    if (!is_item && begins_with(step, rest)) spot.parts.push_back(i);
  }
}

}  // namespace

Outline outline_of(std::string_view text) { return Scanner(text).outline(); }

bool begins_with(const Way& way, const Way& other) {
  return way.size() >= other.size() && std::equal(other.begin(), other.end(), way.begin());
}

Spot spot_of(const Outline& outline, const Way& way) {
  Spot spot;
  for (const Entry& entry : outline.entries) {
    if (entry.form != Entry::Form::pair || !begins_with(way, entry.way)) continue;
    spot.entry = &entry;
    descend(spot, entry.value, behind(way, entry.way));
    return spot;
  }
  for (std::size_t i = 0; i < outline.entries.size(); ++i) {
    if (begins_with(outline.entries[i].way, way)) spot.parts.push_back(i);
  }
  return spot;
}

}  // namespace poise::job
