// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/manual_page.hpp"

#include <fmt/format.h>

#include <cctype>
#include <string_view>

#include "cli/program.hpp"
#include "draw/utf8.hpp"
#include "judge/page.hpp"

namespace poise::cli {
namespace {

constexpr std::size_t line_width = 72;

std::string letter(char32_t c, char32_t before) {
  if (c == '\\') return "\\e";
  if (c == '\'') return "\\(aq";
  if (c == '`') return "\\(ga";
  if (c == '^') return "\\(ha";
  if (c == '~') return "\\(ti";
  // The dash of an option is one that can be copied; one inside a word is a hyphen.
  if (c == '-' && (before > 127 || std::isalnum(static_cast<int>(before)) == 0)) return "\\-";
  if (c > 127) return fmt::format("\\[u{:04X}]", static_cast<unsigned>(c));
  return {static_cast<char>(c)};
}

std::string escaped(std::string_view text) {
  std::string out;
  char32_t before = ' ';
  while (!text.empty()) {
    const char32_t c = draw::next_character(text);
    out += letter(c, before);
    before = c;
  }
  return out;
}

/// One paragraph in short lines, none of which can be taken for a request.
std::string flowing(std::string_view text) {
  std::string joined, out;
  for (const char c : text) joined += c == '\n' ? ' ' : c;
  std::string rest = wrapped(joined, line_width, 0) + "\n";
  for (std::size_t end = rest.find('\n'); end != std::string::npos; end = rest.find('\n')) {
    const std::string line = escaped(std::string_view(rest).substr(0, end));
    out += (line.starts_with('.') ? "\\&" : "") + line + "\n";
    rest.erase(0, end + 1);
  }
  return out;
}

std::string bold(std::string_view text) { return "\\fB" + escaped(text) + "\\fR"; }
std::string italic(std::string_view text) { return "\\fI" + escaped(text) + "\\fR"; }

std::string head_of(const Argument& argument, bool place) {
  std::string head;
  for (const std::string& name : argument.names)
    head += (head.empty() ? "" : ", ") + (place ? italic(name) : bold(name));
  if (!argument.value.empty())
    head += " " + (place ? escaped("(" + argument.value + ")") : italic(argument.value));
  return head;
}

std::string entry(const Argument& argument, bool place) {
  std::string text = argument.text;
  if (!argument.words.empty()) text += fmt::format(" (one of {})", fmt::join(argument.words, ", "));
  if (!argument.range.empty()) text += " " + argument.range;
  if (argument.required && !place) text += "; must be given";
  return fmt::format(".TP\n{}\n{}", head_of(argument, place), flowing(text));
}

std::string entries(const Surface& surface) {
  std::string out;
  for (const Argument& place : surface.places) out += entry(place, true);
  for (const Argument& option : surface.options) out += entry(option, false);
  return out;
}

/// How a command is called.
std::string call_of(const Surface& command) {
  std::string out = bold("poise " + command.name) + " [" + italic("options") + "]";
  for (const Argument& place : command.places) {
    const std::string name = italic(place.names.front()) + (place.many ? " \\&..." : "");
    out += place.required ? " " + name : " [" + name + "]";
  }
  return out + "\n";
}

std::string section(std::string_view title, const std::string& body) {
  return fmt::format(".SH \"{}\"\n{}", title, body);
}

}  // namespace

std::string manual_page(const Surface& program, const Release& release) {
  std::string calls = bold("poise") + " [" + italic("options") + "]\n";
  std::string commands;
  for (const Surface& command : program.commands) {
    calls += ".br\n" + call_of(command);
    commands += fmt::format(".SS \"{}\"\n{}{}", escaped("poise " + command.name), flowing(command.text + "."),
                            entries(command));
    if (!command.closing.empty()) commands += ".PP\n" + flowing(command.closing);
  }
  std::string_view text = program.text;  // "Poise: what it is." becomes "what it is"
  if (const std::size_t colon = text.find(": "); colon != std::string_view::npos)
    text.remove_prefix(colon + 2);
  if (text.ends_with('.')) text.remove_suffix(1);
  return fmt::format(
             ".\\\" Written by \"poise manual\" from what the commands say of themselves.\n"
             ".TH POISE 1 {} \"Poise {}\" \"User Commands\"\n",
             release.date, release.version) +
         section("NAME", "poise \\- " + escaped(text) + "\n") + section("SYNOPSIS", calls) +
         section("DESCRIPTION", flowing(program.text)) + section("OPTIONS", entries(program)) +
         section("COMMANDS", commands) + section("EXIT STATUS", flowing(exit_words)) +
         section("SAFETY", flowing(safety_words));
}

}  // namespace poise::cli
