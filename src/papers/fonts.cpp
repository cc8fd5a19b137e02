// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/fonts.hpp"

#include <sys/wait.h>

#include <array>
#include <cstdio>

namespace poise::papers {
namespace {

/// What fontconfig, which WeasyPrint asks for fonts, takes where this one is wished for; comes with it.
constexpr const char* question = "fc-match -f '%{family}' 'Liberation Sans' 2>/dev/null";
constexpr int no_such_program = 127;  // exit status of the shell, POSIX 2.8.2

}  // namespace

std::string missing_font() {
  FILE* answer = ::popen(question, "r");
  if (answer == nullptr) return {};
  std::array<char, 200> family{};
  const std::size_t length = std::fread(family.data(), 1, family.size() - 1, answer);
  const int status = ::pclose(answer);
  const bool unknown = status < 0 || !WIFEXITED(status) || WEXITSTATUS(status) == no_such_program;
  if (unknown || std::string(family.data(), length).find("Liberation Sans") != std::string::npos) return {};
  return "the font Liberation Sans is not installed: the PDF is set in another one, and words may run over; "
         "on "
         "Debian \"apt install fonts-liberation\", then make the papers again";
}

}  // namespace poise::papers
