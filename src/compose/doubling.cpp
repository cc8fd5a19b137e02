// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "compose/tags.hpp"
#include "compose/ways_of_oil.hpp"
#include "compose/work.hpp"
#include "job/tree.hpp"

namespace poise::compose {
namespace {

using job::Edit;
using job::Written;
using Ports = std::vector<std::string>;

TagChanges tags_of_copies(const Sheet& sheet, const std::vector<std::string>& branch) {
  TagChanges tags;
  std::vector<std::string> taken;
  for (const std::string& tag : branch) {
    const Placed& part = *sheet.find(tag);
    taken.push_back(part.tagged ? next_like(sheet, tag, taken)
                                : next_tag(sheet, part.kind->about.kind, taken));
    tags.emplace_back(tag, taken.back());
  }
  return tags;
}

/// The same values; where it is drawn and what code it has stay with the first.
Written::Table values_of_copy(const Placed& part) {
  Written::Table table;
  for (const job::Field& field : part.table->fields) {
    if (field.key != "drawn_at" && field.key != "code")
      table.emplace_back(field.key, job::written_of(field.value));
  }
  return table;
}

void copy_parts(Work& work, const TagChanges& tags) {
  for (const auto& [tag, copy] : tags) {
    const Placed& part = *work.sheet.find(tag);
    if (part.line) {
      work.wish.conduits.push_back({copy, std::string(part.kind->about.kind), {values_of_copy(part)}});
    } else {
      work.edits.push_back({Edit::Does::set, {"parts", copy}, {values_of_copy(part)}});
    }
  }
}

void copy_joints(Work& work, const TagChanges& tags) {
  const auto copy_of = [&](const std::string& port) { return with_changed_tag(work.sheet, port, tags); };
  const Nets before = work.nets;
  for (std::size_t net = 0; net < before.size(); ++net) {
    Ports copies, near;
    std::string other;
    for (const std::string& port : before.ports(net)) {
      if (std::string copy = copy_of(port); copy != port) {
        copies.push_back(std::move(copy));
        near.push_back(port);
      } else if (other.empty()) {
        other = port;
      }
    }
    if (copies.empty()) continue;
    const Port* port = work.sheet.port(near.front());
    // A second rod on the same load would have to move with the first: that is for the reader to join.
    if (!other.empty() && port && port->domain == Domain::motion) continue;
    if (!other.empty()) {
      copies.insert(copies.begin(), other);
      std::ranges::move(near, std::back_inserter(work.wish.near));
    }
    work.nets.join(copies);
  }
  work.wish.plugged = work.sheet.plugged;
  for (const std::string& port : work.sheet.plugged) {
    if (std::string copy = copy_of(port); copy != port) work.wish.plugged->push_back(std::move(copy));
  }
}

void copy_settings(Work& work, const TagChanges& tags) {
  for (const SetKey& key : set_keys(work.sheet)) {
    const std::string copy = with_changed_tag(work.sheet, key.name, tags);
    if (copy == key.name) continue;
    job::Way at = key.table;
    at.emplace_back(copy);
    work.edits.push_back({Edit::Does::set, std::move(at), job::written_of(*key.value)});
  }
}

}  // namespace

Changed duplicate(std::string_view text, std::string_view tag) {
  return with_sheet(text, [&](Work& work) {
    const Placed* part = work.sheet.find(tag);
    if (!part || !part->kind) return cannot(no_such_part(tag));
    const TagChanges tags = tags_of_copies(work.sheet, branch_of(work.sheet, work.nets, tag));
    copy_parts(work, tags);
    copy_joints(work, tags);
    copy_settings(work, tags);
    const auto copy = std::ranges::find(tags, part->tag, &TagChanges::value_type::first);
    std::vector<std::string> names;
    for (const auto& change : tags) names.push_back(change.second);
    return finished(work, fmt::format("{} once more: {}", tag, fmt::join(names, ", ")), copy->second);
  });
}

}  // namespace poise::compose
