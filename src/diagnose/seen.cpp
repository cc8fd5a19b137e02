// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What a run shows to whoever reads instruments.
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

#include "diagnose/motion.hpp"
#include "diagnose/watch.hpp"

namespace poise::diagnose {
namespace {

constexpr double begun = 0.02, arrived = 0.95;  // of a way; common practice
constexpr double not_seen = std::numeric_limits<double>::quiet_NaN();

class Look {
 public:
  Look(const Job& job, const Trace& trace) : job_(job), trace_(trace) {}

  double at(const Watch& watch) {
    if (watch.instrument == Instrument::thermometer) return job_.plan.oil.temperature;
    if (watch.step >= trace_.steps.size() || trace_.time.empty()) return not_seen;
    const StepSpan& span = trace_.steps[watch.step];
    if (watch.instrument == Instrument::stop_watch) {
      const auto there = passed(watch, watch.way.from + arrived * (watch.way.to - watch.way.from));
      return there ? *there - span.begin : not_seen;
    }
    const auto time = moment(watch, span);
    if (!time) return not_seen;
    const double value = value_at(trace_, column(watch.signal.name), *time, watch.when == When::end);
    // Oil that comes out of a part into the reservoir flows against the part's own direction.
    return watch.instrument == Instrument::bucket ? std::max(0.0, -value) : value;
  }

 private:
  std::optional<double> moment(const Watch& watch, const StepSpan& span) {
    switch (watch.when) {
      case When::end:
        return cut_short(watch.step) ? std::nullopt : std::optional(span.end);
      case When::half_way:
        return 0.5 * (span.begin + span.end);
      case When::after:
        return span.begin + watch.after <= span.end ? std::optional(span.begin + watch.after) : std::nullopt;
      case When::starts:
        return begins(watch);
      case When::moves:
        return passed(watch, 0.5 * (watch.way.from + watch.way.to));
    }
    return std::nullopt;
  }

  /// The run ended in this step, and not because it had waited long enough.
  bool cut_short(std::size_t step) const {
    return trace_.halt && trace_.halt->why != Halt::Why::waited && step + 1 == trace_.steps.size();
  }

  /// It leaves the place at which it stands as the step begins, wherever that is.
  std::optional<double> begins(const Watch& watch) {
    const double stands = value_at(trace_, place_of(watch), trace_.steps[watch.step].begin);
    return passed(watch, stands + begun * (watch.way.to - watch.way.from));
  }

  std::optional<double> passed(const Watch& watch, double goal) {
    const int at = place_of(watch);
    const auto [found, fresh] = passed_.try_emplace({watch.step, at, goal});
    if (fresh)
      found->second = when_passed(trace_, trace_.steps[watch.step], at, goal, watch.way.to > watch.way.from);
    return found->second;
  }

  /// Column of the position of what moves.
  int place_of(const Watch& watch) {
    const auto [at, fresh] = places_.try_emplace({watch.mover, watch.way.motion}, -1);
    if (!fresh || watch.mover < 0) return at->second;
    for (const Signal& signal : signals_of(job_.plan, watch.mover)) {
      if (signal.what == Signal::What::position && signal.index == watch.way.motion)
        at->second = column(signal.name);
    }
    return at->second;
  }

  int column(const std::string& name) {
    const auto [at, fresh] = columns_.try_emplace(name);
    if (fresh) at->second = trace_.column(name);
    return at->second;
  }

  const Job& job_;
  const Trace& trace_;
  std::map<std::string, int> columns_{};
  std::map<std::pair<int, int>, int> places_{};
  std::map<std::tuple<std::size_t, int, double>, std::optional<double>> passed_{};
};

}  // namespace

std::vector<double> seen(const Job& job, const Trace& trace, const std::vector<Watch>& watches) {
  Look look(job, trace);
  std::vector<double> values;
  values.reserve(watches.size());
  for (const Watch& watch : watches) values.push_back(look.at(watch));
  return values;
}

}  // namespace poise::diagnose
