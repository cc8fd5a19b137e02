// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "by_hand/stand.hpp"

#include <algorithm>
#include <initializer_list>

#include "by_hand/laws.hpp"

namespace poise::by_hand {
namespace {

constexpr double pi = 3.14159265358979;
constexpr double bar = 1e5, l_min = 1e-3 / 60.0, cm3 = 1e-6;

// Rams: bore 40 mm, rod 22 mm, stroke 25 mm; half a frame of 450 kg and 5 kg of piston each.
constexpr double ram_a = pi / 4 * 0.040 * 0.040, ram_b = ram_a - pi / 4 * 0.022 * 0.022;
constexpr double clamp_a = 4.5e-4, clamp_b = 7.1e-4;
constexpr double swept_a[movers] = {ram_a, ram_a, clamp_a, clamp_a, clamp_a, clamp_a};
constexpr double swept_b[movers] = {ram_b, ram_b, clamp_b, clamp_b, clamp_b, clamp_b};
constexpr double mass[movers] = {455.0, 455.0, 1.0, 1.0, 1.0, 1.0};
constexpr double stroke[movers] = {0.025, 0.025, 0.022, 0.022, 0.022, 0.022};
constexpr double dry[movers] = {250.0, 250.0, 50.0, 50.0, 50.0, 50.0};
constexpr int side_a[movers] = {rams_a, rams_a, clamps, clamps, clamps, k4_line};
constexpr double seal_share = 0.02, creep = 1e-6, rub = 500.0, metal = 2e8, metal_damping = 2e5;
// What they press against: the stops of the frame at 18 mm, the workpieces at 16 mm.
constexpr double meets[movers] = {0.018, 0.018, 0.016, 0.016, 0.016, 0.016};
constexpr double rate_there[movers] = {2e8, 2e8, 5e7, 5e7, 5e7, 5e7};
constexpr double damping_there[movers] = {1e5, 1e5, 5e4, 5e4, 5e4, 5e4};
constexpr double arm_factor = 0.9;

// Volumes with everything in, and the give of their walls: two hoses of 8 mm x 2.5 m at 0.01 cm3/(m.bar), a
// tube of 10 mm x 1.5 m with 2 mm of steel, 0.2 cm3 per full scale of each gauge.
constexpr double half_hose = pi / 8 * 0.008 * 0.008 * 2.5, hose_give = 0.0125 * cm3 / bar;
constexpr double half_tube = pi / 8 * 0.010 * 0.010 * 1.5, tube_give = half_tube * 0.010 / (0.002 * 210e9);
constexpr double volume_in[volumes] = {9 * cm3,
                                       2 * cm3 + half_tube,
                                       2 * cm3 + half_hose,
                                       2 * cm3 + half_hose,
                                       13 * cm3 + half_hose,
                                       30 * cm3 + 2 * 0.025 * ram_b + 4 * 0.022 * clamp_b + half_hose,
                                       22 * cm3,
                                       6 * cm3,
                                       8 * cm3};
constexpr double give[volumes] = {0.0,
                                  tube_give,
                                  hose_give,
                                  hose_give,
                                  hose_give + 0.2 * cm3 / (400 * bar),
                                  hose_give,
                                  0.2 * cm3 / (400 * bar),
                                  0.0,
                                  0.2 * cm3 / (160 * bar)};

constexpr double pump_flow = 4.2 * l_min, pump_slip = pump_flow * 0.07 / (250 * bar);
// Cracks where it reads 210 bar with 3.9 L/min over it.
constexpr double relief_cracks = 202.603974 * bar, relief_band = 0.1 * relief_cracks;
constexpr double sequence_set = 120 * bar, sequence_band = 6 * bar;
constexpr double reducing_set = 60 * bar, reducing_band = 3 * bar, reducing_dead = 1.8 * bar;
constexpr double check_cracks = 0.5 * bar, check_band = 0.5 * bar;
constexpr double per_lag = 100.0;  // 1/10 ms, all valves
constexpr Valve relief{12 * l_min, relief_cracks + relief_band};
constexpr Valve directional{20 * l_min, 6 * bar}, sequence{12 * l_min, 5 * bar}, reducing{8 * l_min, 8 * bar},
    check{8 * l_min, 5 * bar};

/// The tank stands behind the volumes: p = 0, and what comes back is not followed further.
constexpr int tank = volumes;

/// Everything at one moment. With slopes, `flow_by` holds ∂(inflow)/∂p, kg/(s·Pa), and `jac` is filled.
template <bool slopes>
struct Moment {
  std::array<OilPoint, volumes + 1> oil;
  double inflow[volumes + 1] = {};
  double flow_by[volumes + 1][volumes + 1] = {};
  double jac[slopes ? unknowns : 1][slopes ? unknowns : 1] = {};

  double p(int n) const { return oil[n].pressure; }

  /// A flow from one volume to another, carrying the upstream density. Returns that density.
  double pass(int from, int to, const Flow& f) {
    const int up = f.q > 0.0 ? from : to;
    const double density = oil[up].density, w = density * f.q;
    inflow[from] -= w;
    inflow[to] += w;
    if constexpr (slopes) {
      const double by_drop = density * f.by_drop;
      const double by_up = (f.q + density * f.by_density) * density * oil[up].squeeze;
      flow_by[from][from] -= by_drop;
      flow_by[from][to] += by_drop;
      flow_by[to][from] += by_drop;
      flow_by[to][to] -= by_drop;
      flow_by[from][up] -= by_up;
      flow_by[to][up] += by_up;
    }
    return density;
  }
  void pass_line(int from, int to, const Line& line) {
    const double drop = p(from) - p(to);
    pass(from, to, line.flow(drop, oil[drop > 0.0 ? from : to].density));
  }
  /// A check from one volume to another; shut it passes nothing.
  void pass_check(int from, int to, const Valve& valve) {
    const double drop = p(from) - p(to);
    const Share x = share(drop - check_cracks, check_band);
    if (x.value == 0.0) return;
    Flow f = valve.flow(drop, x.value);
    f.by_drop += f.by_opening * x.slope;
    pass(from, to, f);
  }
  /// A valve whose opening is unknown `state`; `sign` is −1 where it opens with a falling state.
  void pass_lagging(int from, int to, const Valve& valve, double x, int state, double sign = 1.0) {
    if (x <= 0.0) return;
    const Flow f = valve.flow(p(from) - p(to), x);
    const double density = pass(from, to, f);
    if constexpr (slopes) {
      const double by_state = sign * density * f.by_opening;
      if (from != tank) jac[from][state] -= by_state;
      if (to != tank) jac[to][state] += by_state;
    }
  }
};

template <bool slopes>
void flows(Moment<slopes>& m, const Commands& now, const double* y) {
  static const Line hose{0.008, 2.5, 0.0}, tube{0.010, 1.5, 1.5e-6};
  constexpr int ends[paths][2] = {
      {pump, valve_a}, {valve_b, return_line}, {pump, valve_b}, {valve_a, return_line}, {pump, return_line}};
  m.pass(tank, pump, {pump_flow * now.pump_speed - pump_slip * m.p(pump), pump_slip});
  m.pass_lagging(pump, tank, relief, y[relief_opening], relief_opening);
  for (int k = 0; k < paths; ++k) {
    const auto [from, to] = ends[k];
    if (now.open[k] > 0.0) m.pass(from, to, directional.flow(m.p(from) - m.p(to), now.open[k]));
  }
  m.pass_line(return_line, tank, tube);
  m.pass_line(valve_a, rams_a, hose);
  m.pass_line(valve_b, rams_b, hose);
  m.pass_lagging(rams_a, clamps, sequence, y[sequence_opening], sequence_opening);
  m.pass_check(clamps, rams_a, sequence);
  m.pass_lagging(clamps, reduced, reducing, y[reducing_spool], reducing_spool);
  m.pass_lagging(reduced, tank, reducing, -y[reducing_spool], reducing_spool, -1.0);
  m.pass_check(reduced, clamps, check);
  m.pass_check(k4_line, reduced, check);
  const double drop = m.p(k4_line) - m.p(reduced);
  m.pass(k4_line, reduced, needle_flow(drop, m.oil[drop > 0.0 ? k4_line : reduced].density));
}

/// Pressures from what flows in and what is swept: (V·c + give)·dp/dt = inflow/ρ − Σ A·v, as the rate of u.
template <bool slopes>
void pressures(Moment<slopes>& m, const double* y, double* rate) {
  double swept[volumes] = {}, volume[volumes];
  std::copy_n(volume_in, int{volumes}, volume);
  for (int k = 0; k < movers; ++k) {
    swept[side_a[k]] += swept_a[k] * y[speed(k)];
    swept[rams_b] -= swept_b[k] * y[speed(k)];
    volume[side_a[k]] += swept_a[k] * y[position(k)];
    volume[rams_b] -= swept_b[k] * y[position(k)];
  }
  for (int n = 0; n < volumes; ++n) {
    const OilPoint& o = m.oil[n];
    const double space = volume[n] + give[n] * o.pressure;
    const double per_soft = 1.0 / (space * o.squeeze + give[n]);
    const double p_rate = (m.inflow[n] / o.density - swept[n]) * per_soft;
    rate[n] = p_rate / o.absolute;
    if constexpr (slopes) {
      const double by_flow = per_soft / (o.density * o.absolute);
      for (int j = 0; j < volumes; ++j) m.jac[n][j] = m.flow_by[n][j] * by_flow * m.oil[j].absolute;
      m.jac[n][n] -= m.inflow[n] * o.squeeze * by_flow * o.absolute +
                     p_rate * (give[n] * o.squeeze + space * o.squeeze_slope) * per_soft + rate[n];
      for (int state = relief_opening; state < unknowns; ++state) m.jac[n][state] *= by_flow;
      const double by_speed = -per_soft / o.absolute, by_position = -rate[n] * o.squeeze * per_soft;
      for (int k = 0; k < movers; ++k) {
        const double area = n == side_a[k] ? swept_a[k] : n == rams_b ? -swept_b[k] : 0.0;
        m.jac[n][position(k)] = area * by_position;
        m.jac[n][speed(k)] = area * by_speed;
      }
    }
  }
}

template <bool slopes>
void motion(Moment<slopes>& m, const Commands& now, const double* y, double* rate) {
  for (int k = 0; k < movers; ++k) {
    const double x = y[position(k)], v = y[speed(k)];
    const double a = m.p(side_a[k]), b = m.p(rams_b);
    const double pressing =
        dry[k] + seal_share * (std::max(a, 0.0) * swept_a[k] + std::max(b, 0.0) * swept_b[k]);
    const double grip = std::tanh(v / creep);
    const Push in = stop(-x, -v, metal, metal_damping), out = stop(x - stroke[k], v, metal, metal_damping);
    const Push work = stop(x - meets[k], v, rate_there[k], damping_there[k]);
    const double force = a * swept_a[k] - b * swept_b[k] - pressing * grip - rub * v + in.force - out.force -
                         work.force - (k == r1 ? now.thrust : 0.0);
    rate[position(k)] = v;
    rate[speed(k)] = force / mass[k];
    if constexpr (slopes) {
      double* row = m.jac[speed(k)];
      const double per_mass = 1.0 / mass[k];
      m.jac[position(k)][speed(k)] = 1.0;
      row[side_a[k]] =
          (1.0 - (a > 0.0 ? seal_share * grip : 0.0)) * swept_a[k] * per_mass * m.oil[side_a[k]].absolute;
      row[rams_b] =
          (-1.0 - (b > 0.0 ? seal_share * grip : 0.0)) * swept_b[k] * per_mass * m.oil[rams_b].absolute;
      row[position(k)] = -(in.by_depth + out.by_depth + work.by_depth) * per_mass;
      row[speed(k)] =
          -(pressing * (1.0 - grip * grip) / creep + rub + in.by_speed + out.by_speed + work.by_speed) *
          per_mass;
    }
  }
}

template <bool slopes>
void openings(Moment<slopes>& m, const double* y, double* rate) {
  const Share relief_to = share(m.p(pump) - relief_cracks, relief_band);
  const Share sequence_to = share(m.p(rams_a) - sequence_set, sequence_band);
  const Share shut = share(reducing_set - m.p(reduced), reducing_band);
  const Share let_off = share(m.p(reduced) - reducing_set - reducing_dead, reducing_band);
  rate[relief_opening] = per_lag * (relief_to.value - y[relief_opening]);
  rate[sequence_opening] = per_lag * (sequence_to.value - y[sequence_opening]);
  rate[reducing_spool] = per_lag * (shut.value - let_off.value - y[reducing_spool]);
  if constexpr (slopes) {
    for (int state = relief_opening; state < unknowns; ++state) m.jac[state][state] = -per_lag;
    m.jac[relief_opening][pump] = per_lag * relief_to.slope * m.oil[pump].absolute;
    m.jac[sequence_opening][rams_a] = per_lag * sequence_to.slope * m.oil[rams_a].absolute;
    m.jac[reducing_spool][reduced] = -per_lag * (shut.slope + let_off.slope) * m.oil[reduced].absolute;
  }
}

/// Nothing in the shop stands 3000 bar, which is u = 8; u = −40 is a vacuum for every purpose.
bool can_be(const double* y) {
  return std::all_of(y, y + volumes, [](double u) { return u > -40.0 && u < 8.0; });
}

template <bool slopes>
bool evaluate(Moment<slopes>& m, double time, const double* y, double* rate) {
  if (!can_be(y)) return false;
  for (int n = 0; n < volumes; ++n) m.oil[n] = oil_at(y[n]);
  m.oil[tank] = {atmosphere, 0.0, density_0, 0.0, 0.0};
  const Commands now = commands_at(time);
  flows(m, now, y);
  pressures(m, y, rate);
  motion(m, now, y, rate);
  openings(m, y, rate);
  return true;
}

constexpr int x1 = position(r1), v1 = speed(r1), x2 = position(r2), v2 = speed(r2), x3 = position(k1),
              v3 = speed(k1), x4 = position(k2), v4 = speed(k2), x5 = position(k3), v5 = speed(k3),
              x6 = position(k4), v6 = speed(k4);

Pattern make_pattern() {
  const std::initializer_list<int> columns[unknowns] = {{pump, return_line, valve_a, valve_b, relief_opening},
                                                        {pump, return_line, valve_a, valve_b},
                                                        {pump, return_line, valve_a, rams_a},
                                                        {pump, return_line, valve_b, rams_b},
                                                        {valve_a, rams_a, clamps, v1, v2, sequence_opening},
                                                        {valve_b, rams_b, v1, v2, v3, v4, v5, v6},
                                                        {rams_a, clamps, reduced, v3, v4, v5},
                                                        {clamps, reduced, k4_line, reducing_spool},
                                                        {reduced, k4_line, v6},
                                                        {rams_a, rams_b, x1, v1},
                                                        {rams_a, rams_b, x1, v1},
                                                        {rams_a, rams_b, x2, v2},
                                                        {rams_a, rams_b, x2, v2},
                                                        {rams_b, clamps, x3, v3},
                                                        {rams_b, clamps, x3, v3},
                                                        {rams_b, clamps, x4, v4},
                                                        {rams_b, clamps, x4, v4},
                                                        {rams_b, clamps, x5, v5},
                                                        {rams_b, clamps, x5, v5},
                                                        {rams_b, k4_line, x6, v6},
                                                        {rams_b, k4_line, x6, v6},
                                                        {pump, relief_opening},
                                                        {rams_a, clamps, sequence_opening},
                                                        {clamps, reduced, reducing_spool}};
  Pattern found{};
  int at = 0;
  for (int c = 0; c < unknowns; ++c) {
    for (int row : columns[c]) found.rows[at++] = row;
    found.starts[c + 1] = at;
  }
  return found;
}

double way(double time, double begin, double lasts) { return std::clamp((time - begin) / lasts, 0.0, 1.0); }

}  // namespace

Commands commands_at(double time) {
  Commands now;
  now.pump_speed = way(time, 0.0, 0.3);
  now.thrust = 6000.0 * (way(time, 4.5, 0.2) - way(time, 7.0, 0.05));
  // V1 shifts in 50 ms with an overlap of −30 %: old paths shut by 65 % of the way, new ones open from 35 %
  // on.
  const double to_a = way(time, 0.5, 0.05), to_b = way(time, 7.0, 0.05);
  const double leave_centre = std::max(0.0, 1.0 - to_a / 0.65), reach_a = std::max(0.0, (to_a - 0.35) / 0.65);
  const double leave_a = std::max(0.0, 1.0 - to_b / 0.65), reach_b = std::max(0.0, (to_b - 0.35) / 0.65);
  now.open[p_to_a] = now.open[b_to_t] = std::min(reach_a, leave_a);
  now.open[p_to_b] = now.open[a_to_t] = reach_b;
  now.open[p_to_t] = leave_centre;
  return now;
}

const Pattern& pattern() {
  static const Pattern fixed = make_pattern();
  return fixed;
}

std::array<double, unknowns> start() {
  std::array<double, unknowns> y{};
  y[reducing_spool] = 1.0;
  return y;
}

bool rates(double time, const double* y, double* rate) {
  Moment<false> m;
  return evaluate(m, time, y, rate);
}

bool jacobian(double time, const double* y, double* values) {
  Moment<true> m;
  double rate[unknowns];
  if (!evaluate(m, time, y, rate)) return false;
  const Pattern& fixed = pattern();
  for (int c = 0; c < unknowns; ++c) {
    for (int at = fixed.starts[c]; at < fixed.starts[c + 1]; ++at) values[at] = m.jac[fixed.rows[at]][c];
  }
  return true;
}

void noise(const double* y, double* size) {
  constexpr double relative = 3e-5;
  for (int n = 0; n < volumes; ++n) {
    const double absolute = atmosphere * std::exp(y[n]);
    size[n] = (relative * std::abs(absolute - atmosphere) + 200.0) / absolute;
    // A starved volume is nearly all air: there a ten-thousandth of its oil counts, not a pressure.
    if (y[n] < 0.0)
      size[n] = 1.0 / (1.0 / size[n] + 1e4 / (air_exponent * (1.0 + std::exp(y[n] / air_exponent) / air)));
  }
  for (int k = 0; k < movers; ++k) {
    size[position(k)] = relative * std::abs(y[position(k)]) + 1e-8;
    size[speed(k)] = relative * std::abs(y[speed(k)]) + 1e-6;
  }
  for (int state = relief_opening; state < unknowns; ++state)
    size[state] = relative * (std::abs(y[state]) + 1.0);
}

double pressure(const double* y, int volume) { return atmosphere * std::expm1(y[volume]); }

double clamp_force(const double* y, int clamp) {
  return arm_factor *
         stop(y[position(clamp)] - meets[clamp], y[speed(clamp)], rate_there[clamp], damping_there[clamp])
             .force;
}

}  // namespace poise::by_hand
