// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "serve/target.hpp"

#include <algorithm>
#include <charconv>

#include "job/file_text.hpp"

namespace poise::serve {
namespace {

bool is_control(unsigned char c) { return c < 0x20 || c == 0x7F; }

/// Percent-encoded text; none where it is not well-formed, or not UTF-8 without control characters.
std::optional<std::string> decoded(std::string_view encoded) {
  std::string text;
  for (std::size_t at = 0; at < encoded.size(); ++at) {
    if (encoded[at] != '%') {
      text += encoded[at];
      continue;
    }
    if (at + 3 > encoded.size()) return std::nullopt;
    const std::string_view digits = encoded.substr(at + 1, 2);
    unsigned char byte = 0;
    const auto [end, error] = std::from_chars(digits.begin(), digits.end(), byte, 16);
    if (error != std::errc() || end != digits.end()) return std::nullopt;
    text += static_cast<char>(byte);
    at += 2;
  }
  if (!job::is_text(text) || std::ranges::any_of(text, is_control)) return std::nullopt;
  return text;
}

/// The piece up to the next mark, which is taken off the rest with it.
std::string_view next_piece(std::string_view& rest, char mark) {
  const std::size_t end = rest.find(mark);
  const std::string_view piece = rest.substr(0, end);
  rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
  return piece;
}

}  // namespace

std::optional<Target> cut(std::string_view target) {
  const auto stands_in_no_address = [](unsigned char c) { return c <= 0x20 || c >= 0x7F || c == '#'; };
  if (!target.starts_with('/') || std::ranges::any_of(target, stands_in_no_address)) return std::nullopt;
  target.remove_prefix(1);
  Target result;
  const std::size_t query = target.find('?');
  if (query != std::string_view::npos) result.query = target.substr(query + 1);
  target = target.substr(0, query);
  const std::size_t slash = target.find('/');
  result.first = target.substr(0, slash);
  result.slash = slash != std::string_view::npos;
  if (result.slash) result.rest = target.substr(slash + 1);
  return result;
}

std::optional<std::vector<std::string>> decoded_way(std::string_view way) {
  std::vector<std::string> pieces;
  for (bool more = true; more;) {
    more = way.find('/') != std::string_view::npos;
    auto piece = decoded(next_piece(way, '/'));
    if (!piece || piece->empty() || *piece == "." || *piece == "..") return std::nullopt;
    if (piece->find_first_of("/\\") != std::string::npos) return std::nullopt;
    pieces.push_back(std::move(*piece));
  }
  return pieces;
}

std::optional<std::map<std::string, std::string>> decoded_query(std::string_view query) {
  std::map<std::string, std::string> values;
  while (!query.empty()) {
    std::string piece(next_piece(query, '&'));
    if (piece.empty()) continue;
    std::ranges::replace(piece, '+', ' ');
    std::string_view value = piece;
    auto name = decoded(next_piece(value, '='));
    auto text = decoded(value);
    if (!name || !text || !values.emplace(std::move(*name), std::move(*text)).second) return std::nullopt;
  }
  return values;
}

}  // namespace poise::serve
