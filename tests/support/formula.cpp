// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "support/formula.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <stdexcept>

namespace poise::workshop {
namespace {

/// Reads an expression from left to right: · and / bind more than + and −, powers most.
class Reader {
 public:
  Reader(std::string_view text, const std::vector<Term>& terms) : text_(text), terms_(terms) {}

  std::string left() {
    std::string symbol = symbol_here();
    if (symbol.empty() || !take("=")) fail("no symbol and equals sign at its beginning");
    return symbol;
  }
  double whole() {
    const double value = sum();
    if (at_ < text_.size()) fail("cannot be read");
    return value;
  }
  std::set<std::string> named;

 private:
  double sum() {
    double value = product();
    for (;;) {
      if (take("+"))
        value += product();
      else if (take("−"))
        value -= product();
      else
        return value;
    }
  }
  double product() {
    double value = power();
    for (;;) {
      if (take("·"))
        value *= power();
      else if (take("/"))
        value /= power();
      else
        return value;
    }
  }
  double power() {
    double value = single();
    for (;;) {
      if (take("²"))
        value *= value;
      else if (take("³"))
        value = value * value * value;
      else if (take("^"))
        value = std::pow(value, single());
      else
        return value;
    }
  }
  double single() {
    if (take("√(")) return std::sqrt(bracketed());
    if (take("(")) return bracketed();
    if (take("π")) return std::numbers::pi;
    if (const double number = number_here(); number == number) return number;
    const std::string symbol = symbol_here();
    if (symbol.empty()) fail("a number, a symbol or a bracket is missing");
    const auto known = std::ranges::find(terms_, symbol, &Term::symbol);
    if (known == terms_.end()) fail("symbol " + symbol + " is none of its terms");
    named.insert(symbol);
    return known->value;
  }
  double bracketed() {
    const double value = sum();
    if (!take(")")) fail("a bracket is not closed");
    return value;
  }
  double number_here() {
    skip();
    const std::size_t from = at_;
    while (at_ < text_.size() && (is_digit(text_[at_]) || text_[at_] == '.')) ++at_;
    if (at_ == from) return std::nan("");
    return std::strtod(std::string(text_.substr(from, at_ - from)).c_str(), nullptr);
  }
  /// Latin letters, digits after the first, _, and Greek letters other than π.
  std::string symbol_here() {
    skip();
    const std::size_t from = at_;
    while (at_ < text_.size()) {
      const auto c = static_cast<unsigned char>(text_[at_]);
      if (std::isalnum(c) || c == '_')
        ++at_;
      else if ((c == 0xCE || c == 0xCF) && !text_.substr(at_).starts_with("π"))
        at_ += 2;
      else
        break;
    }
    return std::string(text_.substr(from, at_ - from));
  }
  bool take(std::string_view sign) {
    skip();
    if (!text_.substr(at_).starts_with(sign)) return false;
    at_ += sign.size();
    return true;
  }
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  static bool is_digit(char c) { return c >= '0' && c <= '9'; }
  [[noreturn]] void fail(const std::string& why) const {
    throw std::runtime_error(std::string(text_) + ": " + why + ", at \"" + std::string(text_.substr(at_)) +
                             "\"");
  }

  std::string_view text_;
  const std::vector<Term>& terms_;
  std::size_t at_ = 0;
};

}  // namespace

Evaluated evaluate(std::string_view formula, const std::vector<Term>& terms) {
  Reader reader(formula, terms);
  Evaluated all{.left = reader.left()};
  all.value = reader.whole();
  all.named = reader.named;
  return all;
}

}  // namespace poise::workshop
