// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/pdf.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <string_view>
#include <vector>

namespace poise::papers {
namespace {

constexpr std::string_view program = "weasyprint";

/// The environment with a fixed clock: fonts are cut down to the letters in use, and the cut would be dated.
std::vector<std::string> environment() {
  constexpr std::string_view clock = "SOURCE_DATE_EPOCH=";
  std::vector<std::string> all;
  for (char** each = environ; *each != nullptr; ++each) {
    if (!std::string_view(*each).starts_with(clock)) all.emplace_back(*each);
  }
  all.push_back(std::string(clock) + "0");
  return all;
}

std::vector<char*> pointers(std::vector<std::string>& texts) {
  std::vector<char*> all;
  for (std::string& text : texts) all.push_back(text.data());
  all.push_back(nullptr);
  return all;
}

/// Its messages about fonts and styles are for whoever wrote the page, which is us.
struct Silence {
  posix_spawn_file_actions_t files;
  Silence() {
    posix_spawn_file_actions_init(&files);
    posix_spawn_file_actions_addopen(&files, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&files, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&files, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addclosefrom_np(&files, STDERR_FILENO + 1);
  }
  Silence(const Silence&) = delete;
  Silence& operator=(const Silence&) = delete;
  ~Silence() { posix_spawn_file_actions_destroy(&files); }
};

}  // namespace

PdfMaker::PdfMaker(const std::filesystem::path& html, const std::filesystem::path& pdf) {
  std::vector<std::string> words{std::string(program), "--quiet", "--", std::filesystem::absolute(html),
                                 std::filesystem::absolute(pdf)};
  std::vector<std::string> settings = environment();
  const Silence silence;
  const int error = ::posix_spawnp(&child_, program.data(), &silence.files, nullptr, pointers(words).data(),
                                   pointers(settings).data());
  running_ = error == 0;
  if (error == ENOENT) {
    fault_ =
        "WeasyPrint, which makes the PDF, is not installed: on Debian \"apt install weasyprint\"; or print "
        "the "
        "HTML from a browser";
  } else if (error != 0) {
    fault_ = fmt::format("WeasyPrint, which makes the PDF, cannot be started: {}", std::strerror(error));
  }
}

PdfMaker::~PdfMaker() {
  if (!running_) return;
  ::kill(child_, SIGKILL);
  ::waitpid(child_, nullptr, 0);
}

void PdfMaker::note(int status) {
  running_ = false;
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return;
  fault_ = fmt::format("WeasyPrint made no PDF ({} {}); to see why, run \"weasyprint\" on the HTML yourself",
                       WIFSIGNALED(status) ? "ended by signal" : "exit status",
                       WIFSIGNALED(status) ? WTERMSIG(status) : WEXITSTATUS(status));
}

bool PdfMaker::is_done() {
  if (!running_) return true;
  int status = 0;
  const pid_t ended = ::waitpid(child_, &status, WNOHANG);
  if (ended == child_) note(status);
  return !running_;
}

std::string PdfMaker::finish() {
  int status = 0;
  while (running_) {
    if (::waitpid(child_, &status, 0) == child_) note(status);
  }
  return fault_;
}

}  // namespace poise::papers
