// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/wording.hpp"

#include <array>

#include <fmt/format.h>

#include <algorithm>

#include "judge/wording.hpp"

namespace poise::reference {
namespace {

std::string in_both(std::string metric, const std::string& us) {
  return metric == us ? metric : fmt::format("{} ({})", metric, us);
}

std::string value_of(double value, const Parameter& p) {
  if (!p.words.empty()) return std::string(p.words[static_cast<std::size_t>(value)]);
  return both(value, p.quantity);
}

}  // namespace

std::string title_of(std::string_view kind) {
  std::string title(kind);
  const auto is_figure = [](char c) { return c >= '0' && c <= '9'; };
  for (std::size_t i = 1; i + 1 < title.size(); ++i) {
    if (title[i] == '_' && is_figure(title[i - 1]) && is_figure(title[i + 1])) title[i] = '/';
  }
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

std::string both(double value, Quantity quantity) {
  return in_both(units::show(value, quantity, units::metric()), units::show(value, quantity, units::us()));
}

std::string default_of(const Parameter& p, const units::World& world) {
  if (!p.fallback && !p.instead.empty()) return fmt::format("must be given, or {}", p.instead);
  if (!p.fallback) return p.optional ? "may be left out" : "must be given";
  if (!p.words.empty()) return std::string(p.words[static_cast<std::size_t>(*p.fallback)]);
  return units::show(*p.fallback, p.quantity, world);
}

std::string default_of(const Parameter& p) {
  return in_both(default_of(p, units::metric()), default_of(p, units::us()));
}

std::string range_of(const Parameter& p, const units::World& world) {
  if (p.against) return fmt::format("points of {} and {}", units::name(p.quantity), units::name(*p.against));
  if (!p.words.empty()) return fmt::format("{}", fmt::join(p.words, ", "));
  return fmt::format("{} … {}", units::show(p.low, p.quantity, world),
                     units::show(p.high, p.quantity, world));
}

std::string found_as(const Parameter& p) {
  std::string text = p.adjusted ? "; a setting" : "";
  if (p.series != Series::general) text += fmt::format("; {}", name_of(p.series, false));
  if (!p.tolerance.exact()) text += "; " + poise::wording::of(p.tolerance, p.quantity, units::metric());
  return text;
}

std::string range_of(const Parameter& p) {
  return in_both(range_of(p, units::metric()), range_of(p, units::us()));
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

std::string turn_of(const Adjusting& adjusting) {
  static constexpr std::array turns{
      "1st of 8, with the precharges",      "2nd of 8, with the relief valves",   "3rd of 8, with the pumps",
      "4th of 8, with the reducing valves", "5th of 8, with the sequence valves", "6th of 8, with the flows",
      "7th of 8, with what holds loads",    "8th of 8, with the contacts"};
  return turns[static_cast<std::size_t>(adjusting.turn)];
}

std::string read_by(const Adjusting& adjusting) {
  if (adjusting.port.empty()) return "a stop-watch";
  if (adjusting.turn == Adjusting::Turn::precharge) return "a gauge at its gas valve";
  return "the gauge at " + std::string(adjusting.port);
}

std::string_view safe_side(const Adjusting& adjusting) {
  if (adjusting.safe == Adjusting::Safe::lower) return "down";
  return adjusting.safe == Adjusting::Safe::higher ? "up" : "neither";
}

std::string signal_names(const Port& port, const Kind& kind) {
  const bool oil = port.domain == Domain::oil;
  const bool alone = (oil ? kind.oil_ports : kind.motion_ports) == 1;
  const std::string before = alone ? "" : std::string(port.name) + ".";
  return fmt::format("{0}{1}`, `{0}{2}", before, oil ? "pressure" : "position", oil ? "flow" : "speed");
}

}  // namespace poise::reference
