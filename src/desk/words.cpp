// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/words.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "compose/change.hpp"
#include "draw/strokes.hpp"
#include "draw/svg.hpp"
#include "job/oil_table.hpp"
#include "parts/kind.hpp"
#include "reference/families.hpp"
#include "reference/picture.hpp"
#include "reference/wording.hpp"
#include "rules/all.hpp"
#include "units/catalogue.hpp"
#include "units/units.hpp"

namespace poise::desk {
namespace {

std::string_view word(Role role) {
  switch (role) {
    case Role::source:
      return "source";
    case Role::pressure_limit:
      return "pressure_limit";
    case Role::one_way:
      return "one_way";
    case Role::line:
      return "line";
    case Role::actuator:
      return "actuator";
    case Role::reservoir:
      return "reservoir";
    case Role::none:
      break;
  }
  return "none";
}

Json in_both(const std::string& metric, const std::string& us) { return {{"metric", metric}, {"us", us}}; }

/// A list of units such as "bar, psi, MPa", one by one.
Json listed(std::string_view text) {
  Json list = Json::array();
  while (!text.empty()) {
    const auto comma = text.find(',');
    std::string_view unit = text.substr(0, comma);
    while (unit.starts_with(' ')) unit.remove_prefix(1);
    if (!unit.empty()) list.push_back(unit);
    text = comma == std::string_view::npos ? std::string_view() : text.substr(comma + 1);
  }
  return list;
}

Json parameter(const Parameter& p) {
  const bool needed = !p.fallback && !p.optional && p.instead.empty();
  Json out = {
      {"name", p.name},
      {"quantity", units::name(p.quantity)},
      {"example", units::example(p.quantity)},
      {"meaning", p.meaning},
      {"source", p.source},
      {"needed", needed},
      {"default", nullptr},
      {"range", in_both(reference::range_of(p, units::metric()), reference::range_of(p, units::us()))},
      {"words", nullptr},
      {"set_by_steps", p.set_by_steps},
      {"instead", nullptr},
      {"curve", nullptr}};
  if (p.fallback)
    out["default"] =
        in_both(reference::default_of(p, units::metric()), reference::default_of(p, units::us()));
  if (!p.words.empty()) out["words"] = std::vector<std::string_view>(p.words.begin(), p.words.end());
  if (!p.instead.empty()) out["instead"] = p.instead;
  if (p.against) out["curve"] = {{"x", units::name(p.quantity)}, {"y", units::name(*p.against)}};
  return out;
}

Json parameters(std::span<const Parameter> table) {
  Json list = Json::array();
  for (const Parameter& p : table) list.push_back(parameter(p));
  return list;
}

/// The symbol by itself, in ink.
std::string symbol(const Kind& kind) {
  constexpr double module = 2.5, margin = 1.0;  // mm
  const draw::Box all = reference::extent_of(kind.symbol, kind.anchors);
  draw::Sheet sheet{.width = module * all.width() + 2 * margin,
                    .height = module * all.height() + 2 * margin,
                    .title = reference::title_of(kind.about.kind),
                    .description = {},
                    .groups = {{.kind = "part", .name = {}, .title = {}, .marks = {}}}};
  draw::add_strokes(sheet.groups[0].marks, kind.symbol,
                    {margin - module * all.left, margin - module * all.low}, module,
                    {.layer = draw::Layer::symbols, .width = 0.25});
  return draw::svg(sheet);
}

template <class Entry>
Json sentences(std::span<const Entry> entries) {
  Json list = Json::array();
  for (const Entry& e : entries)
    list.push_back({{"name", e.name}, {"sentence", e.sentence}, {"source", e.source}});
  return list;
}

/// The computed rules that concern a kind, then what only a person can confirm.
Json rules_of(const Kind& kind) {
  Json list = Json::array();
  for (const rules::TradeRule* rule : rules::concerning(kind.about.kind)) {
    list.push_back({{"name", rule->name},
                    {"sentence", rule->holds},
                    {"source", rule->source},
                    {"harm", rules::words_of(rule->harm)}});
  }
  for (const Rule& rule : kind.rules)
    list.push_back(
        {{"name", rule.name}, {"sentence", rule.sentence}, {"source", rule.source}, {"harm", nullptr}});
  return list;
}

Json kind_words(const Kind& kind, std::string_view family) {
  Json ports = Json::array();
  for (const Port& port : kind.ports) {
    ports.push_back({{"name", port.name},
                     {"domain", port.domain == Domain::oil ? "oil" : "motion"},
                     {"meaning", port.meaning},
                     {"may_stay_free", port.may_stay_free},
                     {"pilot", port.pilot}});
  }
  return {{"kind", kind.about.kind},
          {"title", reference::title_of(kind.about.kind)},
          {"family", family},
          {"sentence", kind.about.sentence},
          {"law", kind.about.law},
          {"source", kind.about.source},
          {"role", word(kind.about.role)},
          {"symbol", symbol(kind)},
          {"ports", std::move(ports)},
          {"parameters", parameters(kind.parameters)},
          {"rules", rules_of(kind)},
          {"faults", sentences(kind.faults)}};
}

Json kinds() {
  Json list = Json::array();
  std::string_view family;
  for (const Kind& kind : all_kinds()) {
    const auto begins =
        std::ranges::find(reference::families, kind.about.kind, &reference::Family::first_kind);
    if (begins != reference::families.end()) family = begins->title;
    list.push_back(kind_words(kind, family));
  }
  return list;
}

Json quantities() {
  Json out = Json::object();
  for (const units::Kind& kind : units::kinds()) {
    out[std::string(kind.name)] = {{"example", kind.example},
                                   {"metric", kind.metric},
                                   {"us", kind.us},
                                   {"offered", listed(kind.offered)}};
  }
  return out;
}

Json starts() {
  Json list = Json::array();
  for (const compose::Start& start : compose::starts())
    list.push_back({{"name", start.name}, {"title", start.title}, {"sentence", start.sentence}});
  return list;
}

}  // namespace

Json words(const std::string& version) {
  return {{"version", version},
          {"kinds", kinds()},
          {"oil", parameters(oil_parameters())},
          {"line_kinds", {"hose", "tube"}},
          {"quantities", quantities()},
          {"starts", starts()}};
}

}  // namespace poise::desk
