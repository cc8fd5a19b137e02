// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace poise::reference {
namespace {

constexpr std::size_t line_length = 100;

std::string in_both(std::string metric, const std::string& us) {
  return metric == us ? metric : fmt::format("{} ({})", metric, us);
}

std::string value_of(double value, const Parameter& p) {
  if (!p.words.empty()) return std::string(p.words[static_cast<std::size_t>(value)]);
  return both(value, p.quantity);
}

std::size_t characters(std::string_view text) {
  // Bytes that go on with a character of UTF-8 are not counted.
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](unsigned char c) { return (c & 0xC0U) != 0x80U; }));
}

}  // namespace

std::string title_of(std::string_view kind) {
  std::string title(kind);
  std::ranges::replace(title, '_', ' ');
  if (title.front() >= 'a' && title.front() <= 'z')
    title.front() = static_cast<char>(title.front() - 'a' + 'A');
  return title;
}

std::string running(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (c == '*' || c == '_' || c == '<' || c == '\\' || c == '`') out += '\\';
    out += c;
  }
  return out;
}

std::string cell(std::string_view text) {
  std::string out;
  for (char c : running(text)) {
    if (c == '|') out += '\\';
    out += c;
  }
  return out;
}

std::string wrapped(std::string_view text) {
  std::string out, line;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    if (!line.empty() && characters(line) + characters(word) + 1 > line_length) {
      out += line + "\n";
      line.clear();
    }
    if (!line.empty()) line += ' ';
    line += word;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out + line;
}

std::string both(double value, Quantity quantity) {
  return in_both(units::show(value, quantity, units::metric()), units::show(value, quantity, units::us()));
}

std::string default_of(const Parameter& p) {
  if (p.fallback) return value_of(*p.fallback, p);
  if (!p.instead.empty()) return fmt::format("must be given, or {}", p.instead);
  return p.optional ? "may be left out" : "must be given";
}

std::string range_of(const Parameter& p) {
  if (p.against) return fmt::format("points of {} and {}", units::name(p.quantity), units::name(*p.against));
  if (p.words.empty()) {
    const auto range_in = [&](const units::World& world) {
      return units::show(p.low, p.quantity, world) + " … " + units::show(p.high, p.quantity, world);
    };
    return in_both(range_in(units::metric()), range_in(units::us()));
  }
  std::string all;
  for (std::string_view word : p.words) all += (all.empty() ? "" : ", ") + std::string(word);
  return all;
}

std::string size_of(const Fault& f, const Parameter& p) {
  const auto one = [&](double size) -> std::string {
    if (f.change == Fault::Change::times) return fmt::format("× {:.4g}", size);
    if (f.change == Fault::Change::becomes) return value_of(size, p);
    const std::string_view sign = size < 0.0 ? "" : "+";
    return std::string(sign) + in_both(units::show_difference(size, p.quantity, units::metric()),
                                       units::show_difference(size, p.quantity, units::us()));
  };
  const std::string slight = one(f.slight), grave = one(f.grave);
  return slight == grave ? slight : slight + " … " + grave;
}

std::string signal_names(const Port& port, const Kind& kind) {
  const bool oil = port.domain == Domain::oil;
  const bool alone = (oil ? kind.oil_ports : kind.motion_ports) == 1;
  const std::string before = alone ? "" : std::string(port.name) + ".";
  return fmt::format("{0}{1}`, `{0}{2}", before, oil ? "pressure" : "position", oil ? "flow" : "speed");
}

}  // namespace poise::reference
