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

asio::awaitable<void> ask(Hall& hall, Visitor& visitor, const desk::Request& request, Answer& answer) {
  if (hall.questions >= hall.limits.workers + hall.limits.queue || hall.closing) {
    answer = refusal(503, "Poise is busy with too many questions; try again in a moment.");
    co_return;
  }
  ++hall.questions;
  visitor.asks = true;
  asio::steady_timer answered(hall.context, asio::steady_timer::time_point::max());
  asio::post(hall.workers, [&hall, &request, &answer, &answered] {
    if (!hall.closing) answer = asked(hall.house, request);
    asio::post(hall.context, [&answered] { answered.cancel(); });
  });
  beast::error_code cancelled;
  co_await answered.async_wait(asio::redirect_error(asio::use_awaitable, cancelled));
  visitor.asks = false;
  --hall.questions;
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

/// Reads the body that belongs to a question and has it answered.
asio::awaitable<void> answer_question(Hall& hall, Visitor& visitor, beast::flat_buffer& buffer,
                                      Parser& parser, desk::Request& request, Answer& answer, bool& keep) {
  beast::error_code error;
  visitor.stream.expires_after(hall.limits.body);
  if (!parser.is_done()) {
    co_await http::async_read(visitor.stream, buffer, parser,
                              asio::redirect_error(asio::use_awaitable, error));
  }
  if (error) {
    keep = false;
    answer = unreadable(error).value_or(Answer{.status = 0});
    co_return;
  }
  request.body = std::move(parser.get().body());
  if (!job::is_text(request.body)) {
    answer = refusal(400, "What is sent to Poise must be text in UTF-8.");
    co_return;
  }
  visitor.stream.expires_never();
  co_await ask(hall, visitor, request, answer);
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
  if (error) {
    const auto answer = unreadable(error);
    if (answer) co_await send(hall, visitor, *answer, false, false);
    co_return false;
  }
  const bool only_head = parser.get().method() == http::verb::head;
  bool keep = parser.keep_alive() && !hall.closing;
  Answer answer;
  if (auto refused = contradictory(parser)) {
    keep = false;
    answer = std::move(*refused);
  } else {
    Lead where = lead(hall.house, head_of(parser.get()));
    if (auto* known = std::get_if<Answer>(&where)) {
      keep = keep && !has_body(parser);
      answer = std::move(*known);
    } else {
      co_await answer_question(hall, visitor, buffer, parser, std::get<desk::Request>(where), answer, keep);
    }
  }
  if (answer.status == 0) co_return false;
  visitor.knows_us = visitor.knows_us || answer.status < 400;
  const bool sent = co_await send(hall, visitor, answer, only_head, keep);
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
