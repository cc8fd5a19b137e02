// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/json.hpp"

#include <cmath>

#include "judge/outcome.hpp"

namespace poise {
namespace {

using nlohmann::json;

json number(double value) { return std::isfinite(value) ? json(value) : json(nullptr); }

json measured(double number_in_unit, double si, Quantity quantity, const units::World& world) {
  return {{"quantity", units::name(quantity)},
          {"value", number(number_in_unit)},
          {"unit", world[quantity]},
          {"si", number(si)}};
}

json value(double si, Quantity quantity, const units::World& world) {
  return measured(units::in_unit(si, quantity, world), si, quantity, world);
}

json moment(double time, const units::World& world) { return value(time, Quantity::time, world); }

json text_or_null(const std::string& text) { return text.empty() ? json(nullptr) : json(text); }

json finding_to_json(const Finding& f, const Verdict& verdict, const units::World& world) {
  json out = {{"name", f.name},
              {"held", f.held},
              {"answer", word(mark(f, verdict))},
              {"promised", f.promised},
              {"found", f.found},
              {"margin", nullptr},
              {"share", nullptr},
              {"time", nullptr},
              {"step", text_or_null(f.step)},
              {"part", text_or_null(f.part)}};
  if (f.margin)
    out["margin"] =
        measured(units::difference_in_unit(*f.margin, f.quantity, world), *f.margin, f.quantity, world);
  if (f.share) out["share"] = number(*f.share);
  if (f.time) out["time"] = moment(*f.time, world);
  return out;
}

json rule_to_json(const RuleNotKept& broken, const units::World& world) {
  json out = {{"name", broken.rule->name},
              {"harm", rules::words_of(broken.rule->harm)},
              {"sentence", broken.sentence},
              {"remedy", broken.remedy},
              {"otherwise", broken.rule->otherwise},
              {"source", broken.rule->source},
              {"part", text_or_null(broken.part)},
              {"also", broken.also},
              {"time", nullptr},
              {"step", text_or_null(broken.step)},
              {"waived", text_or_null(broken.waived)}};
  if (broken.time) out["time"] = moment(*broken.time, world);
  return out;
}

json books_to_json(const Verdict& verdict, const units::World& world) {
  const Books& b = verdict.books;
  const auto mass = [&](double kg) { return value(kg, Quantity::mass, world); };
  const auto energy = [&](double joule) { return value(joule, Quantity::energy, world); };
  return {{"close", verdict.books_close},
          {"oil",
           {{"at_start", mass(b.mass_at_start)},
            {"drawn", mass(b.mass_drawn)},
            {"residual", mass(b.mass_residual)},
            {"share", number(b.mass_share())},
            {"allowed", Books::mass_closes}}},
          {"energy",
           {{"shaft", energy(b.shaft)},
            {"flow_heat", energy(b.flow_heat)},
            {"friction_heat", energy(b.friction_heat)},
            {"delivered", energy(b.delivered)},
            {"stored_gain", energy(b.stored_gain)},
            {"residual", energy(b.energy_residual())},
            {"share", number(b.energy_share())},
            {"allowed", Books::energy_closes}}}};
}

}  // namespace

json to_json(const Verdict& verdict, const Job& job) {
  const units::World& world = job.world;
  json out = {{"schema", "poise verdict"},
              {"schema_version", 1},
              {"title", job.title},
              {"answer", word(outcome(verdict))},
              {"holds", verdict.holds()},
              {"findings", json::array()},
              {"rules", json::array()},
              {"steps", json::array()},
              {"cautions", verdict.cautions},
              {"people", verdict.people},
              {"books", books_to_json(verdict, world)},
              {"halt", nullptr},
              {"notice", notice}};
  for (const Finding& finding : verdict.findings)
    out["findings"].push_back(finding_to_json(finding, verdict, world));
  for (const RuleNotKept& broken : verdict.rules) out["rules"].push_back(rule_to_json(broken, world));
  for (const StepSpan& span : verdict.steps) {
    out["steps"].push_back({{"name", span.name},
                            {"begin", moment(span.begin, world)},
                            {"end", moment(span.end, world)},
                            {"finished", span.finished}});
  }
  if (verdict.halt)
    out["halt"] = {{"time", moment(verdict.halt->time, world)}, {"sentence", verdict.halt->sentence}};
  return out;
}

}  // namespace poise
