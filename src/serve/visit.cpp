// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "serve/visit.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <boost/asio/post.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http.hpp>
#include <ctime>

#include "job/file_text.hpp"

namespace poise::serve {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;

constexpr std::uint32_t largest_head = 32'000;     // bytes
constexpr std::uint64_t largest_body = 5'000'000;  // bytes: a job's whole text as JSON
constexpr std::size_t largest_buffer = 65'536;     // bytes
constexpr std::size_t most_discarded = 2 * largest_body;
constexpr std::chrono::seconds longest_farewell{2};

using Parser = http::request_parser<http::string_body>;
using Response = http::response<http::span_body<const char>>;

// Everything the page needs comes from this server, nothing is run that stands in a document, and no other
// page may frame it, read it or hold on to its window.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> fields_of_every_answer{{
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
     "font-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
    {"X-Content-Type-Options", "nosniff"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
}};

beast::string_view boosted(std::string_view text) { return {text.data(), text.size()}; }
std::string_view plain(beast::string_view text) { return {text.data(), text.size()}; }

std::string date_now() {
  return fmt::format("{:%a, %d %b %Y %H:%M:%S} GMT", fmt::gmtime(std::time(nullptr)));
}

/// Why a request cannot be read at all; none where there is nobody to tell.
std::optional<Answer> unreadable(beast::error_code error) {
  if (error == http::error::end_of_stream || error == http::error::partial_message) return std::nullopt;
  if (error == http::error::header_limit) return refusal(431, "The head of the request is too long.");
  if (error == http::error::body_limit) return refusal(413, "More than 5 MB are not taken at once.");
  if (error.category() == http::make_error_code(http::error::bad_method).category() ||
      error == http::error::buffer_overflow) {
    return refusal(400, "The request is not well-formed.");
  }
  return std::nullopt;
}

std::optional<std::string_view> field(const http::fields& fields, std::string_view name) {
  const auto found = fields.find(boosted(name));
  return found == fields.end() ? std::nullopt : std::optional(plain(found->value()));
}

Head head_of(const Parser::value_type& request) {
  return {.method = plain(request.method_string()),
          .target = plain(request.target()),
          .host = field(request, "Host"),
          .origin = field(request, "Origin"),
          .fetch_site = field(request, "Sec-Fetch-Site"),
          .content_type = field(request, "Content-Type"),
          .accept_encoding = field(request, "Accept-Encoding"),
          .if_none_match = field(request, "If-None-Match")};
}

bool has_body(const Parser& parser) { return parser.chunked() || parser.content_length().value_or(0) > 0; }

/// What keeps a well-formed head from being looked at: two fields that contradict each other, a body where
/// none belongs, a wish for a go-ahead before the body.
std::optional<Answer> contradictory(const Parser& parser) {
  const auto& request = parser.get();
  for (const std::string_view name : {"Host", "Origin", "Sec-Fetch-Site", "Content-Type"}) {
    if (request.count(boosted(name)) > 1) return refusal(400, "The request says a thing twice.");
  }
  if (request.method() != http::verb::post && has_body(parser)) {
    return refusal(400, "Only a change may carry anything.");
  }
  if (request.count(http::field::expect) > 0) return refusal(417, "Send the request whole.");
  return std::nullopt;
}

/// Has a question answered by the desk, on a thread of its own.
asio::awaitable<Answer> ask(Hall& hall, Visitor& visitor, const desk::Request& request) {
  if (hall.questions >= hall.limits.workers + hall.limits.queue || hall.closing) {
    co_return refusal(503, "Poise is busy with too many questions; try again in a moment.");
  }
  ++hall.questions;
  visitor.asks = true;
  Answer answer;
  asio::steady_timer answered(hall.context, asio::steady_timer::time_point::max());
  asio::post(hall.workers, [&hall, &request, &answer, &answered] {
    if (!hall.closing) answer = asked(hall.house, request);
    asio::post(hall.context, [&answered] { answered.cancel(); });
  });
  beast::error_code cancelled;
  co_await answered.async_wait(asio::redirect_error(asio::use_awaitable, cancelled));
  visitor.asks = false;
  --hall.questions;
  co_return answer;
}

void fill(Response& response, const Answer& answer) {
  response.result(answer.status);
  for (const auto& [name, value] : fields_of_every_answer) response.set(boosted(name), boosted(value));
  response.set(http::field::date, date_now());
  response.set(http::field::cache_control, "no-store");
  if (!answer.type.empty()) response.set(http::field::content_type, answer.type);
  for (const auto& [name, value] : answer.fields) response.set(boosted(name), value);
  const std::string_view body = answer.built_in.empty() ? std::string_view(answer.body) : answer.built_in;
  response.body() = {body.data(), body.size()};
  if (answer.status != 304) response.content_length(body.size());
}

/// Whether all of it went out.
asio::awaitable<bool> send(Hall& hall, Visitor& visitor, const Answer& answer, bool only_head, bool keep) {
  Response response;
  fill(response, answer);
  response.keep_alive(keep);
  http::response_serializer<http::span_body<const char>> serializer(response);
  beast::error_code error;
  visitor.stream.expires_after(hall.limits.answer);
  if (only_head) {
    co_await http::async_write_header(visitor.stream, serializer,
                                      asio::redirect_error(asio::use_awaitable, error));
  } else {
    co_await http::async_write(visitor.stream, serializer, asio::redirect_error(asio::use_awaitable, error));
  }
  co_return !error;
}

/// Waits for the first byte of a request, which may take longer than the rest of its head.
asio::awaitable<bool> begins(Hall& hall, Visitor& visitor, beast::flat_buffer& buffer, bool first) {
  if (buffer.size() > 0) co_return true;
  beast::error_code error;
  visitor.stream.expires_after(first ? hall.limits.head : hall.limits.idle);
  const auto room = buffer.prepare(4'096);
  const std::size_t got =
      co_await visitor.stream.async_read_some(room, asio::redirect_error(asio::use_awaitable, error));
  buffer.commit(got);
  co_return !error;
}

asio::awaitable<beast::error_code> read_body(Hall& hall, Visitor& visitor, beast::flat_buffer& buffer,
                                             Parser& parser) {
  beast::error_code error;
  visitor.stream.expires_after(hall.limits.body);
  if (!parser.is_done()) {
    co_await http::async_read(visitor.stream, buffer, parser,
                              asio::redirect_error(asio::use_awaitable, error));
  }
  visitor.stream.expires_never();
  co_return error;
}

/// The answer to a request whose head has been read, and whether another request may follow. Without an
/// answer where there is nobody to tell.
struct Turnout {
  std::optional<Answer> answer;
  bool keep = true;
};

asio::awaitable<Turnout> turnout(Hall& hall, Visitor& visitor, beast::flat_buffer& buffer, Parser& parser) {
  const Head head = head_of(parser.get());
  if (is_stranger(hall.house, head)) co_return Turnout{nothing_here(), !has_body(parser)};
  if (auto refused = contradictory(parser)) co_return Turnout{std::move(refused), false};
  Lead where = lead(hall.house, head);
  // A body that nobody reads would be taken for the next request.
  if (auto* known = std::get_if<Answer>(&where)) co_return Turnout{std::move(*known), !has_body(parser)};
  const beast::error_code error = co_await read_body(hall, visitor, buffer, parser);
  if (error) co_return Turnout{unreadable(error), false};
  auto& request = std::get<desk::Request>(where);
  request.body = std::move(parser.get().body());
  if (!job::is_text(request.body)) {
    co_return Turnout{refusal(400, "What is sent to Poise must be text in UTF-8."), true};
  }
  Answer answer = co_await ask(hall, visitor, request);
  co_return Turnout{std::move(answer), true};
}

/// One request and its answer; whether another one may follow on this connection.
asio::awaitable<bool> exchange(Hall& hall, Visitor& visitor, beast::flat_buffer& buffer, bool first) {
  const bool begun = co_await begins(hall, visitor, buffer, first);
  if (!begun) co_return false;
  Parser parser;
  parser.header_limit(largest_head);
  parser.body_limit(largest_body);
  beast::error_code error;
  visitor.stream.expires_after(hall.limits.head);
  co_await http::async_read_header(visitor.stream, buffer, parser,
                                   asio::redirect_error(asio::use_awaitable, error));
  Turnout result;
  if (error) {
    result = {unreadable(error), false};
  } else {
    result = co_await turnout(hall, visitor, buffer, parser);
  }
  if (!result.answer) co_return false;
  visitor.knows_us = visitor.knows_us || result.answer->status < 400;
  const bool only_head = parser.get().method() == http::verb::head;
  const bool keep = result.keep && parser.keep_alive() && !hall.closing;
  const bool sent = co_await send(hall, visitor, *result.answer, only_head, keep);
  co_return sent&& keep;
}

/// Lets the browser read the last answer although it may still be sending: closing with bytes unread would
/// take the answer away from it.
asio::awaitable<void> farewell(Visitor& visitor) {
  beast::error_code error;
  visitor.stream.socket().shutdown(asio::ip::tcp::socket::shutdown_send, error);
  visitor.stream.expires_after(longest_farewell);
  std::array<char, 16'384> unread;
  for (std::size_t total = 0; !error && total < most_discarded;) {
    total += co_await visitor.stream.async_read_some(asio::buffer(unread),
                                                     asio::redirect_error(asio::use_awaitable, error));
  }
}

/// Keeps the list of visitors true, however a visit ends.
struct Attendance {
  Hall& hall;
  std::list<std::shared_ptr<Visitor>>::iterator place;
  ~Attendance() { hall.visitors.erase(place); }
};

}  // namespace

asio::awaitable<void> visit(Hall& hall, std::shared_ptr<Visitor> visitor) {
  const Attendance attendance{hall, hall.visitors.insert(hall.visitors.end(), visitor)};
  beast::flat_buffer buffer(largest_buffer);
  bool more = true;
  for (int request = 0; more && request < hall.limits.requests; ++request) {
    more = co_await exchange(hall, *visitor, buffer, request == 0);
    hall.visitors.splice(hall.visitors.end(), hall.visitors, attendance.place);
  }
  co_await farewell(*visitor);
}

}  // namespace poise::serve
