// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "job/job.hpp"

namespace poise {
namespace {

std::vector<std::string_view> lines_of(std::string_view source) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (source.starts_with(byte_order_mark)) source.remove_prefix(byte_order_mark.size());
  std::vector<std::string_view> lines;
  while (!source.empty()) {
    const std::size_t end = source.find('\n');
    std::string_view line = source.substr(0, end);
    if (line.ends_with('\r')) line.remove_suffix(1);
    lines.push_back(line);
    source = end == std::string_view::npos ? std::string_view{} : source.substr(end + 1);
  }
  return lines;
}

constexpr std::size_t widest = 100;  // characters shown before the mark, so that it stays in sight

bool starts_a_character(char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }

/// The line and, below it, a mark under the column; columns count characters, not bytes.
std::string shown(std::string_view line, int column) {
  std::string text = "  ", mark = "  ";
  const int first = std::max(1, column - static_cast<int>(widest));
  int at = 0;
  for (const char c : line) {
    if (starts_a_character(c)) ++at;
    if (at < first) continue;
    if (at >= column + static_cast<int>(widest)) break;
    const bool control = static_cast<unsigned char>(c) < 0x20 && c != '\t';
    text += control ? '?' : c;
    if (starts_a_character(c) && at < column) mark += c == '\t' ? '\t' : ' ';
  }
  return fmt::format("{}\n{}^\n", text, mark);
}

}  // namespace

std::string Complaints::text(std::string_view source) const {
  const auto lines = lines_of(source);
  std::string all;
  for (const Remark& remark : list) {
    const auto& [line, column] = remark.place;
    if (line < 1) {
      all += fmt::format("{}: {}\n", file, remark.sentence);
      continue;
    }
    all += fmt::format("{}:{}:{}: {}\n", file, line, column, remark.sentence);
    if (static_cast<std::size_t>(line) <= lines.size()) all += shown(lines[line - 1], column);
  }
  return all + fmt::format("{} {}\n", list.size(), list.size() == 1 ? "complaint" : "complaints");
}

}  // namespace poise
