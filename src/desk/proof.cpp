// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/proof.hpp"

#include <algorithm>
#include <chrono>

#include "draw/chart.hpp"
#include "draw/moment.hpp"
#include "draw/panels.hpp"
#include "draw/words.hpp"
#include "solve/run.hpp"

namespace poise::desk {
namespace {

constexpr double between_moments = 0.05;  // s
constexpr double most_moments = 2400.0;

/// Up to when the steps can last.
double longest(const Schedule& steps) {
  double sum = 0.0;
  for (const Step& step : steps) sum += step.lasts;
  return sum;
}

std::vector<double> moments_of(const Schedule& steps) {
  const double end = longest(steps), apart = std::max(between_moments, end / most_moments);
  std::vector<double> times;
  for (int i = 0; i * apart < end; ++i) times.push_back(i * apart);
  return times;
}

void add(std::vector<Signal>& to, const Signal& signal) {
  if (std::ranges::none_of(to, [&](const Signal& other) { return draw::is_same(signal, other); }))
    to.push_back(signal);
}

std::vector<Signal> charted_of(const Job& job, const std::vector<std::string>& more) {
  std::vector<Signal> signals = draw::cycle_signals(job, {});
  for (const std::string& name : more) {
    if (const auto signal = find_signal(job.plan, name)) add(signals, *signal);
  }
  return signals;
}

/// What judging needs, under the very names it asks for, and behind it what is charted beside that.
std::vector<Signal> recorded_of(std::vector<Signal> needed, const std::vector<Signal>& charted) {
  for (const Signal& signal : charted) {
    if (std::ranges::find(needed, signal.name, &Signal::name) == needed.end()) needed.push_back(signal);
  }
  return needed;
}

double highest_pressure(const Trace& trace) {
  double highest = 0.0;
  for (const Moment& moment : trace.moments) highest = std::max(highest, draw::highest_pressure(moment));
  return highest;
}

}  // namespace

const draw::Schematic& Proof::schematic() const {
  std::call_once(set_down_,
                 [&] { schematic_ = draw::arrange(job.plan, draw::words_of(job), draw::wishes_of(job)); });
  return schematic_;
}

std::shared_ptr<Proof> prove(Job job, const std::vector<std::string>& more, Work& work) {
  const auto begin = std::chrono::steady_clock::now();
  auto proof = std::make_shared<Proof>(std::move(job));
  const Job& given = proof->job;
  proof->charted = charted_of(given, more);
  solve::RunOptions options;
  options.look_at_step_ends = true;
  options.look_at = moments_of(given.steps);
  options.controls = given.controls;
  options.progress = [&](double, double share) { return work.at(share); };
  const std::vector<Signal> needed = signals_needed(given);
  options.followed = needed.size();
  options.glanced_at = signals_of_rules(given);
  proof->trace = solve::run(proof->circuit, given.steps, recorded_of(needed, proof->charted), options);
  proof->verdict = judge(given, proof->trace);
  proof->scale = draw::scale_up_to(highest_pressure(proof->trace), given.world);
  proof->took = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  return proof;
}

Trace at_step_ends(const Trace& trace) {
  Trace ends = trace;
  ends.moments.clear();
  for (const StepSpan& step : trace.steps) {
    const auto end = std::ranges::find_if(trace.moments, [&](const Moment& moment) {
      return step.end == moment.time && step.name == moment.step;
    });
    if (end != trace.moments.end()) ends.moments.push_back(*end);
  }
  return ends;
}

}  // namespace poise::desk
