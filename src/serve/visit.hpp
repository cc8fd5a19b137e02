// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <utility>  // awaitable.hpp of Boost 1.74 needs it and does not say so

#include <atomic>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <list>
#include <memory>

#include "serve/house.hpp"
#include "serve/server.hpp"

namespace poise::serve {

/// One connection. While it `asks`, the desk works for it, and it is not the one that is closed for a new
/// one.
struct Visitor {
  explicit Visitor(boost::asio::ip::tcp::socket socket) : stream(std::move(socket)) {}
  boost::beast::tcp_stream stream;
  bool asks = false;
  bool knows_us = false;  ///< has asked for something with the token
};

/// All that visits share. Only the thread that runs `context` touches it, but for `closing`.
struct Hall {
  Hall(House behind, const Limits& within)
      : house(std::move(behind)), limits(within), workers(within.workers) {}

  House house;
  Limits limits;
  boost::asio::io_context context{1};
  boost::asio::thread_pool workers;
  std::list<std::shared_ptr<Visitor>> visitors;  ///< who was answered last stands last
  std::size_t questions = 0;                     ///< with the desk, or waiting for it
  std::atomic<bool> closing = false;
};

/// Reads and answers the requests of one connection until either side has enough.
boost::asio::awaitable<void> visit(Hall& hall, std::shared_ptr<Visitor> visitor);

}  // namespace poise::serve
