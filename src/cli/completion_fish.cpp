// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <string_view>

#include "cli/completion.hpp"

namespace poise::cli {
namespace {

std::string in_quotes(std::string_view text) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c == '\n' ? ' ' : c;
  }
  return out + "'";
}

/// What completes a value, as switches of fish's own "complete".
std::string offer(const Argument& argument) {
  if (!argument.words.empty())
    return fmt::format(" -a {}", in_quotes(fmt::format("{}", fmt::join(argument.words, " "))));
  if (is_folder(argument)) return " -a '(__fish_complete_directories)'";
  if (!ending_of(argument).empty())
    return fmt::format(" -k -a '(__fish_complete_suffix {})'", ending_of(argument));
  return is_file(argument) ? " -a '(__fish_complete_path)'" : "";
}

std::string line(const std::string& condition, const std::string& rest) {
  return fmt::format("complete -c poise -n {}{}\n", in_quotes(condition), rest);
}

std::string arguments_of(const Surface& surface, const std::string& condition) {
  std::string lines;
  for (const Argument& option : surface.options) {
    std::string names;
    for (const std::string& name : option.names)
      names += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
    lines += line(condition, names + (option.value.empty() ? "" : " -x" + offer(option)) + " -d " +
                                 in_quotes(option.text));
  }
  for (const Argument& place : surface.places) {
    if (!offer(place).empty()) lines += line(condition, offer(place) + " -d " + in_quotes(place.text));
  }
  return lines;
}

}  // namespace

std::string fish_completion(const Surface& program) {
  const std::string no_command = "__fish_use_subcommand";
  std::string out =
      "# Completion of poise for fish, written by \"poise manual --completion fish\".\n\n"
      "complete -c poise -f\n";
  out += arguments_of(program, no_command);
  for (const Surface& command : program.commands)
    out += line(no_command, fmt::format(" -a {} -d {}", command.name, in_quotes(command.text)));
  for (const Surface& command : program.commands)
    out += "\n" + arguments_of(command, "__fish_seen_subcommand_from " + command.name);
  return out;
}

}  // namespace poise::cli
