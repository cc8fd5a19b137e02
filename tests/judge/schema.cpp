// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/schema.hpp"

#include <algorithm>

namespace poise::schema {
namespace {

using nlohmann::json;

bool is_of(const json& value, const std::string& type) {
  if (type == "integer") return value.is_number_integer();
  return type == value.type_name();  // nlohmann's names are those of JSON Schema
}

class Check {
 public:
  explicit Check(const json& root) : root_(root) {}
  std::vector<std::string> found;

  void value(const json& v, const json& rule, const std::string& at) {
    for (const auto& [word, said] : rule.items()) one(word, v, said, rule, at);
  }

 private:
  void one(const std::string& word, const json& v, const json& said, const json& rule,
           const std::string& at) {
    if (word == "$ref") return value(v, root_.at(json::json_pointer(said.get<std::string>().substr(1))), at);
    if (word == "type") return type(v, said, at);
    if (word == "const") return need(v == said, at, "is not " + said.dump());
    if (word == "enum")
      return need(std::ranges::find(said, v) != said.end(), at, "is none of " + said.dump());
    if (word == "anyOf") return any_of(v, said, at);
    if (word == "required") return required(v, said, at);
    if (word == "properties") return properties(v, said, at);
    if (word == "additionalProperties") return no_others(v, rule, at);
    if (word == "items") return items(v, said, at);
    const bool only_for_people =
        word == "description" || word == "title" || word == "$schema" || word == "$defs";
    need(only_for_people, at, "the schema's word " + word + " is not checked");
  }
  void need(bool held, const std::string& at, const std::string& complaint) {
    if (!held) found.push_back(at + ": " + complaint);
  }
  void type(const json& v, const json& said, const std::string& at) {
    const json types = said.is_array() ? said : json::array({said});
    need(std::ranges::any_of(types, [&](const json& t) { return is_of(v, t); }), at, "is no " + said.dump());
  }
  void any_of(const json& v, const json& rules, const std::string& at) {
    const bool one_fits = std::ranges::any_of(rules, [&](const json& rule) {
      Check inner(root_);
      inner.value(v, rule, at);
      return inner.found.empty();
    });
    need(one_fits, at, "fits none of its forms");
  }
  void required(const json& v, const json& names, const std::string& at) {
    for (const std::string name : names) need(v.contains(name), at, "lacks " + name);
  }
  void properties(const json& v, const json& rules, const std::string& at) {
    if (!v.is_object()) return;
    for (const auto& [name, rule] : rules.items()) {
      if (v.contains(name)) value(v[name], rule, at + "/" + name);
    }
  }
  void no_others(const json& v, const json& rule, const std::string& at) {
    if (!v.is_object()) return;
    for (const auto& entry : v.items())
      need(rule["properties"].contains(entry.key()), at, "has " + entry.key());
  }
  void items(const json& v, const json& rule, const std::string& at) {
    if (!v.is_array()) return;
    for (std::size_t i = 0; i < v.size(); ++i) value(v[i], rule, at + "/" + std::to_string(i));
  }

  const json& root_;
};

}  // namespace

std::vector<std::string> complaints(const json& document, const json& schema) {
  Check check(schema);
  check.value(document, schema, "");
  return check.found;
}

}  // namespace poise::schema
