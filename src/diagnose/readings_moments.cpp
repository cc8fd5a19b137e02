// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Which moments of a log are readings.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "diagnose/readings_log.hpp"
#include "diagnose/readings_value.hpp"
#include "trace/trace.hpp"

namespace poise::diagnose {
namespace {

constexpr double rows_late = 3.0;  // by so many rows a step may be logged late or too short
constexpr double same_time = 1e-9;

/// What a log has of a step.
struct Logged {
  std::size_t first = 0, last = 0;  ///< rows
  double begin = 0.0;
  bool from_begin = false, to_end = false;
};

using LoggedSteps = std::vector<std::optional<Logged>>;

/// By the column that names the steps.
LoggedSteps named_steps(const Log& log, Intake& intake) {
  const Job& job = intake.instruments().job();
  LoggedSteps steps(job.steps.size());
  int last = no_step;
  for (std::size_t r = 0; r < log.time.size(); ++r) {
    const int step = log.step[r];
    if (step == no_step) continue;
    auto& logged = steps[static_cast<std::size_t>(step)];
    if (step != last && step < last)
      intake.complain({log.line[r], 1},
                      fmt::format("step {} comes after {} here; a log holds one cycle, its steps in order",
                                  job::quote(job.steps[static_cast<std::size_t>(step)].name),
                                  job::quote(job.steps[static_cast<std::size_t>(last)].name)));
    if (!logged) logged = Logged{r, r, log.time[r], true, true};
    logged->last = r;
    last = std::max(last, step);
  }
  // The log may have been stopped in its last step.
  if (last == no_step) return steps;
  const Step& of = job.steps[static_cast<std::size_t>(last)];
  Logged& logged = *steps[static_cast<std::size_t>(last)];
  const double logged_for = log.time[logged.last] - logged.begin;
  logged.to_end = !of.until.empty() || logged_for >= of.lasts - rows_late * log.usual_distance;
  return steps;
}

/// By the times that the job's steps last.
LoggedSteps timed_steps(const Log& log, Intake& intake) {
  const Job& job = intake.instruments().job();
  LoggedSteps steps(job.steps.size());
  const double late = rows_late * log.usual_distance + same_time;
  for (std::size_t step = 0; step < job.steps.size(); ++step) {
    const auto begin = begin_of(job, step);
    if (!begin || !job.steps[step].until.empty()) {
      const std::size_t waits = begin ? step : step - 1;
      intake.complain({1, 1}, fmt::format("step {} ends when its condition is met, so a log has to say which "
                                          "step it is in; add a column \"step\"",
                                          job::quote(job.steps[waits].name)));
      return LoggedSteps(job.steps.size());
    }
    const double end = *begin + job.steps[step].lasts;
    const auto first = std::ranges::lower_bound(log.time, *begin - same_time);
    const auto behind = std::ranges::upper_bound(log.time, end + same_time);
    if (first >= behind) continue;
    Logged logged{.first = static_cast<std::size_t>(first - log.time.begin()),
                  .last = static_cast<std::size_t>(behind - log.time.begin()) - 1,
                  .begin = *begin};
    logged.from_begin = log.time[logged.first] <= *begin + late;
    logged.to_end = log.time[logged.last] >= end - late;
    steps[step] = logged;
  }
  if (std::ranges::none_of(steps, [](const auto& step) { return step.has_value(); }))
    intake.complain({log.line.front(), 1},
                    fmt::format("no row lies within the cycle, which ends at {:.6g} s; count time from its "
                                "beginning, or add a column \"step\"",
                                begin_of(job, job.steps.size()).value_or(0.0)));
  return steps;
}

class Taking {
 public:
  Taking(const Log& log, Intake& intake)
      : log_(log),
        intake_(intake),
        steps_(log.has_steps ? named_steps(log, intake) : timed_steps(log, intake)) {
    const std::vector<Watch>& watches = intake.instruments().watches();
    trace_.time = log.time;
    for (const LogColumn& column : log.columns) {
      trace_.signals.push_back(watches[column.watch].signal);
      trace_.values.push_back(column.values);
      logged_.emplace(trace_.signals.back().name);
    }
    for (std::size_t step = 0; step < steps_.size(); ++step) {
      const auto& logged = steps_[step];
      trace_.steps.push_back({intake.instruments().job().steps[step].name, logged ? logged->begin : 0.0,
                              logged ? log.time[logged->last] : 0.0});
    }
  }

  void take() {
    const Job& job = intake_.instruments().job();
    const std::vector<Watch>& watches = intake_.instruments().watches();
    std::vector<Watch> asked;
    std::vector<std::size_t> places;
    for (std::size_t w = 0; w < watches.size(); ++w) {
      if (!is_there(watches[w])) continue;
      asked.push_back(watches[w]);
      places.push_back(w);
    }
    const std::vector<double> shown = seen(job, trace_, asked);
    for (std::size_t i = 0; i < asked.size(); ++i) add(places[i], shown[i]);
    add_oil();
  }

 private:
  bool mover_is_logged(const Watch& watch) const {
    for (const Signal& signal : signals_of(intake_.instruments().job().plan, watch.mover)) {
      if (signal.what == Signal::What::position && logged_.contains(signal.name)) return true;
    }
    return false;
  }

  /// Whether the log tells what a watch asks.
  bool is_there(const Watch& watch) const {
    if (watch.instrument == Instrument::thermometer || !logged_.contains(watch.signal.name)) return false;
    const auto& step = steps_[watch.step];
    if (!step) return false;
    const bool whole = step->from_begin && step->to_end;
    if (watch.instrument == Instrument::stop_watch) return whole;
    switch (watch.when) {
      case When::end:
        return step->to_end;
      case When::starts:
      case When::moves:
        return whole && mover_is_logged(watch);
      case When::after:
        return step->begin + watch.after >= log_.time[step->first] &&
               step->begin + watch.after <= log_.time[step->last];
      case When::half_way:
        return false;
    }
    return false;
  }

  std::string fault_of(const Watch& watch, double value, const LogColumn& column) const {
    const Job& job = intake_.instruments().job();
    return fault_of_value(watch, job, value, column.unit, job.world);
  }

  const LogColumn& column_of(const Watch& watch) const {
    return *std::ranges::find_if(log_.columns, [&](const LogColumn& column) {
      return intake_.instruments().watches()[column.watch].signal.name == watch.signal.name;
    });
  }

  int line_of(const Watch& watch) const {
    const Logged& step = *steps_[watch.step];
    if (watch.when == When::end && watch.instrument != Instrument::stop_watch) return log_.line[step.last];
    if (watch.when != When::after) return log_.line[step.first];
    const auto row = std::ranges::lower_bound(log_.time, step.begin + watch.after);
    return log_.line[static_cast<std::size_t>(std::min(row, log_.time.end() - 1) - log_.time.begin())];
  }

  void add(std::size_t w, double value) {
    const Watch& watch = intake_.instruments().watches()[w];
    const Place place{line_of(watch), 1};
    const bool may_not_come =
        watch.instrument == Instrument::stop_watch || watch.when == When::starts || watch.when == When::moves;
    if (std::isnan(value)) {
      if (may_not_come) intake_.add({w, std::nullopt, watch.accuracy, place});
      return;
    }
    const LogColumn& column = column_of(watch);
    // How long an operator's step lasted is the log's own affair.
    const bool judged = watch.instrument != Instrument::stop_watch;
    const std::string fault = judged ? fault_of(watch, value, column) : "";
    if (fault.empty()) {
      intake_.add({w, value, watch.accuracy, place});
    } else if (blamed_.insert(column.name).second) {
      intake_.complain(place, fmt::format("{}: {}", column.name, fault));
    }
  }

  /// The oil's temperature is that of the last row.
  void add_oil() {
    const std::vector<Watch>& watches = intake_.instruments().watches();
    for (const LogColumn& column : log_.columns) {
      const Watch& watch = watches[column.watch];
      if (watch.instrument != Instrument::thermometer) continue;
      const double value = column.values.back();
      const Place place{log_.line.back(), 1};
      const std::string fault = fault_of(watch, value, column);
      if (fault.empty())
        intake_.add({column.watch, value, watch.accuracy, place});
      else
        intake_.complain(place, fmt::format("{}: {}", column.name, fault));
    }
  }

  const Log& log_;
  Intake& intake_;
  LoggedSteps steps_;
  Trace trace_{};
  std::set<std::string, std::less<>> logged_{};
  std::set<std::string> blamed_{};
};

}  // namespace

void take_log(const Log& log, Intake& intake) { Taking(log, intake).take(); }

}  // namespace poise::diagnose
