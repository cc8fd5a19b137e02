// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Which faults a job has, and what each changes in it.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "study/fault_table.hpp"
#include "study/faulty_jobs.hpp"

namespace poise::study {
namespace {

using faulty_jobs::job_of;
using faulty_jobs::lift;

const std::string straight = R"(
[[lines]]
from = "V2.A"
to = "C1.A"
)";

std::string replaced(std::string text, const std::string& piece, const std::string& by) {
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return text.replace(at, piece.size(), by);
}

FaultPlace place_of(const Job& job, const std::string& name) {
  for (FaultPlace& place : faults_of(job)) {
    if (place.name == name) return std::move(place);
  }
  ADD_FAILURE() << name;
  return {};
}

const PlannedPart& part(const Job& job, const std::string& tag) {
  return *std::ranges::find(job.plan.parts, tag, &PlannedPart::tag);
}

bool has(const Job& job, const std::string& name) {
  const auto all = faults_of(job);
  return std::ranges::find(all, name, &FaultPlace::name) != all.end();
}

std::string why_not(const Job& job, const std::string& name) {
  for (const NotApplicable& each : list_faults(job).not_applicable) {
    if (each.name == name) return each.reason;
  }
  return "";
}

TEST(fault_of_a_room, changes_its_value_by_the_factor_of_its_size) {
  const Job job = job_of(lift("", straight));
  const FaultPlace place = place_of(job, "V1 spring relaxed");
  EXPECT_NEAR(part(*with_fault(job, place, 0.0), "V1").values["setting"], 0.97 * 150 * si::bar, 1.0);
  EXPECT_NEAR(part(*with_fault(job, place, 1.0), "V1").values["setting"], 0.60 * 150 * si::bar, 1.0);
  // Half way by factors: the root of the two.
  EXPECT_NEAR(part(*with_fault(job, place, 0.5), "V1").values["setting"],
              std::sqrt(0.97 * 0.60) * 150 * si::bar, 1.0);
  EXPECT_EQ(change_of(job, place), "setting 150 bar → 146 bar … 90.0 bar");
}

TEST(fault_of_a_room, scales_the_pressures_of_a_curve_that_stands_for_the_setting) {
  const Job job = job_of(replaced(
      lift("", straight), "setting = \"150 bar\"\nrated_flow = \"10 L/min\"",
      R"(override_curve = [["0.1 L/min", "140 bar"], ["5 L/min", "150 bar"], ["10 L/min", "160 bar"]])"));
  const FaultPlace place = place_of(job, "V1 spring relaxed");
  const auto faulty = with_fault(job, place, 1.0);
  ASSERT_TRUE(faulty);
  const auto points = part(*faulty, "V1").values.points("override_curve");
  ASSERT_EQ(points.size(), 3u);
  EXPECT_NEAR(points[0].y, 0.6 * 140 * si::bar, 1.0);
  EXPECT_NEAR(points[2].y, 0.6 * 160 * si::bar, 1.0);
  EXPECT_NEAR(points[2].x, 10 * si::litre_per_minute, 1e-12);
  // Worn, its band is two to four times as wide over the same first point.
  const auto worn = with_fault(job, place_of(job, "V1 worn"), 1.0);
  EXPECT_NEAR(part(*worn, "V1").values.points("override_curve")[2].y, (140 + 4 * 20) * si::bar, 1.0);
}

TEST(fault_of_a_room, scales_the_delivery_of_a_pump_by_its_curve) {
  const Job job = job_of(replaced(lift("", straight), "flow = \"4 L/min\"",
                                  R"(delivery_curve = [["0 bar", "4 L/min"], ["200 bar", "3.6 L/min"]])"));
  const auto faulty = with_fault(job, place_of(job, "P1 flow is low"), 1.0);
  ASSERT_TRUE(faulty);
  EXPECT_NEAR(part(*faulty, "P1").values.points("delivery_curve")[1].y, 0.6 * 3.6 * si::litre_per_minute,
              1e-9);
}

TEST(fault_of_a_room, changes_what_steps_command) {
  const Job job = faulty_jobs::example("drilling-stand");
  const auto faulty = with_fault(job, place_of(job, "F1 greater than reckoned"), 1.0);
  ASSERT_TRUE(faulty);
  // 6 kN of drilling become 12; the 0 N of its end stay.
  EXPECT_DOUBLE_EQ(faulty->steps[2].commands[0].target, 12 * si::kN);
  EXPECT_DOUBLE_EQ(faulty->steps[3].commands[0].target, 0.0);
}

TEST(fault_of_a_room, is_left_out_with_a_reason_where_it_has_nothing_to_change) {
  const Job job = job_of(lift("", straight));
  EXPECT_FALSE(has(job, "P1 speed is low"));
  EXPECT_EQ(why_not(job, "P1 speed is low"), "its flow is stated, not its displacement and speed");
}

// T1.T has three lines: to the pump's suction, from V1.T and from V2.T.
TEST(fault_of_the_circuit, blocks_each_line_into_a_reservoir_by_itself) {
  const Job job = job_of(lift("", straight));
  EXPECT_TRUE(has(job, "line P1.S suction clogged"));
  EXPECT_TRUE(has(job, "line V1.T blocked on its way to T1"));
  const FaultPlace place = place_of(job, "line V2.T blocked on its way to T1");
  const auto faulty = with_fault(job, place, 1.0);
  ASSERT_TRUE(faulty);
  EXPECT_TRUE(faults_of(faulty->plan).empty());
  const Circuit sound = build(job.plan), changed = build(faulty->plan);
  const auto node = [](const Circuit& circuit, const char* tag, int port) {
    return circuit.node_of(circuit.find_part(tag), port);
  };
  EXPECT_EQ(node(sound, "V2", 1), node(sound, "T1", 0));
  EXPECT_NE(node(changed, "V2", 1), node(changed, "T1", 0));
  EXPECT_EQ(node(changed, "V1", 1), node(changed, "T1", 0));
  EXPECT_EQ(node(changed, "P1", 0), node(changed, "T1", 0));
}

// Half closed is the hole that takes 2 bar at 4 L/min: A = Q/(0.62·√(2·Δp/ρ)), ρ 857 kg/m3 at 40 °C: 2.53 mm.
TEST(fault_of_the_circuit, begins_with_a_hole_that_takes_two_bar) {
  const Job job = job_of(lift("", straight));
  const double density = Oil(job.plan.oil).density_at_zero(), flow = 4 * si::litre_per_minute;
  const double area = flow / (0.62 * std::sqrt(2.0 * 2 * si::bar / density));
  EXPECT_NEAR(place_of(job, "line V2.T blocked on its way to T1").slight, std::sqrt(area * 4 / 3.14159265),
              1e-6);
}

// Out of the pump line at the relief valve's pressure p, by the law of a restriction: (q² + 0.1·q)/1.1 =
// p/100 bar, where q is the flow over the one that is stated at 100 bar. What the pump takes in at p = 0 is
// less at p.
TEST(fault_of_the_circuit, loses_oil_by_the_law_of_an_opening) {
  Job job = job_of(lift("", straight));
  job.steps[0].commands.erase(job.steps[0].commands.begin() + 1);  // the pump only, against its relief valve
  FaultPlace place = place_of(job, "line P1.P, V1.P, V2.P … leaks to the outside");
  const Nominal nominal = nominal_of(job);
  const double t = std::log(1000.0) / std::log(100000.0);  // 1 L/min at 100 bar
  EXPECT_NEAR(place.size(t), 1 * si::litre_per_minute, 1e-9);
  const auto faulty = with_fault(job, place, t);
  ASSERT_TRUE(faulty);
  const FaultyRun run = run_faulty(nominal, *faulty, -1);
  EXPECT_TRUE(run.verdict.books_close);
  const int pump = run.trace.column("P1.delivery"), relief = run.trace.column("V1.P.flow"),
            gauge = run.trace.column("G1.reading");
  ASSERT_TRUE(pump >= 0 && relief >= 0 && gauge >= 0);
  const auto row =
      static_cast<std::size_t>(std::ranges::lower_bound(run.trace.time, 3.9) - run.trace.time.begin());
  const double pressure = run.trace.values[gauge][row];
  const Oil oil(job.plan.oil);
  const double squeezed = oil.density_at_zero() / oil.density(pressure).value;
  const double lost = run.trace.values[pump][row] * squeezed - run.trace.values[relief][row];
  const double q = (-0.1 + std::sqrt(0.01 + 4.0 * 1.1 * pressure / (100 * si::bar))) / 2.0;
  EXPECT_NEAR(lost, q * si::litre_per_minute, 0.02 * si::litre_per_minute);
}

TEST(fault_of_the_oil, is_a_grade_thinner_by_the_midpoints_of_iso_3448) {
  const Job job = job_of(lift("", straight));  // ISO VG 46
  const FaultPlace place = place_of(job, "oil of a thinner grade");
  EXPECT_NEAR(with_fault(job, place, 0.0)->plan.oil.viscosity_40, 32 * si::mm2_per_s, 1e-12);
  EXPECT_NEAR(with_fault(job, place, 1.0)->plan.oil.viscosity_40, 22 * si::mm2_per_s, 1e-12);
  EXPECT_LT(with_fault(job, place, 1.0)->plan.oil.viscosity_100, job.plan.oil.viscosity_100);
}

TEST(fault_of_people, forgets_a_command_but_not_one_that_asks_for_what_stands_already) {
  Job job = job_of(lift("", straight));
  job.steps[1].commands.push_back(job.steps[1].commands.front());  // V2 = centre once more
  EXPECT_TRUE(has(job, "V2 = centre forgotten in \"hold\""));
  EXPECT_EQ(why_not(job, "V2 = centre forgotten in \"hold\""), "it stands so already");
  const auto faulty = with_fault(job, place_of(job, "V2 = a forgotten in \"up\""), 1.0);
  EXPECT_EQ(faulty->steps[0].commands.size(), job.steps[0].commands.size() - 1);
  EXPECT_TRUE(has(job, "V2 = b in \"up\" instead of a"));
}

TEST(fault_of_people, exchanges_the_settings_of_two_pressure_valves) {
  const Job job = faulty_jobs::example("drilling-stand");
  const auto faulty = with_fault(job, place_of(job, "settings of V3 and V2 exchanged"), 1.0);
  ASSERT_TRUE(faulty);
  EXPECT_DOUBLE_EQ(part(*faulty, "V2").values["setting"], 210 * si::bar);
  EXPECT_DOUBLE_EQ(part(*faulty, "V3").values["setting"], 120 * si::bar);
}

TEST(fault_answer, is_the_same_after_its_json) {
  FaultAnswer answer;
  answer.t = 0.3125;
  answer.change = "setting 101 bar";
  answer.outcome = Outcome::broken;
  answer.breaks = {{"seated", "at 1 s, in \"clamp\"", Severity::hurts, 1.25}};
  answer.severity = Severity::hurts;
  answer.shown = {Shown::By::gauge, true, "G1 at the end of \"clamp\": 84.0 bar instead of 121 bar"};
  answer.protects = {"V3 opens"};
  answer.left_pressed = {"K1.A at 84.0 bar"};
  const auto back = answer_from(to_json(answer).dump());
  ASSERT_TRUE(back);
  EXPECT_EQ(to_json(*back), to_json(answer));
  EXPECT_EQ(back->t, answer.t);
  EXPECT_FALSE(answer_from("{\"t\": 1}"));
  EXPECT_FALSE(answer_from("no"));
}

FaultResult shown_by(const char* name, Severity severity, Shown::By by) {
  FaultAnswer answer;
  answer.severity = severity;
  answer.outcome = severity == Severity::nothing_breaks ? Outcome::held : Outcome::broken;
  if (answer.outcome == Outcome::broken) answer.breaks = {{"promise", "found, so to say", severity, 1.0}};
  answer.shown.by = by;
  FaultResult result;
  result.place = place_of(job_of(lift("", straight)), "oil too cold");
  result.place.name = name;
  result.answers = {answer};
  return result;
}

TEST(fault_table, has_the_worst_first_then_what_nothing_shows_then_names) {
  const Job job = job_of(lift("", straight));
  const std::vector results{shown_by("d", Severity::nothing_breaks, Shown::By::nothing),
                            shown_by("c", Severity::hurts, Shown::By::gauge),
                            shown_by("b", Severity::hurts, Shown::By::nothing),
                            shown_by("a", Severity::works_badly, Shown::By::gauge),
                            shown_by("aa", Severity::hurts, Shown::By::nothing)};
  std::string order;
  for (const FaultLine& line : fault_lines(job, results)) order += line.name + " ";
  EXPECT_EQ(order, "aa b c a d ");
}

TEST(fault_table, keeps_commas_within_their_field) {
  const Job job = job_of(lift("", straight));
  const std::vector results{shown_by("a, b", Severity::hurts, Shown::By::gauge)};
  std::ostringstream out;
  write_fault_csv(out, fault_lines(job, results));
  EXPECT_NE(
      out.str().find("\n\"a, b\",,30.0 degC … 20.0 degC,\"promise: found, so to say\",can hurt someone,"),
      std::string::npos)
      << out.str();
}

}  // namespace
}  // namespace poise::study
