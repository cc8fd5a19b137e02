// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "serve/door.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace poise::serve {
namespace {

bool is_ours(std::string_view host, unsigned short port) {
  return host == fmt::format("127.0.0.1:{}", port) || host == fmt::format("localhost:{}", port);
}

bool is_json(std::string_view type) {
  constexpr std::string_view json = "application/json";
  const auto same_letter = [](unsigned char a, unsigned char b) { return std::tolower(a) == b; };
  const std::string_view named = type.substr(0, type.find_first_of("; \t"));
  return std::ranges::equal(named, json, same_letter);
}

}  // namespace

Answer refusal(unsigned status, std::string_view sentence) {
  return {
      .status = status, .type = "application/json", .body = fmt::format("{{\"sentence\":\"{}\"}}", sentence)};
}

Answer nothing_here() { return {.status = 404}; }

std::optional<Answer> turned_away(const Head& head, unsigned short port) {
  if (!head.host || !is_ours(*head.host, port)) {
    return refusal(403, "This address is not the one that Poise printed.");
  }
  const bool from_us = head.origin && head.origin->starts_with("http://") &&
                       is_ours(head.origin->substr(7), port) && head.origin->substr(7) == *head.host;
  if (head.origin && !from_us) return refusal(403, "Another page may not ask Poise for anything.");
  if (head.fetch_site && *head.fetch_site != "same-origin" && *head.fetch_site != "none") {
    return refusal(403, "Another page may not ask Poise for anything.");
  }
  if (head.method == "GET" || head.method == "HEAD") return std::nullopt;
  if (head.method != "POST") {
    Answer answer = refusal(405, "Poise is asked with GET and POST only.");
    answer.fields.emplace_back("Allow", "GET, HEAD, POST");
    return answer;
  }
  if (!from_us && head.fetch_site != "same-origin") {
    return refusal(403, "A change must come from the page that Poise opened.");
  }
  if (!head.content_type || !is_json(*head.content_type)) {
    return refusal(415, "What is sent to Poise must be application/json.");
  }
  return std::nullopt;
}

}  // namespace poise::serve
