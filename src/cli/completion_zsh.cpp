// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <string_view>

#include "cli/completion.hpp"

namespace poise::cli {
namespace {

constexpr auto beginning = R"zsh(#compdef poise
# Completion of poise for zsh, written by "poise manual --completion zsh".

_poise() {
  local curcontext=$curcontext state state_descr line
  typeset -A opt_args
)zsh";

constexpr auto end = R"zsh(  esac
}

_poise "$@"
)zsh";

/// Between single quotes, with a backslash before each of the letters that mean something there.
std::string in_quotes(std::string_view text, std::string_view special) {
  std::string out;
  for (const char c : text) {
    if (c == '\'') {
      out += R"('\'')";
      continue;
    }
    if (c == '\\' || special.find(c) != std::string_view::npos) out += '\\';
    out += c == '\n' ? ' ' : c;
  }
  return out;
}

/// What completes a value: ":FILE.csv:_files -g "*.csv"".
std::string action(const Argument& argument, const std::string& message) {
  std::string how;
  if (!argument.words.empty())
    how = fmt::format("({})", fmt::join(argument.words, " "));
  else if (is_folder(argument))
    how = "_files -/";
  else if (!ending_of(argument).empty())
    how = fmt::format("_files -g \"*{}\"", ending_of(argument));
  else if (is_file(argument))
    how = "_files";
  return fmt::format(":{}:{}", in_quotes(message, ":"), how);
}

std::string spec_of_option(const Argument& option) {
  std::string specs, others;
  for (const std::string& name : option.names) others += (others.empty() ? "" : " ") + name;
  for (const std::string& name : option.names) {
    const bool is_long = name.starts_with("--");
    const std::string value = option.value.empty() ? "" : action(option, option.value);
    specs +=
        fmt::format(" \\\n        '{}{}{}[{}]{}'", option.many ? "*" : "(" + others + ")", name,
                    option.value.empty() ? "" : (is_long ? "=" : "+"), in_quotes(option.text, "[]:"), value);
  }
  return specs;
}

std::string spec_of_place(const Argument& place) {
  return fmt::format(" \\\n        '{}{}'", place.many ? "*" : (place.required ? ":" : "::"),
                     action(place, place.names.front()).substr(place.many ? 0 : 1));
}

std::string arguments_of(const Surface& surface) {
  std::string specs;
  for (const Argument& option : surface.options) specs += spec_of_option(option);
  for (const Argument& place : surface.places) specs += spec_of_place(place);
  return specs;
}

}  // namespace

std::string zsh_completion(const Surface& program) {
  std::string commands = "  local -a commands=(\n", cases = "  case $words[1] in\n";
  for (const Surface& command : program.commands) {
    commands += fmt::format("    '{}:{}'\n", command.name, in_quotes(command.text, ":"));
    cases += fmt::format("    {})\n      _arguments -s{}\n      ;;\n", command.name, arguments_of(command));
  }
  const std::string own = fmt::format(
      "  _arguments -C{} \\\n        ':command:->command' \\\n        "
      "'*::argument:->argument'\n",
      arguments_of(program));
  return beginning + commands + "  )\n" + own +
         "  if [[ $state == command ]]; then\n    _describe command commands\n    return\n  fi\n"
         "  [[ $state == argument ]] || return\n" +
         cases + end;
}

}  // namespace poise::cli
