// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/laying.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compose/fitted_values.hpp"
#include "compose/tags.hpp"
#include "job/tolerance.hpp"
#include "job/tree.hpp"

namespace poise::compose {
namespace {

using job::Edit;
using job::Node;
using job::Written;

/// A hose or tube with usual values, or with those of what lay there before as far as it has them.
Written::Table sheet_of_conduit(const Work& work, const Kind& kind, const std::string& port,
                                const Placed* before) {
  Written::Table table = values_for(work.sheet, work.nets, kind, {port});
  std::erase_if(table, [](const auto& field) { return field.first == "kind"; });
  if (!before) return table;
  for (const job::Field& field : before->table->fields) {
    if (!find_parameter(kind.parameters, field.key) && !job::toleranced_by(field.key, kind.parameters))
      continue;
    const auto usual = std::ranges::find(table, field.key, &Written::Table::value_type::first);
    if (usual != table.end()) {
      usual->second = job::written_of(field.value);
    } else {
      table.emplace_back(field.key, job::written_of(field.value));
    }
  }
  return table;
}

Changed lay_direct(Work& work, const Placed& conduit) {
  direct(work, conduit);
  return finished(work, fmt::format("{} out, its line whole", conduit.tag), {});
}

/// A line of several ports is laid to the first of them; the others are joined to that one.
void keep_others(Work& work, std::size_t line, const std::vector<std::string>& ports) {
  work.edits.push_back({Edit::Does::set, {"lines", line, "to"}, {ports[1]}});
  Written::List others;
  for (std::size_t i = 2; i < ports.size(); ++i) others.push_back({ports[i]});
  Written to = others.size() == 1 ? others.front() : Written{others};
  work.edits.push_back(
      {Edit::Does::add, {"lines"}, {Written::Table{{"from", {ports[1]}}, {"to", std::move(to)}}}, line + 1});
}

/// The changes stand in the work already, the nets are as the text has them.
Changed as_edited(Work& work, std::string says, std::string tag) {
  job::Edited edited = job::edited(work.text, work.edits);
  if (!edited.complaint.empty()) return cannot(std::move(edited.complaint));
  return {std::move(edited.text), {}, std::move(says), std::move(tag)};
}

Changed lay_as(Work& work, std::size_t line, const Kind& kind) {
  const std::string word(kind.about.kind);
  const auto entry = std::ranges::find_if(work.sheet.entries, [&](const Entry& each) {
    return each.is != Entry::Is::group && each.index == line;
  });
  const auto before = std::ranges::find(work.sheet.parts, std::optional(line), &Placed::line);
  const bool laid = before != work.sheet.parts.end();
  if (entry == work.sheet.entries.end() || entry->ports.size() < 2)
    return cannot("this line joins nothing yet");
  if (laid && before->kind == &kind) return cannot(fmt::format("{} is a {} already", before->tag, word));
  const Port* port = work.sheet.port(entry->ports.front());
  if (port && port->domain == Domain::motion)
    return cannot("a rod and its load are joined directly, without a hose");
  if (!laid && entry->ports.size() > 2) keep_others(work, line, entry->ports);
  const std::string tag = laid ? before->tag : next_tag(work.sheet, word);
  if (!laid) work.edits.push_back({Edit::Does::set, {"lines", line, "tag"}, {tag}});
  work.edits.push_back({Edit::Does::set,
                        {"lines", line, word},
                        {sheet_of_conduit(work, kind, entry->ports.front(), laid ? &*before : nullptr)}});
  if (laid)
    work.edits.push_back({Edit::Does::remove, {"lines", line, std::string(before->kind->about.kind)}});
  return as_edited(work, fmt::format("{} {} at {}", word, tag, entry->ports.front()), tag);
}

bool is_end(const Entry& entry) {
  return entry.is == Entry::Is::hose_begin || entry.is == Entry::Is::hose_end;
}

}  // namespace

void direct(Work& work, const Placed& conduit) {
  const std::size_t line = *conduit.line;
  const Node& table = find_key(work.sheet.tree, "lines")->items[line];
  constexpr std::array keys{"hose", "tube", "tag", "drawn_at", "assembly", "code"};
  for (const char* key : keys) {
    if (find_key(table, key)) work.edits.push_back({Edit::Does::remove, {"lines", line, key}});
  }
  const std::string tag = conduit.tag;
  std::vector<std::string> ends;
  for (const Entry& entry : work.sheet.entries) {
    if (is_end(entry) && entry.index == line) ends.push_back(entry.ports.front());
  }
  // From now on the sheet has it as an entry that joins its two ports. Others may name the hose's own ends.
  work.nets.join(ends);
  work.nets.take(tag + ".A");
  work.nets.take(tag + ".B");
  std::erase_if(work.sheet.entries, [&](const Entry& entry) { return is_end(entry) && entry.index == line; });
  work.sheet.entries.push_back({Entry::Is::line, line, std::move(ends)});
  std::erase_if(work.sheet.parts, [&](const Placed& part) { return part.tag == tag; });
}

Changed lay(std::string_view text, std::size_t line, std::string_view kind) {
  return with_sheet(text, [&](Work& work) {
    const Node* lines = find_key(work.sheet.tree, "lines");
    if (!lines || line >= lines->items.size())
      return cannot(fmt::format("there is no line {}; it may have been taken out", line + 1));
    if (kind == "hose" || kind == "tube") return lay_as(work, line, *find_kind(kind));
    const auto conduit = std::ranges::find(work.sheet.parts, std::optional(line), &Placed::line);
    if (!kind.empty()) return cannot(fmt::format("a line is laid as a hose or a tube, not as a {}", kind));
    if (conduit == work.sheet.parts.end()) return cannot("this line is joined directly already");
    return lay_direct(work, Placed(*conduit));
  });
}

}  // namespace poise::compose
