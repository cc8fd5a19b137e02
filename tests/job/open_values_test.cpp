// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>

#include "job/job.hpp"

namespace poise {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr std::string_view needle_bench = R"(title = "Needle bench"
[parts.T1]
kind = "reservoir"
usable_oil = "8 L"
[parts.P1]
kind = "pump"
flow = "find"   # from the series
rated_pressure = "250 bar"
[parts.V1]
kind = "relief"
setting = " find "
rated_flow = "10 L/min"
[parts.N1]
kind = "needle"
bore = "2 mm"
turns = "2 turns"
[[lines]]
from = "T1.T"
to = ["P1.S", "V1.T", "N1.B"]
[[lines]]
from = "P1.P"
to = ["V1.P"]
[[lines]]
from = "V1.P"
to = "N1.A"
hose = { bore = "find", length = "1 m" }
[[steps]]
name = "run"
set = { P1 = "on", "N1.turns" = "find" }
lasts = "1 s"
)";

TEST(open_values, each_is_known_with_its_part_and_the_way_to_its_word) {
  const auto read = read_job_to_find(needle_bench, "bench.toml");
  ASSERT_TRUE(std::holds_alternative<Job>(read)) << std::get<Complaints>(read).text(needle_bench);
  const Job& job = std::get<Job>(read);
  ASSERT_EQ(job.sought.size(), 4U);
  const auto name = [&](const Sought& open) {
    const PlannedPart& part = job.plan.parts[open.part];
    return part.tag + "." + std::string(part.kind->parameters[open.parameter].name);
  };
  EXPECT_EQ(name(job.sought[0]), "P1.flow");
  EXPECT_EQ(name(job.sought[1]), "V1.setting");
  EXPECT_EQ(name(job.sought[2]), "V1.P-N1.A.bore");
  EXPECT_EQ(name(job.sought[3]), "N1.turns");
  EXPECT_EQ(job.sought[3].of, Sought::Of::command);
  EXPECT_EQ(job.sought[3].step, 0);
  EXPECT_EQ(job.sought[3].command, 1);
  EXPECT_EQ(job.sought[0].way, (job::Way{"parts", "P1", "flow"}));
  EXPECT_EQ(job.sought[2].way, (job::Way{"lines", std::size_t{2}, "hose", "bore"}));
  EXPECT_EQ(job.sought[3].way, (job::Way{"steps", std::size_t{0}, "set", "N1.turns"}));
  EXPECT_EQ(job.sought[0].place.line, 7);
}

TEST(open_values, a_job_that_is_to_be_run_may_have_none) {
  const auto read = read_job(needle_bench, "bench.toml");
  ASSERT_TRUE(std::holds_alternative<Complaints>(read));
  const auto& list = std::get<Complaints>(read).list;
  ASSERT_EQ(list.size(), 4U);
  EXPECT_EQ(list[0].sentence, "flow of P1 is left open; \"poise find\" works it out and writes it here");
  EXPECT_EQ(list[0].place.line, 7);
}

TEST(open_values, words_and_curves_that_decide_on_ports_cannot_be_found) {
  const auto refused = [](std::string_view from, std::string_view to) {
    std::string text(needle_bench);
    text.replace(text.find(from), from.size(), to);
    const auto read = read_job_to_find(text, "bench.toml");
    return std::holds_alternative<Complaints>(read) ? std::get<Complaints>(read).text(text) : std::string();
  };
  EXPECT_THAT(refused("turns = \"2 turns\"", "flow_curve = \"find\""), HasSubstr("flow_curve of N1"));
  EXPECT_THAT(refused("kind = \"needle\"", "kind = \"find\""), HasSubstr("no kind of part \"find\""));
  EXPECT_THAT(refused("P1 = \"on\"", "P1 = \"find\""), HasSubstr("running of P1"));
  EXPECT_THAT(refused("lasts = \"1 s\"", "lasts = \"find\""), HasSubstr("lasts"));
}

}  // namespace
}  // namespace poise
