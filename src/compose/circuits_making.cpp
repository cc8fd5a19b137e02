// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/circuits_making.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "compose/circuits_blocks.hpp"
#include "compose/tags.hpp"
#include "parts/laws.hpp"

namespace poise::compose {
namespace {

/// The first of a row that is at least as much; beyond the row the value itself, upwards to two figures.
template <std::size_t n>
double at_least(const std::array<double, n>& row, double value) {
  const auto found = std::ranges::find_if(row, [&](double each) { return each >= value * 0.999; });
  if (found != row.end()) return *found;
  const double step = std::pow(10.0, std::floor(std::log10(value)) - 1.0);
  return step * std::ceil(value / step - 1e-6);
}

/// Rated flows that valves come with, L/min: common practice.
constexpr std::array<double, 14> flows{3, 6, 10, 16, 25, 40, 63, 100, 160, 250, 400, 630, 1000, 1600};
/// Classes of pressure, bar and psi.
constexpr std::array<double, 6> classes{160, 250, 315, 350, 420, 700};
constexpr std::array<double, 5> us_classes{2500, 3500, 5000, 6000, 10000};
/// Full scales of gauges, bar and psi.
constexpr std::array<double, 8> dials{40, 60, 100, 160, 250, 400, 600, 1000};
constexpr std::array<double, 7> us_dials{600, 1000, 1500, 3000, 5000, 10000, 15000};
/// Bores of hoses, mm and inches.
constexpr std::array<double, 10> bores{6, 8, 10, 12, 16, 20, 25, 32, 40, 50};
constexpr std::array<double, 9> us_bores{0.25, 0.375, 0.5, 0.625, 0.75, 1, 1.25, 1.5, 2};

constexpr double psi = 6894.757;

/// To two figures, and to whole ones from there on.
double rounded(double value) {
  const double step = std::min(1.0, std::pow(10.0, std::floor(std::log10(value)) - 1.0));
  return step * std::round(value / step);
}

bool is_us(const Wanted& wanted) { return wanted.job.world.name == units::us().name; }

}  // namespace

std::vector<int> Branch::members() const {
  std::vector<int> all;
  for (const auto& stage : stages) all.insert(all.end(), stage.begin(), stage.end());
  return all;
}

Making::Making(const Wanted& what, std::vector<int> ways) : wanted(what), ways_(std::move(ways)) {
  for (int s = 0; s < static_cast<int>(wanted.job.steps.size()); ++s) steps.push_back({.step = s});
}

int Making::way_of(std::string_view block) const {
  const auto& all = blocks();
  const auto found = std::ranges::find(all, block, &Block::name);
  return ways_[static_cast<std::size_t>(found - all.begin())];
}

void Making::put_step(std::size_t before, RunStep step, std::size_t like) {
  const auto at = [&](auto& list, std::size_t i) { return list.begin() + static_cast<std::ptrdiff_t>(i); };
  for (Branch& branch : branches) {
    const Goes goes = branch.goes[like];
    branch.goes.insert(at(branch.goes, before), goes);
  }
  step.step = steps[before].step;
  steps.insert(at(steps, before), std::move(step));
}

std::string Making::next_tag_of(std::string_view kind) const {
  Sheet sheet;
  for (const PlannedPart& part : wanted.job.plan.parts) sheet.parts.push_back({.tag = part.tag});
  for (const Part& part : parts) sheet.parts.push_back({.tag = part.tag});
  for (const Line& line : lines) {
    if (!line.tag.empty()) sheet.parts.push_back({.tag = line.tag});
  }
  return next_tag(sheet, kind);
}

std::string Making::add(std::string_view kind, std::string_view note, PartValues values) {
  Part part{.tag = next_tag_of(kind), .kind = kind};
  part.values.emplace_back("kind", text(std::string(kind)));
  if (!note.empty()) part.values.emplace_back("note", text(std::string(note)));
  for (auto& value : values) part.values.push_back(std::move(value));
  parts.push_back(std::move(part));
  return parts.back().tag;
}

void Making::join(std::vector<std::string> ports) {
  const auto shares = [&](const Line& line) {
    return line.hose.empty() && std::ranges::any_of(line.ports, [&](const std::string& each) {
             return std::ranges::find(ports, each) != ports.end();
           });
  };
  const auto found = std::ranges::find_if(lines, shares);
  if (found == lines.end()) {
    lines.push_back({.ports = std::move(ports)});
    return;
  }
  // One entry for one line of oil: all others that are joined now as well come into it.
  const auto take = [&](Line& line, const std::vector<std::string>& more) {
    for (const std::string& port : more) {
      if (std::ranges::find(line.ports, port) == line.ports.end()) line.ports.push_back(port);
    }
  };
  take(*found, ports);
  const auto first = static_cast<std::size_t>(found - lines.begin());
  for (std::size_t other = first + 1; other < lines.size();) {
    if (!shares(lines[other])) {
      ++other;
      continue;
    }
    take(lines[first], lines[other].ports);
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(other));
  }
}

void Making::lay_hose(const std::string& from, const std::string& to, double flow) {
  constexpr double fast = 4.0;  // m/s
  constexpr double inch = 25.4 * si::mm;
  const double wide = std::sqrt(4.0 / 3.14159 * flow / fast);
  const std::string bore = is_us(wanted) ? fmt::format("{:g} in", at_least(us_bores, wide / inch))
                                         : fmt::format("{:g} mm", at_least(bores, wide / si::mm));
  PartValues hose{{"bore", text(bore)},
                  {"length", text(is_us(wanted) ? "6 ft" : "2 m")},
                  {"rated_pressure", text(rated_pressure())}};
  const std::string tag = next_tag_of("hose");
  lines.push_back({{from, to}, std::move(hose), tag});
}

void Making::because(const std::string& tag, std::string_view block, std::string sentence) {
  reasons.push_back({tag, std::string(block), std::move(sentence)});
}

void Making::control(std::string when, std::string tag, std::string value) {
  controls.push_back({std::move(when), std::move(tag), std::move(value)});
}

std::string Making::say(double value, Quantity quantity, int towards) const {
  const std::string& unit = wanted.job.world[quantity];
  const double number = units::in_unit(value, quantity, wanted.job.world);
  if (number == 0.0) return "0 " + unit;
  const double step = std::pow(10.0, std::floor(std::log10(std::abs(number))) - 1.0);
  const double count = number / step;
  const double whole = towards > 0   ? std::ceil(count - 1e-6)
                       : towards < 0 ? std::floor(count + 1e-6)
                                     : std::round(count);
  return fmt::format("{:.10g} {}", whole * step, unit);
}

std::string Making::say_litres(double volume) const {
  constexpr double gallon = 3.785411784e-3;
  return is_us(wanted) ? fmt::format("{:g} gal", std::ceil(volume / gallon - 1e-6))
                       : fmt::format("{:g} L", std::ceil(volume / si::litre - 1e-6));
}

std::string Making::rated_flow(double flow) const {
  const double rated = at_least(flows, 1.5 * flow / si::litre_per_minute);
  return is_us(wanted) ? fmt::format("{:g} gpm", rounded(rated / 3.785)) : fmt::format("{:g} L/min", rated);
}

std::string Making::rated_pressure() const {
  // Above the highest class nothing more is to be had than what the weakest actuator is rated for.
  constexpr double highest = 700 * si::bar;
  const double wants = std::max(wanted.rating, std::min(1.25 * main(), highest));
  return is_us(wanted) ? fmt::format("{:g} psi", at_least(us_classes, wants / psi))
                       : fmt::format("{:g} bar", at_least(classes, wants / si::bar));
}

std::string Making::dial(double reads) const {
  const double wants = 1.4 * reads;
  return is_us(wanted) ? fmt::format("{:g} psi", at_least(us_dials, wants / psi))
                       : fmt::format("{:g} bar", at_least(dials, wants / si::bar));
}

double Making::main() const {
  return std::min(std::max(1.3 * wanted.pressure, wanted.pressure + 10 * si::bar), 0.85 * wanted.rating);
}

void Making::gauge_at(const std::string& port, const std::string& note, std::string sentence,
                      std::string_view block, double reads) {
  if (reads == 0.0) reads = 1.07 * main();
  const std::string gauge = add("gauge", note, {{"range", text(dial(reads))}});
  join({port, gauge + ".M"});
  because(gauge, block, fmt::format("{} {}", gauge, sentence));
}

std::string Making::needle_to_tank(const std::string& port, const std::string& note) {
  const std::string needle = add("needle", note,
                                 {{"bore", text(say(1 * si::mm, Quantity::length))},
                                  {"turns", text("0 turns")},
                                  {"rated_pressure", text(rated_pressure())}});
  join({port, needle + ".A"});
  to_tank(needle + ".B");
  return needle;
}

double Making::bore_passing(double flow, double drop, double open) const {
  const double density = wanted.job.plan.oil.density_15;
  const double area = flow / (Orifice{}.discharge * std::sqrt(2.0 * drop / density)) / open;
  return std::sqrt(4.0 / std::numbers::pi * area);
}

void Making::guard(const std::string& port, const std::string& note, std::string sentence) {
  constexpr double under_rating = 0.88;  // with its band of a tenth below the weakest part
  const std::string relief =
      add("relief", note,
          {{"setting", text(say(under_rating * wanted.rating, Quantity::pressure, -1))},
           {"rated_flow", text(rated_flow(wanted.flow))},
           {"rated_pressure", text(rated_pressure())}});
  join({port, relief + ".P"});
  to_tank(relief + ".T");
  because(relief, "relieve", fmt::format("{} {}", relief, sentence));
}

void Making::finish() {
  std::vector<std::string> ports{tank};
  ports.insert(ports.end(), tank_.begin(), tank_.end());
  join(std::move(ports));
}

}  // namespace poise::compose
