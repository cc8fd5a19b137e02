// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <initializer_list>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

#include "parts/kind.hpp"
#include "parts/laws.hpp"

namespace poise::workshop {

/// One part alone, asked for its answer at given pressures: for laws that a formula gives at once.
class OnePart {
 public:
  Neighbourhood here{};

  OnePart(std::string_view kind_name, std::initializer_list<std::pair<std::string_view, double>> numbers,
          const OilData& data = {}, std::initializer_list<std::pair<std::string_view, Points>> curves = {})
      : kind_(*find_kind(kind_name)), oil_(data), values_(kind_.parameters, defaults(kind_)) {
    for (const auto& [name, number] : numbers) values_.set(index(name), number);
    for (const auto& [name, points] : curves) values_.set_points(index(name), points);
    laws_ = kind_.make(values_, oil_);
    for (auto& lane : here.oil) lane = at(0.0);
    for (std::size_t i = 0; i < kind_.states.size(); ++i)
      here.state[i] = laws_.start(laws_.numbers.get(), static_cast<int>(i));
    take_inputs();
  }
  void set(std::string_view name, double number) {
    values_.set(index(name), number);
    laws_ = kind_.make(values_, oil_);
    take_inputs();
  }

  const Oil& oil() const { return oil_; }
  const Kind& kind() const { return kind_; }
  const Values& values() const { return values_; }
  void press(int port, double pressure) { here.oil[port] = at(pressure); }
  /// Volume flow into the part at a port, m3/s, at the density of that port.
  double flow(int port) const { return row(port) / here.oil[port].density; }
  /// Rate of the first state, 1/s.
  double rate() const { return row(kind_.oil_ports + kind_.motion_ports); }
  double row(int i) const {
    Answers a;
    laws_.answer(laws_.numbers.get(), here, a);
    return a.row[i];
  }
  double report(int i) const {
    std::array<double, max_outputs> outputs{};
    laws_.report(laws_.numbers.get(), here, outputs);
    return outputs[i];
  }
  /// Drop between two ports, the second at zero, that makes a flow into the first, Pa.
  double drop_for(double flow_in, int from = 0, int to = 1) {
    double low = 0.0, high = 2000e5;
    press(to, 0.0);
    for (int i = 0; i < 200; ++i) {
      const double middle = 0.5 * (low + high);
      press(from, middle);
      (flow(from) < flow_in ? low : high) = middle;
    }
    return 0.5 * (low + high);
  }

 private:
  void take_inputs() {
    for (std::size_t i = 0; i < kind_.inputs.size(); ++i) {
      const double value = values_.all()[kind_.inputs[i]];
      here.input[i] = {value, value, 1.0};
    }
  }
  static std::vector<double> defaults(const Kind& kind) {
    std::vector<double> values;
    for (const Parameter& p : kind.parameters) values.push_back(p.fallback.value_or(std::nan("")));
    return values;
  }
  int index(std::string_view name) const {
    const auto i = find_parameter(kind_.parameters, name);
    if (!i) throw std::runtime_error("no parameter " + std::string(name));
    return *i;
  }
  Neighbourhood::OilLane at(double p) const {
    const auto d = oil_.density(p);
    return {p, d.value, 1.0, d.slope};
  }

  const Kind& kind_;
  Oil oil_;
  Values values_;
  Laws laws_;
};

}  // namespace poise::workshop
