// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "compose/fitted_values.hpp"
#include "compose/settings.hpp"
#include "job/tolerance.hpp"
#include "job/tree.hpp"

namespace poise::compose {
namespace {

using job::Edit;
using job::Written;
using Ports = std::vector<std::string>;

const Parameter* parameter_of(const Kind& kind, std::string_view name) {
  const auto index = find_parameter(kind.parameters, name);
  return index ? &kind.parameters[*index] : nullptr;
}

/// Whether a value of the old kind says the same of the new one.
bool stays(const job::Field& field, const Kind& from, const Kind& to) {
  constexpr std::array of_every_part{"note", "drawn_at", "assembly", "code"};
  if (std::ranges::find(of_every_part, field.key) != of_every_part.end()) return true;
  const Parameter *before = parameter_of(from, field.key), *after = parameter_of(to, field.key);
  if (!before || !after || before->quantity != after->quantity || before->against != after->against)
    return false;
  if (after->words.empty() != before->words.empty()) return false;
  if (after->words.empty() && !after->against) {
    const auto value = field.value.form == job::Node::Form::number
                           ? field.value.number
                           : units::read(field.value.text, after->quantity).value;
    if (value && (*value < after->low || *value > after->high)) return false;
  }
  return after->words.empty() || std::ranges::find(after->words, field.value.text) != after->words.end();
}

/// Whether a key states the tolerance of a value that stays.
bool tolerance_stays(const Placed& part, std::string_view key, const Kind& to) {
  const auto before = job::toleranced_by(key, part.kind->parameters);
  if (!before || !job::toleranced_by(key, to.parameters)) return false;
  const std::string_view name = part.kind->parameters[*before].name;
  const auto value = std::ranges::find(part.table->fields, name, &job::Field::key);
  if (value != part.table->fields.end()) return stays(*value, *part.kind, to);
  return parameter_of(*part.kind, name)->quantity == parameter_of(to, name)->quantity &&
         parameter_of(to, name)->fallback.has_value();
}

/// The values of the new kind: those that stay, and the usual ones where none does.
Written::Table values_after(const Work& work, const Placed& part, const Kind& kind, const Ports& beside) {
  Written::Table usual = values_for(work.sheet, work.nets, kind, beside), table{usual.front()};
  const auto has = [&](std::string_view name) {
    return std::ranges::find(table, name, &Written::Table::value_type::first) != table.end();
  };
  for (const job::Field& field : part.table->fields) {
    if (field.key != "kind" && (stays(field, *part.kind, kind) || tolerance_stays(part, field.key, kind)))
      table.emplace_back(field.key, job::written_of(field.value));
  }
  for (auto& field : usual) {
    const Parameter* parameter = parameter_of(kind, field.first);
    if (!parameter || has(field.first) || (!parameter->instead.empty() && has(parameter->instead))) continue;
    table.push_back(std::move(field));
  }
  return table;
}

using PortMap = std::map<std::string, std::string, std::less<>>;

/// Which port of the new kind each joined or plugged one of the old becomes: that by which oil enters or
/// leaves as before, else that of the same name, else the one of the same use.
PortMap ports_after(const Work& work, const Placed& part, const Kind& kind, const Written::Table& values) {
  const auto after = existing_ports(kind, job::node_of({values}));
  std::vector<std::string_view> before;
  for (const std::string& port : part.ports)
    before.push_back(std::string_view(port).substr(part.tag.size() + 1));
  const PortUse had = use_of(*part.kind, before), has = use_of(kind, after);
  PortMap map;
  std::vector<std::string> taken;
  const auto becomes = [&](std::string_view from, const std::string& to) {
    const std::string name = part.tag + "." + std::string(from);
    const bool used =
        work.nets.of(name) || std::ranges::find(work.sheet.plugged, name) != work.sheet.plugged.end();
    const Port &old = *work.sheet.port(name), &other = *std::ranges::find(kind.ports, to, &Port::name);
    const bool alike = old.domain == other.domain && old.turns == other.turns;
    if (!used || !alike || map.contains(name) || std::ranges::find(taken, to) != taken.end()) return;
    map[name] = part.tag + "." + to;
    taken.push_back(to);
  };
  if (had.enter && has.enter) becomes(*had.enter, *has.enter);
  if (had.leave && has.leave) becomes(*had.leave, *has.leave);
  for (const std::string_view port : before) {
    if (std::ranges::find(after, port) != after.end()) becomes(port, std::string(port));
  }
  if (had.drains.size() == 1 && has.drains.size() == 1) becomes(had.drains.front(), has.drains.front());
  if (had.motion.size() == 1 && has.motion.size() == 1) becomes(had.motion.front(), has.motion.front());
  return map;
}

/// Writes the new names of ports into lines and signals, and into the sheet, whose lines are then rejoined.
void rename_ports(Work& work, const Placed& part, const PortMap& map) {
  const Renaming port_name = [&](const std::string& port) {
    const auto other = map.find(port);
    return other == map.end() ? port : other->second;
  };
  const Renaming signal_name = [&](const std::string& name) {
    for (const auto& [from, to] : map) {
      if (name.starts_with(from + ".")) return to + name.substr(from.size());
    }
    return name;
  };
  std::ranges::move(changed_ports(work.sheet, port_name), std::back_inserter(work.edits));
  std::ranges::move(changed_signals(work.sheet, signal_name), std::back_inserter(work.edits));
  const auto goes = [&](const std::string& port) {
    return port.starts_with(part.tag + ".") && !map.contains(port);
  };
  std::vector<std::string> out;
  for (Entry& entry : work.sheet.entries) {
    for (std::string& port : entry.ports) {
      if (work.sheet.owner(port) == &part && goes(port)) out.push_back(port);
      port = port_name(port);
    }
  }
  work.nets = Nets(work.sheet);
  for (const std::string& port : out) work.nets.take(port);
  std::vector<std::string> kept;
  for (std::string& port : work.sheet.plugged) {
    const bool gone = work.sheet.owner(port) == &part && goes(port);
    port = port_name(port);
    if (!gone) kept.push_back(port);
  }
  work.wish.plugged = std::move(kept);
}

void write_values(Work& work, const Placed& part, const Written::Table& values) {
  for (const job::Field& field : part.table->fields) {
    if (std::ranges::find(values, field.key, &Written::Table::value_type::first) == values.end())
      work.edits.push_back({Edit::Does::remove, {"parts", part.tag, field.key}});
  }
  for (const auto& [key, value] : values)
    work.edits.push_back({Edit::Does::set, {"parts", part.tag, key}, value});
}

/// A hose or tube between two ports gives way to a part of another kind that stands on the line.
Changed replace_hose(const Work& work, const Placed& hose, std::string_view kind) {
  if (kind == "hose" || kind == "tube") return lay(work.text, *hose.line, kind);
  Ports sides[2];
  for (const auto& [side, end] : {std::pair{0, ".A"}, std::pair{1, ".B"}}) {
    sides[side] = work.nets.ports(*work.nets.of(hose.tag + end));
    std::erase(sides[side], hose.tag + end);
  }
  const Changed whole = lay(work.text, *hose.line, "");
  if (!whole.complaint.empty()) return whole;
  Changed put = put_onto(whole.text, sides[0], sides[1], kind);
  if (!put.complaint.empty() || !hose.tagged) return put;
  Changed named = rename(put.text, put.tag, hose.tag);
  named.says = fmt::format("{} becomes {}", hose.tag, one(*find_kind(kind)));
  return named;
}

}  // namespace

Changed replace(std::string_view text, std::string_view tag, std::string_view kind_name) {
  return with_sheet(text, [&](Work& work) {
    const Placed* part = work.sheet.find(tag);
    const Kind* kind = find_kind(kind_name);
    if (!part || !part->kind) return cannot(no_such_part(tag));
    if (!kind) return cannot(no_such_kind(kind_name));
    if (part->kind == kind) return cannot(fmt::format("{} is {} already", tag, one(*kind)));
    if (part->line) return replace_hose(work, *part, kind_name);
    const Written::Table values = values_after(work, *part, *kind, part->ports);
    const PortMap map = ports_after(work, *part, *kind, values);
    write_values(work, *part, values);
    if (kind->inputs.empty()) remove_settings(work, part->tag);
    rename_ports(work, *part, map);
    return finished(work, fmt::format("{} becomes {}", tag, one(*kind)), part->tag);
  });
}

}  // namespace poise::compose
