// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/tolerance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "units/complaint.hpp"
#include "units/text.hpp"

namespace poise::job {
namespace {

constexpr std::string_view ending = "_tolerance";
// A limit that is written in another unit than the table's may miss it by the last digits of the conversion.
constexpr double rounding = 1e-9;

/// What a difference of two values is measured in.
Quantity difference_of(const Parameter& line) {
  const Quantity quantity = line.against.value_or(line.quantity);
  return quantity == Quantity::temperature ? Quantity::warming : quantity;
}

/// How far off to one side, with its sign.
struct End {
  double size = 0.0;
  bool share = false;  ///< of the value, else SI

  bool goes_with(const End& other) const { return share == other.share || size == 0.0 || other.size == 0.0; }
};

bool is_share(std::string_view text) { return units::plain(text).ends_with('%'); }

/// "2 points" of a share: without the word.
std::optional<std::string> without_points(std::string_view text) {
  const std::string letters = units::plain(text);
  for (const std::string_view word : {" points", " point"}) {
    if (letters.ends_with(word)) return letters.substr(0, letters.size() - word.size());
  }
  return std::nullopt;
}

/// What a difference that is written like a value would be at zero: degC and degF have an offset.
double offset_of(std::string_view text, Quantity quantity) {
  if (quantity != Quantity::warming) return 0.0;
  const std::string letters = units::plain(text);
  const std::size_t unit = letters.find_first_not_of("+-.0123456789 ");
  if (unit == std::string::npos) return 0.0;
  return units::read("0 " + letters.substr(unit), quantity).value.value_or(0.0);
}

/// One key while it is read.
struct Reader {
  const Section& section;
  const Parameter& line;
  std::string key;
  Remarks& remarks;

  void complain(Place place, std::string_view sentence) const {
    remarks.push_back({place, fmt::format("{} of {}: {}", key, section.owner(), sentence)});
  }

  std::string absolute() const {
    const Quantity quantity = difference_of(line);
    if (quantity == Quantity::share) return "percentage points such as \"2 points\"";
    if (quantity == Quantity::none) return "a number such as 0.1";
    return fmt::format("{} such as \"{}\"", units::with_article(units::name(quantity)),
                       units::example(quantity));
  }

  std::string expected() const {
    return fmt::format("expected \"3 %\" of it or {}, to both sides, or a pair such as [\"-5 %\", \"+3 %\"]",
                       absolute());
  }

  std::optional<End> in_units(const Node& node, std::string_view text, Quantity quantity, double factor,
                              bool share) const {
    const units::Reading reading = units::read(text, quantity);
    if (reading.value) return End{(*reading.value - offset_of(text, quantity)) * factor, share};
    complain(node.place, fmt::format("{}; {}", reading.complaint, expected()));
    return std::nullopt;
  }

  std::optional<End> end(const Node& node) const {
    const Quantity quantity = difference_of(line);
    if (node.form == Node::Form::number && std::isfinite(node.number) &&
        (node.number == 0.0 || quantity == Quantity::none))
      return End{node.number, false};
    if (node.form == Node::Form::number) {
      complain(node.place, fmt::format("{} has no unit; {}", node.number, expected()));
      return std::nullopt;
    }
    if (node.form != Node::Form::text) {
      complain(node.place, fmt::format("found {}; {}", form_of(node), expected()));
      return std::nullopt;
    }
    if (is_share(node.text)) return in_units(node, node.text, Quantity::share, 1.0, true);
    if (quantity != Quantity::share) return in_units(node, node.text, quantity, 1.0, false);
    if (const auto points = without_points(node.text))
      return in_units(node, *points, Quantity::none, si::percent, false);
    complain(node.place, fmt::format("found {}; {}", quote(node.text), expected()));
    return std::nullopt;
  }

  std::optional<Tolerance> tolerance(const End& low, const End& high) const {
    const bool share = low.size == 0.0 ? high.share : low.share;
    return Tolerance{-low.size, high.size, share ? Tolerance::Of::value : Tolerance::Of::absolute};
  }

  std::optional<Tolerance> both_sides(const Node& node) const {
    const auto size = end(node);
    if (!size) return std::nullopt;
    if (size->size >= 0.0) return tolerance({-size->size, size->share}, *size);
    complain(node.place,
             "one number goes to both sides and has no minus; [\"-5 %\", \"0 %\"] tells them apart");
    return std::nullopt;
  }

  std::optional<Tolerance> pair(const Node& node) const {
    if (node.items.size() != 2) {
      complain(node.place, fmt::format("found a list of {}; {}", node.items.size(), expected()));
      return std::nullopt;
    }
    const auto low = end(node.items[0]), high = end(node.items[1]);
    if (!low || !high) return std::nullopt;
    if (low->size > 0.0) {
      complain(node.items[0].place,
               "the lower end is above zero; the first of the pair says how far below what is stated, such "
               "as \"-5 %\"");
      return std::nullopt;
    }
    if (high->size < 0.0) {
      complain(node.items[1].place,
               "the upper end is below zero; the second of the pair says how far above what is stated, such "
               "as \"+3 %\"");
      return std::nullopt;
    }
    if (!low->goes_with(*high)) {
      complain(node.items[1].place,
               fmt::format("one end is a share and the other {}; state both the same way",
                           units::with_article(units::name(difference_of(line)))));
      return std::nullopt;
    }
    return tolerance(*low, *high);
  }

  std::optional<Tolerance> read(const Node& node) const {
    return node.form == Node::Form::list ? pair(node) : both_sides(node);
  }

  /// Whether the value may be off so far.
  bool fits(const Node& node, const Tolerance& tolerance, const KnownValue& known,
            const units::World& world) const {
    const bool share = tolerance.of == Tolerance::Of::value;
    if (share && tolerance.below > 1.0) {
      complain(node.place, fmt::format("{} may not be below its value by more than all of it", line.name));
      return false;
    }
    if (known.is == KnownValue::Is::missing) {
      complain(node.place,
               fmt::format("{} is not stated, so that nothing can be off; state it as well", line.name));
      return false;
    }
    if (known.is == KnownValue::Is::unknown) return true;
    if (share && known.value == 0.0 && !line.set_by_steps && !tolerance.exact()) {
      complain(node.place,
               fmt::format("{} is zero, and a share of it is nothing; state {}", line.name, absolute()));
      return false;
    }
    return line.against || stays(node, tolerance, known.value, world);
  }

  bool stays(const Node& node, const Tolerance& tolerance, double value, const units::World& world) const {
    const auto show = [&](double v) { return units::show(v, line.quantity, world); };
    for (const double u : {-1.0, 1.0}) {
      const double there = tolerance.at(value, u);
      if (there >= line.low - rounding * std::abs(line.low) &&
          there <= line.high + rounding * std::abs(line.high))
        continue;
      complain(node.place,
               fmt::format("{} would be {} at its {} end; it must be {} … {}", line.name, show(there),
                           there < value ? "lower" : "upper", show(line.low), show(line.high)));
      return false;
    }
    return true;
  }
};

}  // namespace

std::string tolerance_key(std::string_view name) { return std::string(name).append(ending); }

std::optional<int> toleranced_by(std::string_view key, std::span<const Parameter> table) {
  if (!key.ends_with(ending)) return std::nullopt;
  return find_parameter(table, key.substr(0, key.size() - ending.size()));
}

bool may_be_off(const Parameter& parameter) { return parameter.words.empty(); }

bool is_tolerance(std::string_view text, const Parameter& parameter) {
  const Quantity quantity = difference_of(parameter);
  if (is_share(text)) return units::read(text, Quantity::share).value.has_value();
  if (quantity != Quantity::share) return units::read(text, quantity).value.has_value();
  const auto points = without_points(text);
  return points && units::read(*points, Quantity::none).value;
}

std::vector<ReadTolerance> read_tolerances(Section& section, std::span<const Parameter> table,
                                           const std::function<KnownValue(int)>& known,
                                           const units::World& world, Remarks& remarks) {
  std::vector<ReadTolerance> all;
  for (int i = 0; i < static_cast<int>(table.size()); ++i) {
    const Parameter& line = table[static_cast<std::size_t>(i)];
    const Reader reader{section, line, tolerance_key(line.name), remarks};
    if (may_be_off(line)) section.suggest(reader.key);
    if (!section.has(reader.key)) continue;
    const Node& node = *section.find(reader.key);
    if (!may_be_off(line)) {
      reader.complain(node.place, fmt::format("{} is a word and is never off; leave it out", line.name));
      continue;
    }
    const auto tolerance = reader.read(node);
    if (tolerance && reader.fits(node, *tolerance, known(i), world))
      all.push_back({i, *tolerance, node.place});
  }
  return all;
}

void take_tolerances(Job& job, int part, const StockItem& item) {
  for (const auto& [parameter, tolerance] : item.tolerances) {
    const auto same = [part, which = parameter](const StatedTolerance& each) {
      return each.part == part && each.parameter == which;
    };
    if (std::ranges::none_of(job.tolerances, same))
      job.tolerances.push_back({part, parameter, tolerance, true, item.place});
  }
}

}  // namespace poise::job
