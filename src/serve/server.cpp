// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "serve/server.hpp"

#include <fcntl.h>
#include <fmt/format.h>

#include <utility>  // awaitable.hpp of Boost 1.74 needs it and does not say so

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <future>
#include <thread>

#include "serve/token.hpp"
#include "serve/visit.hpp"

namespace poise::serve {
namespace {

namespace asio = boost::asio;
using asio::ip::tcp;
using boost::system::error_code;

constexpr std::chrono::milliseconds pause_after_failure{100};  // such as no free descriptor

/// A program that is started from here must not inherit a connection.
void keep_to_ourselves(int descriptor) { ::fcntl(descriptor, F_SETFD, FD_CLOEXEC); }

/// Makes room for one more: who has been answered least lately goes, strangers first, unless the desk works
/// for it.
void make_room(Hall& hall) {
  if (hall.visitors.size() < hall.limits.connections) return;
  for (const bool known : {false, true}) {
    for (const auto& visitor : hall.visitors) {
      if (visitor->asks || visitor->knows_us != known || !visitor->stream.socket().is_open()) continue;
      visitor->stream.close();
      return;
    }
  }
}

asio::awaitable<void> receive(Hall& hall, tcp::acceptor& acceptor) {
  asio::steady_timer pause(hall.context);
  while (!hall.closing) {
    error_code error;
    tcp::socket socket = co_await acceptor.async_accept(asio::redirect_error(asio::use_awaitable, error));
    if (hall.closing) co_return;
    if (error) {
      pause.expires_after(pause_after_failure);
      co_await pause.async_wait(asio::redirect_error(asio::use_awaitable, error));
      continue;
    }
    keep_to_ourselves(socket.native_handle());
    socket.set_option(tcp::no_delay(true), error);
    make_room(hall);
    asio::co_spawn(hall.context, visit(hall, std::make_shared<Visitor>(std::move(socket))), asio::detached);
  }
}

std::string why_not(unsigned short port, const error_code& error) {
  if (error == asio::error::address_in_use) {
    return fmt::format(
        "Port {} is taken by another program; choose another one, or none to have a free one found.", port);
  }
  if (error == asio::error::access_denied) {
    return fmt::format("Port {} is reserved by the system; choose one from 1024 on.", port);
  }
  return fmt::format("Port {} cannot be opened: {}", port, error.message());
}

/// Opens the acceptor on the loopback address, which no other machine can reach.
error_code open(tcp::acceptor& acceptor, unsigned short port) {
  const tcp::endpoint here(asio::ip::address_v4::loopback(), port);
  error_code error;
  acceptor.open(here.protocol(), error);
  if (error) return error;
  keep_to_ourselves(acceptor.native_handle());
  acceptor.set_option(tcp::acceptor::reuse_address(true), error);
  if (!error) acceptor.bind(here, error);
  if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
  return error;
}

}  // namespace

struct Server::Running {
  Running(House house, const Limits& limits) : hall(std::move(house), limits), acceptor(hall.context) {}
  Hall hall;
  tcp::acceptor acceptor;
  std::thread traffic;
};

std::string Served::address() const { return fmt::format("http://127.0.0.1:{}/{}/", port, token); }

std::string Served::address_for_once() const { return fmt::format("http://127.0.0.1:{}/{}", port, ticket); }

Server::Server(Desk desk, std::span<const PageFile> page, Limits limits)
    : desk_(std::move(desk)), page_(page), limits_(limits) {}

Server::~Server() { stop(); }

std::variant<Served, std::string> Server::start(unsigned short port) {
  stop();
  auto running = std::make_unique<Running>(
      House{.token = new_token(), .ticket = new_token(), .page = page_, .desk = desk_}, limits_);
  if (const error_code error = open(running->acceptor, port)) return why_not(port, error);
  Hall& hall = running->hall;
  hall.house.port = running->acceptor.local_endpoint().port();
  Served served{hall.house.port, hall.house.token, hall.house.ticket};
  asio::co_spawn(hall.context, receive(hall, running->acceptor), asio::detached);
  running->traffic = std::thread([&hall] { hall.context.run(); });
  running_ = std::move(running);
  return served;
}

void Server::stop() {
  if (!running_) return;
  Hall& hall = running_->hall;
  std::promise<void> closed;
  asio::post(hall.context, [&] {
    hall.closing = true;
    running_->acceptor.close();
    for (const auto& visitor : hall.visitors) visitor->stream.close();
    closed.set_value();
  });
  closed.get_future().wait();
  // The desk's threads end first: each reports to a visit, and the visits end with the traffic.
  hall.workers.join();
  running_->traffic.join();
  running_.reset();
}

}  // namespace poise::serve
