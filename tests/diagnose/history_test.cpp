// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/history.hpp"

#include <gtest/gtest.h>

#include "diagnose/look_alike_jobs.hpp"

namespace poise::diagnose {
namespace {

/// The factor of one fault of a press with a filter in its return line.
double factor(const std::string& fault, const Readings& readings) {
  static const Job job = [] {
    const std::string tank =
        "[parts.F1]\nkind = \"filter\"\nrated_flow = \"20 L/min\"\n[[lines]]\nfrom = \"V2.T\"\nto = "
        "\"F1.A\"\n"
        "[[lines]]\nfrom = \"F1.B\"\nto = \"T1.T\"\n";
    const std::string line = "[[lines]]\nfrom = \"V2.A\"\nto = \"C1.A\"\n";
    return std::get<Job>(read_job(
        look_alike_jobs::machine(look_alike_jobs::press(line), look_alike_jobs::press_and_back, tank),
        "job.toml"));
  }();
  for (const study::FaultPlace& place : study::faults_of(job)) {
    if (place.name == fault) return factor_of(job, place, readings);
  }
  throw std::runtime_error("no fault " + fault);
}

TEST(FactorOf, a_filter_is_less_likely_with_its_indicator_down_and_likelier_with_it_up) {
  EXPECT_EQ(factor("F1 clogged", {}), 1.0);
  EXPECT_LT(factor("F1 clogged", {.filter = Looked::good}), 1.0);
  EXPECT_GT(factor("F1 clogged", {.filter = Looked::bad}), 1.0);
  EXPECT_EQ(factor("V1 dirt on the seat", {.filter = Looked::bad}), 1.0) << "what no filter has to do with";
}

TEST(FactorOf, oil_that_gets_lost_is_likelier_where_the_level_is_low) {
  EXPECT_GT(factor("T1 low level", {.level = Looked::bad}), 1.0);
  EXPECT_LT(factor("T1 low level", {.level = Looked::good}), 1.0);
}

TEST(FactorOf, what_comes_after_work_is_likelier_after_work) {
  EXPECT_GT(factor("V1 turned up", {.came = Comes::after_work}),
            factor("V1 turned up", {.came = Comes::slowly}));
  EXPECT_GT(factor("P1 pump is worn", {.came = Comes::slowly}),
            factor("P1 pump is worn", {.came = Comes::after_work}));
}

/// How a fault of a kind comes about.
Comes comes(std::string_view kind, std::string_view fault) {
  for (const Fault& each : find_kind(kind)->faults) {
    if (each.name == fault) return each.comes;
  }
  throw std::runtime_error("no such fault");
}

TEST(Comes, gas_is_lost_slowly_and_a_bladder_bursts_suddenly) {
  EXPECT_EQ(comes("accumulator", "gas is lost"), Comes::slowly);
  EXPECT_EQ(comes("accumulator", "bladder has burst"), Comes::suddenly);
  EXPECT_EQ(comes("accumulator", "over-charged"), Comes::after_work);
}

}  // namespace
}  // namespace poise::diagnose
