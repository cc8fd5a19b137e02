// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

#include "units/complaint.hpp"
#include "units/system.hpp"
#include "units/text.hpp"
#include "units/units.hpp"

namespace poise::units {
namespace {

constexpr std::size_t longest = 80;  // bytes; the longest sensible value has some thirty

struct Split {
  double number = 0.0;
  std::string_view digits;  // the number as written
  std::string_view unit;
  std::errc error{};
};

// from_chars also reads "inf" and "nan", which are no measurements, and no plus sign, which people write.
Split split(std::string_view text) {
  Split result;
  const bool plus = text.starts_with('+');
  if (plus) text.remove_prefix(1);
  const std::string_view unsigned_text = text.substr(!plus && text.starts_with('-') ? 1 : 0);
  const char first = unsigned_text.empty() ? ' ' : unsigned_text.front();
  if (first != '.' && (first < '0' || first > '9')) {
    result.error = std::errc::invalid_argument;
    return result;
  }
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), result.number);
  const auto length = static_cast<std::size_t>(end - text.data());
  result.digits = text.substr(0, length);
  result.unit = trimmed(text.substr(length));
  result.error = error;
  return result;
}

Reading refuse(std::string complaint) { return {std::nullopt, std::move(complaint)}; }

Reading read_bare(double number, std::string_view text, Quantity quantity) {
  if (quantity == Quantity::none) return {number, {}};
  if (quantity != Quantity::share)
    return refuse(fmt::format("{} has no unit; {}", quoted(text), expected(quantity)));
  if (number >= 0.0 && number <= 1.0) return {number, {}};
  return refuse(fmt::format("{} without a unit is {:.6g} %; write \"{:.6g} %\" or a number from 0 to 1",
                            quoted(text), number * 100.0, number));
}

Reading convert(const Split& parts, std::string_view text, Quantity quantity) {
  if (quantity == Quantity::none)
    return refuse(fmt::format("{} has a unit; {}", quoted(text), expected(quantity)));
  const auto found = scale(parts.unit, quantity);
  if (!found) return refuse(unit_complaint(text, parts.digits, parts.unit, quantity));
  const double value = found->to_si(parts.number);
  if (!std::isfinite(value)) return refuse(fmt::format("{} is too large to compute with", quoted(text)));
  if (quantity == Quantity::temperature && value < 0.0)
    return refuse(fmt::format("{} is below absolute zero; {}", quoted(text), expected(quantity)));
  return {value, {}};
}

bool has_control_character(std::string_view text) {
  for (const char c : text)
    if ((c >= 0 && c < ' ') || c == 0x7F) return true;
  return false;
}

}  // namespace

Reading read(std::string_view text, Quantity quantity) {
  text = trimmed(text);
  if (text.size() > longest)
    return refuse(fmt::format("{} is too long for a value; {}", quoted(text), expected(quantity)));
  const std::string letters = plain(text);
  if (letters.empty()) return refuse(fmt::format("the value is missing; {}", expected(quantity)));
  if (has_control_character(letters))
    return refuse(
        fmt::format("{} holds a character that cannot be printed; {}", quoted(text), expected(quantity)));

  const Split parts = split(letters);
  if (parts.error == std::errc::result_out_of_range)
    return refuse(fmt::format("{} is too large or too small to compute with", quoted(text)));
  if (parts.error != std::errc{})
    return refuse(fmt::format("{} does not begin with a number; {}", quoted(text), expected(quantity)));
  if (parts.unit.empty()) return read_bare(parts.number, text, quantity);
  if (auto complaint = number_complaint(text, parts.digits, parts.unit, quantity); !complaint.empty())
    return refuse(std::move(complaint));
  return convert(parts, text, quantity);
}

}  // namespace poise::units
