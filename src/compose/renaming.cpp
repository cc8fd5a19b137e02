// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "compose/work.hpp"
#include "job/draft.hpp"

namespace poise::compose {
namespace {

using job::Edit;

/// Why a part cannot get this tag; empty if it can.
std::string why_no_tag(const Sheet& sheet, std::string_view tag, const std::string& to) {
  job::Draft draft;
  for (const Placed& part : sheet.parts) {
    if (part.tag != tag) draft.parts.emplace(part.tag, 0);
    if (part.tag != tag && part.tag.starts_with(to + "."))
      return fmt::format("the tag \"{}\" reads like a port of {}", part.tag, to);
  }
  if (job::is_usable_tag(draft, to, {})) job::refuse_tag_inside_tag(draft, to, {});
  return draft.remarks.empty() ? std::string() : draft.remarks.front().sentence;
}

/// The tag's own table, and the keys by which steps and controls set the part.
std::vector<Edit> changed_keys(const Sheet& sheet, const Placed& part, const std::string& to) {
  std::vector<Edit> edits;
  if (!part.line) edits.push_back({Edit::Does::rename, part.at, {to}});
  for (const SetKey& key : set_keys(sheet)) {
    if (set_tag(sheet, key.name) != part.tag) continue;
    // Of keys such as N1.turns and N1.opening without quotation marks there is one table N1.
    const bool again = !edits.empty() && edits.back().at.back() == job::Way::value_type(key.field->key) &&
                       std::equal(key.table.begin(), key.table.end(), edits.back().at.begin());
    if (again) continue;
    job::Way at = key.table;
    at.emplace_back(key.field->key);
    edits.push_back(
        {Edit::Does::rename, std::move(at), {with_changed_tag(sheet, key.field->key, {{part.tag, to}})}});
  }
  return edits;
}

}  // namespace

Changed rename(std::string_view text, std::string_view tag, std::string_view to) {
  return with_sheet(text, [&](Work& work) {
    const Sheet& sheet = work.sheet;
    const Placed* part = sheet.find(tag);
    if (!part) return cannot(no_such_part(tag));
    if (tag == to) return cannot(fmt::format("{} has this tag already", tag));
    if (std::string why = why_no_tag(sheet, tag, std::string(to)); !why.empty())
      return cannot(std::move(why));
    TagChanges changes{{part->tag, std::string(to)}};
    std::vector<Edit> edits;
    if (part->line) edits.push_back({Edit::Does::set, {"lines", *part->line, "tag"}, {std::string(to)}});
    const Renaming name = [&](const std::string& port) { return with_changed_tag(sheet, port, changes); };
    std::ranges::move(changed_ports(sheet, name), std::back_inserter(edits));
    TagChanges with_hoses = changes;
    if (!part->line) std::ranges::move(changed_hose_tags(sheet, name), std::back_inserter(with_hoses));
    std::ranges::move(changed_signals(sheet, with_hoses), std::back_inserter(edits));
    std::ranges::move(changed_keys(sheet, *part, std::string(to)), std::back_inserter(edits));
    job::Edited edited = job::edited(text, edits);
    if (!edited.complaint.empty()) return cannot(std::move(edited.complaint));
    return Changed{std::move(edited.text), {}, fmt::format("{} is {} now", tag, to), std::string(to)};
  });
}

}  // namespace poise::compose
