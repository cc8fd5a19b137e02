// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/schema.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job/keys.hpp"
#include "job/oil_table.hpp"
#include "job/tolerance.hpp"
#include "reference/schema_parts.hpp"
#include "reference/schema_signals.hpp"
#include "units/catalogue.hpp"
#include "units/pattern.hpp"

namespace poise::reference {
namespace {

namespace keys = job::keys;

Json has(std::string_view key) { return {{"required", {key}}}; }

Json line_schema() {
  Json line = described("A line: ports that are joined, as if directly or by a hose or tube.",
                        table_of(keys::of_line()));
  Json alone;
  for (const std::string_view key : {"tag", "drawn_at", "assembly", "code"}) alone[std::string(key)] = false;
  line["not"] = {{"required", {"hose", "tube"}}};
  line["if"] = any_of({has("hose"), has("tube")});
  line["then"] = {{"properties", {{"to", {{"maxItems", 1}}}}}};
  line["else"] = {{"$comment", "only a line with a hose or tube has these"}, {"properties", alone}};
  return line;
}

Json step_schema() {
  Json step = described("A step: what changes as it begins, and when it ends.", table_of(keys::of_step()));
  step["oneOf"] = Json::array({has("lasts"), has("until")});
  step["if"] = has("at_most");
  step["then"] = has("until");
  return step;
}

/// What goes with one thing that a requirement may ask, and no other thing beside it.
Json asked_alone(const job::Question& question) {
  std::vector<std::string_view> needs, known{question.key, question.may};
  for (const std::string_view key : question.needs)
    if (!key.empty()) needs.push_back(key);
  known.insert(known.end(), needs.begin(), needs.end());
  Json others;
  const auto refuse = [&](std::string_view key) {
    if (!key.empty() && std::ranges::find(known, key) == known.end()) others[std::string(key)] = false;
  };
  for (const job::Question& other : job::questions()) {
    refuse(other.key);
    for (const std::string_view key : other.needs) refuse(key);
    refuse(other.may);
  }
  return {{"if", has(question.key)}, {"then", {{"required", needs}, {"properties", others}}}};
}

Json requirement_schema() {
  Json requirement = described("A requirement: one thing that must hold.", table_of(keys::of_requirement()));
  Json asks = Json::array(), cases = Json::array();
  for (const job::Question& question : job::questions()) {
    asks.push_back(has(question.key));
    cases.push_back(asked_alone(question));
  }
  requirement["anyOf"] = asks;
  requirement["allOf"] = cases;
  for (const std::string_view key : {"never_above", "never_below", "drift"})
    demand_units(requirement, key, false, {"limit"});
  demand_units(requirement, "band", false, {"low", "high"});
  demand_units(requirement, "level", true, {"limit"});
  return requirement;
}

Json oil_schema() {
  Json oil = described("The oil. Every key may be left out, but for those of a custom fluid.",
                       table_of(keys::of_oil()));
  Json& properties = oil["properties"];
  for (const Parameter& p : oil_parameters()) properties[std::string(p.name)] = property_of(p, false);
  for (const Parameter& p : loose_oil_parameters()) properties[job::tolerance_key(p.name)] = tolerance_of(p);
  return oil;
}

Json usual_units(const units::Kind& kind) {
  Json usual = Json::array();
  std::string_view offered = kind.offered;
  while (!offered.empty()) {
    const std::size_t comma = offered.find(',');
    usual.push_back(offered.substr(0, comma));
    offered = comma == std::string_view::npos ? std::string_view{} : offered.substr(comma + 1);
  }
  return {{"enum", usual}};
}

Json units_schema() {
  Json units = described(
      "The units in which results are shown; whatever stands here, values in the job have "
      "any unit of their quantity.",
      table_of(keys::of_units()));
  const std::string end = units::ends_pattern();
  for (const units::Kind& kind : units::kinds()) {
    if (kind.quantity == Quantity::none) continue;
    const Json others = text_like(end + units::usual_units_pattern(kind.quantity) + end);
    units["properties"][job::unit_key(kind.quantity)] = described(
        fmt::format("The unit of each {}, such as \"{}\" or \"{}\".", kind.name, kind.metric, kind.us),
        any_of({usual_units(kind), others, defined("compound_unit")}));
  }
  return units;
}

/// A member a line down to the properties of each definition, so that a change shows where it is.
std::string printed(const Json& json, int depth) {
  constexpr int deepest = 4;
  if (!json.is_object() || json.empty() || depth == deepest) return json.dump();
  std::string text = "{";
  for (const auto& [key, value] : json.items())
    text += fmt::format("{}\n{}{}: {}", text.size() > 1 ? "," : "",
                        std::string(static_cast<std::size_t>(depth) + 1, ' '), Json(key).dump(),
                        printed(value, depth + 1));
  return text + '\n' + std::string(static_cast<std::size_t>(depth), ' ') + '}';
}

Json definitions() {
  Json all = Json::object();
  all["part"] = part_schema();
  all["line"] = line_schema();
  all["step"] = step_schema();
  all["control"] = described("What acts when its conditions come to hold.", table_of(keys::of_control()));
  all["requirement"] = requirement_schema();
  all["waiver"] = described("A rule that is not kept on purpose.", table_of(keys::of_waiver()));
  all["drawing"] = described("The drawing as a whole.", table_of(keys::of_drawing()));
  all["oil"] = oil_schema();
  all["units"] = units_schema();
  all["port"] = described("A port: the part's tag, a dot, the letter of the port: \"P1.P\".", port_schema());
  all["signal"] =
      described("Something that can be watched: \"C1.A.pressure\", \"C1.position\".", signal_schema());
  all["condition"] = described(
      "A signal, > or <, and a value: \"C1.A.pressure > 180 bar\"; or \"S1 on\", \"S1 off\" of a part that "
      "turns by itself.",
      condition_schema());
  for (const job::Key& key : keys::of_part()) all[common_definition(key)] = property_of(key);
  for (const std::string_view kind : {"hose", "tube"}) define_conduit(all, *find_kind(kind));
  for (const Kind& kind : all_kinds()) define_kind(all, kind);
  all["compound_unit"] =
      described("A unit made of several symbols.",
                text_like(units::ends_pattern() + units::compound_unit_pattern() + units::ends_pattern()));
  define_values(all);
  return all;
}

/// Takes out what nothing refers to, such as tolerances of what no part has.
void leave_out_unused(Json& schema) {
  Json& all = schema["$defs"];
  for (bool found = true; found;) {
    found = false;
    const std::string text = schema.dump();
    for (auto each = all.begin(); each != all.end();) {
      const bool used = text.find("\"#/$defs/" + each.key() + '"') != std::string::npos;
      found = found || !used;
      each = used ? std::next(each) : all.erase(each);
    }
  }
}

}  // namespace

std::string job_schema() {
  Json schema{
      {"$schema", "https://json-schema.org/draft/2020-12/schema"},
      {"title", "A Poise job"},
      {"description",
       "The file of one job: what is given, what is done, what must hold. Written by \"poise schema\" "
       "from the tables that jobs are read by; changes belong there."}};
  schema.update(table_of(keys::of_job()));
  schema["$defs"] = definitions();
  leave_out_unused(schema);
  return printed(schema, 0) + '\n';
}

}  // namespace poise::reference
