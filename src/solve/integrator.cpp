// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/integrator.hpp"

#include <cvodes/cvodes.h>
#include <fmt/format.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_sparse.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace poise::solve {
namespace {

constexpr int recoverable = 1;
constexpr int amd_ordering = 0;
constexpr int highest_order = 2;
constexpr long oldest_jacobian = 5;    // steps
constexpr double convergence = 0.003;  // of the corrector, as a share of the error allowed in a step

/// Every return code of a set-up call: a bad one is our bug.
void check(int code, const char* call) {
  if (code < 0) throw std::logic_error(fmt::format("{} failed with {}", call, code));
}
template <class T>
T* check(T* handle, const char* call) {
  if (!handle) throw std::logic_error(fmt::format("{} gave no handle", call));
  return handle;
}

void be_silent(int, const char*, const char*, char*, void*) {}

}  // namespace

struct Integrator::Handles {
  System system;
  SUNContext context = nullptr;
  N_Vector y = nullptr, integrals = nullptr, work = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver solver = nullptr;
  void* cvode = nullptr;
  double time = 0.0;
  double close_crossing =
      -std::numeric_limits<double>::infinity();  ///< where two crossings last fell together
  std::vector<int> crossed;
  std::vector<double> start_values, noise;
  std::vector<sunindextype> starts, rows;
  std::vector<double> slopes;         // of the last Jacobian, in the order of `rows`
  std::vector<std::size_t> diagonal;  // where in `rows` it is met
  long steps_before = 0;

  ~Handles() {
    if (cvode) CVodeFree(&cvode);
    if (solver) SUNLinSolFree(solver);
    if (matrix) SUNMatDestroy(matrix);
    for (N_Vector v : {y, integrals, work}) {
      if (v) N_VDestroy(v);
    }
    if (context) SUNContext_Free(&context);
  }
  static Handles& of(void* data) { return *static_cast<Handles*>(data); }

  // Exceptions must not cross C: a callback that throws is our bug and stops the run.
  template <class F>
  static int guarded(F&& f) {
    try {
      return f() ? 0 : recoverable;
    } catch (...) {
      return -1;
    }
  }
  static int rates(realtype t, N_Vector y, N_Vector rate, void* data) {
    return guarded([&] { return of(data).system.rates(t, NV_DATA_S(y), NV_DATA_S(rate)); });
  }
  /// I − γ·J straight into the matrix; CVODES' own way to it clears, copies and scales it in four passes.
  static int newton_matrix(realtype t, N_Vector y, N_Vector, SUNMatrix m, booleantype old_slopes_do,
                           booleantype* renewed, realtype gamma, void* data, N_Vector, N_Vector, N_Vector) {
    Handles& h = of(data);
    *renewed = !old_slopes_do;
    if (!old_slopes_do) {
      const int code = guarded([&] { return h.system.jacobian(t, NV_DATA_S(y), h.slopes.data()); });
      if (code != 0) return code;
    }
    std::ranges::copy(h.starts, SM_INDEXPTRS_S(m));
    std::ranges::copy(h.rows, SM_INDEXVALS_S(m));
    std::ranges::transform(h.slopes, SM_DATA_S(m), [gamma](double slope) { return -gamma * slope; });
    for (std::size_t at : h.diagonal) SM_DATA_S(m)[at] += 1.0;
    return 0;
  }
  static int weights(N_Vector y, N_Vector weight, void* data) {
    Handles& h = of(data);
    double* w = NV_DATA_S(weight);
    const int code = guarded([&] { return h.system.noise(NV_DATA_S(y), w); });
    if (code != 0) return -1;
    for (int i = 0; i < h.system.size; ++i) w[i] = 1.0 / w[i];
    return 0;
  }
  static int integrands(realtype t, N_Vector y, N_Vector rate, void* data) {
    return guarded([&] { return of(data).system.integrands(t, NV_DATA_S(y), NV_DATA_S(rate)); });
  }
  static int crossings(realtype t, N_Vector y, realtype* values, void* data) {
    return guarded([&] { return of(data).system.crossings(t, NV_DATA_S(y), values); }) == 0 ? 0 : -1;
  }
};

Integrator::Integrator(System system, double time, std::vector<double> start)
    : h_(std::make_unique<Handles>()) {
  Handles& h = *h_;
  h.system = std::move(system);
  h.time = time;
  h.starts.assign(h.system.column_starts.begin(), h.system.column_starts.end());
  h.rows.assign(h.system.rows.begin(), h.system.rows.end());
  h.slopes.assign(h.rows.size(), 0.0);
  for (int column = 0; column < h.system.size; ++column) {
    for (auto at = h.starts[column]; at < h.starts[column + 1]; ++at) {
      if (h.rows[at] == column) h.diagonal.push_back(static_cast<std::size_t>(at));
    }
  }
  check(SUNContext_Create(nullptr, &h.context), "SUNContext_Create");
  h.y = check(N_VNew_Serial(h.system.size, h.context), "N_VNew_Serial");
  h.work = check(N_VNew_Serial(h.system.size, h.context), "N_VNew_Serial");
  h.integrals = check(N_VNew_Serial(std::max(1, h.system.integrals), h.context), "N_VNew_Serial");
  std::ranges::copy(start, NV_DATA_S(h.y));
  N_VConst(0.0, h.integrals);
  h.matrix = check(SUNSparseMatrix(h.system.size, h.system.size, static_cast<sunindextype>(h.rows.size()),
                                   CSC_MAT, h.context),
                   "SUNSparseMatrix");
  h.solver = check(SUNLinSol_KLU(h.y, h.matrix, h.context), "SUNLinSol_KLU");
  check(SUNLinSol_KLUSetOrdering(h.solver, amd_ordering), "SUNLinSol_KLUSetOrdering");

  h.cvode = check(CVodeCreate(CV_BDF, h.context), "CVodeCreate");
  check(CVodeSetErrHandlerFn(h.cvode, &be_silent, nullptr), "CVodeSetErrHandlerFn");
  check(CVodeInit(h.cvode, &Handles::rates, time, h.y), "CVodeInit");
  check(CVodeSetUserData(h.cvode, &h), "CVodeSetUserData");
  check(CVodeWFtolerances(h.cvode, &Handles::weights), "CVodeWFtolerances");
  check(CVodeSetLinearSolver(h.cvode, h.solver, h.matrix), "CVodeSetLinearSolver");
  check(CVodeSetLinSysFn(h.cvode, &Handles::newton_matrix), "CVodeSetLinSysFn");
  // A valve's slope changes by decades within a step. With a Jacobian from before it opened or shut, the
  // corrector's first move is tiny, passes for converged at CVODES' own 0.1, and the pressure drifts on along
  // the predictor: so it must converge further, and no Jacobian gets old.
  check(CVodeSetJacEvalFrequency(h.cvode, oldest_jacobian), "CVodeSetJacEvalFrequency");
  check(CVodeSetLSetupFrequency(h.cvode, oldest_jacobian), "CVodeSetLSetupFrequency");
  check(CVodeSetNonlinConvCoef(h.cvode, convergence), "CVodeSetNonlinConvCoef");
  check(CVodeSetMaxNumSteps(h.cvode, -1), "CVodeSetMaxNumSteps");
  // Loads on oil columns ring with little damping. BDF of order 3 and more is unstable near the imaginary
  // axis and keeps such ringing alive; order 2 damps it and is no slower on the example jobs
  // (docs/architecture.md has the figures).
  check(CVodeSetMaxOrd(h.cvode, highest_order), "CVodeSetMaxOrd");
  check(CVodeSetMaxConvFails(h.cvode, 30), "CVodeSetMaxConvFails");
  check(CVodeSetMaxErrTestFails(h.cvode, 20), "CVodeSetMaxErrTestFails");
  check(CVodeSetNoInactiveRootWarn(h.cvode), "CVodeSetNoInactiveRootWarn");
  if (h.system.integrals > 0) {
    check(CVodeQuadInit(h.cvode, &Handles::integrands, h.integrals), "CVodeQuadInit");
    check(CVodeQuadSStolerances(h.cvode, h.system.integral_error.relative, h.system.integral_error.absolute),
          "CVodeQuadSStolerances");
    check(CVodeSetQuadErrCon(h.cvode, SUNTRUE), "CVodeSetQuadErrCon");
  }
}

Integrator::~Integrator() = default;

void Integrator::restart_here() {
  Handles& h = *h_;
  h.steps_before = steps();
  check(CVodeReInit(h.cvode, h.time, h.y), "CVodeReInit");
  if (h.system.integrals > 0) check(CVodeQuadReInit(h.cvode, h.integrals), "CVodeQuadReInit");
}

void Integrator::restart(double time, int crossings) {
  Handles& h = *h_;
  h.time = time;
  restart_here();
  h.crossed.assign(static_cast<std::size_t>(crossings), 0);
  check(CVodeRootInit(h.cvode, crossings, crossings > 0 ? &Handles::crossings : nullptr), "CVodeRootInit");
}

Integrator::End Integrator::step(double stop) {
  Handles& h = *h_;
  std::ranges::fill(h.crossed, 0);
  check(CVodeSetStopTime(h.cvode, stop), "CVodeSetStopTime");
  int code = CVode(h.cvode, stop, h.y, &h.time, CV_ONE_STEP);
  // KLU factors anew in the order of its first pivots. A valve that has just shut leaves a zero where a pivot
  // stood; then no step is short enough, and only pivots chosen afresh get on.
  if (code == CV_CONV_FAILURE) {
    check(SUNLinSol_KLUReInit(h.solver, h.matrix, static_cast<sunindextype>(h.rows.size()),
                              SUNKLU_REINIT_PARTIAL),
          "SUNLinSol_KLUReInit");
    restart_here();
    check(CVodeSetStopTime(h.cvode, stop), "CVodeSetStopTime");
    code = CVode(h.cvode, stop, h.y, &h.time, CV_ONE_STEP);
  }
  // After set-up this code has one meaning left: two crossings closer together than CVODES can tell apart. A
  // fresh start from here tells them apart; if the time stands still all the same, the run is stuck.
  if (code == CV_ILL_INPUT && h.time > h.close_crossing) {
    h.close_crossing = h.time;
    return End::crossing;
  }
  if (code < 0) return End::stuck;
  if (h.system.integrals > 0) {
    double at = 0.0;
    check(CVodeGetQuad(h.cvode, &at, h.integrals), "CVodeGetQuad");
  }
  if (code == CV_ROOT_RETURN) {
    check(CVodeGetRootInfo(h.cvode, h.crossed.data()), "CVodeGetRootInfo");
    return End::crossing;
  }
  return code == CV_TSTOP_RETURN ? End::stop : End::step;
}

double Integrator::time() const { return h_->time; }
std::span<const double> Integrator::y() const {
  return {NV_DATA_S(h_->y), static_cast<std::size_t>(h_->system.size)};
}
void Integrator::inside(double time, double* y) const {
  check(CVodeGetDky(h_->cvode, time, 0, h_->work), "CVodeGetDky");
  std::copy_n(NV_DATA_S(h_->work), h_->system.size, y);
}
std::span<const int> Integrator::crossed() const { return h_->crossed; }
std::span<const double> Integrator::integrals() const {
  return {NV_DATA_S(h_->integrals), static_cast<std::size_t>(h_->system.integrals)};
}
long Integrator::steps() const {
  long n = 0;
  CVodeGetNumSteps(h_->cvode, &n);
  return h_->steps_before + n;
}

int Integrator::hardest_unknown() const {
  Handles& h = *h_;
  int hardest = 0;
  double worst = -1.0;
  std::vector<double> noise(static_cast<std::size_t>(h.system.size));
  if (CVodeGetEstLocalErrors(h.cvode, h.work) < 0 || !h.system.noise(NV_DATA_S(h.y), noise.data()))
    return hardest;
  for (int i = 0; i < h.system.size; ++i) {
    const double error = std::abs(NV_Ith_S(h.work, i)) / noise[static_cast<std::size_t>(i)];
    if (std::isfinite(error) && error > worst) {
      worst = error;
      hardest = i;
    }
  }
  return hardest;
}

}  // namespace poise::solve
