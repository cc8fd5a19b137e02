// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <map>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "serve/server.hpp"

namespace poise {

/// An answer as it came over the wire.
struct Heard {
  int status = 0;  ///< 0: the server closed without a word
  std::map<std::string, std::string> fields;
  std::string body;
  bool whole = false;  ///< as long as it said it would be
};

/// A client that sends whatever bytes it is given, well-formed or not.
class Wire {
 public:
  /// To 127.0.0.1, or another address of this machine.
  explicit Wire(unsigned short port, const std::string& address = "127.0.0.1");
  ~Wire();
  Wire(Wire&& other) noexcept;
  Wire(const Wire&) = delete;

  bool connected() const { return socket_ >= 0; }
  /// Whether the server still took all of it.
  bool send(std::string_view bytes) const;
  /// The next answer. Each one is checked for the fields that protect the page.
  Heard hear(bool without_body = false);
  /// Whether the server closes the connection without another word.
  bool closed();

 private:
  bool receive();
  int socket_ = -1;
  std::string got_;
};

/// The page of the stand: index.html, which is no real gzip, since nobody here unpacks it.
std::span<const serve::PageFile> page();

/// A server with a desk that notes what it is asked, and a page of one file.
class Stand {
 public:
  explicit Stand(serve::Limits limits = {});

  /// What the desk does with a request; can be set before the first one.
  serve::Desk answers = [](const desk::Request&) { return desk::Reply{.body = "{\"well\":true}"}; };

  const serve::Served& served() const { return served_; }
  serve::Server& server() { return server_; }
  std::string host() const { return "127.0.0.1:" + std::to_string(served_.port); }
  /// A request as a browser sends it for this page: with Host, and for POST with Origin and type. More fields
  /// may be given, each with its line end.
  std::string request(const std::string& method, const std::string& behind_token,
                      const std::string& fields = {}, const std::string& body = {}) const;
  /// Its answer, on a connection of its own.
  Heard ask(const std::string& bytes) const;
  /// What the desk was asked so far.
  std::vector<desk::Request> asked() const;

 private:
  mutable std::mutex mutex_;
  std::vector<desk::Request> asked_;
  serve::Server server_;
  serve::Served served_;
};

}  // namespace poise
