// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace poise::desk {

/// What the page asks for, whatever brought it here.
struct Request {
  bool changes = false;          ///< asked with POST, else with GET
  std::vector<std::string> way;  ///< behind "api/", cut at slashes and decoded: {"job", "lift.toml", "edit"}
  std::map<std::string, std::string> query;  ///< decoded
  std::string body;                          ///< JSON, UTF-8
};

/// What it gets.
struct Reply {
  int status = 200;
  std::string type = "application/json";
  std::string body;
};

}  // namespace poise::desk
