// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/names.hpp"

#include <algorithm>
#include <array>

namespace poise::compose {
namespace {

using job::Edit;
using job::Node;
using job::Way;

constexpr std::array promises{"never_above", "never_below", "reached", "first",
                              "then",        "band",        "drift",   "level"};

Way inside(Way way, std::variant<std::string, std::size_t> stop) {
  way.push_back(std::move(stop));
  return way;
}

/// Changes a text, or each text of a list.
struct Changing {
  const Sheet& sheet;
  const Renaming& rename;
  std::vector<Edit> edits{};

  void at(const Node* node, const Way& way) {
    if (!node) return;
    for (std::size_t i = 0; i < node->items.size(); ++i) at(&node->items[i], inside(way, i));
    if (node->form != Node::Form::text) return;
    std::string changed = rename(node->text);
    if (changed != node->text) edits.push_back({Edit::Does::set, way, {std::move(changed)}});
  }

  /// The keys of each table of a list.
  template <class Keys>
  void each(const char* list, const Keys& keys) {
    const Node* tables = find_key(sheet.tree, list);
    for (std::size_t i = 0; tables && i < tables->items.size(); ++i) {
      for (const char* key : keys) at(find_key(tables->items[i], key), {list, i, key});
    }
  }
};

}  // namespace

std::string with_changed_tag(const Sheet& sheet, const std::string& name, const TagChanges& changes) {
  const std::size_t begin = std::min(name.find_first_not_of(' '), name.size());
  const std::size_t end = std::min(name.find_first_of(" <>", begin), name.size());
  const std::string_view signal = std::string_view(name).substr(begin, end - begin);
  const Placed* part = sheet.find(signal);
  if (!part) part = sheet.owner(signal);
  if (!part) return name;
  const auto change = std::ranges::find(changes, part->tag, &TagChanges::value_type::first);
  if (change == changes.end()) return name;
  return std::string(name).replace(begin, part->tag.size(), change->second);
}

std::vector<Edit> changed_signals(const Sheet& sheet, const TagChanges& changes) {
  return changed_signals(
      sheet, Renaming([&](const std::string& name) { return with_changed_tag(sheet, name, changes); }));
}

std::vector<Edit> changed_signals(const Sheet& sheet, const Renaming& rename) {
  Changing changing{sheet, rename};
  changing.each("steps", std::array{"until"});
  changing.each("controls", std::array{"when"});
  changing.each("require", promises);
  changing.each("waive", std::array{"part"});
  return std::move(changing.edits);
}

std::vector<Edit> changed_ports(const Sheet& sheet, const Renaming& rename) {
  Changing changing{sheet, rename};
  changing.each("lines", std::array{"from", "to"});
  changing.at(find_key(sheet.tree, "joined"), {"joined"});
  changing.at(find_key(sheet.tree, "plugged"), {"plugged"});
  return std::move(changing.edits);
}

TagChanges changed_hose_tags(const Sheet& sheet, const Renaming& rename) {
  TagChanges changes;
  for (const Entry& begin : sheet.entries) {
    if (begin.is != Entry::Is::hose_begin) continue;
    const Entry& end = *(&begin + 1);  // read one behind the other
    const Placed* hose = sheet.owner(begin.ports[1]);
    const std::string tag = rename(begin.ports[0]) + "-" + rename(end.ports[0]);
    if (hose && !hose->tagged && tag != hose->tag) changes.emplace_back(hose->tag, tag);
  }
  return changes;
}

std::vector<SetKey> set_keys(const Sheet& sheet) {
  std::vector<SetKey> keys;
  for (const char* list : {"steps", "controls"}) {
    const Node* tables = find_key(sheet.tree, list);
    for (std::size_t i = 0; tables && i < tables->items.size(); ++i) {
      const Node* set = find_key(tables->items[i], "set");
      if (!set) continue;
      for (const job::Field& field : set->fields) {
        const Way table{list, i, "set"};
        if (field.value.form != Node::Form::table) keys.push_back({table, &field, field.key, &field.value});
        // TOML reads the unquoted key N2.turns as a table in a table.
        for (const job::Field& inner : field.value.fields)
          keys.push_back({table, &field, field.key + "." + inner.key, &inner.value});
      }
    }
  }
  return keys;
}

std::string_view set_tag(const Sheet& sheet, std::string_view name) {
  if (const Placed* part = sheet.find(name)) return part->tag;
  const Placed* part = sheet.owner(name);
  return part ? std::string_view(part->tag) : std::string_view();
}

}  // namespace poise::compose
