// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/scene.hpp"

#include <algorithm>
#include <stdexcept>

namespace poise::scene {

Fixture::Fixture() {
  bench_.part("R1", "work_support", {{"capacity", 20e3}, {"capacity_pressure", 350e5}});
  bench_.part("K1", "swing_clamp", {{"clamp_area", 5e-4}, {"swing_stroke", 10e-3}, {"clamp_stroke", 10e-3}});
  for (const char* tag : {"C1", "C2", "C3"}) {
    bench_.part(tag, "double_acting_cylinder", {{"bore", 50e-3}, {"rod", 30e-3}, {"stroke", 100e-3}});
  }
  job.title = "Frame boring fixture";
  job.world = units::metric();
  job.plan = bench_.plan;
}

void Fixture::times(std::vector<double> seconds) { trace.time = std::move(seconds); }

void Fixture::column(const std::string& name, std::vector<double> values) {
  columns_[name] = std::move(values);
}

void Fixture::step(const std::string& name, double begin, double end, std::vector<Condition> until,
                   double lasts) {
  job.steps.push_back({.name = name, .lasts = lasts > 0.0 ? lasts : end - begin, .until = std::move(until)});
  trace.steps.push_back({name, begin, end, true});
}

void Fixture::step_not_begun(const std::string& name) { job.steps.push_back({.name = name, .lasts = 1.0}); }

void Fixture::halt(const std::string& sentence) {
  trace.steps.back().finished = false;
  trace.halt = {Halt::Why::stuck, trace.time.back(), sentence};
}

void Fixture::require(std::string name, decltype(Requirement::what) what, std::vector<std::string> during) {
  job.requirements.push_back({std::move(name), std::move(what), std::move(during), {}});
}

void Fixture::rate(const std::string& tag, double pressure, const std::string& parameter) {
  bench_.set(tag, parameter, pressure);
  job.plan = bench_.plan;
}

void Fixture::gauge(const std::string& tag, double range) {
  bench_.part(tag, "gauge", {{"range", range}});
  job.plan = bench_.plan;
}

Signal Fixture::signal(const std::string& name) const { return bench_.signal(name); }
Condition Fixture::above(const std::string& name, double threshold) const {
  return {signal(name), true, threshold};
}
Condition Fixture::below(const std::string& name, double threshold) const {
  return {signal(name), false, threshold};
}

Verdict Fixture::verdict() {
  trace.signals = signals_needed(job);
  trace.values.clear();
  for (const Signal& each : trace.signals) {
    const auto given = columns_.find(each.name);
    trace.values.push_back(given != columns_.end() ? given->second
                                                   : std::vector<double>(trace.time.size(), 0.0));
  }
  return judge(job, trace);
}

Finding Fixture::finding(const std::string& name) {
  const Verdict whole = verdict();
  const auto at = std::ranges::find(whole.findings, name, &Finding::name);
  if (at == whole.findings.end()) throw std::runtime_error("no finding " + name);
  return *at;
}

}  // namespace poise::scene
