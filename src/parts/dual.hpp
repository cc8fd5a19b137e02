// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <cmath>

namespace poise {

/// A number that carries its slopes along N lanes: value + Σ slope[i]·ε_i with ε_i·ε_j = 0 (forward
/// differentiation). A law written for any scalar gives flows with `double` and, with Dual, the exact local
/// Jacobian. Awkward points, decided once: comparisons look at the value only, so a branch has the slope of
/// the side taken; `sqrt` at 0 has no slope, so laws keep a laminar term under it; at a tie `larger` takes
/// the first argument.
template <int N>
struct Dual {
  double value = 0.0;
  std::array<double, N> slope{};

  Dual() = default;
  Dual(double constant)
      : value(constant) {}  // NOLINT(google-explicit-constructor): constants mix freely with duals
  static Dual lane(double at, int index, double slope_there = 1.0) {
    Dual d(at);
    d.slope[index] = slope_there;
    return d;
  }
  /// The value f(x) with df/dx = `derivative`.
  Dual chained(double f, double derivative) const {
    Dual d(f);
    for (int i = 0; i < N; ++i) d.slope[i] = derivative * slope[i];
    return d;
  }
  Dual& operator+=(const Dual& o) {
    value += o.value;
    for (int i = 0; i < N; ++i) slope[i] += o.slope[i];
    return *this;
  }
  Dual& operator-=(const Dual& o) {
    value -= o.value;
    for (int i = 0; i < N; ++i) slope[i] -= o.slope[i];
    return *this;
  }

  friend Dual operator-(const Dual& a) { return a.chained(-a.value, -1.0); }
  friend Dual operator+(Dual a, const Dual& b) { return a += b; }
  friend Dual operator-(Dual a, const Dual& b) { return a -= b; }
  friend Dual operator+(Dual a, double b) {
    a.value += b;
    return a;
  }
  friend Dual operator+(double a, Dual b) {
    b.value += a;
    return b;
  }
  friend Dual operator-(Dual a, double b) {
    a.value -= b;
    return a;
  }
  friend Dual operator-(double a, const Dual& b) { return b.chained(a - b.value, -1.0); }
  friend Dual operator*(const Dual& a, const Dual& b) {
    Dual d(a.value * b.value);
    for (int i = 0; i < N; ++i) d.slope[i] = a.slope[i] * b.value + a.value * b.slope[i];
    return d;
  }
  friend Dual operator*(const Dual& a, double b) { return a.chained(a.value * b, b); }
  friend Dual operator*(double a, const Dual& b) { return b.chained(a * b.value, a); }
  friend Dual operator/(const Dual& a, const Dual& b) {
    const double inverse = 1.0 / b.value;
    const double quotient = a.value * inverse;
    Dual d(quotient);
    for (int i = 0; i < N; ++i) d.slope[i] = (a.slope[i] - quotient * b.slope[i]) * inverse;
    return d;
  }
  friend Dual operator/(const Dual& a, double b) { return a * (1.0 / b); }
  friend Dual operator/(double a, const Dual& b) {
    const double quotient = a / b.value;
    return b.chained(quotient, -quotient / b.value);
  }
  friend bool operator<(const Dual& a, double b) { return a.value < b; }
  friend bool operator>(const Dual& a, double b) { return a.value > b; }
  friend bool operator<=(const Dual& a, double b) { return a.value <= b; }
  friend bool operator>=(const Dual& a, double b) { return a.value >= b; }
};

inline double value_of(double x) { return x; }
template <int N>
double value_of(const Dual<N>& x) {
  return x.value;
}

template <int N>
Dual<N> sqrt(const Dual<N>& x) {
  const double root = std::sqrt(x.value);
  return x.chained(root, 0.5 / root);
}

template <int N>
Dual<N> tanh(const Dual<N>& x) {
  const double t = std::tanh(x.value);
  return x.chained(t, 1.0 - t * t);
}

/// f(x) where f and its derivative are known as plain numbers; lets a law call a tabulated or inverted
/// function.
inline double with_slope(double /*x*/, double f, double /*derivative*/) { return f; }
template <int N>
Dual<N> with_slope(const Dual<N>& x, double f, double derivative) {
  return x.chained(f, derivative);
}

/// max(x, 0): one-sided laws.
template <class T>
T positive(const T& x) {
  return x > 0.0 ? x : T(0.0);
}

}  // namespace poise
