// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "serve/token.hpp"

#include <fmt/format.h>
#include <sys/random.h>

#include <array>
#include <cerrno>
#include <system_error>

namespace poise::serve {

std::string new_token() {
  std::array<unsigned char, 24> bytes{};
  // The kernel gives up to 256 bytes at once or none; without them there must be no server.
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size())) {
    throw std::system_error(errno, std::generic_category(), "no random numbers from the kernel");
  }
  std::string token;
  for (const unsigned char byte : bytes) token += fmt::format("{:02x}", byte);
  return token;
}

bool same(std::string_view given, std::string_view token) {
  // The length of a token is no secret.
  if (given.size() != token.size()) return false;
  volatile unsigned char difference = 0;
  for (std::size_t i = 0; i < token.size(); ++i) {
    difference = static_cast<unsigned char>(difference | (given[i] ^ token[i]));
  }
  return difference == 0;
}

}  // namespace poise::serve
