// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compose/sheet.hpp"

namespace poise::compose {

/// Tags that change: from, to.
using TagChanges = std::vector<std::pair<std::string, std::string>>;

/// The name with its part's tag changed: "C1.A.pressure > 180 bar", "S1 on", "P1.P", "N1.turns"; as it is
/// where it names none of the parts.
std::string with_changed_tag(const Sheet& sheet, const std::string& name, const TagChanges& changes);

/// What a name becomes.
using Renaming = std::function<std::string(const std::string&)>;

/// What the conditions of steps and controls and the requirements name, changed.
std::vector<job::Edit> changed_signals(const Sheet& sheet, const Renaming& rename);
std::vector<job::Edit> changed_signals(const Sheet& sheet, const TagChanges& changes);
/// Ports of lines, joined and plugged by their new names.
std::vector<job::Edit> changed_ports(const Sheet& sheet, const Renaming& rename);
/// Tags of hoses that are made of their lines' ends, where these get new names.
TagChanges changed_hose_tags(const Sheet& sheet, const Renaming& rename);

/// A key of a step's or control's `set`.
struct SetKey {
  job::Way table;           ///< the way to `set`
  const job::Field* field;  ///< as it is written
  std::string name;         ///< "V1", "N1.turns"
  const job::Node* value;
};
/// All that steps and controls set.
std::vector<SetKey> set_keys(const Sheet& sheet);
/// The tag that such a key is about.
std::string_view set_tag(const Sheet& sheet, std::string_view name);

}  // namespace poise::compose
