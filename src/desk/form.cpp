// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/form.hpp"

#include <charconv>
#include <cmath>
#include <string>

#include "desk/tree.hpp"
#include "reference/wording.hpp"
#include "units/system.hpp"
#include "units/text.hpp"

namespace poise::desk {
namespace {

struct Typed {
  double number = 0.0;
  std::string unit;  ///< as it was typed
};

/// "210 bar" in its two halves; none where it does not begin with a number.
std::optional<Typed> halves(std::string_view text) {
  text = units::trimmed(text);
  if (text.starts_with('+')) text.remove_prefix(1);
  Typed typed;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), typed.number);
  if (error != std::errc() || !std::isfinite(typed.number)) return std::nullopt;
  typed.unit = units::trimmed(text.substr(static_cast<std::size_t>(end - text.data())));
  return typed;
}

/// A bound of a range in a unit; none where there is no bound.
Json bound(double si, const units::Scale& scale) {
  const double number = scale.from_si(si);
  return std::isfinite(number) ? Json(number) : Json(nullptr);
}

void add_number(Json& out, const Parameter& p, std::string_view text, const units::World& world) {
  const auto typed = halves(text);
  const units::Reading reading = units::read(text, p.quantity);
  if (!typed || !reading.value) return;
  const std::string unit = units::plain(typed->unit);
  const auto scale = unit.empty() ? units::Scale{} : units::scale(unit, p.quantity).value_or(units::Scale{});
  out["number"] = typed->number;
  out["unit"] = typed->unit;
  out["low"] = bound(p.low, scale);
  out["high"] = bound(p.high, scale);
  if (unit != units::plain(world[p.quantity]))
    out["reading"] = units::show(*reading.value, p.quantity, world);
}

/// What counts where nothing is typed; none where the value must be given or may be missing.
Json default_of(const Parameter& p, const units::World& world, const StockItem* item) {
  if (item && !p.against && item->given.given(p.name)) {
    Parameter stated = p;
    stated.fallback = item->given[p.name];
    return reference::default_of(stated, world);
  }
  return p.fallback ? Json(reference::default_of(p, world)) : Json(nullptr);
}

Json field_of(const Parameter& p, const job::Node* typed, job::Way at, const units::World& world,
              const StockItem* item) {
  at.emplace_back(std::string(p.name));
  Json out = {{"name", p.name},    {"at", to_json(at)},  {"text", nullptr},
              {"number", nullptr}, {"unit", nullptr},    {"low", nullptr},
              {"high", nullptr},   {"reading", nullptr}, {"default", default_of(p, world, item)}};
  if (!typed) return out;
  out["text"] = to_json(*typed);
  if (typed->form == job::Node::Form::number && p.words.empty()) {
    out["number"] = typed->number;
    out["unit"] = "";
    out["low"] = bound(p.low, {});
    out["high"] = bound(p.high, {});
  }
  if (typed->form == job::Node::Form::text && p.words.empty() && !p.against)
    add_number(out, p, typed->text, world);
  return out;
}

}  // namespace

Json form(std::span<const Parameter> parameters, const job::Node* section, const job::Way& at,
          const units::World& world, const StockItem* item) {
  Json fields = Json::array();
  for (const Parameter& p : parameters)
    fields.push_back(field_of(p, section ? field(*section, p.name) : nullptr, at, world, item));
  return fields;
}

}  // namespace poise::desk
