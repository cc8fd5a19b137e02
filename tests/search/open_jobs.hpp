// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Jobs of tests/search that leave values open, and their data by name for formulas.
#pragma once

#include <fstream>
#include <iterator>
#include <numbers>
#include <stdexcept>
#include <string>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "search/find.hpp"
#include "solve/run.hpp"

namespace poise::open_jobs {

inline std::string text_of(const std::string& path) {
  std::ifstream in(std::string(POISE_SOURCE_DIR "/tests/search/") + path + ".toml", std::ios::binary);
  if (!in) throw std::runtime_error("no job " + path);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline Job job_of(const std::string& text) {
  auto read = read_job_to_find(text, "job.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  return std::get<Job>(std::move(read));
}

/// Proves a job as the command does.
inline Verdict proven(const Job& job) {
  const Circuit circuit = build(job.plan);
  return judge(job, solve::run(circuit, job.steps, signals_needed(job),
                               {.glanced_at = signals_of_rules(job), .controls = job.controls}));
}

/// All that a search says, for whoever reads a failed test.
inline std::string told(const search::Found& found) {
  std::string all;
  for (const search::FoundValue& value : found.values) all += value.open.name + " = " + value.text + "\n";
  for (const Finding& f : found.trial.verdict.findings)
    all += (f.held ? "held " : "broken ") + std::to_string(f.share.value_or(1.0)) + " " + f.name + ": " +
           f.found + "\n";
  for (const RuleNotKept& rule : found.trial.verdict.rules)
    all += (rule.waived.empty() ? "rule " : "waived ") + std::string(rule.rule->name) + "\n";
  for (const search::Conflict& conflict : found.conflicts) {
    all += "conflict:";
    for (const search::Side& side : conflict.sides)
      all += " [" + side.name + ", " + side.gives + ", short by " +
             std::to_string(side.short_by.value_or(-1)) + "]";
    all += "\n";
  }
  return all + std::to_string(found.runs) + " runs";
}

/// The data of a job by name, SI.
class Given {
 public:
  explicit Given(const Job& job) : job_(job) {}

  const Job& job() const { return job_; }
  double operator()(const std::string& tag, const std::string& parameter) const {
    return part(tag).values[parameter];
  }
  /// Of a cylinder's bore, m2.
  double area(const std::string& tag) const {
    const double bore = (*this)(tag, "bore");
    return 0.25 * std::numbers::pi * bore * bore;
  }
  double limit(const std::string& name) const {
    const Requirement& r = requirement(name);
    if (const auto* never = std::get_if<Never>(&r.what)) return never->limit;
    if (const auto* level = std::get_if<Level>(&r.what)) return level->limit;
    return std::get<Drift>(r.what).limit;
  }
  const Band& band(const std::string& name) const { return std::get<Band>(requirement(name).what); }
  const Reached& reached(const std::string& name) const { return std::get<Reached>(requirement(name).what); }

 private:
  const PlannedPart& part(const std::string& tag) const {
    return *std::ranges::find(job_.plan.parts, tag, &PlannedPart::tag);
  }
  const Requirement& requirement(const std::string& name) const {
    return *std::ranges::find(job_.requirements, name, &Requirement::name);
  }
  const Job& job_;
};

inline double circle(double diameter) { return 0.25 * std::numbers::pi * diameter * diameter; }

}  // namespace poise::open_jobs
