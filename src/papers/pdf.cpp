// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/pdf.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/time.h>
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
  all.reserve(texts.size() + 1);
  for (std::string& text : texts) all.push_back(text.data());
  all.push_back(nullptr);
  return all;
}

/// It reads what we write; its messages about fonts and styles are for whoever wrote the page, which is us.
struct Ways {
  posix_spawn_file_actions_t files;
  explicit Ways(int reads_from) {
    posix_spawn_file_actions_init(&files);
    posix_spawn_file_actions_adddup2(&files, reads_from, STDIN_FILENO);
    posix_spawn_file_actions_addopen(&files, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&files, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addclosefrom_np(&files, STDERR_FILENO + 1);
  }
  Ways(const Ways&) = delete;
  Ways& operator=(const Ways&) = delete;
  ~Ways() { posix_spawn_file_actions_destroy(&files); }
};

/// Ctrl-C is for us: what it was to make is given up when we say so. Signals as a program expects them.
struct Attributes {
  posix_spawnattr_t attributes;
  Attributes() {
    posix_spawnattr_init(&attributes);
    posix_spawnattr_setpgroup(&attributes, 0);
    sigset_t none, all;
    sigemptyset(&none);
    sigfillset(&all);
    posix_spawnattr_setsigmask(&attributes, &none);
    posix_spawnattr_setsigdefault(&attributes, &all);
    posix_spawnattr_setflags(&attributes,
                             POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
  }
  Attributes(const Attributes&) = delete;
  Attributes& operator=(const Attributes&) = delete;
  ~Attributes() { posix_spawnattr_destroy(&attributes); }
};

}  // namespace

PdfMaker::PdfMaker(const std::filesystem::path& pdf) {
  std::array<int, 2>
      ends{};  // a socket, not a pipe: writing to one that is gone is an error there and no signal
  if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0) {
    fault_ = fmt::format("WeasyPrint, which makes the PDF, cannot be started: {}", std::strerror(errno));
    return;
  }
  std::vector<std::string> words{std::string(program), "--quiet", "-", std::filesystem::absolute(pdf)};
  std::vector<std::string> settings = environment();
  const Ways ways(ends[1]);
  const Attributes terms;
  const int error = ::posix_spawnp(&child_, program.data(), &ways.files, &terms.attributes,
                                   pointers(words).data(), pointers(settings).data());
  ::close(ends[1]);
  way_in_ = ends[0];
  running_ = error == 0;
  if (error == ENOENT) {
    fault_ =
        "WeasyPrint, which makes the PDF, is not installed: on Debian \"apt install weasyprint\"; or print "
        "the HTML from a browser";
  } else if (error != 0) {
    fault_ = fmt::format("WeasyPrint, which makes the PDF, cannot be started: {}", std::strerror(error));
  }
}

PdfMaker::~PdfMaker() {
  if (way_in_ >= 0) ::close(way_in_);
  if (!running_) return;
  ::kill(child_, SIGKILL);
  ::waitpid(child_, nullptr, 0);
}

void PdfMaker::give(std::string_view html, const std::function<bool()>& go_on) {
  const timeval patience{.tv_sec = 0, .tv_usec = 100'000};
  if (running_) ::setsockopt(way_in_, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
  while (running_ && !html.empty() && go_on()) {
    const ssize_t sent = ::send(way_in_, html.data(), html.size(), MSG_NOSIGNAL);
    if (sent < 0 && (errno == EINTR || errno == EAGAIN || errno == EWOULDBLOCK)) continue;
    if (sent <= 0) break;  // it has ended: its exit status says why
    html.remove_prefix(static_cast<std::size_t>(sent));
  }
  ::close(way_in_);
  way_in_ = -1;
}

void PdfMaker::note(int status) {
  running_ = false;
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return;
  fault_ = fmt::format("WeasyPrint made no PDF ({} {}); to see why, run \"weasyprint\" on the HTML yourself",
                       WIFSIGNALED(status) ? "ended by signal" : "exit status",
                       WIFSIGNALED(status) ? WTERMSIG(status) : WEXITSTATUS(status));
}

/// Whoever started us may want no news of children, and the system then keeps none.
void PdfMaker::lose() {
  running_ = false;
  fault_ = "it cannot be told whether WeasyPrint made the PDF; start Poise without SIGCHLD ignored";
}

bool PdfMaker::is_done() {
  if (!running_) return true;
  int status = 0;
  const pid_t ended = ::waitpid(child_, &status, WNOHANG);
  if (ended == child_) note(status);
  if (ended < 0 && errno != EINTR) lose();
  return !running_;
}

std::string PdfMaker::finish() {
  int status = 0;
  while (running_) {
    const pid_t ended = ::waitpid(child_, &status, 0);
    if (ended == child_) note(status);
    if (ended < 0 && errno != EINTR) lose();
  }
  return fault_;
}

}  // namespace poise::papers
