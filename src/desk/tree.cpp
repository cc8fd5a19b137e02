// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/tree.hpp"

#include <algorithm>
#include <cmath>

namespace poise::desk {
namespace {

constexpr int deepest = 32;  // tables in tables: no job has as many

std::optional<job::Way> read_way(const Json& list) {
  if (!list.is_array() || list.empty()) return std::nullopt;
  job::Way way;
  for (const Json& step : list) {
    if (step.is_string()) {
      way.emplace_back(step.get<std::string>());
    } else if (step.is_number_unsigned()) {
      way.emplace_back(step.get<std::size_t>());
    } else {
      return std::nullopt;
    }
  }
  return way;
}

std::optional<job::Written> read_value(const Json& value, int depth = 0) {
  if (depth > deepest) return std::nullopt;
  if (value.is_string()) return job::Written{value.get<std::string>()};
  if (value.is_boolean()) return job::Written{value.get<bool>()};
  if (value.is_number() && std::isfinite(value.get<double>())) return job::Written{value.get<double>()};
  if (value.is_array()) {
    job::Written::List list;
    for (const Json& item : value) {
      auto read = read_value(item, depth + 1);
      if (!read) return std::nullopt;
      list.push_back(std::move(*read));
    }
    return job::Written{std::move(list)};
  }
  if (!value.is_object()) return std::nullopt;
  job::Written::Table table;
  for (const auto& [key, item] : value.items()) {
    auto read = read_value(item, depth + 1);
    if (!read) return std::nullopt;
    table.emplace_back(key, std::move(*read));
  }
  return job::Written{std::move(table)};
}

std::optional<job::Edit::Does> read_does(const std::string& word) {
  using Does = job::Edit::Does;
  if (word == "set") return Does::set;
  if (word == "remove") return Does::remove;
  if (word == "add") return Does::add;
  if (word == "move") return Does::move;
  if (word == "rename") return Does::rename;
  return std::nullopt;
}

std::optional<job::Edit> read_edit(const Json& one) {
  if (!one.is_object() || !one.contains("do") || !one["do"].is_string() || !one.contains("at"))
    return std::nullopt;
  const auto does = read_does(one["do"].get<std::string>());
  auto at = read_way(one["at"]);
  if (!does || !at) return std::nullopt;
  job::Edit edit{.does = *does, .at = std::move(*at)};
  if (one.contains("place") && one["place"].is_number_unsigned())
    edit.place = one["place"].get<std::size_t>();
  const bool writes = edit.does != job::Edit::Does::remove && edit.does != job::Edit::Does::move;
  if (edit.does == job::Edit::Does::move && !edit.place) return std::nullopt;
  if (!writes) return edit;
  if (!one.contains("value")) return std::nullopt;
  auto value = read_value(one["value"]);
  if (!value) return std::nullopt;
  edit.value = std::move(*value);
  return edit;
}

}  // namespace

Json to_json(const job::Node& node) {
  using Form = job::Node::Form;
  switch (node.form) {
    case Form::text:
    case Form::moment:
      return node.text;
    case Form::number:
      return node.number;
    case Form::truth:
      return node.text == "true";
    case Form::list: {
      Json list = Json::array();
      for (const job::Node& item : node.items) list.push_back(to_json(item));
      return list;
    }
    case Form::table:
      break;
  }
  Json table = Json::object();
  for (const job::Field& each : node.fields) table[each.key] = to_json(each.value);
  return table;
}

Json to_json(const job::Way& way) {
  Json list = Json::array();
  for (const auto& step : way) std::visit([&](const auto& value) { list.push_back(value); }, step);
  return list;
}

const job::Node* field(const job::Node& table, std::string_view key) {
  const auto found = std::ranges::find(table.fields, key, &job::Field::key);
  return found == table.fields.end() ? nullptr : &found->value;
}

std::optional<std::vector<job::Edit>> read_edits(const Json& list) {
  if (!list.is_array()) return std::nullopt;
  std::vector<job::Edit> edits;
  for (const Json& one : list) {
    auto edit = read_edit(one);
    if (!edit) return std::nullopt;
    edits.push_back(std::move(*edit));
  }
  return edits;
}

}  // namespace poise::desk
