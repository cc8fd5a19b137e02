// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/settings.hpp"

#include <algorithm>
#include <map>

namespace poise::compose {

using job::Edit;

void remove_settings(Work& work, const std::string& tag) {
  struct Set {
    std::size_t left = 0;
    std::vector<std::string> out;
  };
  std::map<std::pair<std::string, std::size_t>, Set> sets;
  for (const SetKey& key : set_keys(work.sheet)) {
    Set& set = sets[{std::get<std::string>(key.table[0]), std::get<std::size_t>(key.table[1])}];
    if (set_tag(work.sheet, key.name) != tag) {
      ++set.left;
    } else if (std::ranges::find(set.out, key.field->key) == set.out.end()) {
      set.out.push_back(key.field->key);
    }
  }
  const auto remove = [&](job::Way at) { work.edits.push_back({Edit::Does::remove, std::move(at)}); };
  // From the last to the first: a control that goes leaves the places before it as they are.
  for (auto entry = sets.rbegin(); entry != sets.rend(); ++entry) {
    const auto& [list, index] = entry->first;
    const Set& set = entry->second;
    if (set.out.empty()) continue;
    if (set.left == 0 && list == "controls") {
      remove({list, index});
    } else if (set.left == 0) {
      remove({list, index, "set"});
      if (find_key(find_key(work.sheet.tree, list)->items[index], "over")) remove({list, index, "over"});
    } else {
      for (const std::string& key : set.out) remove({list, index, "set", key});
    }
  }
}

}  // namespace poise::compose
