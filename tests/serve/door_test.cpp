// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "serve/door.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "serve/target.hpp"
#include "serve/token.hpp"

namespace poise::serve {
namespace {

using testing::ElementsAre;
using testing::Pair;

constexpr unsigned short port = 4711;

Head get() { return {.method = "GET", .target = "/", .host = "127.0.0.1:4711"}; }
Head post() {
  return {.method = "POST",
          .target = "/",
          .host = "127.0.0.1:4711",
          .origin = "http://127.0.0.1:4711",
          .content_type = "application/json"};
}
unsigned status(const Head& head) {
  const auto answer = turned_away(head, port);
  return answer ? answer->status : 200;
}

TEST(Door, the_page_and_its_questions_come_in) {
  EXPECT_EQ(status(get()), 200U);
  EXPECT_EQ(status(post()), 200U);
  Head head = get();
  head.host = "localhost:4711";
  EXPECT_EQ(status(head), 200U);
  for (const char* site : {"none", "same-origin"}) {
    head.fetch_site = site;
    EXPECT_EQ(status(head), 200U);
  }
  head = post();
  head.origin.reset();
  head.fetch_site = "same-origin";
  head.content_type = "Application/JSON; charset=utf-8";
  EXPECT_EQ(status(head), 200U);
}

TEST(Door, a_name_that_somebody_points_at_this_machine_does_not_open_it) {
  for (const char* host : {"",
                           "127.0.0.1",
                           "localhost",
                           "127.0.0.1:",
                           "127.0.0.1:80",
                           "127.0.0.1:47110",
                           "127.0.0.1:04711",
                           "rebound.example:4711",
                           "localhost.rebound.example:4711",
                           "127.0.0.1:4711.rebound.example",
                           "rebound.example@127.0.0.1:4711",
                           "127.0.0.1:4711@rebound.example",
                           "[::1]:4711",
                           "0.0.0.0:4711",
                           "127.1:4711",
                           "2130706433:4711",
                           "localhost.:4711",
                           "127.0.0.1:4711 ",
                           " 127.0.0.1:4711",
                           "127.0.0.1:4711,rebound.example"}) {
    for (Head head : {get(), post()}) {
      head.host = host;
      EXPECT_EQ(status(head), 403U) << host;
    }
  }
  Head head = get();
  head.host.reset();
  EXPECT_EQ(status(head), 403U);
}

TEST(Door, another_origin_is_refused_reading_and_writing) {
  for (const char* origin :
       {"", "null", "http://rebound.example", "http://rebound.example:4711", "https://127.0.0.1:4711",
        "http://127.0.0.1", "http://127.0.0.1:4712", "http://127.0.0.1:47110", "http://[::1]:4711",
        "http://localhost:4711", "file://", "127.0.0.1:4711", "HTTP://127.0.0.1:4711",
        "http://127.0.0.1:4711/", "http://127.0.0.1:4711 http://rebound.example"}) {
    for (Head head : {get(), post()}) {
      head.origin = origin;
      head.fetch_site = "same-origin";
      EXPECT_EQ(status(head), 403U) << origin;
    }
  }
}

TEST(Door, what_the_browser_says_comes_from_another_page_is_refused) {
  for (const char* site : {"cross-site", "same-site", "", "None", "anything"}) {
    for (Head head : {get(), post()}) {
      head.fetch_site = site;
      EXPECT_EQ(status(head), 403U) << site;
    }
  }
}

TEST(Door, a_change_needs_to_be_known_to_come_from_the_page) {
  Head head = post();
  head.origin.reset();
  EXPECT_EQ(status(head), 403U);
  head.fetch_site = "none";  // typed into the address line: no browser sends a change that way
  EXPECT_EQ(status(head), 403U);
}

TEST(Door, a_form_cannot_send_a_change) {
  for (const char* type : {"", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x",
                           "text/plain", "text/plain; application/json", "application/json-patch+json",
                           "application/jsonx", "json", "application/json,text/plain"}) {
    Head head = post();
    head.content_type = type;
    EXPECT_EQ(status(head), 415U) << type;
  }
  Head head = post();
  head.content_type.reset();
  EXPECT_EQ(status(head), 415U);
}

TEST(Door, methods_other_than_get_head_and_post_are_refused_and_none_is_granted_to_other_pages) {
  for (const char* method :
       {"PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "CONNECT", "PROPFIND", "get", "post"}) {
    Head head = post();
    head.method = method;
    const auto answer = turned_away(head, port);
    ASSERT_TRUE(answer) << method;
    EXPECT_EQ(answer->status, 405U) << method;
    EXPECT_THAT(answer->fields, ElementsAre(Pair("Allow", "GET, HEAD, POST")));
  }
}

TEST(Token, is_192_bits_that_do_not_come_again) {
  std::set<std::string> tokens;
  for (int i = 0; i < 1000; ++i) {
    const std::string token = new_token();
    EXPECT_THAT(token, testing::MatchesRegex("[0-9a-f]+"));
    EXPECT_EQ(token.size(), 48U);
    tokens.insert(token);
  }
  EXPECT_EQ(tokens.size(), 1000U);
}

TEST(Token, every_single_character_of_it_counts) {
  const std::string token = new_token();
  EXPECT_TRUE(same(token, token));
  for (std::size_t i = 0; i < token.size(); ++i) {
    std::string other = token;
    other[i] = static_cast<char>(other[i] ^ 1);
    EXPECT_FALSE(same(other, token)) << i;
    EXPECT_FALSE(same(token.substr(0, i), token)) << i;
  }
  EXPECT_FALSE(same(token + "0", token));
}

TEST(Target, is_cut_at_the_first_slashes_and_the_first_question_mark) {
  const auto target = cut("/token/api/jobs?units=us?x");
  ASSERT_TRUE(target);
  EXPECT_EQ(target->first, "token");
  EXPECT_EQ(target->rest, "api/jobs");
  EXPECT_EQ(target->query, "units=us?x");
  EXPECT_FALSE(cut("/token?x=/y")->slash);
  EXPECT_EQ(cut("//token/")->first, "");
  using namespace std::string_literals;
  for (const std::string& bad :
       {""s, "*"s, "token/"s, "http://127.0.0.1:4711/token/"s, "/to ken/"s, "/token/#x"s, "/token/\0"s,
        "/token/\r\n"s, "/token/\xC3\xA4"s, "/token/\x7F"s})
    EXPECT_FALSE(cut(bad)) << bad;
}

TEST(Target, a_way_is_decoded_once_and_holds_only_names) {
  EXPECT_THAT(*decoded_way("job/frame%20lift.toml/edit"), ElementsAre("job", "frame lift.toml", "edit"));
  EXPECT_THAT(*decoded_way("job/%C3%A4+%252e.toml"), ElementsAre("job", "ä+%2e.toml"));
  for (const char* bad :
       {"",          "/",        "job/",         "/job",       "job//edit",        ".",
        "..",        "job/../x", "job/%2e%2e/x", "job/%2E./x", "job/.%2e",         "job/..%2fx.toml",
        "job/a%2fb", "job/%2f",  "job/a%5cb",    "job/a\\b",   "job/%00",          "job/a%00.toml",
        "job/%0a",   "job/%7f",  "job/%",        "job/%2",     "job/%zz",          "job/%-1",
        "job/%+1",   "job/% 1",  "job/%c3",      "job/%ff",    "job/%c0%ae%c0%ae", "job/%ed%a0%80x%c0%af"})
    EXPECT_FALSE(decoded_way(bad)) << bad;
}

TEST(Target, a_query_names_each_thing_once) {
  EXPECT_THAT(*decoded_query("line=P1.P%20V1.P+V3.P&x=41.2&&empty="),
              ElementsAre(Pair("empty", ""), Pair("line", "P1.P V1.P V3.P"), Pair("x", "41.2")));
  EXPECT_TRUE(decoded_query("")->empty());
  EXPECT_THAT(*decoded_query("a=b=c%26d&bare"), ElementsAre(Pair("a", "b=c&d"), Pair("bare", "")));
  for (const char* bad : {"a=1&a=2", "a=%", "a=%00", "%ff=1", "a=%0d%0a"})
    EXPECT_FALSE(decoded_query(bad)) << bad;
}

}  // namespace
}  // namespace poise::serve
