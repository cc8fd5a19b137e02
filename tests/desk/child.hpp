// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <functional>
#include <string>

namespace poise {

/// What a function says in a process of its own, where it may change limits, rights and file systems as it
/// likes.
inline std::string said_by_child(const std::function<std::string()>& task) {
  std::array<int, 2> pipe{};
  if (::pipe(pipe.data()) != 0) return "no pipe";
  const pid_t child = ::fork();
  if (child == 0) {
    const std::string said = task();
    const bool whole = ::write(pipe[1], said.data(), said.size()) == static_cast<ssize_t>(said.size());
    ::_exit(whole ? 0 : 1);
  }
  ::close(pipe[1]);
  std::string said;
  std::array<char, 4096> piece;
  for (ssize_t got; (got = ::read(pipe[0], piece.data(), piece.size())) > 0;)
    said.append(piece.data(), static_cast<std::size_t>(got));
  ::close(pipe[0]);
  ::waitpid(child, nullptr, 0);
  return said;
}

/// Lays root's rights down in this process for good: the rights of files do not bind root.
inline bool become_ordinary() {
  constexpr unsigned nobody = 65'534;
  return ::geteuid() != 0 || (::setgid(nobody) == 0 && ::setuid(nobody) == 0);
}

}  // namespace poise
