// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Every kind of part, branched off a line and put onto one: its values are sound, what it needs beside is to
// be joined, and what is joined runs.
#include "circuit/circuit.hpp"
#include "compose/changed_text.hpp"
#include "solve/run.hpp"

namespace poise::compose {
namespace {

std::string start_of(std::string_view name, bool us) {
  const auto start = std::ranges::find(starts(), name, &Start::name);
  return std::string(us ? start->us : start->metric);
}

struct Added {
  const Kind* kind = nullptr;
  bool us = false;
};

std::vector<Added> all() {
  std::vector<Added> list;
  for (const Kind& kind : all_kinds()) {
    list.push_back({&kind, false});
    list.push_back({&kind, true});
  }
  return list;
}

class every_kind_added : public testing::TestWithParam<Added> {
 protected:
  const Kind& kind = *GetParam().kind;
  std::string name{kind.about.kind};
  std::string before = start_of("single-lift", GetParam().us);

  /// Of a text without complaints: it comes through its first 0.2 s.
  void expect_that_it_runs(const std::string& text) const {
    const job::Reading reading = reading_of(text);
    if (!reading.complaints.list.empty()) return;
    Schedule steps{reading.job.steps.front()};
    steps.front().until.clear();
    steps.front().lasts = 0.2;
    const Trace trace = solve::run(build(reading.job.plan), steps, {}, {});
    EXPECT_FALSE(trace.halt) << trace.halt->sentence;
  }
};

TEST_P(every_kind_added, branched_off_a_line_leaves_only_open_ports) {
  const bool on_rod = kind.oil_ports == 0;
  const bool turns = on_rod && kind.ports.front().turns;
  if (turns) before = text_of(put_first(before, "shaft_pump"));
  const Changed changed = branch_off(before, turns ? "P2.shaft" : on_rod ? "C1.rod" : "P1.P", name);
  const std::string text = text_of(changed);
  EXPECT_EQ(complaints_beside_open_ports(text), std::vector<std::string>{}) << text;
  EXPECT_FALSE(changed.tag.empty());
  expect_that_it_runs(text);
}

TEST_P(every_kind_added, put_onto_a_line_leaves_only_open_ports) {
  const Changed changed = put_onto(before, {"P1.P", "V1.P"}, {"V2.A"}, name);
  if (!changed.complaint.empty()) {
    EXPECT_EQ(changed.text, "");
    const Changed branch = branch_off(before, kind.oil_ports == 0 ? "C1.rod" : "P1.P", name);
    EXPECT_TRUE(kind.oil_ports <= 1 || kind.about.role == Role::actuator) << changed.complaint;
    return;
  }
  const std::string text = text_of(changed);
  EXPECT_EQ(complaints_beside_open_ports(text), std::vector<std::string>{}) << text;
  expect_that_it_runs(text);
}

TEST_P(every_kind_added, stands_alone_before_it_is_joined) {
  const std::string text = text_of(put_first(before, name));
  EXPECT_EQ(complaints_beside_open_ports(text), std::vector<std::string>{}) << text;
}

INSTANTIATE_TEST_SUITE_P(of_both_worlds, every_kind_added, testing::ValuesIn(all()), [](const auto& one) {
  return std::string(one.param.kind->about.kind) + (one.param.us ? "_us" : "_metric");
});

}  // namespace
}  // namespace poise::compose
