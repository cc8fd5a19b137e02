// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace poise::serve {

/// What a request asks for, cut at its first '?': "/TOKEN/api/jobs" and "units=us". Undecoded.
struct Target {
  std::string_view first;  ///< between the first slash and the second: where the token stands
  bool slash = false;      ///< whether there is a second one
  std::string_view rest;   ///< behind it
  std::string_view query;
};

/// None where it is no address of this server at all: not from a slash on, with a fragment, or with bytes
/// that do not stand in an address.
std::optional<Target> cut(std::string_view target);

/// "job/lift%20two.toml/edit" as {"job", "lift two.toml", "edit"}. None where a piece is empty, "." or "..",
/// or decoded is no text or holds a slash, a backslash or a control character.
std::optional<std::vector<std::string>> decoded_way(std::string_view way);

/// "units=us&x=4.5" by name, where "+" is a blank. None where a name is given twice, or something is no text.
std::optional<std::map<std::string, std::string>> decoded_query(std::string_view query);

}  // namespace poise::serve
