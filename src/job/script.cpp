// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/script.hpp"

#include <algorithm>

namespace poise::job {
namespace {

constexpr std::string_view blanks = " \t\r";

/// Letters as they are seen: bytes that go on with a UTF-8 sequence take no column.
std::ptrdiff_t width_of(std::string_view text) {
  return std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; });
}

bool is_in_one_line(std::string_view text) { return text.find('\n') == std::string_view::npos; }

/// The first comment of a line at or behind a place in it, or nowhere.
std::size_t comment_behind(const Script& script, std::size_t at) {
  const auto& comments = script.outline.comments;
  const auto found = std::ranges::lower_bound(comments, at);
  return found != comments.end() && *found < line_end(script.text, at) ? *found : nowhere;
}

/// The column of the first comment of the line with this place, or nowhere.
std::size_t column_of_comment(const Script& script, std::size_t at) {
  const std::size_t begin = line_begin(script.text, at), comment = comment_behind(script, begin);
  if (comment == nowhere || is_first_in_line(script.text, comment)) return nowhere;
  return static_cast<std::size_t>(width_of(std::string_view(script.text).substr(begin, comment - begin)));
}

/// Whether a comment stands below or above another one.
bool is_lined_up(const Script& script, std::size_t comment) {
  const std::size_t begin = line_begin(script.text, comment), column = column_of_comment(script, comment);
  return (begin > 0 && column_of_comment(script, begin - 1) == column) ||
         column_of_comment(script, next_line(script.text, comment)) == column;
}

/// What the blanks before the comment behind a splice must be, so that it keeps its column.
void keep_column(const Script& script, const Splice& splice, std::vector<Splice>& more) {
  const std::string_view text = script.text;
  const std::string_view old = text.substr(splice.at.begin, splice.at.end - splice.at.begin);
  if (!is_in_one_line(old) || !is_in_one_line(splice.text)) return;
  const std::size_t comment = comment_behind(script, splice.at.end);
  if (comment == nowhere) return;
  const std::size_t begin = text.find_last_not_of(' ', comment - 1) + 1;
  const auto now = static_cast<std::ptrdiff_t>(comment - begin);
  if (now < 1 || begin < splice.at.end || (now == 1 && !is_lined_up(script, comment))) return;
  const std::ptrdiff_t wanted = now - (width_of(splice.text) - width_of(old));
  const auto count = static_cast<std::size_t>(std::max<std::ptrdiff_t>(wanted, 1));
  more.push_back({{begin, comment}, std::string(count, ' ')});
}

}  // namespace

Script script_of(std::string text) {
  Script script;
  const std::size_t end = text.find('\n');
  script.newline = end != std::string::npos && end > 0 && text[end - 1] == '\r' ? "\r\n" : "\n";
  script.outline = outline_of(text);
  script.text = std::move(text);
  return script;
}

std::string spliced(const Script& script, std::vector<Splice> splices) {
  std::vector<Splice> columns;
  if (splices.size() == 1) keep_column(script, splices[0], columns);
  splices.insert(splices.end(), columns.begin(), columns.end());
  std::ranges::stable_sort(splices, {}, [](const Splice& splice) { return splice.at.begin; });
  std::string text;
  std::size_t done = 0;
  for (const Splice& splice : splices) {
    text.append(script.text, done, splice.at.begin - done);
    text += splice.text;
    done = splice.at.end;
  }
  return text.append(script.text, done);
}

std::size_t line_begin(std::string_view text, std::size_t at) {
  const std::size_t end = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
  return end == std::string_view::npos ? 0 : end + 1;
}

std::size_t line_end(std::string_view text, std::size_t at) {
  return std::min(text.find('\n', at), text.size());
}

std::size_t next_line(std::string_view text, std::size_t at) {
  return std::min(line_end(text, at) + 1, text.size());
}

bool is_blank_line(std::string_view text, std::size_t begin) {
  return std::min(text.find_first_not_of(blanks, begin), text.size()) == line_end(text, begin);
}

bool is_comment_line(std::string_view text, std::size_t begin) {
  const std::size_t first = text.find_first_not_of(blanks, begin);
  return first != std::string_view::npos && text[first] == '#';
}

bool is_first_in_line(std::string_view text, std::size_t at) {
  const std::size_t begin = line_begin(text, at);
  return text.substr(begin, at - begin).find_first_not_of(blanks) == std::string_view::npos;
}

std::size_t comments_above(std::string_view text, std::size_t line, std::size_t floor) {
  while (line > floor) {
    const std::size_t above = std::max(line_begin(text, line - 1), floor);
    if (!is_comment_line(text, above)) break;
    line = above;
  }
  return line;
}

std::string with_newlines(const Script& script, std::string_view text) {
  std::string all;
  for (const char c : text) {
    if (c == '\n') {
      all += script.newline;
    } else {
      all += c;
    }
  }
  return all;
}

}  // namespace poise::job
