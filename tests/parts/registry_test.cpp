// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Laws that hold for every part in the list, walked over many states. A new part is tested before its author
// writes a test of its own.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "parts/kind.hpp"
#include "support/plausible.hpp"

namespace poise {
namespace {

struct Case {
  const Kind& kind;
  Oil oil{OilData{}};
  Values values = workshop::plausible(kind);
  Laws laws = kind.make(values, oil);

  Neighbourhood random(std::mt19937& random_bits) const {
    // Away from the corners of the laws (equal pressures, exact band ends), on both sides of each.
    std::uniform_real_distribution<double> pressure(1e5, 300e5), share(0.05, 0.95), place(1e-3, 11e-3),
        speed(-0.05, 0.05);
    Neighbourhood n{};
    for (auto& lane : n.oil) lane = at(pressure(random_bits));
    for (auto& body : n.body) body = {place(random_bits), speed(random_bits)};
    for (auto& s : n.state) s = share(random_bits);
    for (std::size_t i = 0; i < kind.inputs.size(); ++i) {
      const Parameter& p = kind.parameters[kind.inputs[i]];
      const bool word = !p.words.empty();
      const double low = word ? 0.0 : std::max(p.low, -1e4), high = word ? double(p.words.size() - 1)
                                                                    : p.quantity == Quantity::pressure
                                                                        ? p.high
                                                                        : std::min(p.high, 5.0);
      std::uniform_real_distribution<double> value(low, high);
      n.input[i] = {word ? std::round(value(random_bits)) : value(random_bits),
                    word ? std::round(value(random_bits)) : value(random_bits), share(random_bits)};
    }
    return n;
  }
  Neighbourhood::OilLane at(double p) const {
    const auto d = oil.density(p);
    return {p, d.value, 1.0, d.slope};
  }
  Answers answer(const Neighbourhood& n) const {
    Answers a;
    laws.answer(laws.numbers.get(), n, a);
    return a;
  }
};

class every_kind : public testing::TestWithParam<int> {
 protected:
  const Kind& kind = all_kinds()[GetParam()];
  Case part{kind};
  std::mt19937 random_bits{20261125};
};

constexpr int draws = 300;

TEST_P(every_kind, gives_the_slopes_that_differences_show) {
  int compared = 0;
  for (int i = 0; i < draws; ++i) {
    const Neighbourhood n = part.random(random_bits);
    LocalJacobian exact{};
    part.laws.jacobian(part.laws.numbers.get(), n, exact);
    for (int lane = 0; lane < kind.lanes(); ++lane) {
      const auto moved = [&](double h) {
        Neighbourhood m = n;
        if (lane < kind.oil_ports) {
          m.oil[lane] = part.at(n.oil[lane].pressure + h);
        } else if (const int l = lane - kind.oil_ports; l < 2 * kind.motion_ports) {
          (l % 2 ? m.body[l / 2].speed : m.body[l / 2].position) += h;
        } else {
          m.state[lane - kind.oil_ports - 2 * kind.motion_ports] += h;
        }
        return part.answer(m);
      };
      const double h = lane < kind.oil_ports                           ? 10.0
                       : lane < kind.oil_ports + 2 * kind.motion_ports ? 1e-8
                                                                       : 1e-6;
      const Answers low = moved(-h), middle = moved(0.0), high = moved(h);
      for (int row = 0; row < kind.rows(); ++row) {
        const double forward = (high.row[row] - middle.row[row]) / h,
                     back = (middle.row[row] - low.row[row]) / h;
        // At a corner the two sides differ: there is no one slope to compare with.
        if (std::abs(forward - back) > 1e-2 * (std::abs(forward) + std::abs(back)) + 1e-16) continue;
        const double difference = 0.5 * (forward + back);
        // A difference loses the digits of the answer's own rounding.
        const double rounding = 1e-14 * std::abs(middle.row[row]) / h;
        EXPECT_NEAR(exact[row * kind.lanes() + lane], difference,
                    2e-3 * std::abs(difference) + 10 * rounding + 1e-17)
            << kind.about.kind << " row " << row << " lane " << lane;
        ++compared;
      }
    }
  }
  EXPECT_GT(compared, draws / 2 * kind.rows() * kind.lanes() / 2);
}

TEST_P(every_kind, neither_makes_nor_loses_oil) {
  for (int i = 0; i < draws; ++i) {
    const Answers a = part.answer(part.random(random_bits));
    double sum = 0.0, largest = 0.0;
    for (int k = 0; k < kind.oil_ports; ++k) {
      sum += a.row[k];
      largest = std::max(largest, std::abs(a.row[k]));
    }
    EXPECT_LE(std::abs(sum), 1e-12 * largest) << kind.about.kind;
  }
}

TEST_P(every_kind, makes_heat_and_never_takes_it) {
  for (int i = 0; i < draws; ++i) {
    const Neighbourhood n = part.random(random_bits);
    const Answers a = part.answer(n);
    double flow_heat = a.shaft - a.gained;
    for (int k = 0; k < kind.oil_ports; ++k) flow_heat += a.row[k] * part.oil.enthalpy(n.oil[k].pressure);
    if (kind.about.role != Role::source) {
      EXPECT_GE(flow_heat, -1e-9 * std::abs(a.row[0] * 1e5)) << kind.about.kind;
    }
    EXPECT_GE(a.friction, -1e-12) << kind.about.kind;
  }
}

TEST_P(every_kind, passes_no_oil_between_equal_pressures_at_rest) {
  if (kind.about.role == Role::source) return;  // a pump is there to do just that
  for (int i = 0; i < draws; ++i) {
    Neighbourhood n = part.random(random_bits);
    for (auto& body : n.body) body.speed = 0.0;
    for (int k = 0; k < kind.oil_ports; ++k) n.oil[k] = n.oil[0];
    const Answers a = part.answer(n);
    for (int k = 0; k < kind.oil_ports; ++k) EXPECT_NEAR(a.row[k], 0.0, 1e-15) << kind.about.kind;
  }
}

TEST_P(every_kind, answers_with_numbers_at_the_edges_of_the_possible) {
  for (double p : {-101324.9, 0.0, 3000e5}) {
    for (double x : {-1e-3, 0.0, 0.5}) {
      for (double v : {-10.0, 0.0, 10.0}) {
        Neighbourhood n{};
        for (int k = 0; k < max_oil_ports; ++k) n.oil[k] = part.at(k % 2 ? p : 0.0);
        for (auto& body : n.body) body = {x, v};
        for (int i = 0; i < max_states; ++i) n.state[i] = 0.0;
        const Answers a = part.answer(n);
        LocalJacobian slopes{};
        part.laws.jacobian(part.laws.numbers.get(), n, slopes);
        for (int row = 0; row < kind.rows(); ++row) {
          EXPECT_TRUE(std::isfinite(a.row[row])) << kind.about.kind;
          for (int lane = 0; lane < kind.lanes(); ++lane)
            EXPECT_TRUE(std::isfinite(slopes[row * kind.lanes() + lane])) << kind.about.kind;
        }
      }
    }
  }
}

TEST_P(every_kind, has_a_complete_datasheet) {
  EXPECT_FALSE(kind.about.sentence.empty());
  EXPECT_FALSE(kind.about.law.empty());
  EXPECT_FALSE(kind.about.source.empty());
  for (const Parameter& p : kind.parameters) {
    EXPECT_FALSE(p.meaning.empty()) << p.name;
    EXPECT_FALSE(p.source.empty()) << p.name;
    EXPECT_LT(p.low, p.high) << p.name;
    if (p.fallback) {
      EXPECT_GE(*p.fallback, p.low) << p.name;
      EXPECT_LE(*p.fallback, p.high) << p.name;
    }
    if (!p.words.empty()) {
      EXPECT_EQ(p.high, double(p.words.size() - 1)) << p.name;
    }
  }
  for (const Port& port : kind.ports) EXPECT_FALSE(port.meaning.empty()) << port.name;
  for (const Fault& fault : kind.faults) {
    EXPECT_TRUE(find_parameter(kind.parameters, fault.parameter)) << fault.name;
    EXPECT_FALSE(fault.sentence.empty()) << fault.name;
  }
  for (const Rule& rule : kind.rules) EXPECT_FALSE(rule.sentence.empty()) << rule.name;
  if (!kind.anchors.empty()) {
    EXPECT_EQ(kind.anchors.size(), kind.ports.size());
  }
}

INSTANTIATE_TEST_SUITE_P(registry, every_kind, testing::Range(0, static_cast<int>(all_kinds().size())),
                         [](const auto& entry) { return std::string(all_kinds()[entry.param].about.kind); });

}  // namespace
}  // namespace poise
