// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "judge/verdict.hpp"
#include "support/workshop.hpp"

namespace poise::scene {

/// A fixture that holds a wagon frame for boring: a work support R1, a swing clamp K1, three cylinders C1 to
/// C3. Its traces are written by hand, so that every margin can be worked out by head. Invented data.
class Fixture {
 public:
  Fixture();

  Job job;
  Trace trace;

  /// The rows' times; signals without a column of their own are zero throughout.
  void times(std::vector<double> seconds);
  void column(const std::string& name, std::vector<double> values);
  /// A step of job and trace.
  void step(const std::string& name, double begin, double end, std::vector<Condition> until = {},
            double lasts = 0.0);
  /// A step of the job that the trace does not come to.
  void step_not_begun(const std::string& name);
  /// The last step was not finished; the trace says why.
  void halt(const std::string& sentence);
  void require(std::string name, decltype(Requirement::what) what, std::vector<std::string> during = {});
  void rate(const std::string& tag, double pressure, const std::string& parameter = "rated_pressure");
  /// Adds a gauge with full scale.
  void gauge(const std::string& tag, double range);

  Signal signal(const std::string& name) const;
  Condition above(const std::string& name, double threshold) const;
  Condition below(const std::string& name, double threshold) const;

  Verdict verdict();
  /// The finding of that name; throws if there is none.
  Finding finding(const std::string& name);

 private:
  workshop::Bench bench_;
  std::map<std::string, std::vector<double>> columns_;
};

}  // namespace poise::scene
