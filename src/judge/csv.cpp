// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/csv.hpp"

#include <fmt/format.h>

#include <cmath>
#include <iterator>

namespace poise {
namespace {

/// The straight line from SI to a unit: its two numbers are asked for once, not for every value.
struct Line {
  double zero, slope;

  Line(Quantity quantity, const units::World& world)
      : zero(units::in_unit(0.0, quantity, world)), slope(units::difference_in_unit(1.0, quantity, world)) {}
  double operator()(double value) const {
    const double number = zero + slope * value;
    return std::abs(number) < 1e-12 * std::abs(zero) ? 0.0 : number;
  }
};

std::string quoted(const std::string& field) {
  if (field.find_first_of(",\"\n\r") == std::string::npos) return field;
  std::string text = "\"";
  for (const char c : field) text += c == '"' ? std::string("\"\"") : std::string(1, c);
  return text + '"';
}

std::string heading(const Signal& signal, const units::World& world) {
  const std::string& unit = world[signal.quantity];
  return quoted(unit.empty() ? signal.name : fmt::format("{} [{}]", signal.name, unit));
}

}  // namespace

void write_csv(std::ostream& out, const Trace& trace, const units::World& world) {
  std::vector<Line> lines;
  std::string text = "time [s]";
  for (const Signal& signal : trace.signals) {
    text += ',' + heading(signal, world);
    lines.emplace_back(signal.quantity, world);
  }
  out << text << '\n';
  for (std::size_t row = 0; row < trace.time.size(); ++row) {
    text.clear();
    fmt::format_to(std::back_inserter(text), "{:.9g}", trace.time[row]);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const double number = lines[i](trace.values[i][row]);
      text += ',';
      if (std::isfinite(number)) fmt::format_to(std::back_inserter(text), "{:.9g}", number);
    }
    out << text << '\n';
  }
}

}  // namespace poise
