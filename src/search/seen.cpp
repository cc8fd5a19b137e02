// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/seen.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "circuit/circuit.hpp"
#include "search/edges.hpp"
#include "solve/run.hpp"

namespace poise::search {
namespace {

std::vector<Signal> flows_and_pressures(const Job& job, const std::vector<OpenValue>& values) {
  std::vector<Signal> signals;
  for (const OpenValue& value : values) {
    if (value.is != OpenValue::Is::model) continue;
    for (Signal& signal : signals_of(job.plan, value.at.part)) {
      if (signal.quantity == Quantity::flow || signal.quantity == Quantity::pressure)
        signals.push_back(signal);
    }
  }
  return signals;
}

/// The greatest size of a signal that is there for a while in all: a valve is not sized for the burst of a
/// moment in which pressed oil lets go.
double lasting(const Trace& trace, std::size_t signal) {
  constexpr double a_while = 0.1;  // s
  std::vector<std::pair<double, double>> size_and_time;
  for (std::size_t row = 1; row < trace.time.size(); ++row) {
    const auto& values = trace.values[signal];
    size_and_time.emplace_back(std::min(std::abs(values[row - 1]), std::abs(values[row])),
                               trace.time[row] - trace.time[row - 1]);
  }
  std::ranges::sort(size_and_time, std::greater{});
  double time = 0.0;
  for (const auto& [size, lasts] : size_and_time) {
    if ((time += lasts) >= a_while) return size;
  }
  return 0.0;
}

/// What breaks with another item in place of the one found, or how much less fits.
std::string beside(const Trial& trial, const Trial& found, double dearer) {
  if (!trial.runs) return "the circuit does not run with it as the others are set";
  for (const Finding& finding : trial.verdict.findings) {
    if (!finding.held) return fmt::format("breaks \"{}\": {}", finding.name, finding.found);
  }
  if (trial.rules > found.rules + 0.5)
    return fmt::format("does not keep the rule \"{}\"", what_breaks(trial, found).breaks);
  if (dearer > 0.0) return fmt::format("fits, and costs {:g} more", dearer);
  return fmt::format("fits, and leaves less room: {:.1f} %", 100.0 * trial.smallest());
}

}  // namespace

std::vector<Seen> seen_by_models(const Job& job, const std::vector<OpenValue>& values, const Point& point) {
  std::vector<Seen> seen(values.size());
  const auto filled = with_values(job, values, point);
  const std::vector<Signal> signals = flows_and_pressures(job, values);
  if (!filled || signals.empty()) return seen;
  const Trace trace = solve::run(build(filled->plan), filled->steps, signals, {.controls = filled->controls});
  for (std::size_t s = 0; s < signals.size(); ++s) {
    for (std::size_t j = 0; j < values.size(); ++j) {
      if (values[j].is != OpenValue::Is::model || values[j].at.part != signals[s].part) continue;
      if (signals[s].quantity == Quantity::flow) {
        seen[j].flow = std::max(seen[j].flow, lasting(trace, s));
      } else {
        for (const double each : trace.values[s]) seen[j].pressure = std::max(seen[j].pressure, each);
      }
    }
  }
  return seen;
}

std::vector<std::string> models_too_weak(const Bench& bench, const Job& job, const Trial& found) {
  std::vector<std::string> weak;
  const std::vector<Seen> seen = seen_by_models(job, bench.values(), found.at);
  for (std::size_t j = 0; j < bench.values().size(); ++j) {
    const OpenValue& value = bench.values()[j];
    if (value.is != OpenValue::Is::model) continue;
    const std::string why = too_weak(*value.items[static_cast<std::size_t>(found.at[j])], seen[j], job.world);
    if (!why.empty()) weak.push_back(fmt::format("{}: {}", value.name, why));
  }
  return weak;
}

std::vector<std::vector<Rejected>> passed_over(Bench& bench, const Job& job, const Trial& found) {
  const std::vector<OpenValue>& values = bench.values();
  std::vector<std::vector<Rejected>> over(values.size());
  const std::vector<Seen> seen = seen_by_models(job, values, found.at);
  for (std::size_t j = 0; j < values.size(); ++j) {
    if (values[j].is != OpenValue::Is::model) continue;
    std::vector<Point> points;
    for (const double choice : values[j].choices) {
      points.push_back(found.at);
      points.back()[j] = choice;
    }
    const std::vector<const Trial*> trials = bench.at(points);
    const auto taken = static_cast<std::size_t>(found.at[j]);
    for (std::size_t i = 0; i < trials.size(); ++i) {
      const StockItem& item = *values[j].items[i];
      if (i == taken) continue;
      std::string why = too_weak(item, seen[j], job.world);
      if (why.empty()) why = beside(*trials[i], found, item.cost - values[j].items[taken]->cost);
      over[j].push_back({&item, std::move(why)});
    }
    std::ranges::move(shelf_of(job, values[j].at).rejected, std::back_inserter(over[j]));
  }
  return over;
}

}  // namespace poise::search
