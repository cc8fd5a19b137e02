// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace poise::solve {

/// What an integrator needs to know of y' = f(t, y): the seam between the circuit and the numerics.
/// The functions that return bool say false where y cannot be (the step was too long).
struct System {
  int size = 0;
  std::vector<int> column_starts, rows;  ///< sparsity of the Jacobian, by columns
  std::function<bool(double t, const double* y, double* rate)> rates;
  std::function<bool(double t, const double* y, double* values)> jacobian;
  std::function<bool(const double* y, double* size)>
      noise;          ///< error below which each unknown is good enough
  int integrals = 0;  ///< pure integrals that ride along
  /// Their errors count too: a pressure that rises evenly costs the method no error, however long the step,
  /// but the work it does would.
  struct {
    double relative, absolute;
  } integral_error;
  std::function<bool(double t, const double* y, double* rate)> integrands;
  std::function<bool(double t, const double* y, double* values)> crossings;  ///< located where they pass zero
};

/// CVODES: BDF of variable order with KLU. Owns every SUNDIALS handle of a run; every return code passes one
/// check.
class Integrator {
 public:
  Integrator(System system, double time, std::vector<double> start);
  ~Integrator();
  Integrator(const Integrator&) = delete;
  Integrator& operator=(const Integrator&) = delete;

  /// Starts anew at a jump of the equations, from the present y. `crossings` may be of another number than
  /// before.
  void restart(double time, int crossings);

  enum class End { step, stop, crossing, stuck };
  /// One internal step, but not past `stop`. `stuck` when the equations cannot be followed.
  End step(double stop);

  double time() const;
  std::span<const double> y() const;
  /// y at a time within the last step, by the method's own interpolation.
  void inside(double time, double* y) const;
  /// Direction in which each crossing passed zero at the last `crossing`: +1, −1 or 0.
  std::span<const int> crossed() const;
  std::span<const double> integrals() const;
  long steps() const;
  /// When stuck: the unknown whose error is largest against its noise.
  int hardest_unknown() const;

 private:
  /// Forgets the steps so far, and nothing else.
  void restart_here();

  struct Handles;
  std::unique_ptr<Handles> h_;
};

}  // namespace poise::solve
