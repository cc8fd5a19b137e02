// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/curves.hpp"
#include "judge/json.hpp"
#include "judge/outcome.hpp"

namespace poise::desk {
namespace {

std::string margin(const Finding& finding, const units::World& world) {
  if (!finding.margin) return {};
  return units::show_difference(std::abs(*finding.margin), finding.quantity, world);
}

std::string held_line(const Verdict& verdict, const Job& job) {
  if (job.requirements.empty()) return "Held, but nothing is asked of it yet: add what must hold";
  for (const Finding& finding : verdict.findings) {
    if (finding.margin)
      return fmt::format("Held. Least room: {}, {} left", finding.name, margin(finding, job.world));
  }
  return "Held";
}

std::string broken_line(const Verdict& verdict, const Job& job) {
  const auto broken = std::ranges::count_if(
      verdict.findings, [&](const Finding& f) { return mark(f, verdict) == Mark::broken; });
  if (broken == 0)
    return "Broken: " + (verdict.halt ? verdict.halt->sentence : std::string("the run ended early"));
  const auto first = std::ranges::find_if(verdict.findings,
                                          [&](const Finding& f) { return mark(f, verdict) == Mark::broken; });
  std::string line = fmt::format("Broken: {}, {}", first->name, first->found);
  if (first->margin) line += fmt::format(", {} too far", margin(*first, job.world));
  if (broken > 1) line += fmt::format("; and {} more", broken - 1);
  return line;
}

Json steps_of(const Trace& trace) {
  Json list = Json::array();
  for (const StepSpan& step : trace.steps)
    list.push_back(
        {{"name", step.name}, {"begin", step.begin}, {"end", step.end}, {"finished", step.finished}});
  return list;
}

Json events_of(const Trace& trace, const Job& job) {
  Json list = Json::array();
  for (const Event& event : trace.events) {
    const bool part = event.part >= 0 && event.part < static_cast<int>(job.plan.parts.size());
    list.push_back({{"time", event.time},
                    {"text", units::show(event.time, Quantity::time, job.world)},
                    {"part", part ? job.plan.parts[event.part].tag : ""},
                    {"sentence", event.sentence}});
  }
  return list;
}

Json frames_of(const Trace& trace) {
  Json list = Json::array();
  for (const Moment& moment : trace.moments) list.push_back(short_number(moment.time));
  return list;
}

}  // namespace

std::string in_one_line(const Verdict& verdict, const Job& job) {
  const long hurts = verdict.not_kept(rules::Harm::hurts);
  const std::string rules = hurts == 0 ? ""
                                       : fmt::format(". {} of the trade not kept that can hurt someone",
                                                     hurts == 1 ? "A rule" : fmt::format("{} rules", hurts));
  switch (outcome(verdict)) {
    case Outcome::held:
      return held_line(verdict, job) + rules;
    case Outcome::broken:
      return broken_line(verdict, job) + rules;
    case Outcome::not_proven:
      break;
  }
  if (verdict.halt) return "Not proven: " + verdict.halt->sentence;
  return "Not proven: the books of oil and energy do not close";
}

Json answer(const Proof& proof, long revision) {
  return {{"run", proof.number},
          {"revision", revision},
          {"outcome", word(outcome(proof.verdict))},
          {"line", in_one_line(proof.verdict, proof.job)},
          {"complaints", Json::array()},
          {"verdict", to_json(proof.verdict, proof.job)},
          {"notice", notice},
          {"duration", proof.trace.time.empty() ? 0.0 : proof.trace.time.back()},
          {"steps", steps_of(proof.trace)},
          {"events", events_of(proof.trace, proof.job)},
          {"frames", frames_of(proof.trace)},
          {"panels", panels(proof)},
          {"milliseconds", std::round(1e3 * proof.took)}};
}

}  // namespace poise::desk
