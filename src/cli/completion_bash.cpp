// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include "cli/completion.hpp"

namespace poise::cli {
namespace {

constexpr auto beginning = R"bash(# Completion of poise for bash, written by "poise manual --completion bash".

# _poise_files WORD [ENDING]: folders, and files with the ending; any file where there is none.
_poise_files() {
  compopt -o filenames 2>/dev/null
  if [[ -n $2 ]]; then
    mapfile -t COMPREPLY < <(compgen -d -- "$1"; compgen -f -X "!*$2" -- "$1")
  else
    mapfile -t COMPREPLY < <(compgen -f -- "$1")
  fi
}

# _poise_folders WORD
_poise_folders() {
  compopt -o filenames 2>/dev/null
  mapfile -t COMPREPLY < <(compgen -d -- "$1")
}

# _poise_words WORD WORDS
_poise_words() {
  mapfile -t COMPREPLY < <(compgen -W "$2" -- "$1")
}

_poise() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command='' place=1 i
  COMPREPLY=()
  # --show=way stands here as three words.
  if [[ $word == '=' ]]; then
    word=''
  elif [[ $before == '=' && $COMP_CWORD -gt 2 ]]; then
    before=${COMP_WORDS[COMP_CWORD - 2]}
  fi
  for ((i = 1; i < COMP_CWORD; i++)); do
    if [[ ${COMP_WORDS[i]} != -* ]]; then
      if [[ -z $command ]]; then command=${COMP_WORDS[i]}; else ((place++)); fi
      continue
    fi
    case $command/${COMP_WORDS[i]} in
)bash";

constexpr auto middle = R"bash(        [[ ${COMP_WORDS[i + 1]} == '=' ]] && ((i++))
        ((i++))
        ;;
    esac
  done
)bash";

constexpr auto end = R"bash(}

complete -F _poise poise
)bash";

std::string all_names(const std::vector<Argument>& arguments) {
  std::string names;
  for (const Argument& argument : arguments) {
    for (const std::string& name : argument.names) names += (names.empty() ? "" : " ") + name;
  }
  return names;
}

/// What to do where an argument's value is wanted; nothing where nobody but the person knows it.
std::string offer(const Argument& argument) {
  if (!argument.words.empty())
    return fmt::format("_poise_words \"$word\" '{}'; ", fmt::join(argument.words, " "));
  if (is_file(argument)) return fmt::format("_poise_files \"$word\" '{}'; ", ending_of(argument));
  if (is_folder(argument)) return "_poise_folders \"$word\"; ";
  return {};
}

/// "prove/--trace": the patterns of an option under its command.
std::string patterns(const Surface& command, const Argument& option) {
  std::string all;
  for (const std::string& name : option.names) all += (all.empty() ? "" : " | ") + command.name + "/" + name;
  return all;
}

/// All options that take a value, so that it is not counted as a place.
std::string valued(const Surface& program) {
  std::string all;
  for (const Surface& command : program.commands) {
    for (const Argument& option : command.options) {
      if (!option.value.empty())
        all += (all.empty() ? "      " : " | \\\n      ") + patterns(command, option);
    }
  }
  return all + ")\n";
}

std::string values(const Surface& program) {
  std::string cases = "  case $command/$before in\n";
  for (const Surface& command : program.commands) {
    for (const Argument& option : command.options) {
      if (!option.value.empty())
        cases += fmt::format("    {}) {}return ;;\n", patterns(command, option), offer(option));
    }
  }
  return cases + "  esac\n";
}

std::string places(const Surface& program) {
  std::string cases = "  [[ $word == -* ]] || case $command/$place in\n";
  for (const Surface& command : program.commands) {
    int place = 0;
    for (const Argument& argument : command.places) {
      ++place;
      cases += fmt::format("    {}/{}) {}return ;;\n", command.name,
                           argument.many ? "*" : std::to_string(place), offer(argument));
    }
  }
  return cases + "  esac\n";
}

std::string options(const Surface& program) {
  std::string commands;
  for (const Surface& command : program.commands) commands += (commands.empty() ? "" : " ") + command.name;
  std::string cases = "  case $command/$word in\n";
  cases += fmt::format("    /-*) _poise_words \"$word\" '{}' ;;\n", all_names(program.options));
  cases += fmt::format("    /*) _poise_words \"$word\" '{}' ;;\n", commands);
  for (const Surface& command : program.commands)
    cases +=
        fmt::format("    {}/*) _poise_words \"$word\" '{}' ;;\n", command.name, all_names(command.options));
  return cases + "  esac\n";
}

}  // namespace

std::string bash_completion(const Surface& program) {
  return beginning + valued(program) + middle + values(program) + places(program) + options(program) + end;
}

}  // namespace poise::cli
