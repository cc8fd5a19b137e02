// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/bench.hpp"

#include <algorithm>
#include <atomic>

#include "circuit/circuit.hpp"
#include "search/cores.hpp"
#include "solve/run.hpp"

namespace poise::search {
namespace {

// A run that takes many times the steps of the usual one is of a circuit that nobody would build (a needle
// all but shut); it is given up. The easiest run is no measure: in it nothing may move at all.
constexpr long patience = 10;
constexpr long first_patience = 200'000;

}  // namespace

Bench::Bench(const Job& job, std::vector<OpenValue> values, Progress progress)
    : job_(job), values_(std::move(values)), progress_(std::move(progress)) {}

void Bench::judge_at(std::vector<Corner> corners) {
  corners_ = std::move(corners);
  tried_.clear();
}

Trial Bench::run(const Request& request, long most_steps, long& steps) const {
  std::optional<Job> job = with_values(job_, values_, *request.point);
  if (!job) return {.at = *request.point};
  if (request.corner)
    std::ranges::for_each(*request.corner, [&](const Deviation& off) { put_off(*job, off.loose, off.u); });
  const Circuit circuit = build(job->plan);
  solve::RunOptions options{.controls = job->controls};
  options.glanced_at = signals_of_rules(*job);
  options.progress = [&](double, double) { return ++steps <= most_steps && !stopped_; };
  const Trace trace = solve::run(circuit, job->steps, signals_needed(*job), options);
  const bool given_up = trace.halt && trace.halt->why == Halt::Why::stopped;
  Trial trial = trial_of(*request.point, judge(*job, trace), job_.requirements);
  trial.runs = trial.runs && !given_up;
  return trial;
}

long Bench::usual_steps() {
  const auto middle = steps_taken_.begin() + static_cast<std::ptrdiff_t>(steps_taken_.size() / 2);
  std::ranges::nth_element(steps_taken_, middle);
  return *middle;
}

std::vector<Trial> Bench::run_all(std::span<const Request> requests) {
  std::vector<Trial> trials(requests.size());
  std::vector<long> steps(requests.size(), 0);
  std::atomic<long> done = 0;
  const long most = steps_taken_.empty() ? first_patience : patience * usual_steps();
  const auto tell = [&] {
    if (progress_ && !progress_(runs_ + done)) stopped_ = true;
  };
  on_all_cores(
      requests.size(),
      [&](std::size_t i) {
        trials[i] = {.at = *requests[i].point};
        if (!stopped_) trials[i] = run(requests[i], most, steps[i]);
        ++done;
      },
      tell);
  tell();
  runs_ += static_cast<long>(requests.size());
  for (std::size_t i = 0; i < trials.size(); ++i) {
    if (trials[i].runs && !trials[i].verdict.halt) steps_taken_.push_back(steps[i]);
  }
  return trials;
}

std::vector<const Trial*> Bench::at(const std::vector<Point>& points) {
  std::vector<const Point*> fresh;
  for (const Point& point : points) {
    const auto [place, is_new] = tried_.try_emplace(point);
    if (is_new) fresh.push_back(&place->first);
  }
  std::vector<Request> requests;
  for (const Point* point : fresh) {
    requests.push_back({point, nullptr});
    for (const Corner& corner : corners_) requests.push_back({point, &corner});
  }
  std::vector<Trial> trials = run_all(requests);
  for (std::size_t i = 0; i < fresh.size(); ++i) {
    const std::size_t first = i * (1 + corners_.size());
    Trial& trial = trials[first];
    for (std::size_t c = 1; c <= corners_.size(); ++c) worsen(trial, trials[first + c]);
    tried_[*fresh[i]] = std::make_unique<Trial>(std::move(trial));
  }
  std::vector<const Trial*> found;
  for (const Point& point : points) found.push_back(tried_.at(point).get());
  return found;
}

std::vector<Trial> Bench::at_corners(const Point& point, const std::vector<Corner>& corners) {
  std::vector<Request> requests;
  for (const Corner& corner : corners) requests.push_back({&point, &corner});
  return run_all(requests);
}

}  // namespace poise::search
