// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Every calculation that a part writes down comes to what it says: its formula, read as text, gives its
// result.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <set>
#include <string>

#include "parts/kind.hpp"
#include "support/duties.hpp"
#include "support/formula.hpp"
#include "support/plausible.hpp"

namespace poise {
namespace {

using workshop::evaluate;

/// One datasheet of a kind, and what is different in it.
struct Sheet {
  std::string of;
  Values values;
};

/// A value in the middle of an optional parameter's range, on the scale of factors where there is one.
double middle(const Parameter& p) {
  return p.low > 0.0 ? std::sqrt(p.low * std::min(p.high, 1e9))
                     : p.low + 0.3 * (std::min(p.high, 1.0) - p.low);
}

/// A datasheet that gives a curve in the place of some values.
struct Curved {
  std::string_view kind, parameter;
  Points points;
  std::vector<std::pair<std::string_view, double>> others;
};

const std::vector<Curved>& curved_sheets() {
  constexpr double none = std::numeric_limits<double>::quiet_NaN(), litre = si::litre_per_minute;
  const Points drop{{4 * litre, 1.2e5}, {12 * litre, 5.5e5}}, delivery{{0.0, 4 * litre}, {200e5, 3 * litre}};
  static const std::vector<Curved> all{
      {"relief",
       "override_curve",
       {{0.5 * litre, 150e5}, {6 * litre, 157e5}, {12 * litre, 165e5}},
       {{"setting", none}, {"rated_flow", none}}},
      {"check", "drop_curve", drop, {{"rated_flow", none}}},
      {"reducing", "drop_curve", drop, {{"rated_flow", none}}},
      {"hose_burst_valve", "drop_curve", drop, {{"rated_flow", none}, {"trip_flow", 15 * litre}}},
      {"filter", "drop_curve", drop, {{"rated_flow", none}, {"bypass_pressure", 8e5}}},
      {"needle", "flow_curve", {{1.0, 1 * litre}, {4.0, 9 * litre}}, {{"curve_drop", 50e5}, {"bore", none}}},
      {"one_way_flow_control",
       "flow_curve",
       {{1.0, 1 * litre}, {4.0, 9 * litre}},
       {{"curve_drop", 50e5}, {"bore", none}}},
      {"pump", "delivery_curve", delivery, {{"flow", none}, {"motor_power", 2200.0}}},
      {"two_stage_pump",
       "delivery_curve",
       delivery,
       {{"low_pressure_flow", none}, {"high_pressure_flow", none}, {"motor_power", 2200.0}}},
      {"air_driven_pump", "delivery_curve", delivery, {{"flow", none}}},
      {"cycling_intensifier", "delivery_curve", delivery, {{"high_flow", none}, {"curve_pressure", 100e5}}},
      {"hose", "expansion_curve", {{100e5, 1e-6}, {300e5, 3e-6}}, {}},
      {"swing_clamp", "arm_curve", {{0.05, 9e3}, {0.15, 7e3}}, {{"arm_length", 0.1}}},
      {"work_support",
       "capacity_curve",
       {{50e5, 1e3}, {300e5, 9e3}},
       {{"capacity", none}, {"capacity_pressure", none}}},
  };
  return all;
}

/// The plausible datasheet, and it with each word, each optional value and each curve of the kind's, as far
/// as they go together.
std::vector<Sheet> sheets(const Kind& kind) {
  const Values plain = workshop::plausible(kind);
  std::vector<Sheet> all{{"as it is", plain}};
  const auto take = [&](const std::string& of, const Values& values) {
    if (kind.check(values).empty()) all.push_back({of, values});
  };
  for (std::size_t i = 0; i < kind.parameters.size(); ++i) {
    const Parameter& p = kind.parameters[i];
    const int index = static_cast<int>(i);
    for (std::size_t word = 0; word < p.words.size(); ++word) {
      Values values = plain;
      values.set(index, static_cast<double>(word));
      take(std::string(p.name) + " = " + std::string(p.words[word]), values);
    }
    if (p.optional && p.words.empty() && !p.against) {
      Values values = plain;
      values.set(index, middle(p));
      take("with " + std::string(p.name), values);
    }
  }
  for (const Curved& curved : curved_sheets()) {
    if (curved.kind != kind.about.kind) continue;
    Values values = plain;
    for (const auto& [name, value] : curved.others) values.set(*find_parameter(kind.parameters, name), value);
    values.set_points(*find_parameter(kind.parameters, curved.parameter), curved.points);
    EXPECT_TRUE(kind.check(values).empty()) << curved.kind << ": " << curved.parameter;
    all.push_back({"with " + std::string(curved.parameter), values});
  }
  return all;
}

void expect_it_adds_up(const Working& w) {
  EXPECT_FALSE(w.name.empty());
  EXPECT_FALSE(w.source.empty()) << w.name;
  EXPECT_FALSE(w.result.meaning.empty()) << w.name;
  EXPECT_TRUE(std::isfinite(w.result.value)) << w.name;
  const auto evaluated = evaluate(w.formula, w.terms);
  EXPECT_EQ(evaluated.left, w.result.symbol) << w.name;
  std::set<std::string> symbols;
  for (const Term& term : w.terms) {
    EXPECT_FALSE(term.meaning.empty()) << w.name << ": " << term.symbol;
    EXPECT_TRUE(std::isfinite(term.value)) << w.name << ": " << term.symbol;
    EXPECT_TRUE(symbols.insert(term.symbol).second) << w.name << " has two terms " << term.symbol;
  }
  EXPECT_EQ(evaluated.named, symbols) << w.name;
  EXPECT_NEAR(evaluated.value, w.result.value, 1e-9 * std::abs(w.result.value))
      << w.name << ": " << w.formula;
}

class every_sheet : public testing::TestWithParam<int> {
 protected:
  const Kind& kind = all_kinds()[GetParam()];
  const Oil oil{OilData{}};
};

TEST_P(every_sheet, gives_calculations_whose_formulas_come_to_their_results) {
  const Duty duty = workshop::plausible_duty(kind);
  for (const Sheet& sheet : sheets(kind)) {
    SCOPED_TRACE(sheet.of);
    std::set<std::string> names;
    for (const Working& w : kind.workings(sheet.values, oil, duty)) {
      expect_it_adds_up(w);
      // An opening is told once for each pressure that hangs on it.
      if (!w.name.starts_with("opening ")) {
        EXPECT_TRUE(names.insert(w.name).second) << "twice: " << w.name;
      }
    }
  }
}

TEST_P(every_sheet, says_nothing_of_a_run_that_showed_nothing) {
  for (const Sheet& sheet : sheets(kind)) {
    for (const Working& w : kind.workings(sheet.values, oil, Duty{})) {
      expect_it_adds_up(w);
      for (const Term& term : w.terms) {
        for (std::string_view seen : {"highest", "lowest", "greatest flow"})
          EXPECT_FALSE(term.meaning.starts_with(seen)) << sheet.of << ", " << w.name << ": " << term.meaning;
      }
    }
  }
}

TEST_P(every_sheet, gives_one_that_can_be_reckoned_from_its_sizes) {
  // A force or a spring on a rod is what the job says it is.
  static const std::set<std::string_view> without{"force", "spring"};
  const auto all = kind.workings(workshop::plausible(kind), oil, workshop::plausible_duty(kind));
  EXPECT_EQ(all.empty(), without.contains(kind.about.kind));
}

INSTANTIATE_TEST_SUITE_P(workings, every_sheet, testing::Range(0, static_cast<int>(all_kinds().size())),
                         [](const auto& entry) { return std::string(all_kinds()[entry.param].about.kind); });

// The reader of formulas is what the tests above stand on.
TEST(formula, binds_powers_before_products_before_sums_and_reads_from_left_to_right) {
  const std::vector<Term> terms{{"a_1", "", 2.0}, {"Δp", "", 3.0}, {"n", "", 0.5}};
  const auto value = [&](std::string_view text) { return evaluate(text, terms).value; };
  EXPECT_DOUBLE_EQ(value("y = 1 + a_1·Δp²"), 1.0 + 2.0 * 9.0);
  EXPECT_DOUBLE_EQ(value("y = a_1/Δp·4"), 2.0 / 3.0 * 4.0);
  EXPECT_DOUBLE_EQ(value("y = 10 − a_1 − Δp"), 5.0);
  EXPECT_DOUBLE_EQ(value("y = (a_1·Δp)^(1/n) + √(Δp³ − 2)"), 36.0 + 5.0);
  EXPECT_DOUBLE_EQ(value("y = π²·a_1"), std::numbers::pi * std::numbers::pi * 2.0);
}

TEST(formula, refuses_what_is_no_equation_of_its_terms) {
  const std::vector<Term> terms{{"a", "", 2.0}};
  for (std::string_view wrong : {"a", "y = b", "y = a·", "y = (a", "y = a a", "y = min(a)", "= a"})
    EXPECT_THROW(evaluate(wrong, terms), std::runtime_error) << wrong;
}

}  // namespace
}  // namespace poise
