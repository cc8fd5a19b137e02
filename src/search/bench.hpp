// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <atomic>
#include <functional>
#include <map>
#include <memory>
#include <span>
#include <vector>

#include "search/loose.hpp"
#include "search/trial.hpp"

namespace poise::search {

/// One value off by `u` of what is allowed (`put_off`).
struct Deviation {
  Loose loose;
  double u = 1.0;
};
/// Values that are off together: a machine at one corner of its tolerances.
using Corner = std::vector<Deviation>;

/// Proves a job with values tried in it, on all cores, each point once. The same points give the same trials
/// whatever else the machine does.
class Bench {
 public:
  using Progress = std::function<bool(long runs)>;

  Bench(const Job& job, std::vector<OpenValue> values, Progress progress = {});

  const std::vector<OpenValue>& values() const { return values_; }
  /// From now on a trial is as bad as the job or any of these corners makes it.
  void judge_at(std::vector<Corner> corners);

  const Trial& at(const Point& point) { return *at(std::vector<Point>{point}).front(); }
  std::vector<const Trial*> at(const std::vector<Point>& points);
  /// The verdicts of the job with these values at corners of its tolerances alone.
  std::vector<Trial> at_corners(const Point& point, const std::vector<Corner>& corners);

  long runs() const { return runs_; }
  /// Whether somebody has asked to stop; what is tried after that is not run.
  bool stopped() const { return stopped_; }
  /// All that has been tried, in the order of the points.
  const std::map<Point, std::unique_ptr<Trial>>& tried() const { return tried_; }

 private:
  struct Request {
    const Point* point;
    const Corner* corner;  ///< null: the job as it stands
  };
  std::vector<Trial> run_all(std::span<const Request> requests);
  Trial run(const Request& request, long most_steps, long& steps) const;
  long usual_steps();  ///< the median of those taken

  const Job& job_;
  std::vector<OpenValue> values_;
  Progress progress_;
  std::vector<Corner> corners_;
  std::map<Point, std::unique_ptr<Trial>> tried_;
  long runs_ = 0;
  std::vector<long> steps_taken_;  ///< of runs that came to their end
  std::atomic<bool> stopped_ = false;
};

}  // namespace poise::search
