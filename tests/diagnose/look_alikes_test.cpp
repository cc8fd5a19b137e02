// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Faults that look alike and the measurement that parts them, after the tables of the trade: the tool has to
// come to it by reckoning. Each machine is read as the trouble shows first; then the advised measurement is
// made on the faulty machine, up to three times, until one suspect is left.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>

#include "diagnose/next.hpp"
#include "look_alike_jobs.hpp"
#include "study/fault_run.hpp"
#include "study/load_on_a_shut_jack.hpp"
#include "support/blind_trials.hpp"

namespace poise::diagnose {
namespace {

using namespace look_alike_jobs;

/// One row of the table.
struct LookAlikes {
  std::string name, job;
  std::vector<std::string> suspects;
  std::string shows;  ///< `G1 at the end of "press"`: how the trouble is noticed
  std::vector<std::string>
      parts_them;  ///< places of the measurement that the trade names; one of them is advised
  double t = 0.7;  ///< size of the faults
  std::vector<std::string> stay_together{};  ///< suspects that nothing in the list parts
};

void PrintTo(const LookAlikes& row, std::ostream* out) { *out << row.name; }

Job job_of(const std::string& text) {
  auto read = read_job(text, "job.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  return std::get<Job>(std::move(read));
}

std::string example(const std::string& name) {
  std::ifstream in(POISE_SOURCE_DIR "/jobs/" + name + ".toml", std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// The work of an atlas that knows these suspects only.
AtlasWork work_of(const LookAlikes& row) {
  auto prepared = prepare_atlas(job_of(row.job), [] { return true; });
  if (const auto* why = std::get_if<std::string>(&prepared)) throw std::runtime_error(*why);
  auto work = std::get<AtlasWork>(std::move(prepared));
  std::string all;
  for (const study::FaultPlace& place : work.suspects) all += "\n" + place.name;
  for (const std::string& name : row.suspects) {
    if (std::ranges::find(work.suspects, name, &study::FaultPlace::name) == work.suspects.end())
      throw std::runtime_error("no suspect " + name + " among" + all);
  }
  std::erase_if(work.suspects, [&](const study::FaultPlace& place) {
    return std::ranges::find(row.suspects, place.name) == row.suspects.end();
  });
  return work;
}

std::size_t watch_of(const AtlasWork& work, const std::string& name) {
  for (std::size_t w = 0; w < work.watches.size(); ++w) {
    if (name_of(work.watches[w], work.job) == name) return w;
  }
  throw std::runtime_error("nothing to read: " + name);
}

Reading read(const AtlasWork& work, std::size_t watch, const std::vector<double>& shows) {
  Reading reading{.watch = watch, .accuracy = work.watches[watch].accuracy};
  if (!std::isnan(shows[watch])) reading.value = shows[watch];
  return reading;
}

constexpr double too_slight = 0.3;

class LookAlikesOfTheTrade : public testing::TestWithParam<LookAlikes> {};

TEST_P(LookAlikesOfTheTrade, are_parted_by_the_measurement_that_the_trade_names) {
  const LookAlikes& row = GetParam();
  const AtlasWork work = work_of(row);
  const auto atlas = run_atlas(work, [](double) { return true; });
  ASSERT_TRUE(atlas);
  const Machine machine = unknown_machine(*atlas);
  bool named = false;
  for (std::size_t truth = 0; truth < work.suspects.size(); ++truth) {
    const std::vector<double> shows = blind_trials::shows(work, {truth, row.t, 0}, 1);
    Readings readings;
    readings.list.push_back(read(work, watch_of(work, row.shows), shows));
    std::string course = row.name + ": " + work.suspects[truth].name;
    for (int measured = 0; measured < 3; ++measured) {
      const Belief belief(*atlas, machine, readings);
      const auto groups = belief.groups();
      const auto next = next_measurements(belief);
      course += fmt::format("\n  {} suspects in the first group", groups.front().suspects.size());
      if (next.empty()) break;
      for (const Next& each : next) {
        course +=
            fmt::format("\n    {} ({:.2f} bits)", name_of(work.watches[each.watch], work.job), each.tells);
        if (measured == 0)
          named |= std::ranges::find(row.parts_them, work.watches[each.watch].at) != row.parts_them.end();
      }
      readings.list.push_back(read(work, next.front().watch, shows));
    }
    const Belief belief(*atlas, machine, readings);
    const auto groups = belief.groups();
    const auto name_of_suspect = [&](const Suspect& suspect) {
      return suspect.course == Suspect::sound ? "nothing wrong" : work.suspects[suspect.course].name;
    };
    bool found = false;
    for (const Suspect& suspect : groups.front().suspects) {
      const std::string name = name_of_suspect(suspect);
      course += fmt::format("\n  left: {} {:.2f}", name, suspect.t);
      found |= suspect.course == truth;
      // What is too slight to be seen can never be excluded.
      if (suspect.course == truth || suspect.t <= too_slight) continue;
      EXPECT_NE(std::ranges::find(row.stay_together, name), row.stay_together.end()) << name << " is left\n"
                                                                                     << course;
    }
    EXPECT_TRUE(found) << course;
    if (std::getenv("LOOK")) fmt::print("{}\n", course);
  }
  EXPECT_TRUE(named) << row.name << ": none of " << fmt::format("{}", fmt::join(row.parts_them, ", "))
                     << " advised";
}

const std::string plain_line = R"(
[[lines]]
from = "V2.A"
to = "C1.A"
)";

const std::string held = R"(
[parts.V3]
kind = "pilot_operated_check"
ratio = 4
rated_flow = "20 L/min"
rated_pressure = "350 bar"
[[lines]]
from = "V2.A"
to = "V3.A"
[[lines]]
from = "V3.B"
to = "C1.A"
)";

const std::string fed = R"(
[parts.N1]
kind = "needle"
bore = "2 mm"
turns = "3 turns"
rated_pressure = "350 bar"
[[lines]]
from = "V2.A"
to = "N1.A"
[[lines]]
from = "N1.B"
to = "C1.A"
tag = "L1"
tube = { bore = "6 mm", length = "4 m" }
)";

const std::string hosed = R"(
[[lines]]
from = "V2.A"
to = "C1.A"
tag = "H1"
hose = { bore = "10 mm", length = "6 m" }
)";

const std::string long_way_back = R"(
[parts.F1]
kind = "filter"
rated_flow = "20 L/min"
[parts.Q1]
kind = "quick_coupling"
rated_flow = "20 L/min"
[[lines]]
from = "V2.T"
to = "Q1.A"
[[lines]]
from = "Q1.B"
to = "F1.A"
[[lines]]
from = "F1.B"
to = "T1.T"
tag = "L9"
tube = { bore = "12 mm", length = "2 m" }
)";

const std::string hanging = R"(
[parts.M1]
kind = "mass"
mass = "1.5 t"
slope = "90 deg"
[parts.V3]
kind = "counterbalance"
setting = "150 bar"
ratio = 3
rated_flow = "20 L/min"
[parts.C1]
kind = "double_acting_cylinder"
bore = "50 mm"
rod = "28 mm"
stroke = "300 mm"
rated_pressure = "250 bar"
[[lines]]
from = "V2.A"
to = "V3.B"
[[lines]]
from = "V3.A"
to = "C1.A"
[[lines]]
from = "V2.B"
to = ["C1.B", "V3.X"]
[[lines]]
from = "C1.rod"
to = "M1.rod"
)";

const std::string lift_and_hold = R"(
[[steps]]
name = "up"
set = { P1 = "on", V2 = "a" }
lasts = "5 s"
[[steps]]
name = "hold"
set = { V2 = "centre", P1 = "off" }
lasts = "60 s"
)";

const std::string charged = R"(
[parts.V3]
kind = "check"
rated_flow = "20 L/min"
[parts.A1]
kind = "accumulator"
gas_volume = "0.7 L"
precharge = "80 bar"
[parts.G2]
kind = "gauge"
range = "250 bar"
[[lines]]
from = "V2.A"
to = "V3.A"
[[lines]]
from = "V3.B"
to = ["C1.A", "A1.A", "G2.M"]
)";

const std::string press_and_hold = R"(
[[steps]]
name = "press"
set = { P1 = "on", V2 = "a" }
lasts = "10 s"
[[steps]]
name = "hold"
set = { V2 = "b", P1 = "off" }
lasts = "120 s"
)";

const std::string sprung = R"(
[parts.C1]
kind = "single_acting_cylinder"
bore = "40 mm"
stroke = "60 mm"
spring_preload = "300 N"
spring_rate = "2 N/mm"
friction = "80 N"
[[lines]]
from = "V2.A"
to = "C1.A"
[[lines]]
from = "V2.B"
to = "T1.T"
)";

const std::string out_and_back = R"(
[[steps]]
name = "out"
set = { P1 = "on", V2 = "a" }
lasts = "3 s"
[[steps]]
name = "home"
set = { V2 = "b" }
lasts = "3 s"
)";

/// The press with a two-stage pump.
std::string two_stage() {
  std::string job = machine(press(plain_line), press_and_back);
  const std::string pump = "kind = \"pump\"\ndisplacement = \"4 cm3/rev\"\nspeed = \"1450 rpm\"\n";
  const std::string stiff = "rate = \"40 kN/mm\"", soft = "rate = \"1 kN/mm\"";
  job.replace(job.find(stiff), stiff.size(), soft);
  const auto at = job.find(pump);
  return job.replace(at, pump.size(),
                     "kind = \"two_stage_pump\"\nlow_pressure_flow = \"6 L/min\"\n"
                     "high_pressure_flow = \"1 L/min\"\nunloading_pressure = \"50 bar\"\n");
}

std::vector<LookAlikes> rows() {
  const std::string plain = machine(press(plain_line), press_and_back);
  return {
      {"no pressure",
       plain,
       {"P1 pump is worn", "V1 dirt on the seat", "V2 spool worn", "C1 piston seal leaks"},
       "G1 at the end of \"press\"",
       {"V1.T.flow", "V2.T.flow"},
       1.0,
       {"V2 spool worn", "C1 piston seal leaks"}},
      {"gauge or relief valve",
       plain,
       {"V1 spring relaxed", "G1 reads too little"},
       "G1 at the end of \"press\"",
       {"G1.M"}},
      {"slow motor or worn pump",
       plain,
       {"P1 speed is low", "P1 pump is worn"},
       "C1.time in \"press\"",
       {"C1.time", "G1", "G1.M", "V1.T.flow"}},
      {"sinks",
       machine(press(held, ", \"V3.X\""), press_hold_back),
       {"V3 seat leaks", "C1 piston seal leaks"},
       "C1.position at the end of \"hold\"",
       {"V3.A", "C1.A", "C1.B"}},
      {"slow",
       machine(press(fed), press_and_back),
       {"oil too cold", "N1 needle is clogged", "L1 kinked or flattened"},
       "C1.time in \"press\"",
       {"oil", "N1.B", "C1.A", "N1.A"},
       1.0},
      {"spongy",
       machine(press(hosed), press_and_back),
       {"H1 air left in it", "H1 soft or wrong hose"},
       "G1 as C1 starts in \"press\"",
       {"G1"}},
      {"tank line",
       machine(press(plain_line), press_and_back, long_way_back),
       {"L9 blocked on its way to T1", "F1 clogged", "Q1 half made"},
       "C1.time in \"back\"",
       {"Q1.A", "Q1.B", "F1.A", "F1.B", "V2.T"}},
      {"sinks on a counterbalance valve",
       machine(hanging, lift_and_hold),
       {"V3 dirt on the seat", "V3 spring relaxed", "C1 piston seal leaks"},
       "C1.position at the end of \"hold\"",
       {"C1.B", "V2.B", "V2.A"}},
      {"pressure drops after stop",
       machine(press(charged), press_and_hold),
       {"A1 gas is lost", "V3 seat leaks"},
       "G2 at the end of \"hold\"",
       {"G2", "G2.M", "C1.time"}},
      {"stays out",
       machine(sprung, out_and_back, long_way_back),
       {"C1 return spring weak", "L9 blocked on its way to T1"},
       "C1.position at the end of \"home\"",
       {"C1.A", "V2.A", "V2.T"},
       1.0},
      {"two stages",
       two_stage(),
       {"P1 low stage does not join", "P1 unloads early", "P1 pump is worn"},
       "C1.time in \"press\"",
       {"G1", "G1.M", "C1.A", "V1.T.flow", "C1.time"},
       1.0},
      {"second starts early",
       example("drilling-stand"),
       {"V2 spring relaxed", "oil too cold"},
       "K1.time in \"clamp\"",
       {"G1", "oil"},
       1.0},
  };
}

/// The sanitized build takes its time over each run.
std::vector<LookAlikes> rows_of_this_build() {
  std::vector<LookAlikes> all = rows();
  all.resize(study::fewer(static_cast<long>(all.size())) + 1 < static_cast<long>(all.size()) ? 2
                                                                                             : all.size());
  return all;
}

INSTANTIATE_TEST_SUITE_P(Rows, LookAlikesOfTheTrade, testing::ValuesIn(rows_of_this_build()),
                         [](const auto& each) {
                           std::string name = each.param.name;
                           std::ranges::replace(name, ' ', '_');
                           return name;
                         });

}  // namespace
}  // namespace poise::diagnose
