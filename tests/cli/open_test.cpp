// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::HasSubstr;
using testing::MatchesRegex;
using testing::StartsWith;

constexpr int cannot = 2;

/// `poise open` while it runs.
class Opened {
 public:
  /// `environment` is put before the shell's command, as in "DISPLAY=:7".
  Opened(const std::string& arguments, const std::filesystem::path& folder,
         const std::string& environment = "DISPLAY= WAYLAND_DISPLAY=") {
    std::array<int, 2> pipe{};
    if (::pipe(pipe.data()) != 0) return;
    child_ = ::fork();
    if (child_ == 0) {
      for (const int signal : {SIGINT, SIGTERM, SIGHUP}) ::signal(signal, SIG_DFL);
      ::dup2(pipe[1], STDOUT_FILENO);
      const std::string command = "cd '" + folder.string() + "' && exec env " + environment +
                                  " '" POISE_PROGRAM "' open " + arguments;
      ::execl("/bin/sh", "sh", "-c", command.c_str(), nullptr);
      ::_exit(127);
    }
    ::close(pipe[1]);
    output_ = ::fdopen(pipe[0], "r");
  }
  ~Opened() {
    if (child_ > 0) end(SIGKILL);
    std::fclose(output_);
  }
  Opened(const Opened&) = delete;

  std::string line() {
    std::array<char, 4096> text{};
    return std::fgets(text.data(), text.size(), output_) ? std::string(text.data()) : std::string();
  }
  /// Sends a signal and returns the exit code, or 128 and the signal that ended it.
  int end(int signal) {
    ::kill(child_, signal);
    int status = 0;
    ::waitpid(child_, &status, 0);
    child_ = 0;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  }

 private:
  pid_t child_ = 0;
  FILE* output_ = nullptr;
};

std::string address_in(const std::string& line) {
  const std::size_t begin = line.find("http://");
  return begin == std::string::npos ? std::string() : line.substr(begin, line.find(' ', begin) - begin);
}

/// An opener for the desktop that writes down what it was asked to show.
class FakeDesktop {
 public:
  FakeDesktop() : opener_("xdg-open", "#!/bin/sh\nprintf '%s|' \"$#\" \"$1\" > \"$0.noted\"\n") {
    ::chmod(opener_.path().c_str(), 0755);
    // What a program that has ended started falls to this process, which can then wait for it.
    ::prctl(PR_SET_CHILD_SUBREAPER, 1);
  }
  std::string environment(const std::string& display) const {
    const std::string folder = std::filesystem::path(opener_.path()).parent_path().string();
    return display + " PATH='" + folder + ":" + ::getenv("PATH") + "'";
  }
  /// What it was asked, by programs that have ended by now.
  std::string noted() const {
    while (::waitpid(-1, nullptr, 0) > 0) continue;
    return contents(opener_.path() + ".noted");
  }

 private:
  ScratchFile opener_;
};

TEST(Open, prints_one_line_with_the_address_and_ends_cleanly_when_told_to) {
  const ScratchFile job("lift.toml", "title = \"Lift\"\n");
  const auto folder = std::filesystem::path(job.path()).parent_path();
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    Opened opened("lift.toml", folder);
    EXPECT_THAT(opened.line(),
                MatchesRegex(".* is open at http://127\\.0\\.0\\.1:[0-9]+/[0-9a-f]+/ until Ctrl-C\n"));
    EXPECT_EQ(opened.end(signal), 0);
    EXPECT_EQ(opened.line(), "");
  }
  EXPECT_EQ(contents(job.path()), "title = \"Lift\"\n");
}

TEST(Open, a_job_that_is_not_there_is_refused_with_the_way_to_a_new_one) {
  const ScratchFile job("lift.toml", "");
  const auto folder = std::filesystem::path(job.path()).parent_path();
  const Ran ran = run_program("open press.toml --no-browser", folder);
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(
      ran.text,
      HasSubstr("There is no file \"press.toml\". To begin a new job, run \"poise open\" without a name"));
}

TEST(Open, what_is_no_job_is_refused) {
  const ScratchFile text("notes.txt", ""), hidden(".hidden.toml", "");
  for (const ScratchFile* file : {&text, &hidden}) {
    const Ran ran = run_program("open '" + file->path() + "' --no-browser");
    EXPECT_EQ(ran.exit_code, cannot);
    EXPECT_THAT(ran.text, HasSubstr("is not the name of a job"));
  }
  const ScratchFile large("large.toml", std::string(4'000'001, ' '));
  const Ran ran = run_program("open '" + large.path() + "' --no-browser");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("larger than 4 MB"));
}

TEST(Open, a_port_outside_the_possible_or_taken_is_refused) {
  const ScratchFile job("lift.toml", "");
  const auto folder = std::filesystem::path(job.path()).parent_path();
  for (const std::string port : {"0", "65536", "-1", "x", "70000000000"})
    EXPECT_EQ(run_program("open --no-browser --port " + port, folder).exit_code, cannot) << port;
  Opened opened("--no-browser", folder);
  const std::string address = address_in(opened.line());
  const std::string port = address.substr(17, address.find('/', 17) - 17);
  const Ran second = run_program("open --no-browser --port " + port, folder);
  EXPECT_EQ(second.exit_code, cannot);
  EXPECT_THAT(second.text, HasSubstr("Port " + port + " is taken by another program"));
}

TEST(Open, asks_the_desktop_to_show_the_page) {
  const ScratchFile job("lift.toml", "");
  const auto folder = std::filesystem::path(job.path()).parent_path();
  const FakeDesktop desktop;
  Opened opened("lift.toml", folder, desktop.environment("DISPLAY=:7"));
  const std::string address = address_in(opened.line());
  const std::size_t token = address.find('/', 17) + 1;
  EXPECT_EQ(opened.end(SIGTERM), 0);
  const std::string noted = desktop.noted();
  EXPECT_THAT(noted, MatchesRegex("1\\|" + address.substr(0, token) + "[0-9a-f]+\\|"));
  EXPECT_EQ(noted.find(address.substr(token)), std::string::npos) << "everybody on the machine can read it";
}

TEST(Open, asks_no_desktop_where_there_is_none_or_it_is_not_wished) {
  const ScratchFile job("lift.toml", "");
  const auto folder = std::filesystem::path(job.path()).parent_path();
  const FakeDesktop desktop;
  Opened without_screen("lift.toml", folder, desktop.environment("DISPLAY= WAYLAND_DISPLAY="));
  Opened not_wished("lift.toml --no-browser", folder, desktop.environment("DISPLAY=:7"));
  Opened without_opener("lift.toml", folder, "DISPLAY=:7 PATH=/nowhere");
  for (Opened* opened : {&without_screen, &not_wished, &without_opener}) {
    EXPECT_THAT(address_in(opened->line()), StartsWith("http://127.0.0.1:"));
    EXPECT_EQ(opened->end(SIGTERM), 0);
  }
  EXPECT_EQ(desktop.noted(), "");
}

}  // namespace
}  // namespace poise
