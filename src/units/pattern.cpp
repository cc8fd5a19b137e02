// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "units/pattern.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "units/catalogue.hpp"
#include "units/system.hpp"
#include "units/text.hpp"

namespace poise::units {
namespace {

/// The code of a sign of two or three bytes; the table of spellings has no other.
unsigned code_of(std::string_view sign) {
  unsigned code = static_cast<unsigned char>(sign[0]) & (sign.size() == 2 ? 0x1FU : 0x0FU);
  for (std::size_t i = 1; i < sign.size(); ++i)
    code = code << 6U | (static_cast<unsigned char>(sign[i]) & 0x3FU);
  return code;
}

std::string escaped(std::string_view sign) {
  if (sign == "\t") return "\\t";
  if (sign.size() > 1) return fmt::format("\\u{:04X}", code_of(sign));
  constexpr std::string_view special = "\\^$.|?*+()[]{}/";
  return (special.find(sign[0]) == std::string_view::npos ? "" : "\\") + std::string(sign);
}

/// A letter with all signs that are read as it, fit for a class of letters.
std::string letter_class(char letter) {
  std::string all = letter == '-' ? std::string("\\-") : escaped(std::string_view(&letter, 1));
  for (const Spelling& each : spellings())
    if (each.letters == std::string_view(&letter, 1)) all += escaped(each.sign);
  return all;
}

std::string one_letter(char letter) {
  const std::string all = letter_class(letter);
  return all == escaped(std::string_view(&letter, 1)) ? all : '[' + all + ']';
}

std::string one_of(const std::vector<std::string>& patterns) {
  std::string all;
  for (const std::string& each : patterns) all += (all.empty() ? "" : "|") + each;
  return "(?:" + all + ')';
}

/// Every way to spell a text, each as a pattern.
std::vector<std::string> ways_to_spell(std::string_view text) {
  if (text.empty()) return {""};
  std::vector<std::string> ways;
  const auto put = [&](const std::string& first, std::size_t length) {
    for (const std::string& rest : ways_to_spell(text.substr(length))) ways.push_back(first + rest);
  };
  put(one_letter(text[0]), 1);
  for (const Spelling& each : spellings())
    if (each.letters.size() > 1 && text.starts_with(each.letters))
      put(escaped(each.sign), each.letters.size());
  return ways;
}

std::string figure_class() {
  std::string all = "0-9";
  for (const Spelling& each : spellings())
    if (each.letters.size() == 1 && each.letters[0] >= '0' && each.letters[0] <= '9')
      all += escaped(each.sign);
  return all;
}

void add(std::vector<std::string>& units, std::string_view unit) {
  if (unit.empty() || unit == "1" || std::ranges::find(units, unit) != units.end()) return;
  units.emplace_back(unit);
}

void add_list(std::vector<std::string>& units, std::string_view list) {
  while (!list.empty()) {
    const std::size_t comma = list.find(',');
    add(units, list.substr(0, comma));
    list = comma == std::string_view::npos ? std::string_view{} : list.substr(comma + 1);
  }
}

/// Every unit that stands in the catalogue, the usual ones of each quantity first.
const std::vector<std::string>& all_units() {
  static const auto all = [] {
    std::vector<std::string> units;
    for (const Kind& each : kinds()) add_list(units, each.offered);
    for (const Kind& each : kinds())
      for (const std::string_view unit : {each.metric, each.us, each.si}) add(units, unit);
    for (const ForeignKind& each : foreign_kinds()) add(units, each.si);
    for (const Symbol& each : symbols()) add(units, each.symbol);
    return units;
  }();
  return all;
}

bool is_symbol(std::string_view unit) {
  return std::ranges::find(symbols(), unit, &Symbol::symbol) != symbols().end();
}

}  // namespace

std::string spelled_pattern(std::string_view plain_text) {
  const auto ways = ways_to_spell(plain_text);
  return ways.size() == 1 ? ways[0] : one_of(ways);
}

std::string blanks_pattern() { return '[' + letter_class(' ') + "]*"; }

std::string ends_pattern() { return '[' + letter_class(' ') + "\\r\\n]*"; }

std::string number_pattern() {
  const std::string figure = '[' + figure_class() + ']', minus = letter_class('-');
  return fmt::format("[+{1}]?(?:{0}+\\.?{0}*|\\.{0}+)(?:[eE][+{1}]?{0}+)?", figure, minus);
}

std::string usual_units_pattern(Quantity quantity) {
  if (quantity == Quantity::none) return {};
  std::vector<std::string> units;
  for (const std::string& unit : all_units())
    if (scale(unit, quantity)) units.push_back(spelled_pattern(unit));
  return one_of(units);
}

std::string compound_unit_pattern() {
  std::vector<std::string> words;
  for (const Symbol& each : symbols())
    if (each.symbol != "%") words.push_back(spelled_pattern(each.symbol));
  const std::string word = one_of(words),
                    exponent = fmt::format("\\^?{}?[{}]", one_letter('-'), figure_class()),
                    joint = fmt::format("[{}.*/()]", letter_class(' ')), last = one_of({word, "%"});
  // Symbols need something between them: letters that stand together are one symbol.
  const std::string before = fmt::format("(?:{0}(?:{1}|{2}){2}*|%(?:{1})?{2}*)", word, exponent, joint);
  return fmt::format("(?:(?:(?:{3}\\/|\\(){2}*{0}*|{0}+){4}(?:{1})?|{4}{1}){2}*", before, exponent, joint,
                     one_letter('1'), last);
}

std::string usual_compounds_pattern() {
  std::vector<std::string> units;
  for (const std::string& unit : all_units())
    if (!is_symbol(unit)) units.push_back(spelled_pattern(unit));
  units.push_back(usual_units_pattern(Quantity::pressure) + blanks_pattern() + "(?:g|\\(g\\))");
  return one_of(units);
}

std::string usual_value_pattern(Quantity quantity) {
  if (quantity == Quantity::none) return number_pattern();
  const std::string measured = number_pattern() + blanks_pattern() + usual_units_pattern(quantity);
  if (quantity != Quantity::share) return measured;
  const std::string figure = '[' + figure_class() + ']', none = "0*", one = one_letter('1');
  const std::string bare =
      fmt::format("\\+?(?:0*\\.{0}+|0+\\.?|0*{1}(?:\\.0*)?|{2}*\\.?{2}*[eE].+)|{3}0*\\.?0*", figure, one,
                  figure, one_letter('-'));
  return fmt::format("(?:{}|{})", measured, bare);
}

}  // namespace poise::units
