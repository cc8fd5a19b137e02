// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/schema_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "job/keys.hpp"
#include "job/tolerance.hpp"
#include "reference/wording.hpp"
#include "units/catalogue.hpp"
#include "units/complaint.hpp"
#include "units/pattern.hpp"

namespace poise::reference {
namespace {

std::string definition_of(Quantity quantity) { return "quantity." + job::unit_key(quantity); }

/// What a difference of two values is measured in.
Quantity difference_of(const Parameter& parameter) {
  const Quantity quantity = parameter.against.value_or(parameter.quantity);
  return quantity == Quantity::temperature ? Quantity::warming : quantity;
}

std::string tolerance_definition(Quantity quantity) { return "tolerance." + job::unit_key(quantity); }

std::string without_dot(std::string_view sentence) {
  return std::string(sentence.ends_with('.') ? sentence.substr(0, sentence.size() - 1) : sentence);
}

/// What an editor shows of a value: what it is, in what it is measured, its default, its range.
std::string description_of(const Parameter& p) {
  std::string text = without_dot(p.meaning) + '.';
  text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  if (p.words.empty() && p.quantity != Quantity::none && !p.against)
    text += fmt::format(" Written with its unit: \"{}\".", units::example(p.quantity));
  if (p.against)
    text += fmt::format(" At least {} points: [[\"{}\", \"{}\"], ...].", p.fewest_points,
                        units::example(p.quantity), units::example(*p.against));
  text += p.fallback ? fmt::format(" Default {}", default_of(p))
                     : fmt::format(" {}", p.optional ? "May be left out"
                                                     : "M" + default_of(p, units::metric()).substr(1));
  text += p.words.empty() && !p.against ? fmt::format("; range {}.", range_of(p)) : ".";
  if (p.set_by_steps) text += " Steps may set it.";
  return text;
}

/// The default as a job would state it; null where that would be rounded.
Json default_as_written(const Parameter& p) {
  if (!p.fallback || p.against) return nullptr;
  if (!p.words.empty()) return p.words[static_cast<std::size_t>(*p.fallback)];
  if (p.quantity == Quantity::none) return *p.fallback;
  const std::string text = units::show(*p.fallback, p.quantity, units::metric());
  const auto read = units::read(text, p.quantity).value;
  constexpr double rounding = 1e-9;
  if (!read || std::abs(*read - *p.fallback) > rounding * std::abs(*p.fallback)) return nullptr;
  return text;
}

/// A plain number in its range, as the reader takes it: a limit may be missed by the last digits.
Json number_in(double low, double high) {
  constexpr double rounding = 1e-9;
  Json number{{"type", "number"}};
  if (std::isfinite(low)) number["minimum"] = low - rounding * std::abs(low);
  if (std::isfinite(high)) number["maximum"] = high + rounding * std::abs(high);
  return number;
}

/// The value of a parameter that is no word and no curve.
Json measured(const Parameter& p) {
  if (p.quantity != Quantity::none) return defined(definition_of(p.quantity));
  return any_of({number_in(p.low, p.high), defined(definition_of(p.quantity))});
}

Json curve_of(const Parameter& p) {
  Parameter y{.name = p.name, .quantity = *p.against, .low = -no_limit, .high = no_limit};
  return {{"type", "array"},
          {"minItems", p.fewest_points},
          {"items",
           {{"type", "array"},
            {"minItems", 2},
            {"maxItems", 2},
            {"prefixItems", Json::array({measured(p), measured(y)})}}}};
}

Json words_of(const Parameter& p) {
  Json words = Json::array();
  for (const std::string_view word : p.words) words.push_back(word);
  return {{"enum", words}};
}

std::string whole_value(Quantity quantity) {
  return units::ends_pattern() + units::usual_value_pattern(quantity) + units::ends_pattern();
}

Json definition(const units::Kind& kind) {
  const std::string said =
      kind.quantity == Quantity::none
          ? "A plain number."
          : fmt::format("{} with its unit, such as \"{}\".", units::with_article(kind.name), kind.example);
  Json text = text_like(whole_value(kind.quantity));
  if (kind.quantity != Quantity::none) text = any_of({text, defined("unusual_unit")});
  text = described("", text);
  text["description"] = said;
  text["description"].get_ref<std::string&>().front() = 'A';
  return text;
}

/// How far off to one side a value may be.
Json end_of(Quantity quantity) {
  Json ends = Json::array();
  ends.push_back(quantity == Quantity::none ? Json{{"type", "number"}} : Json{{"const", 0}});
  const std::string number = units::ends_pattern() + units::number_pattern();
  ends.push_back(text_like(number + "(?:[^0-9].*)?%" + units::ends_pattern()));
  if (quantity == Quantity::share) {
    ends.push_back(text_like(number + units::blanks_pattern() + " points?" + units::ends_pattern()));
  } else {
    ends.push_back(defined(definition_of(quantity)));
  }
  return any_of(ends);
}

std::string absolute(Quantity quantity) {
  if (quantity == Quantity::share) return "\"2 points\"";
  if (quantity == Quantity::none) return "0.1";
  return fmt::format("\"{}\"", units::example(quantity));
}

Json tolerance_by(Quantity quantity) {
  const Json end = end_of(quantity);
  return described(
      fmt::format(
          "How far off: \"3 %\" of the value or {}, to both sides; [\"-5 %\", \"+3 %\"] tells them apart.",
          absolute(quantity)),
      by_type("array", {{"minItems", 2}, {"maxItems", 2}, {"items", end}}, end));
}

}  // namespace

Json defined(std::string_view name) { return {{"$ref", fmt::format("#/$defs/{}", name)}}; }

Json described(std::string_view description, const Json& schema) {
  Json all{{"description", description}};
  // Beside a reference some programs read nothing else.
  if (schema.contains("$ref")) {
    all["allOf"] = Json::array({schema});
  } else {
    all.update(schema);
  }
  return all;
}

Json any_of(const Json& alternatives) {
  if (alternatives.size() == 1) return alternatives[0];
  return {{"anyOf", alternatives}};
}

Json by_type(std::string_view type, const Json& of_type, const Json& others) {
  return {{"if", {{"type", type}}}, {"then", of_type}, {"else", others}};
}

Json text_like(const std::string& pattern) { return {{"type", "string"}, {"pattern", "^" + pattern + "$"}}; }

std::string tag_pattern() {
  const std::string letters = "(?:[A-Za-z0-9_\\/\\-]|[^\\u0000-\\u007F])+";
  return letters + "(?:\\." + letters + ")*";
}

Json value_of(const std::set<Quantity>& quantities) {
  Json all = Json::array();
  for (const Quantity quantity : quantities) {
    if (quantity == Quantity::none) all.push_back({{"type", "number"}});
    all.push_back(defined(definition_of(quantity)));
  }
  return any_of(all);
}

Json property_of(const Parameter& p, bool may_be_open) {
  Json value = !p.words.empty() ? words_of(p) : p.against ? curve_of(p) : measured(p);
  if (may_be_open && !p.against) value = any_of({value, defined("find")});
  Json property = described(description_of(p), value);
  if (Json usual = default_as_written(p); !usual.is_null()) property["default"] = std::move(usual);
  return property;
}

Json tolerance_of(const Parameter& p) {
  std::string text = fmt::format("How far off {} may be on the machine as built", p.name);
  if (!p.tolerance.exact())
    text +=
        found_as({.name = p.name, .quantity = p.quantity, .tolerance = p.tolerance}).insert(1, " usually");
  return described(text + ".", defined(tolerance_definition(difference_of(p))));
}

void define_values(Json& definitions) {
  definitions["find"] = described("Left to poise find, which works it out and writes it here.",
                                  any_of({{{"const", "find"}}, text_like("[ \\t\\r\\n]*find[ \\t\\r\\n]*")}));
  const std::string begin = units::ends_pattern() + units::number_pattern() + units::blanks_pattern(),
                    end = units::ends_pattern();
  Json unusual = text_like(begin + units::compound_unit_pattern() + end);
  unusual["not"] = {{"pattern", "^" + begin + units::usual_compounds_pattern() + end + "$"}};
  definitions["unusual_unit"] = described(
      "A number with a unit made of several that is none of the usual ones; what it measures shows "
      "when the job is read.",
      unusual);
  for (const units::Kind& kind : units::kinds()) definitions[definition_of(kind.quantity)] = definition(kind);
  for (const units::Kind& kind : units::kinds())
    if (kind.quantity != Quantity::temperature)
      definitions[tolerance_definition(kind.quantity)] = tolerance_by(kind.quantity);
}

}  // namespace poise::reference
