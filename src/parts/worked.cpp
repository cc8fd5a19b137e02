// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/worked.hpp"

#include <cmath>
#include <limits>

#include "parts/common.hpp"
#include "parts/relief.hpp"

namespace poise::worked {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr double least_flow = 1e-9;  // m3/s, 0.06 cm3/min: below it is the run's noise
using Q = Quantity;

const Reach* at(const std::vector<Reach>& list, int index) {
  return std::cmp_less(index, list.size()) ? &list[static_cast<std::size_t>(index)] : nullptr;
}

}  // namespace

double Seen::highest(int port) const {
  const Reach* seen = at(duty_.pressure, port);
  return seen ? above_zero(seen->high) : unknown;
}
double Seen::lowest(int port) const {
  const Reach* seen = at(duty_.pressure, port);
  return seen ? seen->low : unknown;
}
double Seen::into(int port) const {
  const Reach* seen = at(duty_.flow, port);
  return seen && seen->high > least_flow ? seen->high : unknown;
}
double Seen::out_of(int port) const {
  const Reach* seen = at(duty_.flow, port);
  return seen && -seen->low > least_flow ? -seen->low : unknown;
}
double Seen::through(int port) const {
  const Reach* seen = at(duty_.flow, port);
  return seen && seen->greatest() > least_flow ? seen->greatest() : unknown;
}
double Seen::farthest(int port) const {
  const Reach* seen = at(duty_.position, port);
  return seen ? seen->high : unknown;
}
double Seen::nearest(int port) const {
  const Reach* seen = at(duty_.position, port);
  return seen ? seen->low : unknown;
}
double Seen::fastest(int port) const {
  const Reach* seen = at(duty_.speed, port);
  return seen ? above_zero(seen->greatest()) : unknown;
}
double Seen::output(int index) const {
  const Reach* seen = at(duty_.output, index);
  return seen ? above_zero(seen->high) : unknown;
}

double above_zero(double value) { return value > 0.0 ? value : unknown; }

void add(std::vector<Working>& all, Working working) {
  if (!std::isfinite(working.result.value)) return;
  for (const Term& term : working.terms) {
    if (!std::isfinite(term.value)) return;
  }
  all.push_back(std::move(working));
}

Expression drop_through(double rated_flow, double rated_drop, const Flow& flow) {
  return {.formula = "Δp_r·((Q/Q_r)² + 0.1·Q/Q_r)/1.1",
          .terms = {{"Δp_r", "drop at the rated flow, fully open", rated_drop, Q::pressure},
                    {"Q", flow.meaning, flow.value, Q::flow},
                    {"Q_r", "rated flow", rated_flow, Q::flow}},
          .value = Restriction::through(rated_flow, rated_drop).drop(flow.value),
          .source =
              "one point of the datasheet, turbulent with a laminar share that equals it at a tenth of "
              "the rated flow (our assumption)"};
}

Expression drop_with(const Restriction& open, const Flow& flow, const std::string& coefficients,
                     std::string source) {
  return {.formula = "a·Q² + b·Q",
          .terms = {{"a", "turbulent coefficient, Pa/(m³/s)²" + coefficients, open.a, Q::none},
                    {"Q", flow.meaning, flow.value, Q::flow},
                    {"b", "laminar coefficient, Pa/(m³/s)" + coefficients, open.b, Q::none}},
          .value = open.drop(flow.value),
          .source = std::move(source)};
}

Expression drop_of(const Values& v, const Oil& oil, const Flow& flow) {
  const Restriction open = common::drop_of(v, oil);
  if (v.given("drop_curve")) {
    return drop_with(open, flow, ", by least squares through its curve in this oil",
                     "the part's datasheet (ISO 4411 curve)");
  }
  Expression drop = drop_through(v["rated_flow"], v["pressure_drop"], flow);
  if (v.given("measured_viscosity")) {
    drop.formula = "Δp_r·((Q/Q_r)² + 0.1·(ν/ν_r)·(Q/Q_r))/1.1";
    drop.terms.push_back({"ν", "viscosity of this oil", oil.viscosity(), Q::viscosity});
    drop.terms.push_back(
        {"ν_r", "viscosity at which the drop was measured", v["measured_viscosity"], Q::viscosity});
    drop.value = open.drop(flow.value);
  }
  return drop;
}

void add_drop(std::vector<Working>& all, std::string name, Expression drop) {
  add(all, {.name = name,
            .formula = "Δp = " + drop.formula,
            .terms = std::move(drop.terms),
            .result = {"Δp", name, drop.value, Q::pressure},
            .source = std::move(drop.source)});
}

double add_opening(std::vector<Working>& all, const std::string& name, const Band& valve,
                   const Restriction& open, const Expression& drop) {
  constexpr const char* law = "one law of opening for pressure valves; its corners left sharp";
  if (!(drop.value > 0.0)) return unknown;
  if (drop.value >= valve.cracking + valve.band) {
    add_drop(all, name + ", fully open", drop);
    return drop.value;
  }
  ReliefOpening seat(valve.cracking, valve.band, 1.0);
  seat.open = open;
  // The flow at which `open` takes this drop gives the pressure of the valve in its band.
  const double flow = open.flow(drop.value, 1.0);
  const double pressure = seat.pressure(flow);
  const double share = std::sqrt(drop.value / pressure);
  add(all, {.name = name,
            .formula = "Δp = p_c + b_p·x",
            .terms = {{"p_c", valve.cracking_meaning, valve.cracking, Q::pressure},
                      {"b_p", valve.band_meaning, valve.band, Q::pressure},
                      {"x", "opening with this flow, by the next equation", share, Q::share}},
            .result = {"Δp", name, pressure, Q::pressure},
            .source = law});
  std::vector<Term> terms = drop.terms;
  terms.push_back(
      {"Δp", "pressure over it, by the equation before: both hold together", pressure, Q::pressure});
  add(all, {.name = "opening with this flow",
            .formula = "x = √((" + drop.formula + ")/Δp)",
            .terms = std::move(terms),
            .result = {"x", "share of full opening", share, Q::share},
            .source = drop.source});
  return pressure;
}

}  // namespace poise::worked
