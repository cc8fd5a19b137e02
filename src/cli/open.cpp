// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>
#include <signal.h>
#include <sys/resource.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>
#include <system_error>
#include <variant>

#include "cli/browser.hpp"
#include "cli/command.hpp"
#include "desk/desk.hpp"
#include "desk/recorded.hpp"
#include "serve/server.hpp"

namespace poise::cli {
namespace {

namespace fs = std::filesystem;

struct OpenWish {
  std::string job;
  unsigned short port = 0;
  bool no_browser = false;
};

/// The folder whose jobs lie open, and the job that is shown first, if one was named.
struct Opened {
  fs::path folder;
  std::string job;
};

std::optional<Opened> refused(const std::string& sentence) {
  fmt::print(stderr, "{}\n", sentence);
  return std::nullopt;
}

/// Where a name leads to a file through a link, it is the file's own folder that is opened.
std::optional<Opened> opened(const std::string& named) {
  const std::string quoted = "\"" + named + "\"";  // whole: its end is what tells one file from another
  std::error_code error;
  const fs::path path = fs::canonical(named.empty() ? "." : named, error);
  if (error == std::errc::no_such_file_or_directory || error == std::errc::not_a_directory) {
    return refused(
        fmt::format("There is no file {}. To begin a new job, run \"poise open\" without a name and choose "
                    "what to start from.",
                    quoted));
  }
  if (error)
    return refused(fmt::format("{} cannot be opened: {}; name the file itself", quoted, error.message()));
  if (fs::is_directory(path, error)) return Opened{path, {}};
  Opened result{path.parent_path(), path.filename().string()};
  if (!desk::Folder::is_name(result.job)) {
    return refused(
        fmt::format("{} is not the name of a job: it must end in .toml and not begin with a dot", quoted));
  }
  if (!desk::Folder(result.folder).read(result.job)) {
    return refused(
        fmt::format("{} cannot be opened as a job: it is not a file that you may read, or is larger than "
                    "4 MB; name another one, or allow reading it (chmod u+r)",
                    quoted));
  }
  return result;
}

/// The signals that end the program, held back from now on and for every thread that begins later. Those that
/// whoever started it wants ignored stay so.
sigset_t hold_back_endings() {
  sigset_t endings;
  sigemptyset(&endings);
  for (const int ending : {SIGINT, SIGTERM, SIGHUP}) {
    struct sigaction now {};
    sigaction(ending, nullptr, &now);
    if (now.sa_handler != SIG_IGN) sigaddset(&endings, ending);
  }
  pthread_sigmask(SIG_BLOCK, &endings, nullptr);
  return endings;
}

/// How many connections may be open at once, after asking the system for more descriptors where it has them:
/// the desk and the studies need some too, and without one a job would seem not to be there.
std::size_t connections_allowed(std::size_t wished) {
  constexpr rlim_t enough = 4096;
  rlimit files{};
  if (::getrlimit(RLIMIT_NOFILE, &files) != 0) return wished;
  const rlim_t more = std::min(files.rlim_max, enough);
  if (files.rlim_cur < more) {
    files.rlim_cur = more;
    ::setrlimit(RLIMIT_NOFILE, &files);
    ::getrlimit(RLIMIT_NOFILE, &files);
  }
  return std::clamp<std::size_t>(files.rlim_cur / 2, 1, wished);
}

int open_workbench(const OpenWish& wish, const std::string& version) {
  const auto found = opened(wish.job);
  if (!found) return cannot;
  const sigset_t endings = hold_back_endings();
  desk::Desk desk(found->folder, version, found->job, desk::recorded_studies(version));
  serve::Limits limits;
  limits.connections = connections_allowed(limits.connections);
  serve::Server server([&](const desk::Request& request) { return desk.answer(request); },
                       serve::page_files(), limits);
  const auto served = server.start(wish.port);
  if (const auto* sentence = std::get_if<std::string>(&served)) {
    fmt::print(stderr, "{}\n", *sentence);
    return cannot;
  }
  const auto& where = std::get<serve::Served>(served);
  const std::string line =
      fmt::format("{} is open at {} until Ctrl-C\n", found->folder.string(), where.address());
  const bool printed = std::fputs(line.c_str(), stdout) >= 0 && std::fflush(stdout) == 0;
  const bool shown = !wish.no_browser && show_in_browser(where.address_for_once());
  // Nobody would find it.
  if (!printed && !shown) return cannot;
  int ending = 0;
  sigwait(&endings, &ending);
  // A second Ctrl-C ends it at once, whatever the desk is still at: a job's file is whole at any moment.
  pthread_sigmask(SIG_UNBLOCK, &endings, nullptr);
  desk.stop();
  server.stop();
  return all_held;
}

}  // namespace

void add_open(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<OpenWish>();
  CLI::App* command =
      program.add_subcommand("open", "The workbench: jobs as a page in the browser, on this machine only");
  command
      ->add_option("job", wish->job,
                   "the job file to show first, or a folder of jobs; else the current folder")
      ->type_name(a_job);
  command->add_option("--port", wish->port, "where it listens; else a free port is found")
      ->check(CLI::Range(1, 65535));
  command->add_flag("--no-browser", wish->no_browser, "only print the address");
  command->footer(
      "Only jobs right in the opened folder can be read or written. Whoever knows the printed address can "
      "use it while\n"
      "it is open, and nobody can from another machine.");
  command->callback([wish, &program, &exit_code] { exit_code = open_workbench(*wish, program.version()); });
}

}  // namespace poise::cli
