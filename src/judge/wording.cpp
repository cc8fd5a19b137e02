// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace poise::wording {
namespace {

using units::World;

std::string figures(double number, int count, Quantity quantity, const World& world) {
  const std::string& unit = world[quantity];
  const std::string text = fmt::format("{:.{}g}", number, count);
  return unit.empty() ? text : text + " " + unit;
}

bool plain(double number) {
  const double size = std::abs(number);
  return number == 0.0 || (size >= 1e-4 && size < 1e6);
}

std::string during(const Requirement& requirement, std::string_view lead) {
  if (requirement.during.empty()) return "";
  std::vector<std::string> steps;
  for (const std::string& step : requirement.during) steps.push_back('"' + step + '"');
  return fmt::format("{}{}", lead, joined(steps, " and "));
}

std::string all_of(const std::vector<Condition>& conditions, std::string_view last, const World& world) {
  std::vector<std::string> words;
  words.reserve(conditions.size());
  for (const Condition& condition : conditions) words.push_back(of(condition, world));
  return joined(words, last);
}

struct Promise {
  const World& world;

  std::string operator()(const Never& r) const {
    return fmt::format("{} never {} {}", r.signal.name, r.above ? "above" : "below",
                       stated(r.limit, r.signal.quantity, world));
  }
  std::string operator()(const Reached& r) const {
    return fmt::format("{} within {}", of(r.condition, world), stated(r.within, Quantity::time, world));
  }
  std::string operator()(const Order& r) const {
    const std::string by =
        r.gap > 0.0 ? fmt::format("at least {} ", stated(r.gap, Quantity::time, world)) : std::string();
    return fmt::format("{} {}before {}", all_of(r.first, " and ", world), by, all_of(r.then, " or ", world));
  }
  std::string operator()(const Band& r) const {
    const Quantity quantity = r.signal.quantity;
    return fmt::format("{} from {} to {}", r.signal.name, stated(r.low, quantity, world),
                       stated(r.high, quantity, world));
  }
  std::string operator()(const Drift& r) const {
    const std::string settled =
        r.settle > 0.0 ? fmt::format(", after {} to settle", stated(r.settle, Quantity::time, world))
                       : std::string();
    return fmt::format("{} changes by no more than {}{}", r.signal.name,
                       stated_difference(r.limit, r.signal.quantity, world), settled);
  }
  std::string operator()(const Level& r) const {
    std::vector<std::string> names;
    for (const Signal& signal : r.signals) names.push_back(signal.name);
    const Quantity quantity = r.signals.empty() ? Quantity::none : r.signals.front().quantity;
    return fmt::format("{} no more than {} apart", joined(names, " and "),
                       stated_difference(r.limit, quantity, world));
  }
};

}  // namespace

std::string stated(double value, Quantity quantity, const World& world) {
  const double number = units::in_unit(value, quantity, world);
  return plain(number) ? figures(number, 6, quantity, world) : units::show(value, quantity, world);
}

std::string stated_difference(double value, Quantity quantity, const World& world) {
  const double number = units::difference_in_unit(value, quantity, world);
  return plain(number) ? figures(number, 6, quantity, world) : units::show_difference(value, quantity, world);
}

std::string beside(double value, double limit, Quantity quantity, const World& world) {
  constexpr double nothing = 1e-6;  // of the limit: what a run leaves of a standstill
  if (std::abs(value) < nothing * std::abs(limit)) value = 0.0;
  const std::string shown = units::show(value, quantity, world);
  if (value == limit || shown != units::show(limit, quantity, world)) return shown;
  const double number = units::in_unit(value, quantity, world), edge = units::in_unit(limit, quantity, world);
  if (!plain(number)) return shown;
  for (int count = 4; count <= 7; ++count) {
    const std::string finer = figures(number, count, quantity, world);
    if (finer != figures(edge, count, quantity, world)) return finer;
  }
  return shown;
}

std::string of(const Condition& condition, const World& world) {
  return fmt::format("{} {} {}", condition.signal.name, condition.above ? "above" : "below",
                     stated(condition.threshold, condition.signal.quantity, world));
}

std::string of(const Requirement& requirement, const World& world) {
  const bool counted_from = std::holds_alternative<Reached>(requirement.what);
  return std::visit(Promise{world}, requirement.what) +
         during(requirement, counted_from ? " from the start of " : ", during ");
}

std::string of(const Tolerance& tolerance, Quantity quantity, const World& world) {
  const auto size = [&](double by) {
    if (tolerance.of != Tolerance::Of::absolute) return fmt::format("{:.3g} %", 100.0 * by);
    // As a job writes it: 2 points of 93 % are 91 to 95 %, 2 % of it would be less.
    if (quantity == Quantity::share) return fmt::format("{:.3g} points", 100.0 * by);
    return stated_difference(by, quantity, world);
  };
  if (tolerance.of == Tolerance::Of::rest) {
    if (tolerance.above == 0.0) return fmt::format("its loss up to {} more", size(tolerance.below));
    if (tolerance.below == 0.0) return fmt::format("up to {} of the way to 100 %", size(tolerance.above));
    return fmt::format("its loss −{} … +{}", size(tolerance.above), size(tolerance.below));
  }
  if (tolerance.below == tolerance.above) return "± " + size(tolerance.above);
  if (tolerance.above == 0.0) return fmt::format("−{} … 0", size(tolerance.below));
  if (tolerance.below == 0.0) return fmt::format("0 … +{}", size(tolerance.above));
  return fmt::format("−{} … +{}", size(tolerance.below), size(tolerance.above));
}

std::string joined(std::span<const std::string> words, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? last : std::string_view(", ");
    text += words[i];
  }
  return text;
}

}  // namespace poise::wording
