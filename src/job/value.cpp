// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "units/complaint.hpp"
#include "units/text.hpp"

namespace poise::job {
namespace {

// A limit that is written in another unit than the table's may miss it by the last digits of the conversion.
constexpr double rounding = 1e-9;
constexpr double largest_y = 1e12;

std::vector<std::string> words_of(const Parameter& parameter) {
  return {parameter.words.begin(), parameter.words.end()};
}

std::string range_of(const Parameter& parameter, const units::World& world) {
  const std::string low = units::show(parameter.low, parameter.quantity, world);
  if (std::isinf(parameter.high)) return fmt::format("it must be at least {}", low);
  return fmt::format("it must be {} … {}", low, units::show(parameter.high, parameter.quantity, world));
}

bool is_in_range(double value, const Parameter& parameter) {
  return value >= parameter.low - rounding * std::abs(parameter.low) &&
         value <= parameter.high + rounding * std::abs(parameter.high);
}

std::string number_text(double number) { return fmt::format("{}", number); }

// The value of the node or the sentence that says what is wrong with it.
units::Reading read_node(const Node& node, const Parameter& parameter) {
  if (node.form == Node::Form::text) return units::read(node.text, parameter.quantity);
  if (node.form != Node::Form::number) {
    return {{}, fmt::format("found {}; {}", form_of(node), units::expected(parameter.quantity))};
  }
  if (parameter.quantity == Quantity::none) {
    if (!std::isfinite(node.number))
      return {{}, fmt::format("{} is no number to work with", number_text(node.number))};
    return {node.number, {}};
  }
  return {{},
          fmt::format("{} has no unit; {}, in quotation marks", number_text(node.number),
                      units::expected(parameter.quantity))};
}

std::optional<double> read_word(const Node& node, const Parameter& parameter, const std::string& owner,
                                Remarks& remarks) {
  const std::vector<std::string> words = words_of(parameter);
  std::string found(form_of(node));
  if (node.form == Node::Form::text) {
    const auto word = std::ranges::find(words, node.text);
    if (word != words.end()) return static_cast<double>(word - words.begin());
    found = quote(node.text);
  }
  remarks.push_back({node.place, fmt::format("{} of {}: found {}; expected {}", parameter.name, owner, found,
                                             listed(words))});
  return std::nullopt;
}

}  // namespace

std::optional<double> read_value(const Node& node, const Parameter& parameter, const std::string& owner,
                                 const units::World& world, Remarks& remarks) {
  if (!parameter.words.empty()) return read_word(node, parameter, owner, remarks);
  const units::Reading reading = read_node(node, parameter);
  if (!reading.value) {
    remarks.push_back({node.place, fmt::format("{} of {}: {}", parameter.name, owner, reading.complaint)});
    return std::nullopt;
  }
  if (!is_in_range(*reading.value, parameter)) {
    const std::string said =
        node.form == Node::Form::text ? std::string(units::trimmed(node.text)) : number_text(node.number);
    remarks.push_back({node.place, fmt::format("{} of {} is {}; {}", parameter.name, owner, said,
                                               range_of(parameter, world))});
    return std::nullopt;
  }
  return std::clamp(*reading.value, parameter.low, parameter.high);
}

bool is_open(const Node& node, const Parameter& parameter) {
  return node.form == Node::Form::text && units::trimmed(node.text) == "find" &&
         std::ranges::find(parameter.words, "find") == parameter.words.end();
}

std::optional<Points> read_points(const Node& node, const Parameter& parameter, const std::string& owner,
                                  const units::World& world, Remarks& remarks) {
  const auto complain = [&](Place place, std::string_view sentence) {
    remarks.push_back({place, fmt::format("{} of {}: {}", parameter.name, owner, sentence)});
  };
  const std::string expected = fmt::format("expected {}", wanted(parameter));
  if (node.form != Node::Form::list) {
    complain(node.place, fmt::format("found {}; {}", form_of(node), expected));
    return std::nullopt;
  }
  Parameter second{
      .name = parameter.name, .quantity = *parameter.against, .low = -largest_y, .high = largest_y};
  Points points;
  bool good = true;
  for (const Node& pair : node.items) {
    if (pair.form != Node::Form::list || pair.items.size() != 2) {
      complain(pair.place, fmt::format("each point is a pair; {}", expected));
      return std::nullopt;
    }
    const auto x = read_value(pair.items[0], parameter, owner, world, remarks);
    const auto y = read_value(pair.items[1], second, owner, world, remarks);
    good = good && x && y;
    if (x && y) points.push_back({*x, *y});
  }
  if (!good) return std::nullopt;
  if (points.size() < parameter.fewest_points) {
    complain(node.place, fmt::format("{} points are needed at least; {}", parameter.fewest_points, expected));
    return std::nullopt;
  }
  for (std::size_t i = 1; i < points.size() && parameter.rising; ++i) {
    if (points[i].x > points[i - 1].x) continue;
    complain(node.items[i].place, "the points must stand in rising order of their first value");
    return std::nullopt;
  }
  return points;
}

const Kind* known_kind(const Text& word, Remarks& remarks) {
  if (const Kind* kind = find_kind(word.value)) return kind;
  std::vector<std::string> known;
  for (const Kind& each : all_kinds()) known.emplace_back(each.about.kind);
  remarks.push_back(
      {word.place, fmt::format("there is no kind of part {}{}", quote(word.value), hint(word.value, known))});
  return nullptr;
}

std::optional<double> read_quantity(const Text& text, Quantity quantity, const std::string& what,
                                    Remarks& remarks) {
  const units::Reading reading = units::read(text.value, quantity);
  if (!reading.value) remarks.push_back({text.place, fmt::format("{}: {}", what, reading.complaint)});
  return reading.value;
}

std::string wanted(const Parameter& parameter) {
  if (!parameter.words.empty()) return listed(words_of(parameter));
  if (parameter.against) {
    return fmt::format("points such as [[\"{}\", \"{}\"], ...]", units::example(parameter.quantity),
                       units::example(*parameter.against));
  }
  return fmt::format("{} such as \"{}\"", units::with_article(units::name(parameter.quantity)),
                     units::example(parameter.quantity));
}

}  // namespace poise::job
