// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "serve/wire.hpp"

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <utility>

namespace poise {
namespace {

constexpr timeval patience{.tv_sec = 60, .tv_usec = 0};  // only so that a server that hangs fails instead

const std::map<std::string, std::string> fields_of_every_answer{
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
     "font-src 'self'; "
     "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
    {"X-Content-Type-Options", "nosniff"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
};

void expect_protected(const Heard& heard) {
  for (const auto& [name, value] : fields_of_every_answer) {
    const auto found = heard.fields.find(name);
    EXPECT_TRUE(found != heard.fields.end() && found->second == value) << heard.status << " without " << name;
  }
  EXPECT_EQ(heard.fields.count("Server"), 0U);
  EXPECT_EQ(heard.fields.count("Access-Control-Allow-Origin"), 0U);
  EXPECT_EQ(heard.fields.count("Cache-Control"), 1U);
  if (heard.status >= 400) {
    EXPECT_EQ(heard.fields.at("Cache-Control"), "no-store");
  }
}

Heard parsed_head(std::string_view head) {
  Heard heard;
  EXPECT_EQ(head.substr(0, 9), "HTTP/1.1 ");
  heard.status = std::stoi(std::string(head.substr(9, 3)));
  for (std::size_t at = head.find("\r\n"); at != std::string_view::npos;) {
    const std::size_t end = head.find("\r\n", at + 2);
    const std::string_view line = head.substr(at + 2, end == std::string_view::npos ? end : end - at - 2);
    const std::size_t colon = line.find(": ");
    const bool first = heard.fields.emplace(line.substr(0, colon), line.substr(colon + 2)).second;
    EXPECT_TRUE(first) << "twice: " << line;
    at = end;
  }
  return heard;
}

}  // namespace

Wire::Wire(unsigned short port, const std::string& address)
    : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(port);
  ::inet_pton(AF_INET, address.c_str(), &to.sin_addr);
  ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  ::setsockopt(socket_, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
  if (::connect(socket_, reinterpret_cast<const sockaddr*>(&to), sizeof to) != 0)
    ::close(std::exchange(socket_, -1));
}

Wire::~Wire() {
  if (socket_ >= 0) ::close(socket_);
}

Wire::Wire(Wire&& other) noexcept : socket_(std::exchange(other.socket_, -1)), got_(std::move(other.got_)) {}

bool Wire::send(std::string_view bytes) const {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

bool Wire::receive() {
  std::array<char, 65'536> piece;
  const ssize_t got = ::recv(socket_, piece.data(), piece.size(), 0);
  EXPECT_FALSE(got < 0 && errno == EAGAIN) << "the server neither answers nor closes";
  if (got <= 0) return false;
  got_.append(piece.data(), static_cast<std::size_t>(got));
  return true;
}

Heard Wire::hear(bool without_body) {
  std::size_t end = 0;
  while ((end = got_.find("\r\n\r\n")) == std::string::npos) {
    if (!receive()) return {};
  }
  Heard heard = parsed_head(std::string_view(got_).substr(0, end));
  got_.erase(0, end + 4);
  expect_protected(heard);
  const auto length = heard.fields.find("Content-Length");
  const std::size_t wanted = length == heard.fields.end() || without_body ? 0 : std::stoul(length->second);
  while (got_.size() < wanted && receive()) continue;
  heard.body = got_.substr(0, wanted);
  heard.whole = heard.body.size() == wanted;
  got_.erase(0, wanted);
  return heard;
}

bool Wire::closed() {
  if (!got_.empty()) return false;
  return !receive();
}

std::span<const serve::PageFile> page() {
  static constexpr std::array<serve::PageFile, 2> files{
      {{"index.html", "text/html; charset=utf-8", "packed page", "\"mark-1\""},
       {"app.js", "text/javascript; charset=utf-8", "packed script", "\"mark-2\""}}};
  return files;
}

Stand::Stand(serve::Limits limits)
    : server_(
          [this](const desk::Request& request) {
            {
              const std::lock_guard lock(mutex_);
              asked_.push_back(request);
            }
            return answers(request);
          },
          page(), limits),
      served_(std::get<serve::Served>(server_.start())) {}

std::string Stand::request(const std::string& method, const std::string& behind_token,
                           const std::string& fields, const std::string& body) const {
  std::string text =
      method + " /" + served_.token + "/" + behind_token + " HTTP/1.1\r\nHost: " + host() + "\r\n" + fields;
  if (method == "POST") {
    text += "Origin: http://" + host() +
            "\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) + "\r\n";
  }
  return text + "\r\n" + body;
}

Heard Stand::ask(const std::string& bytes) const {
  Wire wire(served_.port);
  wire.send(bytes);
  return wire.hear();
}

std::vector<desk::Request> Stand::asked() const {
  const std::lock_guard lock(mutex_);
  return asked_;
}

}  // namespace poise
