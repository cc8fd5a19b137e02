// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/written.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace poise::job {
namespace {

std::string escaped(char c) {
  switch (c) {
    case '"':
      return "\\\"";
    case '\\':
      return "\\\\";
    case '\n':
      return "\\n";
    case '\r':
      return "\\r";
    case '\t':
      return "\\t";
    default:
      break;
  }
  const auto byte = static_cast<unsigned char>(c);
  constexpr unsigned char first_visible = 0x20, rub_out = 0x7F;
  if (byte < first_visible || byte == rub_out) return fmt::format("\\u{:04X}", byte);
  return std::string(1, c);
}

std::string quoted_in_toml(std::string_view text) {
  std::string all = "\"";
  for (const char c : text) all += escaped(c);
  return all + '"';
}

bool is_bare_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
}

std::string number_in_toml(double number) {
  if (std::isnan(number)) return "nan";
  if (std::isinf(number)) return number > 0.0 ? "inf" : "-inf";
  return fmt::format("{}", number);
}

std::string list_in_toml(const Written::List& list) {
  std::string all = "[";
  for (const Written& item : list) all += (all.size() > 1 ? ", " : "") + in_toml(item);
  return all + ']';
}

std::string table_in_toml(const Written::Table& table) {
  if (table.empty()) return "{}";
  std::string all;
  for (const auto& [key, value] : table) {
    all += fmt::format("{} {} = {}", all.empty() ? "{" : ",", key_in_toml(Way{key}), in_toml(value));
  }
  return all + " }";
}

}  // namespace

std::string in_toml(const Written& value) {
  if (const auto* text = std::get_if<std::string>(&value.is)) return quoted_in_toml(*text);
  if (const auto* number = std::get_if<double>(&value.is)) return number_in_toml(*number);
  if (const auto* truth = std::get_if<bool>(&value.is)) return *truth ? "true" : "false";
  if (const auto* list = std::get_if<Written::List>(&value.is)) return list_in_toml(*list);
  return table_in_toml(std::get<Written::Table>(value.is));
}

std::string key_in_toml(std::span<const Stop> way) {
  std::string all;
  for (const Stop& stop : way) {
    const auto* key = std::get_if<std::string>(&stop);
    if (!key) continue;
    if (!all.empty()) all += '.';
    all += !key->empty() && std::ranges::all_of(*key, is_bare_letter) ? *key : quoted_in_toml(*key);
  }
  return all;
}

std::string lines_in_toml(const Written::Table& table, const std::string& indent, const std::string& equals) {
  std::string all;
  for (const auto& [key, value] : table)
    all += fmt::format("{}{}{}{}\n", indent, key_in_toml(Way{key}), equals, in_toml(value));
  return all;
}

bool is_list_of_tables(const Written& value) {
  const auto* list = std::get_if<Written::List>(&value.is);
  return list && !list->empty() && std::ranges::all_of(*list, [](const Written& item) {
           return std::holds_alternative<Written::Table>(item.is);
         });
}

}  // namespace poise::job
