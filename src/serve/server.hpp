// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <chrono>
#include <memory>
#include <span>
#include <string>
#include <variant>

#include "serve/house.hpp"
#include "serve/page.hpp"

namespace poise::serve {

/// Where a running server is found.
struct Served {
  unsigned short port;
  std::string token;
  std::string ticket;
  /// "http://127.0.0.1:PORT/TOKEN/"
  std::string address() const;
  /// An address that leads to it once only, for where others may look over one's shoulder: what a program is
  /// started with can be read by everybody on the machine.
  std::string address_for_once() const;
};

/// How long and how much. Times are for the whole of what they name, however it trickles in.
struct Limits {
  std::chrono::milliseconds head{5'000};     ///< from a request's first byte to the end of its head
  std::chrono::milliseconds body{10'000};    ///< of a request's body
  std::chrono::milliseconds answer{10'000};  ///< for the browser to take an answer
  std::chrono::milliseconds idle{60'000};    ///< between two requests of one connection
  /// Open at once; one more closes the one that has been idle longest. Far more than pages open: of a crowd
  /// that comes at once nobody is known yet.
  std::size_t connections = 512;
  std::size_t workers = 16;  ///< questions that the desk is asked at once
  std::size_t queue = 64;    ///< questions that wait for it
  int requests = 10'000;     ///< on one connection
};

/// Serves the page and the desk's answers over HTTP/1.1 to this machine only. One thread reads and writes all
/// connections, so that slow ones hold up nobody; the desk is asked on threads of its own.
class Server {
 public:
  Server(Desk desk, std::span<const PageFile> page, Limits limits = {});
  ~Server();

  /// Opens on 127.0.0.1 at this port, or at a free one for 0, under a new token; or says why it cannot.
  std::variant<Served, std::string> start(unsigned short port = 0);
  /// Closes all connections, and returns when the desk has answered what it was asked.
  void stop();

 private:
  struct Running;
  Desk desk_;
  std::span<const PageFile> page_;
  Limits limits_;
  std::unique_ptr<Running> running_;
};

}  // namespace poise::serve
