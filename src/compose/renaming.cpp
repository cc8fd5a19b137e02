// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include "compose/keys.hpp"
#include "compose/work.hpp"
#include "job/draft.hpp"

namespace poise::compose {
namespace {

using job::Edit;
using job::Way;

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

/// The tag's own table, and what steps and controls set.
Way with_changed_keys(const Sheet& sheet, Way way, const TagChanges& changes) {
  const auto change = [&](std::size_t i) {
    auto* key = way.size() > i ? std::get_if<std::string>(&way[i]) : nullptr;
    if (key) *key = with_changed_tag(sheet, *key, changes);
  };
  const auto is = [&](std::size_t i, std::string_view word) {
    const auto* key = way.size() > i ? std::get_if<std::string>(&way[i]) : nullptr;
    return key && *key == word;
  };
  if (is(0, "parts")) change(1);
  if ((is(0, "steps") || is(0, "controls")) && is(2, "set")) change(3);
  return way;
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
    const std::string keys =
        with_renamed_keys(text, [&](Way way) { return with_changed_keys(sheet, std::move(way), changes); });
    job::Edited edited = job::edited(keys, edits);
    if (!edited.complaint.empty()) return cannot(std::move(edited.complaint));
    return Changed{std::move(edited.text), {}, fmt::format("{} is {} now", tag, to), std::string(to)};
  });
}

}  // namespace poise::compose
