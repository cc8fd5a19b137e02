// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "serve/house.hpp"

#include <algorithm>
#include <utility>

#include "serve/target.hpp"
#include "serve/token.hpp"

namespace poise::serve {
namespace {

constexpr std::size_t longest_target = 16'000;  // bytes; the ports of a line with a hundred jacks fit in
constexpr std::string_view api = "api/";

/// Whether a browser takes gzip: it is named and not with a quality of 0.
bool takes_gzip(std::string_view accepted) {
  const std::size_t at = accepted.find("gzip");
  if (at == std::string_view::npos) return false;
  std::string quality;
  for (const char c : accepted.substr(at + 4, accepted.find(',', at) - at - 4)) {
    if (c != ' ' && c != '\t') quality += c;
  }
  return !quality.starts_with(";q=0") || quality.find_first_of("123456789", 4) != std::string::npos;
}

Answer page_file(const House& house, const Head& head, std::string_view path) {
  if (path.empty()) path = "index.html";
  const auto file = std::ranges::find(house.page, path, &PageFile::path);
  if (file == house.page.end()) return nothing_here();
  if (head.method == "POST") return refusal(405, "The page takes no changes at this address.");
  Answer answer{.type = std::string(file->type), .built_in = file->bytes};
  // The browser may keep it, and asks each time whether it is still the one.
  answer.fields = {
      {"ETag", std::string(file->etag)}, {"Cache-Control", "private, no-cache"}, {"Vary", "Accept-Encoding"}};
  if (head.if_none_match == file->etag) {
    answer.status = 304;
    answer.built_in = {};
    return answer;
  }
  if (!head.accept_encoding || !takes_gzip(*head.accept_encoding)) {
    return refusal(406, "The page is sent compressed by gzip, which this browser does not take.");
  }
  answer.fields.emplace_back("Content-Encoding", "gzip");
  return answer;
}

Answer to_the_page(const House& house, unsigned status) {
  Answer answer{.status = status};
  answer.fields.emplace_back("Location", "/" + house.token + "/");
  return answer;
}

}  // namespace

bool is_stranger(const House& house, const Head& head) {
  const auto target = cut(head.target);
  if (!target) return true;
  return !same(target->first, house.token) && (house.ticket.empty() || !same(target->first, house.ticket));
}

Lead lead(House& house, const Head& head) {
  if (is_stranger(house, head)) return nothing_here();
  if (head.target.size() > longest_target) return refusal(414, "The address is too long.");
  if (auto answer = turned_away(head, house.port)) return std::move(*answer);
  const auto target = cut(head.target);
  if (target && head.method == "GET" && !house.ticket.empty() && same(target->first, house.ticket)) {
    house.ticket.clear();
    return to_the_page(house, 303);
  }
  if (!target || !same(target->first, house.token)) return nothing_here();
  if (!target->slash) return to_the_page(house, 308);
  if (!target->rest.starts_with(api)) return page_file(house, head, target->rest);
  auto way = decoded_way(target->rest.substr(api.size()));
  auto query = decoded_query(target->query);
  if (!way || !query) return refusal(400, "There is no such address.");
  return desk::Request{.changes = head.method == "POST", .way = std::move(*way), .query = std::move(*query)};
}

Answer asked(const House& house, const desk::Request& request) {
  try {
    desk::Reply reply = house.desk(request);
    return {.status = static_cast<unsigned>(reply.status),
            .type = std::move(reply.type),
            .body = std::move(reply.body)};
  } catch (...) {
    // What went wrong may name files or hold a piece of somebody's job; the page needs neither.
    return refusal(500, "This is a fault in Poise itself. Your job file is as it was last saved.");
  }
}

}  // namespace poise::serve
