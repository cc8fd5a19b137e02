// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/work.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "compose/fitted_values.hpp"
#include "compose/tags.hpp"
#include "compose/ways_of_oil.hpp"

namespace poise::compose {

Changed cannot(std::string sentence) { return {{}, std::move(sentence), {}, {}}; }

Changed with_sheet(std::string_view text, const std::function<Changed(Work&)>& change) {
  auto read = read_sheet(text);
  if (auto* fault = std::get_if<std::string>(&read)) return cannot(std::move(*fault));
  auto& sheet = std::get<Sheet>(read);
  Nets nets(sheet);
  Work work{text, std::move(sheet), std::move(nets)};
  return change(work);
}

Changed finished(Work& work, std::string says, std::string tag) {
  const Rejoined lines = rejoin(work.sheet, work.nets, work.wish);
  std::vector<job::Edit> edits = changed_signals(work.sheet, lines.hoses_renamed);
  std::ranges::move(work.edits, std::back_inserter(edits));
  edits.insert(edits.end(), lines.edits.begin(), lines.edits.end());
  job::Edited edited = job::edited(work.text, edits);
  if (!edited.complaint.empty()) return cannot(std::move(edited.complaint));
  if (!lines.hoses_gone.empty()) says += fmt::format(", and {} with it", fmt::join(lines.hoses_gone, ", "));
  return {std::move(edited.text), {}, std::move(says), std::move(tag)};
}

NewPart add_part(Work& work, const Kind& kind, const std::vector<std::string>& beside) {
  std::vector<std::string> taken;
  for (const job::Edit& edit : work.edits) {
    if (edit.at.size() == 2) taken.push_back(std::get<std::string>(edit.at[1]));
  }
  NewPart part{next_tag(work.sheet, kind.about.kind, taken), &kind,
               use_of(kind, existing_ports(kind, usual_values(kind, work.sheet.us())))};
  work.edits.push_back(
      {job::Edit::Does::set, {"parts", part.tag}, {values_for(work.sheet, Nets(work.sheet), kind, beside)}});
  return part;
}

void join_drains(Work& work, const NewPart& part, const std::string& near) {
  const std::string tank = reservoir_of(work.sheet, Nets(work.sheet), near);
  if (tank.empty()) return;
  work.wish.near.push_back(tank);
  for (const std::string& drain : part.use.drains) {
    if (!work.nets.of(part.port(drain))) work.nets.join(std::vector{tank, part.port(drain)});
  }
}

std::string as_written(const Sheet& sheet, const std::string& port) {
  for (const Entry& entry : sheet.entries) {
    const bool end = entry.is == Entry::Is::hose_begin || entry.is == Entry::Is::hose_end;
    if (end && entry.ports[1] == port) return entry.ports[0];
  }
  return port;
}

std::string spoken(const Kind& kind) {
  std::string words(kind.about.kind);
  std::ranges::replace(words, '_', ' ');
  return words;
}

std::string one(const Kind& kind) {
  const std::string words = spoken(kind);
  return (std::string_view("aeiou").find(words.front()) == std::string_view::npos ? "a " : "an ") + words;
}

std::string no_such_kind(std::string_view kind) {
  return fmt::format("there is no kind of part \"{}\"", kind);
}

std::string no_such_port(const Sheet& sheet, std::string_view port) {
  const Placed* part = sheet.owner(port);
  if (!part) return fmt::format("{} is no port of this circuit; it may have changed", port);
  return fmt::format("{} has no port {}; its ports are {}", part->tag, port.substr(part->tag.size() + 1),
                     fmt::join(part->ports, ", "));
}

std::string no_such_part(std::string_view tag) {
  return fmt::format("there is no part {}; it may have been taken out", tag);
}

}  // namespace poise::compose
