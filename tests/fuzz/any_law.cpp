// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "fuzz/any_law.hpp"

#include <cmath>

#include "fuzz/hold.hpp"

namespace poise {
namespace {

Neighbourhood::OilLane at(const Oil& oil, double pressure) {
  const auto density = oil.density(pressure);
  return {pressure, density.value, 1.0, density.slope};
}

Neighbourhood pressed(const Kind& kind, const Values& values, const Oil& oil, const Laws& laws, int port,
                      double pressure) {
  Neighbourhood here{};
  for (auto& lane : here.oil) lane = at(oil, 0.0);
  if (port < kind.oil_ports) here.oil[port] = at(oil, pressure);
  for (std::size_t i = 0; i < kind.states.size(); ++i)
    here.state[i] = laws.start(laws.numbers.get(), static_cast<int>(i));
  for (std::size_t i = 0; i < kind.inputs.size(); ++i) {
    const double value = values.all()[kind.inputs[i]];
    here.input[i] = {value, value, 1.0};
  }
  return here;
}

void hold_numbers(const Kind& kind, const Laws& laws, const Neighbourhood& here) {
  Answers answers;
  laws.answer(laws.numbers.get(), here, answers);
  for (int row = 0; row < kind.rows(); ++row) hold(std::isfinite(answers.row[row]), "a law gives numbers");
  LocalJacobian slopes{};
  laws.jacobian(laws.numbers.get(), here, slopes);
  for (int i = 0; i < kind.rows() * kind.lanes(); ++i) hold(std::isfinite(slopes[i]), "slopes are numbers");
}

}  // namespace

void hold_law(const Kind& kind, const Values& values) {
  if (!kind.check(values).empty()) return;
  const Oil oil{OilData{}};
  const Laws laws = kind.make(values, oil);
  for (int port = 0; port < kind.oil_ports; ++port) {
    for (const double pressure : {0.0, 1e2, 1e5, 1e7, 7e7})
      hold_numbers(kind, laws, pressed(kind, values, oil, laws, port, pressure));
    const Space space = laws.space(laws.numbers.get(), port);
    hold(std::isfinite(space.volume) && space.volume >= 0.0, "a space has a volume");
  }
  for (const CurveFit& fit : kind.curves(values, oil)) hold(std::isfinite(fit.worst()), "a curve is fitted");
}

}  // namespace poise
