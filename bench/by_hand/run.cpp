// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "by_hand/run.hpp"

#include <cvodes/cvodes.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_sparse.h>

#include <algorithm>

namespace poise::by_hand {
namespace {

int rates_for_cvodes(realtype t, N_Vector y, N_Vector rate, void*) {
  return rates(t, NV_DATA_S(y), NV_DATA_S(rate)) ? 0 : 1;
}
int jacobian_for_cvodes(realtype t, N_Vector y, N_Vector, SUNMatrix m, void*, N_Vector, N_Vector, N_Vector) {
  std::ranges::copy(pattern().starts, SM_INDEXPTRS_S(m));
  std::ranges::copy(pattern().rows, SM_INDEXVALS_S(m));
  return jacobian(t, NV_DATA_S(y), SM_DATA_S(m)) ? 0 : 1;
}
int weights_for_cvodes(N_Vector y, N_Vector weight, void* method) {
  double* w = NV_DATA_S(weight);
  noise(NV_DATA_S(y), w);
  const double tighter = static_cast<const Method*>(method)->tighter;
  for (int i = 0; i < unknowns; ++i) w[i] = tighter / w[i];
  return 0;
}

struct Solver {
  SUNContext context = nullptr;
  N_Vector y = nullptr, inside = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver linear = nullptr;
  void* cvode = nullptr;

  explicit Solver(Method& method) {
    SUNContext_Create(nullptr, &context);
    y = N_VNew_Serial(unknowns, context);
    inside = N_VNew_Serial(unknowns, context);
    matrix = SUNSparseMatrix(unknowns, unknowns, nonzeros, CSC_MAT, context);
    linear = SUNLinSol_KLU(y, matrix, context);
    SUNLinSol_KLUSetOrdering(linear, 0);
    std::ranges::copy(start(), NV_DATA_S(y));
    cvode = CVodeCreate(CV_BDF, context);
    CVodeInit(cvode, rates_for_cvodes, 0.0, y);
    CVodeSetUserData(cvode, &method);
    CVodeWFtolerances(cvode, weights_for_cvodes);
    CVodeSetLinearSolver(cvode, linear, matrix);
    CVodeSetJacFn(cvode, jacobian_for_cvodes);
    CVodeSetMaxOrd(cvode, method.highest_order);
    CVodeSetMaxNumSteps(cvode, -1);
    CVodeSetJacEvalFrequency(cvode, method.renew_every);
    CVodeSetLSetupFrequency(cvode, method.renew_every);
    CVodeSetNonlinConvCoef(cvode, method.convergence);
  }
  ~Solver() {
    CVodeFree(&cvode);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(y);
    N_VDestroy(inside);
    SUNContext_Free(&context);
  }
  Solver(const Solver&) = delete;
  Solver& operator=(const Solver&) = delete;
};

/// The moment within the last step at which an unknown passes a value, by halving.
double moment(Solver& s, int unknown, double value, double from, double to) {
  CVodeGetDky(s.cvode, from, 0, s.inside);
  const bool below = NV_Ith_S(s.inside, unknown) < value;
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (from + to);
    CVodeGetDky(s.cvode, middle, 0, s.inside);
    ((NV_Ith_S(s.inside, unknown) < value) == below ? from : to) = middle;
  }
  return to;
}

struct Watched {
  int unknown;
  double value;
  bool rising;
  double Outcome::*when;
};
constexpr std::array watched{Watched{position(k1), 0.016, true, &Outcome::k1_touches},
                             Watched{position(r1), 0.018, true, &Outcome::s1_met},
                             Watched{position(r1), 0.0, false, &Outcome::r1_in}};

void look(Solver& s, const double* before, double t0, double t1, Outcome& out) {
  const double* y = NV_DATA_S(s.y);
  for (const Watched& w : watched) {
    const double a = before[w.unknown] - w.value, b = y[w.unknown] - w.value;
    if (out.*w.when < 0.0 && (w.rising ? a < 0.0 && b >= 0.0 : a > 0.0 && b <= 0.0)) {
      out.*w.when = moment(s, w.unknown, w.value, t0, t1);
    }
  }
  for (int n = 0; n < volumes; ++n) out.highest[n] = std::max(out.highest[n], y[n]);
  for (int k = k1; k < movers; ++k) out.clamp_peak[k] = std::max(out.clamp_peak[k], clamp_force(y, k));
}

}  // namespace

Outcome run(const Method& chosen) {
  Method method = chosen;
  Solver s(method);
  Outcome out;
  double time = 0.0;
  std::array<double, unknowns> before{};
  for (const double stop : breaks) {
    CVodeReInit(s.cvode, time, s.y);
    CVodeSetStopTime(s.cvode, stop);
    while (time < stop) {
      const double t0 = time;
      std::copy_n(NV_DATA_S(s.y), unknowns, before.begin());
      if (CVode(s.cvode, stop, s.y, &time, CV_ONE_STEP) < 0) return out;
      look(s, before.data(), t0, time, out);
    }
    long steps = 0, evaluations = 0;
    CVodeGetNumSteps(s.cvode, &steps);
    CVodeGetNumRhsEvals(s.cvode, &evaluations);
    out.steps += steps;
    out.evaluations += evaluations;
  }
  for (double& p : out.highest) p = pressure(&p, 0);
  out.finished = true;
  return out;
}

}  // namespace poise::by_hand
