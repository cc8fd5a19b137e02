// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Who is answered what, over real connections.
#include "serve/server.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "serve/wire.hpp"

namespace poise {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Pair;
using testing::StartsWith;

const std::string takes_gzip = "Accept-Encoding: gzip, deflate, br\r\n";

TEST(Server, gives_the_page_and_asks_the_desk) {
  const Stand stand;
  const Heard page = stand.ask(stand.request("GET", "", takes_gzip));
  EXPECT_EQ(page.status, 200);
  EXPECT_EQ(page.body, "packed page");
  EXPECT_EQ(page.fields.at("Content-Type"), "text/html; charset=utf-8");
  EXPECT_EQ(page.fields.at("Content-Encoding"), "gzip");
  EXPECT_EQ(stand.ask(stand.request("GET", "app.js", takes_gzip)).body, "packed script");
  EXPECT_THAT(stand.asked(), IsEmpty());

  const Heard answer =
      stand.ask(stand.request("POST", "api/job/frame%20lift.toml/edit?units=us", "", "{\"revision\":1}"));
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.body, "{\"well\":true}");
  EXPECT_EQ(answer.fields.at("Content-Type"), "application/json");
  EXPECT_EQ(answer.fields.at("Cache-Control"), "no-store");
  const auto asked = stand.asked();
  ASSERT_EQ(asked.size(), 1U);
  EXPECT_TRUE(asked[0].changes);
  EXPECT_THAT(asked[0].way, ElementsAre("job", "frame lift.toml", "edit"));
  EXPECT_THAT(asked[0].query, ElementsAre(Pair("units", "us")));
  EXPECT_EQ(asked[0].body, "{\"revision\":1}");
}

TEST(Server, many_requests_one_behind_the_other_share_a_connection) {
  const Stand stand;
  Wire wire(stand.served().port);
  std::string all;
  for (int i = 0; i < 100; ++i) {
    const std::string body = "{\"number\":" + std::to_string(i) + "}";
    all += i % 2 == 0 ? stand.request("POST", "api/job/a.toml/edit", "", body)
                      : stand.request("GET", "api/jobs");
  }
  wire.send(all);
  for (int i = 0; i < 100; ++i) EXPECT_EQ(wire.hear().status, 200) << i;
  EXPECT_EQ(stand.asked().at(98).body, "{\"number\":98}");
}

TEST(Server, a_request_may_come_in_the_smallest_pieces) {
  const Stand stand;
  Wire wire(stand.served().port);
  for (const char c : stand.request("POST", "api/job/a.toml/edit", "", "{\"revision\":1}"))
    wire.send({&c, 1});
  EXPECT_EQ(wire.hear().status, 200);
  EXPECT_EQ(stand.asked().at(0).body, "{\"revision\":1}");
}

TEST(Server, a_body_in_chunks_is_put_together) {
  const Stand stand;
  const std::string head = "POST /" + stand.served().token + "/api/x HTTP/1.1\r\nHost: " + stand.host() +
                           "\r\nOrigin: http://" + stand.host() +
                           "\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n";
  EXPECT_EQ(stand.ask(head + "4\r\n{\"a\"\r\n3\r\n:1}\r\n0\r\n\r\n").status, 200);
  EXPECT_EQ(stand.asked().at(0).body, "{\"a\":1}");
}

TEST(Server, head_is_answered_like_get_without_the_content) {
  const Stand stand;
  Wire wire(stand.served().port);
  wire.send(stand.request("HEAD", "", takes_gzip) + stand.request("GET", "", takes_gzip));
  const Heard head = wire.hear(true);
  EXPECT_EQ(head.status, 200);
  EXPECT_EQ(head.fields.at("Content-Length"), "11");
  EXPECT_EQ(wire.hear().body, "packed page");
}

TEST(Server, a_page_that_the_browser_has_already_is_not_sent_again) {
  const Stand stand;
  const Heard first = stand.ask(stand.request("GET", "", takes_gzip));
  const std::string mark = first.fields.at("ETag");
  Wire wire(stand.served().port);
  wire.send(stand.request("GET", "", takes_gzip + "If-None-Match: " + mark + "\r\n") +
            stand.request("GET", "", takes_gzip + "If-None-Match: \"older\"\r\n"));
  const Heard again = wire.hear();
  EXPECT_EQ(again.status, 304);
  EXPECT_EQ(again.fields.at("ETag"), mark);
  EXPECT_EQ(again.fields.count("Content-Length"), 0U);
  EXPECT_EQ(wire.hear().status, 200);
}

TEST(Server, a_client_without_gzip_is_told_so) {
  const Stand stand;
  for (const char* accepted : {"", "Accept-Encoding: \r\n", "Accept-Encoding: identity\r\n",
                               "Accept-Encoding: br, gzip;q=0\r\n", "Accept-Encoding: gzip; q=0.0, br\r\n"})
    EXPECT_EQ(stand.ask(stand.request("GET", "", accepted)).status, 406) << accepted;
  for (const char* accepted : {"Accept-Encoding: gzip\r\n", "Accept-Encoding: br;q=1.0, gzip;q=0.8\r\n",
                               "Accept-Encoding: gzip;q=0.01\r\n"})
    EXPECT_EQ(stand.ask(stand.request("GET", "", accepted)).status, 200) << accepted;
}

TEST(Server, the_address_without_its_last_slash_leads_to_the_page) {
  const Stand stand;
  const Heard heard =
      stand.ask("GET /" + stand.served().token + "?x=1 HTTP/1.1\r\nHost: " + stand.host() + "\r\n\r\n");
  EXPECT_EQ(heard.status, 308);
  EXPECT_EQ(heard.fields.at("Location"), "/" + stand.served().token + "/");
  EXPECT_EQ(stand.served().address(), "http://" + stand.host() + "/" + stand.served().token + "/");
}

TEST(Server, a_ticket_leads_to_the_page_once_and_to_nothing_afterwards) {
  const Stand stand;
  const std::string ticket = stand.served().ticket;
  EXPECT_NE(ticket, stand.served().token);
  EXPECT_EQ(stand.served().address_for_once(), "http://" + stand.host() + "/" + ticket);
  const std::string host = "Host: " + stand.host() + "\r\n", get = "GET /" + ticket + " HTTP/1.1\r\n";
  EXPECT_EQ(stand.ask(get + host + "Sec-Fetch-Site: cross-site\r\n\r\n").status, 403);
  EXPECT_EQ(stand.ask(get + "Host: rebound.example\r\n\r\n").status, 403);
  const Heard first = stand.ask(get + host + "Sec-Fetch-Site: none\r\n\r\n");
  EXPECT_EQ(first.status, 303);
  EXPECT_EQ(first.fields.at("Location"), "/" + stand.served().token + "/");
  for (int i = 0; i < 3; ++i) EXPECT_EQ(stand.ask(get + host + "\r\n").status, 404);
  EXPECT_EQ(stand.ask("GET / HTTP/1.1\r\n" + host + "\r\n").status, 404);
}

TEST(Server, without_the_token_there_is_nothing) {
  const Stand stand;
  const std::string token = stand.served().token;
  std::string upper = token, wrong = token;
  for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  wrong.back() = wrong.back() == '0' ? '1' : '0';
  const std::string half = token.substr(0, token.size() / 2);
  for (const std::string& path : std::vector<std::string>{"/",
                                                          "//",
                                                          "/index.html",
                                                          "/api/jobs",
                                                          "/" + wrong + "/",
                                                          "/" + wrong + "/api/jobs",
                                                          "/" + half + "/",
                                                          "/" + half,
                                                          "/" + token + "0/",
                                                          "/" + token + token + "/",
                                                          "/" + std::string(token.size(), '0') + "/",
                                                          "/" + upper + "x/",
                                                          "//" + token + "/",
                                                          "/./" + token + "/",
                                                          "/x/../" + token + "/api/jobs",
                                                          "/%2e/" + token + "/",
                                                          "/" + token + "%2F",
                                                          "/" + token + "%00/",
                                                          "/" + token + ";/",
                                                          "/?" + token,
                                                          "/?/" + token + "/",
                                                          "/%" + token + "/",
                                                          "/" + token.substr(0, 47) + "%" + "30/",
                                                          "/favicon.ico",
                                                          "/robots.txt",
                                                          "/.well-known/x",
                                                          "/" + std::string(10'000, 'a')}) {
    for (const std::string method : {"GET", "HEAD", "POST"}) {
      std::string fields = "Host: " + stand.host() + "\r\n" + takes_gzip;
      if (method == "POST") {
        fields +=
            "Origin: http://" + stand.host() + "\r\nContent-Type: application/json\r\nContent-Length: 2\r\n";
      }
      Wire wire(stand.served().port);
      wire.send(method + " " + path + " HTTP/1.1\r\n" + fields + "\r\n" + (method == "POST" ? "{}" : ""));
      const Heard heard = wire.hear(method == "HEAD");
      EXPECT_EQ(heard.status, 404) << method << " " << path;
      EXPECT_EQ(heard.fields.at("Content-Length"), "0") << path;
    }
  }
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(Server, no_trick_with_a_path_leads_anywhere) {
  const Stand stand;
  for (const std::string path : {"../",
                                 "../..",
                                 "../../etc/passwd",
                                 "..%2f..%2fetc%2fpasswd",
                                 "%2e%2e/",
                                 "%2e%2e%2f",
                                 "./",
                                 "./index.html",
                                 "/",
                                 "//",
                                 "/index.html",
                                 "//api/jobs",
                                 "index.html/",
                                 "index.html/..",
                                 "index.html%00",
                                 "INDEX.HTML",
                                 "index%2ehtml",
                                 "app.js/../",
                                 "assets",
                                 "assets/../index.html",
                                 "api",
                                 "Api/jobs",
                                 "%61pi/jobs",
                                 "\\",
                                 "..\\",
                                 "api\\jobs",
                                 "a;b",
                                 "~",
                                 "*"}) {
    const Heard heard = stand.ask(stand.request("GET", path, takes_gzip));
    EXPECT_EQ(heard.status, 404) << path;
    EXPECT_EQ(heard.body, "") << path;
  }
  for (const std::string path : {"api/",
                                 "api//jobs",
                                 "api/jobs/",
                                 "api/./jobs",
                                 "api/../jobs",
                                 "api/job/../../x",
                                 "api/job/%2e%2e/x",
                                 "api/job/%2E%2E",
                                 "api/job/..%2fx.toml",
                                 "api/job/..%2Fx.toml",
                                 "api/job/a%5cb.toml",
                                 "api/job/%00",
                                 "api/job/a.toml%00",
                                 "api/job/%0d%0aX: 1",
                                 "api/job/%c0%ae%c0%ae",
                                 "api/job/%ff",
                                 "api/job/%",
                                 "api/job/%2",
                                 "api/job/%xx",
                                 "api/jobs?a=1&a=2",
                                 "api/jobs?a=%00",
                                 "api/jobs?a=%zz"}) {
    const Heard heard = stand.ask(stand.request("GET", path));
    EXPECT_EQ(heard.status, 400) << path;
  }
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(Server, the_door_stands_before_everything_over_the_wire_too) {
  const Stand stand;
  const std::string start = "GET /" + stand.served().token + "/api/jobs HTTP/1.1\r\n";
  const std::string host = "Host: " + stand.host() + "\r\n";
  EXPECT_EQ(
      stand.ask(start + "Host: rebound.example:" + std::to_string(stand.served().port) + "\r\n\r\n").status,
      403);
  EXPECT_EQ(stand.ask(start + "\r\n").status, 403);
  EXPECT_EQ(stand.ask(start + host + "Origin: http://rebound.example\r\n\r\n").status, 403);
  EXPECT_EQ(stand.ask(start + host + "Sec-Fetch-Site: cross-site\r\n\r\n").status, 403);
  EXPECT_EQ(stand.ask(start + host + "sec-fetch-site: same-site\r\n\r\n").status, 403);
  // Who does not know the token does not even hear that it was the wrong door.
  const Heard wrong = stand.ask("GET /nothing/ HTTP/1.1\r\nHost: rebound.example\r\n\r\n");
  EXPECT_EQ(wrong.status, 404);
  EXPECT_EQ(wrong.body, "");
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(Server, a_form_of_another_page_changes_nothing) {
  const Stand stand;
  const std::string body = "{\"revision\":1}";
  const std::string head = "POST /" + stand.served().token +
                           "/api/job/a.toml/edit HTTP/1.1\r\nHost: " + stand.host() +
                           "\r\nContent-Length: " + std::to_string(body.size()) + "\r\n";
  EXPECT_EQ(stand
                .ask(head +
                     "Origin: http://rebound.example\r\nSec-Fetch-Site: cross-site\r\nContent-Type: "
                     "text/plain\r\n\r\n" +
                     body)
                .status,
            403);
  EXPECT_EQ(stand.ask(head + "Content-Type: application/json\r\n\r\n" + body).status, 403);
  EXPECT_EQ(stand.ask(head + "Origin: http://" + stand.host() + "\r\nContent-Type: text/plain\r\n\r\n" + body)
                .status,
            415);
  EXPECT_EQ(stand.ask(head + "Origin: http://" + stand.host() + "\r\n\r\n" + body).status, 415);
  EXPECT_EQ(stand.ask(stand.request("POST", "", "", body)).status, 405);
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(Server, other_methods_are_refused_and_without_the_token_there_is_nothing) {
  const Stand stand;
  for (const std::string method : {"PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "PROPFIND", "get"}) {
    const Heard heard = stand.ask(stand.request(method, "api/jobs", "X-Secret: echo\r\n"));
    EXPECT_EQ(heard.status, 405) << method;
    EXPECT_EQ(heard.fields.at("Allow"), "GET, HEAD, POST");
    EXPECT_EQ(heard.body.find("echo"), std::string::npos) << "a trace tells nothing back";
    EXPECT_EQ(stand.ask(method + " /x HTTP/1.1\r\nHost: " + stand.host() + "\r\n\r\n").status, 404) << method;
  }
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(Server, what_is_no_request_is_refused_and_ends_the_connection) {
  const Stand stand;
  const std::string path = "/" + stand.served().token + "/api/jobs", host = "Host: " + stand.host() + "\r\n";
  const std::string get = "GET " + path + " HTTP/1.1\r\n" + host;
  const std::string post = "POST " + path + " HTTP/1.1\r\n" + host + "Origin: http://" + stand.host() +
                           "\r\nContent-Type: application/json\r\n";
  using namespace std::string_literals;
  for (const std::string& bytes :
       std::vector<std::string>{"\r\n\r\n\r\n"s,
                                "GET\r\n\r\n"s,
                                "GET " + path + "\r\n\r\n",
                                "GET " + path + " HTTP/2.0\r\n" + host + "\r\n",
                                "GET " + path + " HTTP/1.1 \r\n" + host + "\r\n",
                                "GET " + path + " HTTP/9.9\r\n" + host + "\r\n",
                                "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"s,
                                "\x16\x03\x01\x02\x00\x01\x00\x01\xFC\x03\x03"s + std::string(64, '\0'),
                                "GET " + path + "\0 HTTP/1.1\r\n"s + host + "\r\n",
                                get + "X\0Y: 1\r\n\r\n"s,
                                get + "X: a\0b\r\n\r\n"s,
                                get + "Bad Name: 1\r\n\r\n",
                                get + ": none\r\n\r\n",
                                get + "NoColon\r\n\r\n",
                                get + "X : 1\r\n\r\n",
                                get + host + "\r\n",
                                get + "Host: rebound.example\r\n\r\n",
                                get + "Origin: http://" + stand.host() + "\r\nOrigin: null\r\n\r\n",
                                get + "Sec-Fetch-Site: none\r\nSec-Fetch-Site: cross-site\r\n\r\n",
                                get + "Content-Length: 2\r\n\r\n{}",
                                get + "Transfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
                                post + "Content-Length: -1\r\n\r\n{}",
                                post + "Content-Length: 2x\r\n\r\n{}",
                                post + "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{} ",
                                post + "Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
                                post + "Content-Length: 99999999999999999999999\r\n\r\n{}",
                                post + "Transfer-Encoding: chunked\r\n\r\nzz\r\n",
                                post + "Transfer-Encoding: chunked\r\n\r\n-2\r\n{}\r\n",
                                post + "Transfer-Encoding: chunked\r\n\r\n2\r\n{}xx\r\n",
                                post + "Transfer-Encoding: chunked\r\n\r\nffffffffffffffffff\r\n{}\r\n"}) {
    Wire wire(stand.served().port);
    wire.send(bytes);
    const Heard heard = wire.hear();
    EXPECT_TRUE(heard.status == 400 || heard.status == 413)
        << heard.status << " for " << testing::PrintToString(bytes);
    EXPECT_TRUE(wire.closed()) << testing::PrintToString(bytes);
  }
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(Server, a_request_that_hides_in_a_body_is_not_heard) {
  const Stand stand;
  Wire wire(stand.served().port);
  const std::string hidden = stand.request("GET", "api/hidden");
  // Refused for its type before its body is read: the body must not be taken for the next request.
  wire.send("POST /" + stand.served().token + "/api/x HTTP/1.1\r\nHost: " + stand.host() +
            "\r\nOrigin: http://" + stand.host() + "\r\nContent-Type: text/plain\r\nContent-Length: " +
            std::to_string(hidden.size()) + "\r\n\r\n" + hidden);
  EXPECT_EQ(wire.hear().status, 415);
  EXPECT_TRUE(wire.closed());
  EXPECT_THAT(stand.asked(), IsEmpty());
}

TEST(Server, bodies_that_are_no_text_do_not_reach_the_desk) {
  const Stand stand;
  using namespace std::string_literals;
  for (const std::string& body : {"{\"a\":\"\xFF\"}"s, "{\"a\":\"\0\"}"s, "\xC3"s})
    EXPECT_EQ(stand.ask(stand.request("POST", "api/x", "", body)).status, 400);
  EXPECT_THAT(stand.asked(), IsEmpty());
  EXPECT_EQ(stand.ask(stand.request("POST", "api/x", "", "{\"a\":\"ä\"}")).status, 200);
}

TEST(Server, a_desk_that_fails_gives_a_plain_sentence_and_goes_on) {
  Stand stand;
  stand.answers = [](const desk::Request& request) -> desk::Reply {
    if (request.way[0] == "odd") throw 42;
    if (request.way[0] == "bad") throw std::runtime_error("/home/somebody/secret.toml: out of oil");
    return {.status = 409, .body = "{\"sentence\":\"no\"}"};
  };
  Wire wire(stand.served().port);
  for (const char* way : {"api/bad", "api/odd"}) {
    wire.send(stand.request("POST", way, "", "{}"));
    const Heard heard = wire.hear();
    EXPECT_EQ(heard.status, 500);
    EXPECT_THAT(heard.body, StartsWith("{\"sentence\":\""));
    EXPECT_EQ(heard.body.find("secret"), std::string::npos);
    EXPECT_EQ(heard.body.find("oil"), std::string::npos);
  }
  wire.send(stand.request("GET", "api/jobs"));
  EXPECT_EQ(wire.hear().status, 409);
}

TEST(Server, a_large_answer_comes_whole) {
  Stand stand;
  std::string large;
  large.resize(20'000'000, 'x');
  stand.answers = [&](const desk::Request&) { return desk::Reply{.type = "image/svg+xml", .body = large}; };
  const Heard heard = stand.ask(stand.request("GET", "api/job/a.toml/drawing"));
  EXPECT_EQ(heard.fields.at("Content-Type"), "image/svg+xml");
  EXPECT_TRUE(heard.body == large);
}

}  // namespace
}  // namespace poise
