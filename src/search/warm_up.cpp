// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/warm_up.hpp"

#include <algorithm>
#include <cmath>

#include "circuit/circuit.hpp"
#include "solve/run.hpp"

namespace poise::search {
namespace {

constexpr double close = 0.1;    // K: the balance is found
constexpr int most_trials = 12;  // of the balance
constexpr int between = 2;       // temperatures proven between start and balance, for the course of the heat
constexpr double expected_runs = 6.0;

class Study {
 public:
  Study(const Job& job, const WarmUpWish& wish) : job_(job), wish_(wish) {}

  WarmUp result() {
    found_.balance = heat_balance_of(build(job_.plan), wish_.start);
    prove(wish_.start);
    find_balance();
    if (found_.steady && std::abs(*found_.steady - wish_.start) > close) {
      for (int i = 1; i <= between; ++i) {
        prove(wish_.start + (*found_.steady - wish_.start) * i / (between + 1.0));
      }
    }
    std::ranges::sort(found_.proven, {}, &AtTemperature::temperature);
    if (!found_.stopped) {
      found_.curve = course_of(found_.balance, wish_.start, [this](double t) { return heat(t); });
    }
    drop_what_is_never_met();
    return std::move(found_);
  }

 private:
  /// Proves the cycle at a temperature; what has been proven already is looked up.
  const AtTemperature& prove(double temperature) {
    const auto known = std::ranges::find(found_.proven, temperature, &AtTemperature::temperature);
    if (known != found_.proven.end()) return *known;
    Job job = job_;
    job.plan.oil.temperature = temperature;
    const Circuit circuit = build(job.plan);
    solve::RunOptions options{.progress = [&](double, double share) {
      const double done = std::min((static_cast<double>(found_.proven.size()) + share) / expected_runs, 1.0);
      found_.stopped = found_.stopped || (wish_.progress && !wish_.progress(done));
      return !found_.stopped;
    }};
    options.heat_of_parts = true;
    options.controls = job.controls;
    options.glanced_at = signals_of_rules(job);
    const Trace trace = solve::run(circuit, job.steps, signals_needed(job), options);
    AtTemperature at{
        .temperature = temperature, .viscosity = circuit.oil.viscosity(), .verdict = judge(job, trace)};
    // A cycle that ends at once, because it cannot be run in oil like that, has no heat either.
    found_.period = std::max(wish_.every.value_or(0.0), trace.time.back());
    if (!(found_.period > 0.0)) return found_.proven.emplace_back(std::move(at));
    for (double heat : trace.heat_of_part) {
      at.heat_of_part.push_back(heat / found_.period);
      at.heat += heat / found_.period;
    }
    return found_.proven.emplace_back(std::move(at));
  }

  double imbalance(double temperature) { return prove(temperature).heat - found_.balance.loss(temperature); }

  /// The heat falls or grows little with temperature while the loss grows evenly: the secant rule finds the
  /// balance.
  void find_balance() {
    if (!(found_.balance.conductance > 0.0)) return;
    double t0 = wish_.start, f0 = imbalance(t0);
    double t1 = found_.balance.surroundings + found_.proven.front().heat / found_.balance.conductance;
    for (int i = 0; i < most_trials && !found_.stopped; ++i) {
      t1 = std::clamp(t1, coldest, wish_.hottest);
      const double f1 = imbalance(t1);
      if (t1 >= wish_.hottest && f1 > 0.0) return;
      if (std::abs(f1) <= close * found_.balance.conductance) {
        found_.steady = t1;
        return;
      }
      const double slope = t1 != t0 ? (f1 - f0) / (t1 - t0) : -found_.balance.conductance;
      const double next = t1 - f1 / std::min(slope, -0.2 * found_.balance.conductance);
      t0 = t1;
      f0 = f1;
      t1 = next;
    }
  }

  /// Heat at a temperature on straight lines between those proven.
  double heat(double temperature) const {
    const auto& all = found_.proven;
    const auto above = std::ranges::lower_bound(all, temperature, {}, &AtTemperature::temperature);
    if (above == all.begin()) return all.front().heat;
    if (above == all.end()) return all.back().heat;
    const auto below = above - 1;
    const double u = (temperature - below->temperature) / (above->temperature - below->temperature);
    return below->heat + u * (above->heat - below->heat);
  }

  /// The search for the balance also proves at temperatures past it.
  void drop_what_is_never_met() {
    const double end = found_.steady.value_or(wish_.hottest);
    const double low = std::min(wish_.start, end), high = std::max(wish_.start, end);
    std::erase_if(found_.proven,
                  [&](const AtTemperature& at) { return at.temperature < low || at.temperature > high; });
  }

  static constexpr double coldest = si::zero_celsius - 40.0;

  const Job& job_;
  const WarmUpWish& wish_;
  WarmUp found_;
};

}  // namespace

std::optional<double> WarmUp::time_to(double temperature) const {
  for (std::size_t i = 1; i < curve.size(); ++i) {
    const auto& [t0, before] = curve[i - 1];
    const auto& [t1, after] = curve[i];
    if ((before - temperature) * (after - temperature) <= 0.0 && after != before) {
      return t0 + (t1 - t0) * (temperature - before) / (after - before);
    }
  }
  return std::nullopt;
}

WarmUp warm_up(const Job& job, const WarmUpWish& wish) { return Study(job, wish).result(); }

}  // namespace poise::search
