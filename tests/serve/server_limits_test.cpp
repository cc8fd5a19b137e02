// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Too much, too slow, too many: what one client does must not stop another.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <condition_variable>
#include <latch>
#include <thread>

#include "serve/server.hpp"
#include "serve/wire.hpp"

namespace poise {
namespace {

using namespace std::chrono_literals;
using testing::IsEmpty;

std::string post_head(const Stand& stand, const std::string& length) {
  return "POST /" + stand.served().token + "/api/x HTTP/1.1\r\nHost: " + stand.host() +
         "\r\nOrigin: http://" + stand.host() + "\r\nContent-Type: application/json\r\n" + length +
         "\r\n\r\n";
}

void expect_alive(const Stand& stand) { EXPECT_EQ(stand.ask(stand.request("GET", "api/jobs")).status, 200); }

TEST(ServerLimits, a_body_of_5_MB_is_taken_and_a_byte_more_is_refused_before_it_is_read) {
  const Stand stand;
  const std::string most(5'000'000, ' ');
  EXPECT_EQ(stand.ask(stand.request("POST", "api/x", "", most)).status, 200);
  EXPECT_TRUE(stand.asked().at(0).body == most);
  // The client that sends all of it still hears why.
  EXPECT_EQ(stand.ask(stand.request("POST", "api/x", "", most + " ")).status, 413);
  for (const char* length : {"5000001", "4294967296", "9223372036854775807", "18446744073709551615"}) {
    EXPECT_EQ(stand.ask(post_head(stand, std::string("Content-Length: ") + length)).status, 413) << length;
  }
  EXPECT_EQ(stand.asked().size(), 1U);
}

TEST(ServerLimits, chunks_without_end_are_cut_off) {
  const Stand stand;
  Wire wire(stand.served().port);
  wire.send(post_head(stand, "Transfer-Encoding: chunked"));
  const std::string chunk = "10000\r\n" + std::string(0x10000, 'x') + "\r\n";
  int sent = 0;
  while (sent < 4000 && wire.send(chunk)) ++sent;  // 260 MB
  EXPECT_LT(sent, 4000) << "somebody still reads";
  EXPECT_THAT(stand.asked(), IsEmpty());
  expect_alive(stand);
}

TEST(ServerLimits, chunks_that_sum_up_to_too_much_are_refused) {
  const Stand stand;
  Wire wire(stand.served().port);
  wire.send(post_head(stand, "Transfer-Encoding: chunked"));
  for (int i = 0; i < 51; ++i) wire.send("186a0\r\n" + std::string(100'000, ' ') + "\r\n");
  EXPECT_EQ(wire.hear().status, 413);
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(ServerLimits, a_chunk_whose_head_or_tail_never_ends_is_refused) {
  const Stand stand;
  const std::string head = post_head(stand, "Transfer-Encoding: chunked");
  for (const std::string& endless : {"1;" + std::string(200'000, 'x'), "0\r\nX: " + std::string(200'000, 'x'),
                                     "0\r\n" + std::string(200'000, 'x')}) {
    const int status = stand.ask(head + endless).status;
    EXPECT_TRUE(status == 400 || status == 431) << status;
  }
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(ServerLimits, a_head_without_end_is_refused) {
  const Stand stand;
  const std::string start =
      "GET /" + stand.served().token + "/api/jobs HTTP/1.1\r\nHost: " + stand.host() + "\r\n";
  std::string many;
  for (int i = 0; i < 20'000; ++i) many += "X-" + std::to_string(i) + ": 1\r\n";
  EXPECT_EQ(stand.ask(start + "X: " + std::string(1'000'000, 'a')).status, 431);
  EXPECT_EQ(stand.ask(start + std::string(1'000'000, 'a')).status, 431);
  EXPECT_EQ(stand.ask(start + many).status, 431);
  EXPECT_EQ(stand.ask(std::string(1'000'000, 'A')).status, 431);
  EXPECT_EQ(stand.ask("GET /" + std::string(1'000'000, 'a')).status, 431);
  EXPECT_THAT(stand.asked(), IsEmpty());
  expect_alive(stand);
}

TEST(ServerLimits, an_address_may_be_16_kB_long) {
  const Stand stand;
  const std::string path = "/" + stand.served().token + "/api/jobs?a=";
  const std::string fields = " HTTP/1.1\r\nHost: " + stand.host() + "\r\n\r\n";
  EXPECT_EQ(stand.ask("GET " + path + std::string(16'000 - path.size(), 'a') + fields).status, 200);
  EXPECT_EQ(stand.ask("GET " + path + std::string(16'001 - path.size(), 'a') + fields).status, 414);
}

TEST(ServerLimits, who_sends_nothing_or_half_a_request_is_shown_out) {
  const Stand stand({.head = 50ms, .body = 50ms, .idle = 50ms});
  const std::string get = stand.request("GET", "api/jobs"),
                    post = stand.request("POST", "api/x", "", "{\"a\":1}");
  for (const std::string& bytes : std::vector<std::string>{
           "", "G", get.substr(0, get.size() - 1), get.substr(0, 40), post.substr(0, post.size() - 1),
           post_head(stand, "Transfer-Encoding: chunked"),
           post_head(stand, "Transfer-Encoding: chunked") + "1\r\n{"}) {
    Wire wire(stand.served().port);
    wire.send(bytes);
    EXPECT_TRUE(wire.closed()) << testing::PrintToString(bytes);
  }
  EXPECT_THAT(stand.asked(), IsEmpty());
  Wire wire(stand.served().port);
  wire.send(get);
  EXPECT_EQ(wire.hear().status, 200);
  EXPECT_TRUE(wire.closed()) << "idle after its request";
}

TEST(ServerLimits, trickling_a_head_wins_no_time) {
  const Stand stand({.head = 50ms});
  Wire wire(stand.served().port);
  wire.send("GET / HTTP/1.1\r\n");
  // A byte in a while keeps an inactivity timeout away for ever; the limit is for the head as a whole.
  int sent = 0;
  while (sent < 20'000 && wire.send("X")) {
    ++sent;
    std::this_thread::sleep_for(1ms);
  }
  EXPECT_LT(sent, 20'000);
}

TEST(ServerLimits, a_crowd_of_slow_clients_keeps_nobody_else_out) {
  const Stand stand({.head = 60s, .body = 60s, .connections = 64});
  Wire page(stand.served().port);  // the page's own connection, open since before
  page.send(stand.request("GET", "api/jobs"));
  ASSERT_EQ(page.hear().status, 200);
  const std::string post = stand.request("POST", "api/x", "", "{\"a\":1}");
  std::vector<Wire> slow;
  for (int i = 0; i < 300; ++i) {
    slow.emplace_back(stand.served().port);
    slow.back().send(post.substr(0, static_cast<std::size_t>(i) % post.size()));
    if (i % 10 == 0) expect_alive(stand);
  }
  for (int round = 0; round < 20; ++round) {
    for (const Wire& wire : slow) wire.send("x");
    expect_alive(stand);
  }
  page.send(stand.request("GET", "api/jobs"));
  EXPECT_EQ(page.hear().status, 200) << "who knows the token is not the one that makes room";
}

TEST(ServerLimits, a_client_that_does_not_read_its_answers_stops_nobody) {
  Stand stand({.answer = 50ms});
  stand.answers = [](const desk::Request& request) {
    return desk::Reply{.body = std::string(request.way[0] == "large" ? 30'000'000 : 2, ' ')};
  };
  std::vector<Wire> deaf;
  for (int i = 0; i < 4; ++i) {
    deaf.emplace_back(stand.served().port);
    deaf.back().send(stand.request("GET", "api/large"));
  }
  for (int i = 0; i < 20; ++i) expect_alive(stand);
  // Once the server has closed, what is sent to it is refused.
  for (const Wire& wire : deaf) {
    int sent = 0;
    while (sent < 20'000 && wire.send("x")) {
      ++sent;
      std::this_thread::sleep_for(1ms);
    }
    EXPECT_LT(sent, 20'000);
  }
}

TEST(ServerLimits, a_connection_ends_after_its_last_request) {
  const Stand stand({.requests = 3});
  Wire wire(stand.served().port);
  for (int i = 0; i < 4; ++i) wire.send(stand.request("GET", "api/jobs"));
  for (int i = 0; i < 3; ++i) EXPECT_EQ(wire.hear().status, 200);
  EXPECT_TRUE(wire.closed());
}

/// Lets the desk's threads wait until they may go on.
struct Gate {
  std::mutex mutex;
  std::condition_variable changed;
  int inside = 0;
  bool open = false;

  void pass() {
    std::unique_lock lock(mutex);
    ++inside;
    changed.notify_all();
    changed.wait(lock, [&] { return open; });
  }
  void await(int number) {
    std::unique_lock lock(mutex);
    changed.wait(lock, [&] { return inside >= number; });
  }
  void lift() {
    const std::lock_guard lock(mutex);
    open = true;
    changed.notify_all();
  }
};

TEST(ServerLimits, a_busy_desk_is_asked_no_more_than_it_can_answer_and_the_page_still_comes) {
  Gate gate;
  Stand stand({.workers = 2, .queue = 3});
  stand.answers = [&](const desk::Request&) {
    gate.pass();
    return desk::Reply{};
  };
  std::vector<Wire> waiting;
  for (int i = 0; i < 5; ++i) {
    waiting.emplace_back(stand.served().port);
    waiting.back().send(stand.request("POST", "api/job/a.toml/prove", "", "{}"));
    // Each is known to have come in before the next one: the first two by the gate, the others by an answer
    // to who comes after them on the one thread of the connections.
    if (i < 2) gate.await(i + 1);
    EXPECT_EQ(stand.ask(stand.request("GET", "", "Accept-Encoding: gzip\r\n")).status, 200);
  }
  const Heard heard = stand.ask(stand.request("POST", "api/job/a.toml/prove", "", "{}"));
  EXPECT_EQ(heard.status, 503);
  gate.lift();
  for (Wire& wire : waiting) EXPECT_EQ(wire.hear().status, 200);
  expect_alive(stand);
}

TEST(ServerLimits, stopping_waits_for_the_desk_and_closes_every_connection) {
  Gate gate;
  Stand stand({.workers = 1});
  std::atomic<int> answered = 0;
  stand.answers = [&](const desk::Request&) {
    gate.pass();
    ++answered;
    return desk::Reply{};
  };
  Wire asking(stand.served().port), queued(stand.served().port), idle(stand.served().port),
      half(stand.served().port);
  asking.send(stand.request("POST", "api/x", "", "{}"));
  gate.await(1);
  queued.send(stand.request("POST", "api/x", "", "{}"));
  half.send("GET /");
  EXPECT_EQ(stand.ask(stand.request("GET", "", "Accept-Encoding: gzip\r\n")).status, 200);
  std::thread stopping([&] { stand.server().stop(); });
  for (Wire* wire : {&asking, &queued, &idle, &half}) EXPECT_TRUE(wire->closed());
  gate.lift();
  stopping.join();
  EXPECT_EQ(answered, 1) << "what only waited for the desk is not asked any more";
  EXPECT_FALSE(Wire(stand.served().port).connected());
}

}  // namespace
}  // namespace poise
