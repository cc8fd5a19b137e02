// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What may stand behind each key of a job's tables.
#include <fmt/format.h>

#include "job/job.hpp"
#include "job/oil_table.hpp"
#include "reference/schema_parts.hpp"
#include "reference/schema_signals.hpp"
#include "rules/all.hpp"

namespace poise::reference {
namespace {

using job::KeyForm;

const Json text{{"type", "string"}};

template <class Words>
Json word_of(const Words& words) {
  Json all = Json::array();
  for (const auto& word : words) all.push_back(word);
  return {{"enum", all}};
}

Json list_of(const Json& item, int fewest) {
  return {{"type", "array"}, {"minItems", fewest}, {"items", item}};
}

Json one_or_several(const Json& item) { return by_type("array", list_of(item, 1), item); }

Json tables_of(std::string_view definition) { return {{"type", "array"}, {"items", defined(definition)}}; }

Json moves_schema() {
  return {{"type", "object"},
          {"propertyNames", {{"pattern", "^" + tag_pattern() + "$"}}},
          {"additionalProperties",
           described("out: press the rod out, or a clamp down, and keep pressing; in: let or drive it back; "
                     "hold: let it stay as it is.",
                     word_of(job::move_words))}};
}

Json parts_schema() {
  return {{"type", "object"},
          {"minProperties", 1},
          {"propertyNames", {{"pattern", "^" + tag_pattern() + "$"}}},
          {"additionalProperties", defined("part")}};
}

Json harm_schema() {
  std::vector<std::string_view> words;
  for (const rules::Harm harm : {rules::Harm::hurts, rules::Harm::damages, rules::Harm::works_badly})
    words.push_back(rules::words_of(harm));
  return word_of(words);
}

Json rule_schema() {
  std::vector<std::string_view> names;
  for (const rules::TradeRule* rule : rules::catalogue()) names.push_back(rule->name);
  return word_of(names);
}

/// As the reader counts letters: those beyond ASCII with it, but for signs such as "·" and "…".
Json reason_schema() {
  constexpr std::string_view no_letter = "\\u0000-\\u0040\\u005B-\\u0060\\u007B-\\u00BF\\u2000-\\u2FFF";
  return {{"type", "string"},
          {"pattern", fmt::format("^(?:[{0}]*[^{0}]){{{1}}}", no_letter, job::fewest_letters_of_reason)}};
}

Json place_schema() {
  return {{"type", "array"},
          {"minItems", 2},
          {"maxItems", 2},
          {"items", {{"type", "number"}, {"minimum", 0}, {"maximum", job::farthest_drawn}}}};
}

Json temperatures_schema() {
  const Json temperature = value_of({Quantity::temperature});
  return {{"type", "array"}, {"minItems", 2}, {"maxItems", 2}, {"items", temperature}};
}

Json files_schema() {
  return one_or_several({{"type", "string"}, {"pattern", "^[^\\u0000-\\u001F\\u007F]+$"}});
}

}  // namespace

Json property_of(const job::Key& key) {  // NOLINT(readability-function-size): a line for each form
  const auto form = [&]() -> Json {
    switch (key.form) {
      case KeyForm::text:
      case KeyForm::model:
        return text;
      case KeyForm::name:
        return {{"type", "string"}, {"minLength", 1}};
      case KeyForm::tag:
        return text_like(tag_pattern());
      case KeyForm::tags:
        return one_or_several(text_like(tag_pattern()));
      case KeyForm::port:
        return defined("port");
      case KeyForm::ports:
        return one_or_several(defined("port"));
      case KeyForm::joints:
        return list_of(list_of(defined("port"), 2), 0);
      case KeyForm::signal:
        return defined("signal");
      case KeyForm::signals:
        return list_of(defined("signal"), 2);
      case KeyForm::condition:
        return defined("condition");
      case KeyForm::conditions:
        return one_or_several(defined("condition"));
      case KeyForm::limit:
        return {{"type", {"string", "number"}}};
      case KeyForm::duration:
        return value_of({Quantity::time});
      case KeyForm::commands:
        return commands_schema(true);
      case KeyForm::switching: {
        Json commands = commands_schema(false);
        commands["minProperties"] = 1;
        return commands;
      }
      case KeyForm::moves:
        return moves_schema();
      case KeyForm::kind:
        return text;
      case KeyForm::place:
        return place_schema();
      case KeyForm::code:
        return text_like(fmt::format("(?:[0-9]+-)?[{}][0-9]+\\.[0-9]+", job::code_media));
      case KeyForm::files:
        return files_schema();
      case KeyForm::temperatures:
        return temperatures_schema();
      case KeyForm::steps:
        return one_or_several(text);
      case KeyForm::rule:
        return rule_schema();
      case KeyForm::reason:
        return reason_schema();
      case KeyForm::harm:
        return harm_schema();
      case KeyForm::paper:
        return word_of(paper_words);
      case KeyForm::on_off:
        return word_of(job::on_off_words);
      case KeyForm::base:
        return word_of(job::base_words);
      case KeyForm::units:
        return by_type("object", defined("units"), word_of(job::base_words));
      case KeyForm::oil:
        return defined("oil");
      case KeyForm::hose:
        return defined(conduit_definition("hose"));
      case KeyForm::tube:
        return defined(conduit_definition("tube"));
      case KeyForm::drawing:
        return defined("drawing");
      case KeyForm::parts:
        return parts_schema();
      case KeyForm::lines:
        return tables_of("line");
      case KeyForm::step_list: {
        Json steps = tables_of("step");
        steps["minItems"] = 1;
        return steps;
      }
      case KeyForm::controls:
        return tables_of("control");
      case KeyForm::requirements:
        return tables_of("requirement");
      case KeyForm::waivers:
        return tables_of("waiver");
    }
    return text;
  };
  return described(key.meaning, form());
}

Json table_of(std::span<const job::Key> keys) {
  Json properties = Json::object(), needed = Json::array();
  for (const job::Key& key : keys) {
    properties[std::string(key.name)] = property_of(key);
    if (key.needed) needed.push_back(key.name);
  }
  Json table{{"type", "object"}, {"properties", properties}, {"additionalProperties", false}};
  if (!needed.empty()) table["required"] = needed;
  return table;
}

}  // namespace poise::reference
