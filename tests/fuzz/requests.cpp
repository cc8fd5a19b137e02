// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Any bytes sent to a workbench that is open on a folder with one job, over a real connection. In them KEY
// stands for the token and PORT for the port. Proofs and studies are left out: what a run makes of any job is
// tried elsewhere.
#include <arpa/inet.h>
#include <stdlib.h>
#include <sys/socket.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <vector>

#include "desk/desk.hpp"
#include "desk/folder_entry.hpp"
#include "fuzz/hold.hpp"
#include "serve/server.hpp"

#ifdef __has_feature
#if __has_feature(address_sanitizer)
#include <sanitizer/lsan_interface.h>
#define POISE_SEES_LEAKS
#endif
#endif

namespace poise {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view secret = "title = \"not to be seen\"\n";
constexpr int inputs_each =
    500;  // then another workbench is opened: one keeps undo for as long as it is open

constexpr std::array<serve::PageFile, 1> page{
    {{"index.html", "text/html; charset=utf-8", "page", "\"mark\""}}};

/// The folder of jobs, and beside it a file that nothing may be taken from.
struct Yard {
  fs::path root, jobs, outside;

  Yard() {
    std::string form = (fs::temp_directory_path() / "poise-fuzz-XXXXXX").string();
    root = ::mkdtemp(form.data());
    jobs = root / "jobs";
    outside = root / "secret.toml";
    fs::create_directories(jobs);
    fs::copy_file(POISE_SOURCE_DIR "/jobs/axle-box-lift.toml", jobs / "lift.toml");
    std::ofstream(outside) << secret;
  }
  ~Yard() { fs::remove_all(root); }
  Yard(const Yard&) = delete;
  Yard& operator=(const Yard&) = delete;
};

/// Sends all of it and hears whatever comes back until the other side has no more to say.
std::string heard(unsigned short port, std::string_view bytes) {
  const desk::Descriptor wire(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0));
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(port);
  ::inet_pton(AF_INET, "127.0.0.1", &to.sin_addr);
  if (::connect(wire.get(), reinterpret_cast<const sockaddr*>(&to), sizeof to) != 0) return {};
  while (!bytes.empty()) {
    const ssize_t sent = ::send(wire.get(), bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) break;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  ::shutdown(wire.get(), SHUT_WR);
  std::string all;
  std::array<char, 65'536> piece;
  for (ssize_t got = 0; (got = ::recv(wire.get(), piece.data(), piece.size(), 0)) > 0;)
    all.append(piece.data(), static_cast<std::size_t>(got));
  return all;
}

bool something_leaked() {
#ifdef POISE_SEES_LEAKS
  return __lsan_do_recoverable_leak_check() != 0;
#else
  return false;
#endif
}

bool runs_something(const desk::Request& request) {
  return request.way.size() >= 3 &&
         (request.way[2] == "prove" || (request.way[2] == "study" && request.changes));
}

class OpenWorkbench {
 public:
  OpenWorkbench()
      : desk_(yard_.jobs, "0.1.0", "lift.toml", no_studies()),
        server_([this](const desk::Request& request) { return answer(request); }, page),
        served_(std::get<serve::Served>(server_.start())) {}

  void ask(std::string bytes) {
    replace(bytes, "KEY", served_.token);
    replace(bytes, "PORT", std::to_string(served_.port));
    const std::string answers = heard(served_.port, bytes);
    hold(!answers.starts_with("HTTP/1.1 500"), "no request is a fault in Poise itself");
    hold(answers.find("not to be seen") == std::string::npos, "nothing outside the folder is served");
    hold(fs::file_size(yard_.outside) == secret.size(), "nothing outside the folder is written");
  }

 private:
  static desk::Studies no_studies() {
    return {.run = [](const auto&...) { return std::string(); },
            .read = [](const auto&...) { return std::optional<desk::Recorded>(); }};
  }
  static void replace(std::string& text, std::string_view name, const std::string& value) {
    for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name, at + value.size()))
      text.replace(at, name.size(), value);
  }
  desk::Reply answer(const desk::Request& request) {
    return runs_something(request) ? desk::Reply{.body = "{}"} : desk_.answer(request);
  }

  Yard yard_;
  desk::Desk desk_;
  serve::Server server_;
  serve::Served served_;
};

}  // namespace
}  // namespace poise

// While the server works in its thread, what that has in hand passes for lost: leaks are looked for once it
// has closed.
extern "C" int LLVMFuzzerInitialize(int* count, char*** words) {
  static char no_leaks[] = "-detect_leaks=0";
  static std::vector<char*> all(*words, *words + *count);
  all.push_back(no_leaks);
  *count = static_cast<int>(all.size());
  all.push_back(nullptr);
  *words = all.data();
  return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static std::unique_ptr<poise::OpenWorkbench> workbench;
  static int inputs = 0;
  if (inputs++ % poise::inputs_each == 0) {
    workbench.reset();
    poise::hold(!poise::something_leaked(), "nothing is left of a workbench that has closed");
    workbench = std::make_unique<poise::OpenWorkbench>();
  }
  workbench->ask(poise::text_of(data, size));
  return 0;
}
