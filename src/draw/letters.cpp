// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/letters.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "draw/utf8.hpp"

namespace poise::draw {
namespace {

/// Letters of one width or nearly, as shares of the font's size.
struct Alike {
  std::string_view letters;
  double regular, bold;
};
/// Advance widths of Arial and of fonts made to its measure, rounded up (from memory; compared with the
/// tables of Liberation Sans 2.1).
constexpr std::array ascii{
    Alike{"'ijl", 0.223, 0.279},
    Alike{" ,./I\\|", 0.279, 0.281},
    Alike{"!:;[]ft", 0.279, 0.334},
    Alike{"()-`r{}", 0.335, 0.390},
    Alike{"\"*", 0.390, 0.475},
    Alike{"^Jcksvxyz", 0.501, 0.585},
    Alike{"#$0123456789_ae", 0.557, 0.557},
    Alike{"?Lbdghnopqu+<=>~", 0.585, 0.612},
    Alike{"FTZ", 0.611, 0.612},
    Alike{"&ABEKPSVXY", 0.668, 0.723},
    Alike{"CDHNRUw", 0.723, 0.779},
    Alike{"GOQ", 0.779, 0.779},
    Alike{"Mm%", 0.890, 0.890},
    Alike{"W", 0.945, 0.945},
};
constexpr double widest_of_ascii = 1.016;  // "@"

/// Signs of the trade outside ASCII, and stretches of letters.
struct Stretch {
  char32_t first, last;
  double width;
};
constexpr std::array others{
    Stretch{0x00B0, 0x00B0, 0.401},  // °
    Stretch{0x00B1, 0x00B1, 0.550},  // ±
    Stretch{0x00B2, 0x00B3, 0.400},  // raised 2 and 3
    Stretch{0x00B5, 0x00B5, 0.612},  // µ
    Stretch{0x00B7, 0x00B7, 0.334},  // raised dot
    Stretch{0x00D7, 0x00D7, 0.585},  // ×
    Stretch{0x00C0, 0x00C5, 0.723}, Stretch{0x00C6, 0x00C6, 1.001}, Stretch{0x00C7, 0x00DE, 0.779},
    Stretch{0x00DF, 0x00DF, 0.612}, Stretch{0x00E0, 0x00E5, 0.557}, Stretch{0x00E6, 0x00E6, 0.890},
    Stretch{0x00E7, 0x00FF, 0.612}, Stretch{0x0391, 0x03A9, 0.930}, Stretch{0x03B1, 0x03C9, 0.800},
    Stretch{0x2013, 0x2013, 0.557},  // –
    Stretch{0x2260, 0x2265, 0.585},  // ≠ ≤ ≥
};
constexpr double widest_of_others = 1.12;

double width_of(char32_t c, bool bold) {
  if (c < 0x80) {
    const char letter = static_cast<char>(c);
    for (const Alike& a : ascii) {
      if (a.letters.find(letter) != std::string_view::npos) return bold ? a.bold : a.regular;
    }
    return widest_of_ascii;
  }
  for (const Stretch& s : others) {
    if (c >= s.first && c <= s.last) return s.width;
  }
  return widest_of_others;
}

constexpr std::string_view ellipsis = "…";

/// As many letters from the front as fit, but at least one.
std::string_view front_that_fits(std::string_view text, double width, double size, bool bold) {
  std::string_view rest = text;
  double used = 0.0;
  while (!rest.empty()) {
    std::string_view after = rest;
    used += size * width_of(next_character(after), bold);
    if (used > width && rest.size() != text.size()) break;
    rest = after;
  }
  return text.substr(0, text.size() - rest.size());
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  while (true) {
    const std::size_t start = text.find_first_not_of(' ');
    if (start == std::string_view::npos) return words;
    text.remove_prefix(start);
    words.push_back(text.substr(0, text.find(' ')));
    text.remove_prefix(words.back().size());
  }
}

/// Words with one blank between them.
std::string tidied(std::string_view text) {
  std::string all;
  for (const std::string_view word : words_of(text)) {
    if (!all.empty()) all += ' ';
    all += word;
  }
  return all;
}

/// Lines of a tidied text.
std::vector<std::string> broken_into_lines(std::string_view text, double width, double size, bool bold) {
  std::vector<std::string> lines;
  std::string line;
  for (std::string_view word : words_of(text)) {
    const std::string longer = line.empty() ? std::string(word) : line + " " + std::string(word);
    if (text_width(longer, size, bold) <= width) {
      line = longer;
      continue;
    }
    if (!line.empty()) lines.push_back(line);
    while (text_width(word, size, bold) > width) {
      const std::string_view front = front_that_fits(word, width, size, bold);
      lines.emplace_back(front);
      word.remove_prefix(front.size());
    }
    line = word;
  }
  if (!line.empty() || lines.empty()) lines.push_back(line);
  return lines;
}

std::string cut(std::string_view line, double width, double size, bool bold) {
  const double room = std::max(0.0, width - text_width(ellipsis, size, bold));
  std::string_view front = front_that_fits(line, room, size, bold);
  while (front.ends_with(' ')) front.remove_suffix(1);
  return std::string(front) + std::string(ellipsis);
}

/// At the smallest letters, the last line cut wherever its place ends.
Fitted cut_to(std::string_view text, const Place& place) {
  std::vector<std::string> lines = broken_into_lines(text, place.width, place.least, place.bold);
  lines.resize(std::max<std::size_t>(1, place.most_lines));
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    text.remove_prefix(lines[i].size());
    if (text.starts_with(' ')) text.remove_prefix(1);
  }
  lines.back() = cut(text, place.width, place.least, place.bold);
  return {place.least, std::move(lines)};
}

std::optional<Fitted> in_lines(std::string_view text, const Place& place, std::size_t most) {
  constexpr double smaller = 0.95;
  for (double size = place.size;; size = std::max(place.least, size * smaller)) {
    std::vector<std::string> lines = broken_into_lines(text, place.width, size, place.bold);
    if (lines.size() <= most && text_height(lines.size(), size) <= place.height)
      return Fitted{size, std::move(lines)};
    if (size <= place.least) return std::nullopt;
  }
}

}  // namespace

double text_width(std::string_view utf8, double size, bool bold) {
  double shares = 0.0;
  while (!utf8.empty()) shares += width_of(next_character(utf8), bold);
  return size * shares;
}

double text_height(std::size_t lines, double size) {
  return size * (capital_share + tail_share + pitch_share * static_cast<double>(lines - 1));
}

Fitted fitted(std::string_view utf8, const Place& place) {
  const std::string text = tidied(sound(utf8));
  for (std::size_t most = 1; most <= place.most_lines; ++most) {
    if (const auto fit = in_lines(text, place, most)) return *fit;
  }
  return cut_to(text, place);
}

}  // namespace poise::draw
