// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The registry's walk sees every kind as its defaults make it; here are the laws that other words and curves
// bring in, walked the same way: exact slopes, oil kept, heat never taken.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "parts/kind.hpp"

namespace poise {
namespace {

constexpr double lpm = si::litre_per_minute;

struct Variant {
  std::string_view kind;
  std::vector<std::pair<std::string_view, double>> numbers;
  std::string_view curve{};
  Points points{};
};

const std::vector<Variant>& variants() {
  static const Points falling{
      {0.0, 6 * lpm}, {60 * si::bar, 5.6 * lpm}, {80 * si::bar, 1.1 * lpm}, {400 * si::bar, lpm}};
  static const std::vector<Variant> all{
      {"pump", {{"rated_pressure", 250 * si::bar}, {"wear", 0.1}}, "delivery_curve", falling},
      {"two_stage_pump", {{"rated_pressure", 400 * si::bar}, {"wear", 0.1}}, "delivery_curve", falling},
      {"two_stage_pump",
       {{"low_pressure_flow", 6 * lpm},
        {"high_pressure_flow", lpm},
        {"unloading_pressure", 150 * si::bar},
        {"unloading_band", 0.6},
        {"rated_pressure", 300 * si::bar}}},
      {"air_driven_pump", {{"ratio", 100.0}, {"wear", 0.1}}, "delivery_curve", falling},
      {"variable_pump",
       {{"flow", 40 * lpm},
        {"setting", 250 * si::bar},
        {"band", 90 * si::bar},
        {"power_limit", 5000.0},
        {"rated_pressure", 280 * si::bar}}},
      {"cycling_intensifier",
       {{"ratio", 4.0}, {"rated_flow", 12 * lpm}, {"curve_pressure", 120 * si::bar}},
       "delivery_curve",
       falling},
      {"accumulator",
       {{"separator", 1.0}, {"gas_volume", 0.1 * si::litre}, {"precharge", 60 * si::bar}, {"exponent", 1.0}}},
      {"intensifier",
       {{"ratio", 4.0}, {"plunger", 20 * si::mm}, {"stroke", 12 * si::mm}, {"return_chamber", 0.0}}},
      {"hydraulic_motor",
       {{"displacement", 20 * si::cm3}, {"rated_pressure", 200 * si::bar}, {"drain", 0.0}, {"load", 1.0}}},
  };
  return all;
}

class pump_variant : public testing::TestWithParam<int> {
 protected:
  const Variant& variant = variants()[GetParam()];
  const Kind& kind = *find_kind(variant.kind);
  Oil oil{OilData{}};
  Laws laws = kind.make(values(), oil);
  std::mt19937 bits{20261125};

  Values values() const {
    std::vector<double> numbers;
    for (const Parameter& p : kind.parameters) numbers.push_back(p.fallback.value_or(std::nan("")));
    Values v(kind.parameters, numbers);
    for (const auto& [name, value] : variant.numbers) v.set(*find_parameter(kind.parameters, name), value);
    if (!variant.curve.empty()) v.set_points(*find_parameter(kind.parameters, variant.curve), variant.points);
    EXPECT_TRUE(kind.check(v).empty()) << kind.check(v).front().sentence;
    return v;
  }
  Neighbourhood::OilLane at(double p) const {
    const auto d = oil.density(p);
    return {p, d.value, 1.0, d.slope};
  }
  Neighbourhood draw() {
    std::uniform_real_distribution<double> pressure(1e5, 300e5), share(0.05, 0.95), place(1e-3, 11e-3),
        speed(-0.05, 0.05);
    Neighbourhood n{};
    for (auto& lane : n.oil) lane = at(pressure(bits));
    for (auto& body : n.body) body = {place(bits), speed(bits)};
    for (auto& s : n.state) s = share(bits);
    for (std::size_t i = 0; i < kind.inputs.size(); ++i) {
      const Parameter& p = kind.parameters[kind.inputs[i]];
      const double top = p.quantity == Quantity::pressure ? 6 * si::bar : 1.0;
      n.input[i] = {0.0, top, share(bits)};
    }
    return n;
  }
  Answers answer(const Neighbourhood& n) const {
    Answers a;
    laws.answer(laws.numbers.get(), n, a);
    return a;
  }
  Neighbourhood moved(Neighbourhood n, int lane, double h) const {
    if (lane < kind.oil_ports) {
      n.oil[lane] = at(n.oil[lane].pressure + h);
    } else if (const int l = lane - kind.oil_ports; l < 2 * kind.motion_ports) {
      (l % 2 ? n.body[l / 2].speed : n.body[l / 2].position) += h;
    } else {
      n.state[lane - kind.oil_ports - 2 * kind.motion_ports] += h;
    }
    return n;
  }
};

constexpr int draws = 300;

TEST_P(pump_variant, gives_the_slopes_that_differences_show) {
  int compared = 0;
  for (int i = 0; i < draws; ++i) {
    const Neighbourhood n = draw();
    LocalJacobian exact{};
    laws.jacobian(laws.numbers.get(), n, exact);
    for (int lane = 0; lane < kind.lanes(); ++lane) {
      const double h = lane < kind.oil_ports                           ? 10.0
                       : lane < kind.oil_ports + 2 * kind.motion_ports ? 1e-8
                                                                       : 1e-6;
      const Answers low = answer(moved(n, lane, -h)), middle = answer(n), high = answer(moved(n, lane, h));
      for (int row = 0; row < kind.rows(); ++row) {
        const double forward = (high.row[row] - middle.row[row]) / h,
                     back = (middle.row[row] - low.row[row]) / h;
        // At a corner the two sides differ: there is no one slope to compare with.
        if (std::abs(forward - back) > 1e-2 * (std::abs(forward) + std::abs(back)) + 1e-16) continue;
        const double difference = 0.5 * (forward + back), rounding = 1e-13 * std::abs(middle.row[row]) / h;
        EXPECT_NEAR(exact[row * kind.lanes() + lane], difference,
                    2e-3 * std::abs(difference) + rounding + 1e-17)
            << kind.about.kind << " row " << row << " lane " << lane;
        ++compared;
      }
    }
  }
  EXPECT_GT(compared, draws / 2 * kind.rows() * kind.lanes() / 2);
}

TEST_P(pump_variant, keeps_its_oil_and_never_takes_heat) {
  for (int i = 0; i < draws; ++i) {
    const Neighbourhood n = draw();
    const Answers a = answer(n);
    double sum = 0.0, largest = 0.0, heat = a.shaft - a.gained, handled = std::abs(heat);
    for (int k = 0; k < kind.oil_ports; ++k) {
      sum += a.row[k];
      largest = std::max(largest, std::abs(a.row[k]));
      heat += a.row[k] * oil.enthalpy(n.oil[k].pressure);
      handled += std::abs(a.row[k] * oil.enthalpy(n.oil[k].pressure));
    }
    EXPECT_LE(std::abs(sum), 1e-12 * largest);
    // A pump too: what it takes at its shaft is never less than what the oil gets.
    EXPECT_GE(heat, -1e-9 * handled) << kind.about.kind;
    EXPECT_GE(a.friction, -1e-12) << kind.about.kind;
  }
}

INSTANTIATE_TEST_SUITE_P(words_and_curves, pump_variant,
                         testing::Range(0, static_cast<int>(variants().size())), [](const auto& entry) {
                           return std::string(variants()[entry.param].kind) + "_" +
                                  std::to_string(entry.param);
                         });

}  // namespace
}  // namespace poise
