// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/edit.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job/blocks.hpp"
#include "job/members.hpp"
#include "job/tree.hpp"
#include "job/written.hpp"

namespace poise::job {
namespace {

using Form = Entry::Form;

Way outer_of(const Way& way) { return {way.begin(), way.end() - 1}; }

Way inner_of(Way way, Stop stop) {
  way.push_back(std::move(stop));
  return way;
}

Way behind(const Way& way, std::size_t stops) {
  return {way.begin() + static_cast<std::ptrdiff_t>(stops), way.end()};
}

/// Changes a text step by step; after each its tree and outline are made anew. What cannot be done leaves the
/// text as it is: whoever asked compares the tree with what it was to be.
class Changing {
 public:
  explicit Changing(std::string text) : script_(script_of(std::move(text))) { read_tree(); }

  const std::string& text() const { return script_.text; }
  const Node& tree() const { return tree_; }
  bool is_toml() const { return is_toml_; }

  void carry_out(const Edit& edit) {
    if (edit.does == Edit::Does::set) set(edit.at, edit.value);
    if (edit.does == Edit::Does::remove) remove(edit.at);
    if (edit.does == Edit::Does::add) add(edit.at, edit.value, edit.place);
    if (edit.does == Edit::Does::move) move(edit.at, edit.place);
    if (edit.does == Edit::Does::rename) rename(edit.at, std::get<std::string>(edit.value.is));
  }

 private:
  void set(const Way& way, const Written& value) {
    const Node* present = node_at(tree_, way);
    if (!present) return add_key(way, value);
    const Node wanted = node_of(value);
    if (same(*present, wanted)) return;
    if (present->form == Node::Form::table && wanted.form == Node::Form::table) return set_fields(way, value);
    if (present->form == Node::Form::list && wanted.form == Node::Form::list) return set_items(way, value);
    if (const Spot spot = spot_of(script_.outline, way); spot.value)
      return write({{spot.value->at, in_toml(value)}});
    remove(way);
    if (!node_at(tree_, way)) add_key(way, value);
  }

  void remove(const Way& way) {
    const Spot spot = spot_of(script_.outline, way);
    if (!spot.holder) return write(take_out(script_, entries_of(spot)));
    if (spot.parts.empty()) return;
    write(take_out(script_, *spot.holder, spot.parts.back()));
    if (spot.parts.size() > 1) remove(way);
  }

  void add(const Way& way, const Written& value, std::optional<std::size_t> place) {
    const Node* list = node_at(tree_, way);
    if (!list) return add_key(way, {Written::List{value}});
    const Spot spot = spot_of(script_.outline, way);
    const std::size_t to = std::min(place.value_or(list->items.size()), list->items.size());
    if (spot.value) return write(put_in(script_, *spot.value, to, in_toml(value)));
    if (!std::holds_alternative<Written::Table>(value.is)) return;
    put_item(way, to, with_newlines(script_, sections_in_toml(way, {Written::List{value}})));
  }

  void move(const Way& way, std::optional<std::size_t> place) {
    const Way list = outer_of(way);
    const std::size_t from = std::get<std::size_t>(way.back()), last = node_at(tree_, list)->items.size() - 1;
    const std::size_t to = place.value_or(last);
    if (from == to) return;
    const Spot spot = spot_of(script_.outline, list);
    if (spot.value) return write(move_within(script_, *spot.value, from, to));
    const std::string block = text_of(spot_of(script_.outline, way).parts);
    remove(way);
    put_item(list, to, block);
  }

  void rename(const Way& way, const std::string& key) {
    const Spot spot = spot_of(script_.outline, way);
    std::vector<Splice> splices;
    const auto put = [&](const std::vector<Stretch>& parts, std::size_t part) {
      if (part < parts.size()) splices.push_back({parts[part], key_in_toml(Way{key})});
    };
    if (spot.holder) {
      for (const std::size_t i : spot.parts) put(spot.holder->members[i].key, spot.within.size() - 1);
    } else {
      for (const std::size_t i : entries_of(spot)) put(entry(i).key, part_of_key(entry(i), way));
    }
    write(std::move(splices));
  }

  /// Which part of an entry's key stands for the last stop of a way; nowhere if it stands in the heading
  /// above.
  static std::size_t part_of_key(const Entry& entry, const Way& way) {
    if (entry.form != Form::pair) {
      const auto is_key = [](const Stop& stop) { return std::holds_alternative<std::string>(stop); };
      return static_cast<std::size_t>(std::ranges::count_if(way, is_key)) - 1;
    }
    const std::size_t heading = entry.way.size() - entry.key.size();
    return way.size() > heading ? way.size() - 1 - heading : nowhere;
  }

  void write(std::vector<Splice> splices) {
    script_ = script_of(spliced(script_, std::move(splices)));
    read_tree();
  }

  void read_tree() {
    auto parsed = parse(script_.text);
    is_toml_ = std::holds_alternative<Node>(parsed);
    tree_ = is_toml_ ? std::move(std::get<Node>(parsed)) : Node{};
  }

  const Entry& entry(std::size_t i) const { return script_.outline.entries[i]; }
  bool is_heading(std::size_t i) const { return entry(i).form != Form::pair; }

  /// What is there of a value in the lines of the job.
  std::vector<std::size_t> entries_of(const Spot& spot) const {
    if (!spot.entry) return spot.parts;
    return {static_cast<std::size_t>(spot.entry - script_.outline.entries.data())};
  }

  void set_fields(const Way& way, const Written& value) {
    const auto& table = std::get<Written::Table>(value.is);
    const std::vector<Field> before = node_at(tree_, way)->fields;
    for (const auto& [key, inner] : table) set(inner_of(way, key), inner);
    for (const Field& field : before) {
      const bool stays =
          std::ranges::any_of(table, [&](const auto& each) { return each.first == field.key; });
      if (!stays) remove(inner_of(way, field.key));
    }
  }

  /// Entries at the beginning and end that stay are not touched; between them, one is written over the other.
  void set_items(const Way& way, const Written& value) {
    const auto& list = std::get<Written::List>(value.is);
    const Node before = *node_at(tree_, way), after = node_of(value);
    const std::size_t had = before.items.size(), gets = after.items.size(), both = std::min(had, gets);
    std::size_t first = 0, last = 0;
    while (first < both && same(before.items[first], after.items[first])) ++first;
    while (last < both - first && same(before.items[had - 1 - last], after.items[gets - 1 - last])) ++last;
    const std::size_t end = both - last;
    for (std::size_t i = first; i < end; ++i) set(inner_of(way, i), list[i]);
    for (std::size_t i = had - last; i > end; --i) remove(inner_of(way, i - 1));
    for (std::size_t i = end; i < gets - last; ++i) add(way, list[i], i);
  }

  /// A key that is not there yet; its table may be missing too.
  void add_key(const Way& way, const Written& value) {
    const auto* key = way.empty() ? nullptr : std::get_if<std::string>(&way.back());
    if (!key) return;
    const Way table = outer_of(way);
    if (table.empty()) return add_to_job(*key, value);
    if (!node_at(tree_, table)) return add_key(table, {Written::Table{{*key, value}}});
    const Spot spot = spot_of(script_.outline, table);
    if (spot.holder || spot.value) return add_in_braces(spot, way, value);
    add_to_lines(spot.parts, way, value);
  }

  void add_in_braces(const Spot& spot, const Way& way, const Written& value) {
    const auto member = [&](const Way& keys) { return key_in_toml(keys) + " = " + in_toml(value); };
    if (spot.value) return write(put_in(script_, *spot.value, nowhere, member({way.back()})));
    if (spot.parts.empty()) return;
    // The table is there by the dotted keys of some members; this one is written in the same way.
    write(put_in(script_, *spot.holder, spot.parts.back() + 1, member(inner_of(spot.within, way.back()))));
  }

  void add_to_job(const std::string& key, const Written& value) {
    if (!std::holds_alternative<Written::Table>(value.is) && !is_list_of_tables(value))
      return write({put_on_top(script_, key, value)});
    add_sections(place_of_section(script_, key), {key}, value);
  }

  void add_sections(std::size_t at, const Way& way, const Written& value) {
    write({put_apart(script_, at, with_newlines(script_, sections_in_toml(way, value)))});
  }

  /// A new key of a table that is made up of these entries, by its heading, by those of tables in it, or by
  /// dotted keys.
  void add_to_lines(const std::vector<std::size_t>& entries, const Way& way, const Written& value) {
    const Way table = outer_of(way);
    std::size_t heading = nowhere, last_heading = nowhere, last_pair = nowhere;
    bool has_sections = false;
    for (const std::size_t i : entries) {
      if (!is_heading(i)) last_pair = i;
      if (!is_heading(i)) continue;
      last_heading = i;
      if (entry(i).way == table) heading = i;
      if (entry(i).way.size() == table.size() + 1)
        has_sections = has_sections || entry(i).form == Form::section;
    }
    const bool is_table = std::holds_alternative<Written::Table>(value.is);
    const bool bare = last_pair == nowhere && table == Way{std::string("parts")};
    if (is_table && last_heading != nowhere && (has_sections || bare))
      return add_sections(block_of(script_, last_heading).end, way, value);
    if (heading != nowhere) last_pair = last_of_section(script_, heading);
    if (last_heading != nowhere && heading == nowhere)
      return add_sections(block_of(script_, entries.front()).begin, table,
                          {Written::Table{{std::get<std::string>(way.back()), value}}});
    add_pair(last_pair, way, value);
  }

  void add_pair(std::size_t neighbour, const Way& way, const Written& value) {
    const Entry& other = entry(neighbour);
    const std::size_t base = is_heading(neighbour) ? other.way.size() : other.way.size() - other.key.size();
    const bool dotted = !is_heading(neighbour) && other.way.size() > way.size();
    write({put_behind(script_, neighbour, behind(way, base), value, dotted)});
  }

  std::string text_of(const std::vector<std::size_t>& entries) const {
    std::string all;
    for (const Stretch& block : blocks_of(script_, entries))
      all += script_.text.substr(block.begin, block.end - block.begin);
    return all;
  }

  /// The lines of an item that has a heading of its own come to stand at a place among the others.
  void put_item(const Way& list, std::size_t place, const std::string& lines) {
    const std::vector<std::size_t> there = spot_of(script_.outline, inner_of(list, place)).parts;
    if (!there.empty()) return write({put_apart(script_, block_of(script_, there.front()).begin, lines)});
    const std::vector<std::size_t> all = spot_of(script_.outline, list).parts;
    if (all.empty()) return;
    const auto last =
        std::ranges::find_if(all.rbegin(), all.rend(), [&](std::size_t i) { return is_heading(i); });
    write({put_apart(script_, block_of(script_, *last).end, lines)});
  }

  Script script_;
  Node tree_;
  bool is_toml_ = true;
};

}  // namespace

Edited edited(std::string_view text, std::span<const Edit> edits) {
  const auto parsed = parse(text);
  if (const auto* remark = std::get_if<Remark>(&parsed)) return {{}, remark->sentence};
  const bool open_end = !text.empty() && !text.ends_with('\n');
  std::string ended(text);
  if (open_end) ended += script_of(ended).newline;
  Changing changing(std::move(ended));
  for (const Edit& edit : edits) {
    const auto wanted = changed(changing.tree(), edit);
    if (const auto* sentence = std::get_if<std::string>(&wanted)) return {{}, *sentence};
    changing.carry_out(edit);
    if (changing.is_toml() && same(changing.tree(), std::get<Node>(wanted))) continue;
    return {
        {},
        fmt::format("{} cannot be changed without changing how the text is laid out; change it in the text",
                    shown(edit.at))};
  }
  std::string now = changing.text();
  if (open_end && now.ends_with('\n')) now.resize(now.size() - (now.ends_with("\r\n") ? 2 : 1));
  return {std::move(now), {}};
}

}  // namespace poise::job
