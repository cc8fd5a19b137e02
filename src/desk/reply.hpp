// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "desk/json.hpp"
#include "desk/request.hpp"

namespace poise::desk {

/// A JSON answer. Text that is not UTF-8 is mended rather than refused: a complaint may quote anything.
inline Reply reply(const Json& body, int status = 200) {
  return {.status = status, .body = body.dump(-1, ' ', false, Json::error_handler_t::replace)};
}

/// What could not be done, in a sentence.
inline Reply refuse(int status, const std::string& sentence) {
  return reply({{"sentence", sentence}}, status);
}

inline std::string asked(const Request& request, const std::string& key) {
  const auto found = request.query.find(key);
  return found == request.query.end() ? std::string() : found->second;
}

}  // namespace poise::desk
