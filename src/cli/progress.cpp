// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>

namespace poise::cli {
namespace {

volatile std::sig_atomic_t asked_to_stop = 0;

void remember(int) { asked_to_stop = 1; }

}  // namespace

Progress::Progress(std::string what) : what_(std::move(what)), terminal_(isatty(fileno(stderr)) != 0) {
  asked_to_stop = 0;
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) std::signal(signal, &remember);
}

Progress::~Progress() {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) std::signal(signal, SIG_DFL);
  if (shown_) std::fputs("\r\033[K", stderr);  // the terminal may have gone, which is no reason to fail
}

bool Progress::at(double share) {
  if (asked_to_stop) return false;
  if (!terminal_) return true;
  const auto now = Clock::now();
  const std::chrono::duration<double> gone = now - begin_, since = now - last_;
  if (gone.count() < 1.0 || since.count() < 0.1) return true;
  last_ = now;
  shown_ = true;
  const double done = std::clamp(share, 1e-3, 1.0);
  std::fputs(fmt::format("\r\033[K{}: {:.0f} % done, about {:.0f} s left (Ctrl-C stops)", what_, 100.0 * done,
                         gone.count() * (1.0 - done) / done)
                 .c_str(),
             stderr);
  std::fflush(stderr);
  return true;
}

}  // namespace poise::cli
