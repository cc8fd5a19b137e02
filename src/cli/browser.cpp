// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/browser.hpp"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <unistd.h>

#include <cstdlib>

namespace poise::cli {
namespace {

bool is_set(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr && *value != '\0';
}

/// Without a screen the desktop's opener would look for a browser of the terminal, which is ours.
bool has_screen() { return is_set("DISPLAY") || is_set("WAYLAND_DISPLAY"); }

/// How the opener is started: a session of its own, so that Ctrl-C ends Poise and not the browser; nothing of
/// ours open but the way to nowhere; signals as a program expects them.
struct Terms {
  posix_spawn_file_actions_t files;
  posix_spawnattr_t attributes;

  Terms() {
    posix_spawn_file_actions_init(&files);
    posix_spawn_file_actions_addopen(&files, STDIN_FILENO, "/dev/null", O_RDWR, 0);
    posix_spawn_file_actions_adddup2(&files, STDIN_FILENO, STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&files, STDIN_FILENO, STDERR_FILENO);
    posix_spawn_file_actions_addclosefrom_np(&files, STDERR_FILENO + 1);
    posix_spawnattr_init(&attributes);
    sigset_t none, ignored_by_us;
    sigemptyset(&none);
    sigemptyset(&ignored_by_us);
    for (const int each : {SIGPIPE, SIGXFSZ}) sigaddset(&ignored_by_us, each);
    posix_spawnattr_setsigmask(&attributes, &none);
    posix_spawnattr_setsigdefault(&attributes, &ignored_by_us);
    posix_spawnattr_setflags(&attributes,
                             POSIX_SPAWN_SETSID | POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
  }
  Terms(const Terms&) = delete;
  Terms& operator=(const Terms&) = delete;
  ~Terms() {
    posix_spawn_file_actions_destroy(&files);
    posix_spawnattr_destroy(&attributes);
  }
};

}  // namespace

bool show_in_browser(const std::string& address) {
  if (!has_screen()) return false;
  std::string opener = "xdg-open", wanted = address;
  char* const arguments[] = {opener.data(), wanted.data(), nullptr};
  const Terms terms;
  pid_t child = 0;
  return ::posix_spawnp(&child, opener.c_str(), &terms.files, &terms.attributes, arguments, environ) == 0;
}

}  // namespace poise::cli
