// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/schema_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job/tolerance.hpp"
#include "reference/wording.hpp"

namespace poise::reference {
namespace {

std::string definition_of(const Kind& kind) { return fmt::format("kind.{}", kind.about.kind); }

bool decides_on_a_port(const Kind& kind, const Parameter& p) {
  return std::ranges::any_of(kind.ports,
                             [&](const Port& port) { return port.needed_if_parameter == p.name; });
}

/// Adds the values of a kind with their tolerances.
void add_values(Json& properties, const Kind& kind) {
  for (const Parameter& p : kind.parameters) {
    properties[std::string(p.name)] = property_of(p, !decides_on_a_port(kind, p));
    if (job::may_be_off(p)) properties[job::tolerance_key(p.name)] = tolerance_of(p);
  }
}

/// Adds which values have to be given, unless a model may give them.
void demand_values(Json& table, const Kind& kind) {
  Json needed = Json::array(), choices = Json::array();
  for (const Parameter& p : kind.parameters) {
    if (p.fallback || p.optional) continue;
    if (p.instead.empty()) {
      needed.push_back(p.name);
    } else {
      choices.push_back(any_of({{{"required", {p.name}}}, {{"required", {p.instead}}}}));
    }
  }
  if (needed.empty() && choices.empty()) return;
  Json then = Json::object();
  if (!needed.empty()) then["required"] = needed;
  if (!choices.empty()) then["allOf"] = choices;
  table["if"] = {{"not", {{"required", {"model"}}}}};
  table["then"] = then;
}

/// A table with these keys, by reference to what is said of them once.
Json common_table(std::string_view sentence, std::span<const job::Key> keys) {
  Json table = described(sentence, {{"type", "object"}}), properties = Json::object();
  for (const job::Key& key : keys) properties[std::string(key.name)] = defined(common_definition(key));
  table["properties"] = std::move(properties);
  table["additionalProperties"] = false;
  return table;
}

struct Settable {
  std::vector<std::string> names;
  Json words = Json::array();
  std::set<Quantity> quantities;
  std::string said;  ///< kind by kind

  void note(const Kind& kind, const Parameter& p) {
    if (std::ranges::find(names, p.name) == names.end()) names.emplace_back(p.name);
    said += fmt::format("{}{}.{}: {}", said.empty() ? "" : "; ", kind.about.kind, p.name,
                        p.words.empty() ? std::string(units::name(p.quantity)) : range_of(p));
    if (p.words.empty()) quantities.insert(p.quantity);
    for (const std::string_view word : p.words)
      if (std::ranges::find(words, word) == words.end()) words.push_back(word);
  }
};

/// What steps can set, of all kinds.
Settable settable() {
  Settable all;
  for (const Kind& kind : all_kinds())
    for (const int index : kind.inputs) all.note(kind, kind.parameters[static_cast<std::size_t>(index)]);
  return all;
}

}  // namespace

std::string common_definition(const job::Key& key) { return fmt::format("part.{}", key.name); }

Json part_schema() {
  Json words = Json::array(), cases = Json::array();
  for (const Kind& kind : all_kinds()) {
    words.push_back(kind.about.kind);
    cases.push_back(
        {{"if", {{"properties", {{"kind", {{"const", kind.about.kind}}}}}, {"required", {"kind"}}}},
         {"then", defined(definition_of(kind))}});
  }
  return {
      {"description", "A part: its kind, and the values of that kind."},
      {"type", "object"},
      {"properties", {{"kind", {{"description", "What it is; its values depend on it."}, {"enum", words}}}}},
      {"required", {"kind"}},
      {"allOf", cases}};
}

void define_kind(Json& definitions, const Kind& kind) {
  Json table = common_table(kind.about.sentence, job::keys::of_part());
  Json& properties = table["properties"];
  properties["kind"] = {{"description", kind.about.sentence}, {"const", kind.about.kind}};
  add_values(properties, kind);
  demand_values(table, kind);
  definitions[definition_of(kind)] = std::move(table);
}

std::string conduit_definition(std::string_view kind) { return fmt::format("conduit.{}", kind); }

void define_conduit(Json& definitions, const Kind& kind) {
  Json table = common_table(kind.about.sentence, job::keys::of_conduit());
  add_values(table["properties"], kind);
  demand_values(table, kind);
  definitions[conduit_definition(kind.about.kind)] = std::move(table);
}

Json commands_schema(bool may_be_open) {
  const Settable all = settable();
  Json values = Json::array({{{"enum", all.words}}, value_of(all.quantities)});
  if (may_be_open) values.push_back(defined("find"));
  const Json value = described("What the part is set to. " + all.said + ".", any_of(values));
  const Json inside{
      {"type", "object"}, {"propertyNames", {{"enum", all.names}}}, {"additionalProperties", value}};
  return {{"type", "object"},
          {"propertyNames", {{"pattern", "^" + tag_pattern() + "$"}}},
          {"additionalProperties", by_type("object", inside, value)}};
}

}  // namespace poise::reference
