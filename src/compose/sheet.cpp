// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job/draft.hpp"

namespace poise::compose {
namespace {

using job::Node;

bool exists(const Port& port, const Kind& kind, const Node& values) {
  if (port.needed_if_parameter.empty()) return true;
  const Parameter& parameter = kind.parameters[*find_parameter(kind.parameters, port.needed_if_parameter)];
  const Node* value = find_key(values, parameter.name);
  if (parameter.words.empty()) return value && std::cmp_greater(value->items.size(), port.needed_if_word);
  const auto needed = static_cast<std::size_t>(port.needed_if_word);
  if (value) return value->text == parameter.words[needed];
  return parameter.fallback && static_cast<std::size_t>(*parameter.fallback) == needed;
}

void name_ports(Placed& part) {
  if (!part.kind) return;
  for (const std::string_view port : existing_ports(*part.kind, *part.table))
    part.ports.push_back(fmt::format("{}.{}", part.tag, port));
}

std::vector<std::string> texts(const Node* node) {
  std::vector<std::string> all;
  if (!node) return all;
  if (node->form == Node::Form::text) all.push_back(node->text);
  for (const Node& item : node->items) {
    if (item.form == Node::Form::text) all.push_back(item.text);
  }
  return all;
}

void read_parts(Sheet& sheet) {
  const Node* parts = find_key(sheet.tree, "parts");
  if (!parts) return;
  for (const job::Field& field : parts->fields) {
    if (field.value.form != Node::Form::table) continue;
    const Node* word = find_key(field.value, "kind");
    Placed part{field.key, word ? find_kind(word->text) : nullptr, &field.value, {"parts", field.key}};
    name_ports(part);
    sheet.parts.push_back(std::move(part));
  }
}

void read_conduit(Sheet& sheet, std::size_t index, const Node& line, std::string_view word,
                  const std::vector<std::string>& ends) {
  const Node* tag = find_key(line, "tag");
  Placed conduit{tag ? tag->text : fmt::format("{}-{}", ends[0], ends[1]),
                 find_kind(word),
                 find_key(line, word),
                 {"lines", index, std::string(word)}};
  conduit.line = index;
  conduit.tagged = tag != nullptr;
  name_ports(conduit);
  sheet.entries.push_back({Entry::Is::hose_begin, index, {ends[0], conduit.tag + ".A"}});
  sheet.entries.push_back({Entry::Is::hose_end, index, {ends[1], conduit.tag + ".B"}});
  sheet.parts.push_back(std::move(conduit));
}

void read_lines(Sheet& sheet) {
  const Node* lines = find_key(sheet.tree, "lines");
  for (std::size_t i = 0; lines && i < lines->items.size(); ++i) {
    const Node& line = lines->items[i];
    std::vector<std::string> ports = texts(find_key(line, "from"));
    std::ranges::move(texts(find_key(line, "to")), std::back_inserter(ports));
    const bool hose = find_key(line, "hose"), tube = find_key(line, "tube");
    if (ports.size() >= 2 && (hose || tube)) {
      read_conduit(sheet, i, line, hose ? "hose" : "tube", ports);
    } else {
      sheet.entries.push_back({Entry::Is::line, i, std::move(ports)});
    }
  }
  const Node* joined = find_key(sheet.tree, "joined");
  for (std::size_t i = 0; joined && i < joined->items.size(); ++i)
    sheet.entries.push_back({Entry::Is::group, i, texts(&joined->items[i])});
}

}  // namespace

const Node* find_key(const Node& table, std::string_view key) {
  const auto field = std::ranges::find(table.fields, key, &job::Field::key);
  return field == table.fields.end() ? nullptr : &field->value;
}

std::vector<std::string_view> existing_ports(const Kind& kind, const Node& values) {
  std::vector<std::string_view> names;
  for (const Port& port : kind.ports) {
    if (exists(port, kind, values)) names.push_back(port.name);
  }
  return names;
}

const Placed* Sheet::find(std::string_view tag) const {
  const auto found = std::ranges::find(parts, tag, &Placed::tag);
  return found == parts.end() ? nullptr : &*found;
}

const Placed* Sheet::owner(std::string_view name) const {
  for (std::size_t dot = name.rfind('.'); dot != std::string_view::npos && dot > 0;
       dot = name.rfind('.', dot - 1)) {
    if (const Placed* part = find(name.substr(0, dot))) return part;
  }
  return nullptr;
}

const Port* Sheet::port(std::string_view name) const {
  const Placed* part = owner(name);
  if (!part || std::ranges::find(part->ports, name) == part->ports.end()) return nullptr;
  return &*std::ranges::find(part->kind->ports, name.substr(part->tag.size() + 1), &Port::name);
}

std::variant<Sheet, std::string> read_sheet(std::string_view text) {
  auto parsed = job::parse(text);
  if (const Remark* fault = std::get_if<Remark>(&parsed))
    return fmt::format("line {}: {}", fault->place.line, fault->sentence);
  Sheet sheet;
  sheet.tree = std::get<Node>(std::move(parsed));
  job::Draft draft;
  job::Section top(sheet.tree, "the job", draft.remarks);
  job::read_units(draft, top);
  sheet.world = draft.job.world;
  read_parts(sheet);
  read_lines(sheet);
  sheet.plugged = texts(find_key(sheet.tree, "plugged"));
  return sheet;
}

}  // namespace poise::compose
