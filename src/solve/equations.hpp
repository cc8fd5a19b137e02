// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <limits>
#include <span>
#include <vector>

#include "circuit/circuit.hpp"
#include "circuit/signal.hpp"
#include "solve/layout.hpp"
#include "solve/places.hpp"
#include "trace/trace.hpp"

namespace poise::solve {

/// An input on its way: at time t, the share (t − begin)/duration of the way is done.
struct Drive {
  double from = 0.0, to = 0.0;
  double begin = 0.0, duration = 0.0;

  Input at(double time) const {
    if (duration <= 0.0 || time >= begin + duration) return {from, to, 1.0};
    return {from, to, time <= begin ? 0.0 : (time - begin) / duration};
  }
};

/// Which errors are small: relative, and below what size a change is noise.
struct Tolerances {
  double relative = 3e-5;
  double pressure = 200.0;  ///< Pa
  double position = 1e-8;   ///< m
  double speed = 1e-6;      ///< m/s
  double share_of_mass =
      1e-6;              ///< of a node's oil, where it is so soft that a pressure says nothing of the mass
  double energy = 1e-3;  ///< J

  Tolerances tighter(double factor) const {
    return {relative / factor, pressure / factor,      position / factor,
            speed / factor,    share_of_mass / factor, energy / factor};
  }
};

/// The whole circuit as y' = f(t, y), with its sparse Jacobian: parts are gathered, asked, scattered. It does
/// not know what a valve is. Owns scratch space: one object per thread.
class Equations {
 public:
  explicit Equations(const Circuit& circuit);

  const Circuit& circuit() const { return *circuit_; }
  const Layout& layout() const { return layout_; }
  const Pattern& pattern() const { return pattern_; }

  /// Every volume full at p = 0, every body where it starts.
  std::vector<double> start() const;
  std::vector<std::vector<Drive>>& drives() {  ///< [part][input]
    warmed_time_ = never;
    return drives_;
  }
  const std::vector<std::vector<Drive>>& drives() const { return drives_; }
  bool mode(int part, int index) const { return modes_[part][index]; }
  void turn_mode(int part, int index) { modes_[part][index] = !modes_[part][index]; }

  /// y' into `rate`. False where no pressure belongs to a mass in y (the step was too long).
  bool rates(double time, const double* y, double* rate);
  /// Values of the Jacobian in the order of the pattern.
  bool jacobian(double time, const double* y, double* values);
  /// Error below which each unknown is good enough: 1/weight.
  bool noise(const double* y, const Tolerances& tolerances, double* size);

  /// Powers for the energy book and the oil drawn, at the moment last given to `observe`.
  struct Powers {
    double shaft, put_in, flow_heat, friction, delivered, drawn;
  };
  Powers powers();
  /// As powers(), and the heat of each part of the plan, W.
  Powers powers(std::span<double> heat_of_part);
  /// Every part of the plan at that moment.
  std::vector<PartMoment> look();
  /// Where energy is kept, J.
  struct Stores {
    double oil_and_walls = 0.0, motion = 0.0, parts = 0.0;  ///< of parts: springs, gas, height

    double all() const { return oil_and_walls + motion + parts; }
  };
  /// At that moment.
  Stores stores(const double* y);
  /// What some stores lost and others gained in between, J: a load that falls freely turns height into
  /// motion, and no pump has put that in.
  static double exchanged(const Stores& before, const Stores& after);

  /// Prepares pressures and neighbourhoods at a moment, for the questions below. False as in rates().
  bool observe(double time, const double* y);
  double pressure(int node) const { return pressure_[node]; }
  double signal(const Signal& signal);
  /// Several signals of one part at once.
  void signals(std::span<const Signal> of_one_part, std::span<double> values);
  /// The values that turn positive as happenings happen, for one part.
  void passing(int part, std::span<double> values);
  /// The values that turn positive as modes have to turn, for one part.
  void turning(int part, std::span<double> values);

  /// "the speed of C1" or "the pressure at P1.P, V1.P": what an unknown is called.
  std::string name_of(int unknown) const;

 private:
  static constexpr double never = std::numeric_limits<double>::quiet_NaN();

  bool find_pressures(double time, const double* y);
  void warm(double time);
  void find_enthalpies();
  void find_chains();
  double thermal_work(int node) const;
  void gather(const PartPlace& place, int part, double time, const double* y);
  /// The neighbourhood of a part at the moment last given to `observe`.
  const Neighbourhood& around(int part);
  double flow(int part, int port, const Answers& answers);
  /// Has memory bring the numbers of a part that is soon asked.
  void fetch_ahead(int part) const;

  const Circuit* circuit_;
  Layout layout_;
  Pattern pattern_;
  Places places_;
  std::vector<std::vector<Drive>> drives_;
  std::vector<std::array<bool, max_modes>> modes_;     // [part][mode]
  std::vector<double> pressure_, density_, softness_;  // softness: dm/dp at constant volume
  std::vector<Neighbourhood::OilLane> lane_;           // what the parts see of each node
  std::vector<Oil::Ratio> near_;                       // where the oil of each node was last known
  std::vector<double> enthalpy_, chain_, state_noise_;
  /// Parts that warm a volume; how much thinner its oil then is and how much wider its steel, and the rate of
  /// the rise.
  std::vector<int> warming_;
  struct Warmth {
    double thinned = 1.0, widened = 1.0, rise_rate = 0.0;
  };
  std::vector<Warmth> warmth_;
  double warmed_time_ = never;
  Neighbourhood here_{};  // of the part that is being asked
  // One step asks for rates, slopes, powers, crossings and rows at the same y: its pressures are not worked
  // out twice.
  std::vector<double> known_y_;
  double observed_time_ = never;  // of the last call of `observe`
};

}  // namespace poise::solve
