// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/streams.hpp"

#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string_view>
#include <system_error>

namespace poise::cli {
namespace {

std::string_view remedy(int error) {
  switch (error) {
    case EPIPE:
      return "whoever reads it has gone; let it be read to its end, or print into a file";
    case ENOSPC:
    case EDQUOT:
      return "the disk is full; make room and try again";
    case EFBIG:
      return "the system allows no file of this size here; raise the limit (ulimit -f)";
    case EBADF:
      return "the output is closed; leave it open, or print into a file";
    default:
      return {};
  }
}

}  // namespace

void steady_streams() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (::fcntl(stream, F_GETFD) >= 0 || errno != EBADF) continue;
    // What is printed must be missed; complaints have nobody left to hear that they are.
    ::open("/dev/null", stream == STDOUT_FILENO ? O_RDONLY : O_RDWR);
  }
  for (const int signal : {SIGPIPE, SIGXFSZ}) ::signal(signal, SIG_IGN);
}

std::string why_not_printed(const std::exception* thrown) {
  int error = std::fflush(stdout) == 0 ? 0 : errno;
  if (error == 0 && std::ferror(stdout) == 0) return {};
  if (const auto* known = dynamic_cast<const std::system_error*>(thrown)) error = known->code().value();
  // Where it failed earlier and nobody kept the reason, it fails for it again.
  if (error == 0 && ::write(STDOUT_FILENO, "\n", 1) < 0) error = errno;
  std::string text = "poise: what was to be printed is not complete";
  const std::string_view what_to_do = remedy(error);
  if (!what_to_do.empty()) {
    text.append(": ").append(what_to_do);
  } else if (error != 0) {
    text.append(": ").append(std::strerror(error));
  }
  return text + "\n";
}

}  // namespace poise::cli
