// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "support/made_up_job.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "job/oil_table.hpp"

namespace poise::made_up {
namespace {

const Parameter& parameter_of(std::span<const Parameter> table, std::string_view name) {
  const auto index = find_parameter(table, name);
  if (!index) throw std::logic_error(fmt::format("no parameter {}", name));
  return table[static_cast<std::size_t>(*index)];
}

double number_of(const Parameter& parameter, const Said& said) {
  if (const auto* number = std::get_if<double>(&said)) return *number;
  const auto word = std::ranges::find(parameter.words, std::get<std::string_view>(said));
  if (word == parameter.words.end())
    throw std::logic_error(fmt::format("no word {} of {}", std::get<std::string_view>(said), parameter.name));
  return static_cast<double>(word - parameter.words.begin());
}

std::string entry(const std::pair<std::string, std::string>& line) {
  return line.first + " = " + line.second + '\n';
}

std::string tables(std::string_view heading, const std::vector<MadeUpJob::Lines>& all) {
  std::string text;
  for (const MadeUpJob::Lines& lines : all) {
    text += fmt::format("\n[[{}]]\n", heading);
    for (const auto& line : lines) text += entry(line);
  }
  return text;
}

}  // namespace

Values values_of(const Kind& kind, const Sheet& sheet) {
  std::vector<double> numbers;
  for (const Parameter& p : kind.parameters)
    numbers.push_back(p.fallback.value_or(std::numeric_limits<double>::quiet_NaN()));
  Values values(kind.parameters, numbers);
  for (const auto& [name, said] : sheet) {
    const Parameter& parameter = parameter_of(kind.parameters, name);
    const int index = static_cast<int>(&parameter - kind.parameters.data());
    if (const auto* points = std::get_if<Points>(&said)) {
      values.set_points(index, *points);
    } else {
      values.set(index, number_of(parameter, said));
    }
  }
  return values;
}

std::string quoted(std::string_view text) { return fmt::format("\"{}\"", text); }

std::string listed(const std::vector<std::string>& texts) {
  if (texts.size() == 1) return quoted(texts.front());
  return fmt::format("[\"{}\"]", fmt::join(texts, "\", \""));
}

std::string table_of(const MadeUpJob::Lines& entries) {
  std::vector<std::string> texts;
  for (const auto& [key, value] : entries) {
    const bool plain = key.find('.') == std::string::npos;
    texts.push_back((plain ? key : quoted(key)) + " = " + value);
  }
  return fmt::format("{{ {} }}", fmt::join(texts, ", "));
}

MadeUpJob::MadeUpJob(std::string title, bool us, bool tidy)
    : title_(std::move(title)), us_(us), tidy_(tidy), world_(us ? units::us() : units::metric()) {}

std::string MadeUpJob::put(std::string_view letter, std::string_view kind, const Sheet& sheet) {
  const std::string tag = fmt::format("{}{}", letter, ++made_);
  add(tag, *find_kind(kind), sheet);
  return tag;
}

std::string MadeUpJob::line(std::string_view letter, std::string_view kind, const std::string& from,
                            const std::string& to, const Sheet& sheet) {
  const std::string tag = fmt::format("{}{}", letter, ++made_);
  add(tag, *find_kind(kind), sheet, true);
  conduits_.push_back({std::string(kind), from, to, tag});
  return tag;
}

double MadeUpJob::tidied(double si, Quantity quantity) const {
  if (!tidy_) return si;
  const std::string text = bare(si, quantity);
  return units::read(text, quantity).value.value_or(si);
}

void MadeUpJob::add(const std::string& tag, const Kind& kind, Sheet sheet, bool in_a_line) {
  for (auto& [name, said] : sheet) {
    const Parameter& parameter = parameter_of(kind.parameters, name);
    if (auto* number = std::get_if<double>(&said)) *number = tidied(*number, parameter.quantity);
    if (auto* points = std::get_if<Points>(&said)) {
      for (CurvePoint& point : *points)
        point = {tidied(point.x, parameter.quantity), tidied(point.y, *parameter.against)};
    }
  }
  plan.parts.push_back({tag, &kind, values_of(kind, sheet), {}});
  sheets_.push_back(std::move(sheet));
  in_a_line_.push_back(in_a_line);
}

void MadeUpJob::oil(std::string_view key, Said said) { oil_.emplace_back(key, std::move(said)); }

std::string MadeUpJob::bare(double si, Quantity quantity) const {
  const bool plain = quantity == Quantity::none;
  const double number = plain ? si : units::in_unit(si, quantity, world_);
  const std::string figures = tidy_ ? fmt::format("{:.4g}", number) : fmt::format("{}", number);
  return plain ? figures : figures + ' ' + world_[quantity];
}

std::string MadeUpJob::value(double si, Quantity quantity) const {
  const std::string text = bare(si, quantity);
  return quantity == Quantity::none ? text : quoted(text);
}

std::string MadeUpJob::said_in_words(const Parameter& parameter, const Said& said) const {
  if (const auto* word = std::get_if<std::string_view>(&said)) return quoted(*word);
  if (const auto* number = std::get_if<double>(&said)) {
    if (!parameter.words.empty()) return quoted(parameter.words[static_cast<std::size_t>(*number)]);
    return value(*number, parameter.quantity);
  }
  std::vector<std::string> points;
  for (const CurvePoint& point : std::get<Points>(said))
    points.push_back(
        fmt::format("[{}, {}]", value(point.x, parameter.quantity), value(point.y, *parameter.against)));
  return fmt::format("[{}]", fmt::join(points, ", "));
}

std::string MadeUpJob::sheet_in_words(int part, std::string_view between) const {
  const auto index = static_cast<std::size_t>(part);
  std::vector<std::string> texts;
  for (const auto& [name, said] : sheets_[index])
    texts.push_back(fmt::format("{} = {}", name,
                                said_in_words(parameter_of(plan.parts[index].kind->parameters, name), said)));
  return fmt::format("{}", fmt::join(texts, between));
}

std::string MadeUpJob::text() const {
  std::string text = fmt::format("title = {}\nunits = \"{}\"\n", quoted(title_), us_ ? "us" : "metric");
  if (!plugged_.empty()) text += fmt::format("plugged = [\"{}\"]\n", fmt::join(plugged_, "\", \""));
  text += "\n[oil]\n";
  for (const auto& [key, said] : oil_)
    text += entry({std::string(key), said_in_words(parameter_of(oil_parameters(), key), said)});
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    if (in_a_line_[i]) continue;
    text += fmt::format("\n[parts.{}]\nkind = \"{}\"\n", plan.parts[i].tag, plan.parts[i].kind->about.kind);
    const std::string sheet = sheet_in_words(static_cast<int>(i), "\n");
    text += sheet.empty() ? "" : sheet + '\n';
  }
  auto groups = groups_;
  if (tank.size() > 1) groups.insert(groups.begin(), tank);
  for (const auto& group : groups)
    text += fmt::format("\n[[lines]]\nfrom = {}\nto = {}\n", quoted(group.front()),
                        listed({group.begin() + 1, group.end()}));
  for (const Conduit& conduit : conduits_) {
    const auto part = std::ranges::find(plan.parts, conduit.tag, &PlannedPart::tag);
    text += fmt::format("\n[[lines]]\nfrom = \"{}\"\nto = \"{}\"\ntag = \"{}\"\n{} = {{ {} }}\n",
                        conduit.from, conduit.to, conduit.tag, conduit.kind,
                        sheet_in_words(static_cast<int>(part - plan.parts.begin()), ", "));
  }
  return text + tables("steps", steps_) + tables("controls", controls_) + tables("require", requirements_);
}

}  // namespace poise::made_up
