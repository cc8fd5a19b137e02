// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/linear_model.hpp"

#include <nlopt.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

namespace poise::search {
namespace {

// A sharp minimum is a bad start for a method that wants it smooth: each of these begins where the last
// ended.
constexpr std::array sharpness{3.0, 20.0, 100.0, 500.0, 2000.0};
constexpr int most_evaluations = 200;

double value_at(const Line& line, const double* step) {
  double value = line.base;
  for (std::size_t j = 0; j < line.slope.size(); ++j) value += line.slope[j] * step[j];
  return value;
}

struct Problem {
  std::vector<const Line*> lifted, held;
  double sharpness = 0.0;
};

double minus_minimum(unsigned count, const double* step, double* gradient, void* data) {
  const auto& problem = *static_cast<const Problem*>(data);
  std::vector<double> values;
  for (const Line* line : problem.lifted) values.push_back(value_at(*line, step));
  const double least = *std::ranges::min_element(values);
  double sum = 0.0;
  for (double& value : values) sum += value = std::exp(-problem.sharpness * (value - least));
  if (gradient) {
    std::fill_n(gradient, count, 0.0);
    for (std::size_t i = 0; i < values.size(); ++i) {
      for (unsigned j = 0; j < count; ++j) gradient[j] -= values[i] / sum * problem.lifted[i]->slope[j];
    }
  }
  return std::log(sum) / problem.sharpness - least;
}

void below_floors(unsigned count, double* result, unsigned size, const double* step, double* gradient,
                  void* data) {
  const auto& problem = *static_cast<const Problem*>(data);
  for (unsigned i = 0; i < count; ++i) {
    const Line& line = *problem.held[i];
    result[i] = *line.floor - value_at(line, step);
    for (unsigned j = 0; gradient && j < size; ++j) gradient[i * size + j] = -line.slope[j];
  }
}

struct Destroy {
  void operator()(nlopt_opt method) const { nlopt_destroy(method); }
};

}  // namespace

double smooth_minimum(const std::vector<double>& numbers, double sharp) {
  const double least = *std::ranges::min_element(numbers);
  double sum = 0.0;
  for (const double number : numbers) sum += std::exp(-sharp * (number - least));
  return least - std::log(sum) / sharp;
}

std::vector<double> best_step(const std::vector<Line>& lines, const std::vector<double>& low,
                              const std::vector<double>& high, Lift lift) {
  const auto count = static_cast<unsigned>(low.size());
  std::vector<double> step(count, 0.0);
  Problem problem;
  for (const Line& line : lines) (line.floor ? problem.held : problem.lifted).push_back(&line);
  if (problem.lifted.empty() || count == 0) return step;
  const std::vector<double> slack(problem.held.size(), 1e-7);
  for (const double sharp : sharpness) {
    if (lift == Lift::all && sharp > sharpness.front()) break;
    problem.sharpness = sharp;
    const std::unique_ptr<nlopt_opt_s, Destroy> method(nlopt_create(NLOPT_LD_SLSQP, count));
    nlopt_set_lower_bounds(method.get(), low.data());
    nlopt_set_upper_bounds(method.get(), high.data());
    nlopt_set_min_objective(method.get(), minus_minimum, &problem);
    if (!problem.held.empty()) {
      nlopt_add_inequality_mconstraint(method.get(), static_cast<unsigned>(slack.size()), below_floors,
                                       &problem, slack.data());
    }
    nlopt_set_xtol_rel(method.get(), 1e-6);
    nlopt_set_maxeval(method.get(), most_evaluations);
    std::vector<double> next = step;
    double value = 0.0;
    // A method that gives up where it can get no further leaves its best step all the same.
    nlopt_optimize(method.get(), next.data(), &value);
    if (std::ranges::all_of(next, [](double each) { return std::isfinite(each); })) step = next;
  }
  return step;
}

}  // namespace poise::search
