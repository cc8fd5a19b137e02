// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Where the server can be reached from.
#include <arpa/inet.h>
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <ifaddrs.h>
#include <net/if.h>

#include <fstream>

#include "serve/server.hpp"
#include "serve/wire.hpp"

namespace poise {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

/// Addresses under which this machine's sockets listen at a port, as the kernel writes them: hexadecimal,
/// bytes reversed.
std::vector<std::string> listening_at(unsigned short port) {
  std::vector<std::string> addresses;
  const std::string wanted = fmt::format(":{:04X}", port);
  for (const char* table : {"/proc/net/tcp", "/proc/net/tcp6"}) {
    std::ifstream rows(table);
    std::string row, number, local, remote, state;
    std::getline(rows, row);
    while (rows >> number >> local >> remote >> state && std::getline(rows, row)) {
      constexpr const char* listens = "0A";
      if (state == listens && local.ends_with(wanted)) addresses.push_back(local.substr(0, local.find(':')));
    }
  }
  return addresses;
}

/// Addresses of this machine that others can send to.
std::vector<std::string> outward_addresses() {
  std::vector<std::string> addresses;
  ifaddrs* all = nullptr;
  if (::getifaddrs(&all) != 0) return addresses;
  for (const ifaddrs* one = all; one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET ||
        (one->ifa_flags & IFF_LOOPBACK) != 0)
      continue;
    std::array<char, INET_ADDRSTRLEN> text{};
    ::inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in*>(one->ifa_addr)->sin_addr, text.data(),
                text.size());
    addresses.emplace_back(text.data());
  }
  ::freeifaddrs(all);
  return addresses;
}

TEST(ServerAddress, only_the_loopback_address_listens) {
  const Stand stand;
  EXPECT_THAT(listening_at(stand.served().port), ElementsAre("0100007F")) << "127.0.0.1";
}

TEST(ServerAddress, the_machines_other_addresses_do_not_answer) {
  const Stand stand;
  EXPECT_TRUE(Wire(stand.served().port).connected());
  std::vector<std::string> others = outward_addresses();
  others.emplace_back("127.0.0.2");  // loopback too, but not ours
  for (const std::string& address : others)
    EXPECT_FALSE(Wire(stand.served().port, address).connected()) << address;
}

TEST(ServerAddress, a_port_can_be_chosen_and_a_taken_one_is_said_to_be_taken) {
  const Stand stand;
  serve::Server second([](const desk::Request&) { return desk::Reply{}; }, page());
  const auto refused = second.start(stand.served().port);
  ASSERT_TRUE(std::holds_alternative<std::string>(refused));
  EXPECT_THAT(std::get<std::string>(refused), HasSubstr("is taken by another program"));
  const auto free = std::get<serve::Served>(second.start());
  second.stop();
  const auto again = second.start(free.port);
  ASSERT_TRUE(std::holds_alternative<serve::Served>(again));
  EXPECT_EQ(std::get<serve::Served>(again).port, free.port);
}

TEST(ServerAddress, each_start_has_a_token_of_its_own) {
  serve::Server server([](const desk::Request&) { return desk::Reply{}; }, page());
  const auto first = std::get<serve::Served>(server.start()),
             second = std::get<serve::Served>(server.start());
  EXPECT_NE(first.token, second.token);
  Wire wire(second.port);
  wire.send("GET /" + first.token + "/api/jobs HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(second.port) +
            "\r\n\r\n");
  EXPECT_EQ(wire.hear().status, 404);
}

TEST(ServerAddress, a_program_started_from_here_inherits_no_connection) {
  const Stand stand;
  Wire wire(stand.served().port);
  wire.send(stand.request("GET", "api/jobs"));
  ASSERT_EQ(wire.hear().status, 200);
  // What ls finds open is what a program gets: its three streams and the folder it is reading.
  FILE* pipe = ::popen("ls -l /proc/self/fd", "r");
  ASSERT_NE(pipe, nullptr);
  std::string listing;
  std::array<char, 4096> piece;
  while (const std::size_t got = std::fread(piece.data(), 1, piece.size(), pipe))
    listing.append(piece.data(), got);
  ::pclose(pipe);
  EXPECT_THAT(listing, HasSubstr("-> "));
  EXPECT_EQ(listing.find("socket:"), std::string::npos) << listing;
}

}  // namespace
}  // namespace poise
