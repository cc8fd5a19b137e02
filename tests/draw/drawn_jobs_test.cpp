// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Every job that there is, drawn, and held to the rules of a drawing (tests/support/drawing_rules.hpp).
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>

#include "support/drawn_job.hpp"

namespace poise::drawing {
namespace {

/// Three parts in a row from the list belong together: a unit in an enclosure.
// Of all pairs of parts; 0.52 was measured in the worst job, whose order another one beats clearly by the new
// gauge.
constexpr double least_kept = 0.5;

std::vector<draw::Wish> with_assembly(const Plan& plan, std::size_t from, std::size_t count) {
  std::vector<draw::Wish> wishes(plan.parts.size());
  for (std::size_t i = from; i < std::min(from + count, wishes.size()); ++i) wishes[i].assembly = "Unit";
  return wishes;
}

int index_of(const Plan& plan, std::string_view tag) {
  return static_cast<int>(std::ranges::find(plan.parts, tag, &PlannedPart::tag) - plan.parts.begin());
}

int add(Plan& plan, std::string tag, const PlannedPart& like) {
  plan.parts.push_back({.tag = std::move(tag), .kind = like.kind, .values = like.values, .place = {}});
  return static_cast<int>(plan.parts.size()) - 1;
}

/// The drawings' own words for a comparison: equal in every place, or how the first difference reads.
bool same(const draw::Schematic& a, const draw::Schematic& b) {
  const auto equal_symbols = std::ranges::equal(a.symbols, b.symbols, [](const auto& s, const auto& t) {
    return s.part == t.part && s.turn == t.turn && s.at == t.at && s.anchors == t.anchors && s.box == t.box;
  });
  const auto equal_labels =
      std::ranges::equal(a.labels, b.labels, [](const auto& s, const auto& t) { return s.box == t.box; });
  const auto equal_tanks = std::ranges::equal(a.tanks, b.tanks, [](const auto& s, const auto& t) {
    return s.port == t.port && s.lead == t.lead && s.box == t.box;
  });
  const auto equal_wires = std::ranges::equal(a.wires, b.wires, [](const auto& s, const auto& t) {
    return s.ports == t.ports && s.junctions == t.junctions &&
           std::ranges::equal(s.segments, t.segments, [](const auto& u, const auto& v) {
             return u.from == v.from && u.to == v.to && u.pilot == v.pilot;
           });
  });
  return equal_symbols && equal_labels && equal_tanks && equal_wires && a.box == b.box;
}

testing::AssertionResult keeps_the_rules(const Arranged& job) {
  const Sentences wrong = broken_rules(job.drawn());
  if (wrong.empty()) return testing::AssertionSuccess();
  return testing::AssertionFailure() << wrong.size() << " broken\n" << listed(wrong);
}

class drawn_job : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(drawn_job, keeps_every_rule_of_a_drawing) {
  const Arranged job(plan_of(GetParam()));
  EXPECT_TRUE(keeps_the_rules(job));
}

TEST_P(drawn_job, is_drawn_the_same_twice) {
  const Plan plan = plan_of(GetParam());
  const Arranged first(plan), second(plan);
  EXPECT_TRUE(same(first.schematic, second.schematic));
}

TEST_P(drawn_job, keeps_the_rules_with_three_of_its_parts_in_an_enclosure) {
  const Plan plan = plan_of(GetParam());
  const Arranged job(plan, with_assembly(plan, 1, 3));
  EXPECT_TRUE(keeps_the_rules(job));
}

/// The share of pairs of parts that stay as they were to each other with a gauge more on the first line.
double kept_with_a_gauge_more(const std::filesystem::path& job) {
  const Plan before = plan_of(job);
  const auto oil = std::ranges::find_if(before.joints, [&](const Joint& j) {
    return before.port(j.a).domain == Domain::oil && before.parts[j.a.part].kind->about.kind != "reservoir";
  });
  Plan after = before;
  PlannedPart gauge{.tag = "G99", .kind = find_kind("gauge"), .values = Values({}, {}), .place = {}};
  std::vector<double> numbers;
  for (const Parameter& p : gauge.kind->parameters) numbers.push_back(p.fallback.value_or(250e5));
  gauge.values = Values(gauge.kind->parameters, numbers);
  const int added = add(after, "G99", gauge);
  after.joints.push_back({oil->a, {added, 0}, {}});
  const Arranged first(before), second(after);
  return kept_order(before, first.schematic, after, second.schematic);
}

TEST_P(drawn_job, stays_as_it_was_with_a_gauge_more) {
  EXPECT_GE(kept_with_a_gauge_more(GetParam()), least_kept);
}

TEST(drawn_jobs, stay_as_they_were_with_a_gauge_more_by_and_large) {
  const auto jobs = jobs_to_draw();
  double sum = 0.0;
  for (const auto& job : jobs) sum += kept_with_a_gauge_more(job);
  const double mean = sum / static_cast<double>(jobs.size());
  RecordProperty("mean_kept", std::to_string(mean));
  EXPECT_GE(mean, 0.95);
}

// A branch more: the last cylinder or clamp again, with all that is joined to it and to nothing else, from
// the same line.
TEST_P(drawn_job, stays_as_it_was_with_a_branch_more) {
  const Plan before = plan_of(GetParam());
  const auto is_actuator = [](const PlannedPart& part) {
    return part.kind->motion_ports > 0 && part.kind->oil_ports > 0 && part.kind->about.kind != "accumulator";
  };
  const auto last = std::find_if(before.parts.rbegin(), before.parts.rend(), is_actuator);
  if (last == before.parts.rend()) GTEST_SKIP() << "nothing moves in it";
  const int actuator = index_of(before, last->tag);
  Plan after = before;
  const int twin = add(after, "C99", *last);
  for (const Joint& joint : before.joints) {
    if (before.port(joint.a).domain != Domain::oil) continue;
    if (joint.a.part == actuator) after.joints.push_back({joint.b, {twin, joint.a.port}, {}});
    if (joint.b.part == actuator) after.joints.push_back({joint.a, {twin, joint.b.port}, {}});
  }
  const Arranged first(before), second(after);
  EXPECT_TRUE(keeps_the_rules(second));
  EXPECT_GE(kept_order(before, first.schematic, after, second.schematic), least_kept);
}

// Nudged by hand, a part stands where it was put and the rest keeps clear of it.
TEST_P(drawn_job, keeps_the_rules_with_a_part_moved_by_hand) {
  const Plan plan = plan_of(GetParam());
  const Arranged first(plan);
  std::vector<draw::Wish> wishes(plan.parts.size());
  const auto part = plan.parts.size() / 2;
  const draw::Point was = first.schematic.symbols[part].at;
  wishes[part].at = draw::Point{was.x + 3, was.y + 2};
  const Arranged second(plan, wishes);
  EXPECT_TRUE(keeps_the_rules(second));
  EXPECT_TRUE(second.schematic.symbols[part].at == *wishes[part].at || !second.schematic.remarks.empty());
}

INSTANTIATE_TEST_SUITE_P(all, drawn_job, testing::ValuesIn(jobs_to_draw()), [](const auto& entry) {
  std::string name = entry.param.parent_path().filename().string() + "_" + entry.param.stem().string();
  std::ranges::replace_if(
      name, [](char c) { return std::isalnum(static_cast<unsigned char>(c)) == 0; }, '_');
  return name;
});

TEST(jobs_to_draw, are_at_least_fifteen_of_varied_shape_with_some_of_sixty_parts) {
  const auto jobs = jobs_to_draw();
  EXPECT_GE(jobs.size(), 15U);
  EXPECT_GE(std::ranges::count_if(jobs, [](const auto& job) { return plan_of(job).parts.size() == 60; }), 3);
}

}  // namespace
}  // namespace poise::drawing
