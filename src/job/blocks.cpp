// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/blocks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "job/written.hpp"

namespace poise::job {
namespace {

bool is_heading(const Entry& entry) { return entry.form != Entry::Form::pair; }

std::size_t end_of_entry_before(const Script& script, std::size_t entry) {
  return entry == 0 ? script.outline.begin : script.outline.entries[entry - 1].lines.end;
}

std::size_t begin_of_block(const Script& script, std::size_t entry) {
  return comments_above(script.text, script.outline.entries[entry].lines.begin,
                        end_of_entry_before(script, entry));
}

bool is_end(const Script& script, std::size_t at) { return at >= script.text.size(); }

bool is_blank_or_end(const Script& script, std::size_t at) {
  return is_end(script, at) || is_blank_line(script.text, at);
}

/// Whether nothing, or a blank line, stands above the line that begins there.
bool is_blank_above(const Script& script, std::size_t line) {
  return line <= script.outline.begin || is_blank_line(script.text, line_begin(script.text, line - 1));
}

/// Whether blank lines stand between the headings of this text, as they do where there are none yet.
bool is_spaced(const Script& script) {
  bool any = false;
  for (std::size_t i = 1; i < script.outline.entries.size(); ++i) {
    if (!is_heading(script.outline.entries[i])) continue;
    any = true;
    if (is_blank_above(script, begin_of_block(script, i))) return true;
  }
  return !any;
}

/// The blank lines that are too many once a stretch is gone go with it.
Stretch with_blank_lines(const Script& script, Stretch stretch) {
  if (!is_blank_above(script, stretch.begin)) return stretch;
  while (!is_end(script, stretch.end) && is_blank_line(script.text, stretch.end))
    stretch.end = next_line(script.text, stretch.end);
  if (!is_end(script, stretch.end)) return stretch;
  while (stretch.begin > script.outline.begin && is_blank_above(script, stretch.begin))
    stretch.begin = std::max(line_begin(script.text, stretch.begin - 1), script.outline.begin);
  return stretch;
}

std::size_t rank_of(const std::string& key) {
  constexpr std::array<std::string_view, 14> usual{"title",    "note",    "units", "stock",  "plugged",
                                                   "joined",   "oil",     "parts", "lines",  "steps",
                                                   "controls", "require", "waive", "drawing"};
  return static_cast<std::size_t>(std::ranges::find(usual, key) - usual.begin());
}

std::size_t rank_of(const Entry& entry) { return rank_of(std::get<std::string>(entry.way.front())); }

/// The text between a key and its value as an entry has it.
std::string equals_of(const Script& script, const Entry& entry) {
  const std::size_t value = entry.value.at.begin;
  return script.text[value - 1] == '=' ? "=" : " = ";
}

/// Where a new first line goes: above what stands there, but below a comment that the text begins with.
std::size_t above(const Script& script, std::size_t entry) {
  const std::size_t begin = begin_of_block(script, entry);
  return begin == script.outline.begin ? script.outline.entries[entry].lines.begin : begin;
}

std::string section_in_toml(const Way& way, const Written::Table& table) {
  return fmt::format("[{}]\n{}", key_in_toml(way), lines_in_toml(table));
}

bool holds_tables_alone(const Written::Table& table) {
  return !table.empty() && std::ranges::all_of(table, [](const auto& field) {
    return std::holds_alternative<Written::Table>(field.second.is);
  });
}

}  // namespace

Stretch block_of(const Script& script, std::size_t entry) {
  const Entry& first = script.outline.entries[entry];
  Stretch block{begin_of_block(script, entry), first.lines.end};
  if (!is_heading(first)) return block;
  block.end = script.outline.entries[last_of_section(script, entry)].lines.end;
  std::size_t below = block.end;
  while (!is_end(script, below) && is_comment_line(script.text, below)) below = next_line(script.text, below);
  if (is_blank_or_end(script, below)) block.end = below;
  return block;
}

std::vector<Stretch> blocks_of(const Script& script, std::span<const std::size_t> entries) {
  std::vector<Stretch> blocks;
  for (const std::size_t entry : entries) {
    const Stretch block = block_of(script, entry);
    if (!blocks.empty() && block.end <= blocks.back().end) continue;  // a key under a heading of these
    std::size_t behind = blocks.empty() ? 0 : blocks.back().end;
    while (!blocks.empty() && behind < block.begin && is_blank_line(script.text, behind))
      behind = next_line(script.text, behind);
    if (!blocks.empty() && behind >= block.begin) {
      blocks.back().end = block.end;
    } else {
      blocks.push_back(block);
    }
  }
  return blocks;
}

std::vector<Splice> take_out(const Script& script, std::span<const std::size_t> entries) {
  std::vector<Splice> splices;
  for (const Stretch& block : blocks_of(script, entries))
    splices.push_back({with_blank_lines(script, block), ""});
  return splices;
}

Splice put_apart(const Script& script, std::size_t at, std::string_view lines) {
  std::string text(lines);
  if (is_spaced(script)) {
    if (!is_blank_above(script, at)) text = script.newline + text;
    if (!is_blank_or_end(script, at)) text += script.newline;
  }
  return {{at, at}, text};
}

std::size_t last_of_section(const Script& script, std::size_t heading) {
  const auto& entries = script.outline.entries;
  std::size_t last = heading;
  while (last + 1 < entries.size() && !is_heading(entries[last + 1])) ++last;
  return last;
}

Splice put_behind(const Script& script, std::size_t entry, const Way& keys, const Written& value,
                  bool dotted) {
  const Entry& neighbour = script.outline.entries[entry];
  const std::string indent =
      script.text.substr(neighbour.lines.begin, neighbour.at.begin - neighbour.lines.begin);
  const std::string equals = is_heading(neighbour) ? " = " : equals_of(script, neighbour);
  const auto* table = std::get_if<Written::Table>(&value.is);
  const std::string key = key_in_toml(keys);
  const std::string lines = dotted && table && !table->empty()
                                ? lines_in_toml(*table, indent + key + ".", equals)
                                : fmt::format("{}{}{}{}\n", indent, key, equals, in_toml(value));
  return {{neighbour.lines.end, neighbour.lines.end}, with_newlines(script, lines)};
}

Splice put_on_top(const Script& script, const std::string& key, const Written& value) {
  const auto& entries = script.outline.entries;
  const auto heading = std::ranges::find_if(entries, is_heading);
  const auto pairs = static_cast<std::size_t>(heading - entries.begin());
  std::size_t behind = nowhere;
  for (std::size_t i = 0; i < pairs; ++i) {
    if (rank_of(entries[i]) <= rank_of(key)) behind = i;
  }
  if (behind != nowhere) return put_behind(script, behind, {key}, value, false);
  const std::string line =
      with_newlines(script, fmt::format("{} = {}\n", key_in_toml(Way{key}), in_toml(value)));
  if (pairs > 0) return {{above(script, 0), above(script, 0)}, line};
  if (heading != entries.end()) {
    const std::size_t at = above(script, 0);
    return {{at, at}, is_spaced(script) ? line + script.newline : line};
  }
  return {{script.text.size(), script.text.size()}, line};
}

std::size_t place_of_section(const Script& script, const std::string& key) {
  const auto& entries = script.outline.entries;
  std::size_t first = nowhere, behind = nowhere;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (!is_heading(entries[i])) continue;
    first = std::min(first, i);
    if (rank_of(entries[i]) <= rank_of(key)) behind = i;
  }
  if (behind != nowhere) return block_of(script, behind).end;
  return first == nowhere ? script.text.size() : above(script, first);
}

std::string sections_in_toml(const Way& way, const Written& value) {
  std::string all;
  const auto add = [&](const std::string& section) { all += (all.empty() ? "" : "\n") + section; };
  if (const auto* list = std::get_if<Written::List>(&value.is)) {
    for (const Written& item : *list) {
      add(fmt::format("[[{}]]\n{}", key_in_toml(way), lines_in_toml(std::get<Written::Table>(item.is))));
    }
    return all;
  }
  const auto& table = std::get<Written::Table>(value.is);
  if (way.size() > 1 || !holds_tables_alone(table)) return section_in_toml(way, table);
  for (const auto& [key, inner] : table) {
    Way deeper = way;
    deeper.emplace_back(key);
    add(section_in_toml(deeper, std::get<Written::Table>(inner.is)));
  }
  return all;
}

}  // namespace poise::job
