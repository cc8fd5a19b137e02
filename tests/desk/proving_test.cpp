// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "desk/open_folder.hpp"
#include "judge/json.hpp"
#include "solve/run.hpp"

namespace poise::desk {
namespace {

using testing::HasSubstr;

const std::string stand = "stand.toml";

using Query = std::map<std::string, std::string>;
const Query as_the_job_says{};

/// The drilling stand lying open, run once.
struct Proven {
  explicit Proven(const Query& query = as_the_job_says, const Json& more = Json::object()) {
    folder.write(stand, text_of_job("drilling-stand.toml"));
    Json body = more;
    body["tab"] = "a";
    answer = folder.good(folder.post({"job", stand, "prove"}, body, query));
  }
  Reply drawing(std::size_t frame) {
    return folder.get({"job", stand, "drawing"},
                      {{"run", std::to_string(answer["run"].get<long>())}, {"frame", std::to_string(frame)}});
  }
  const Json& panel(const std::string& quantity) const {
    return *std::ranges::find_if(answer["panels"], [&](const Json& p) { return p["quantity"] == quantity; });
  }
  OpenFolder folder;
  Json answer;
};

const Json& curve(const Json& panel, const std::string& name) {
  return *std::ranges::find_if(panel["curves"], [&](const Json& c) { return c["name"] == name; });
}

double highest(const Json& values) {
  double high = -INFINITY;
  for (const Json& value : values) high = std::max(high, value.get<double>());
  return high;
}

TEST(proving, a_held_job_says_so_in_one_line_with_the_least_room) {
  const Proven proven;
  EXPECT_EQ(proven.answer["outcome"], "held");
  EXPECT_EQ(proven.answer["verdict"]["answer"], "held");
  // Worst first: the first finding with a margin is the one with the least room.
  EXPECT_THAT(proven.answer["line"].get<std::string>(),
              HasSubstr(proven.answer["verdict"]["findings"][0]["name"].get<std::string>()));
}

TEST(proving, the_verdict_is_that_of_the_command_whatever_is_charted_beside_it) {
  const Proven usual, more(as_the_job_says, {{"signals", {"V3.P.flow", "V1.P.flow", "K1.speed"}}});
  const Job job = std::get<Job>(read_job(text_of_job("drilling-stand.toml"), stand));
  const Trace trace = solve::run(build(job.plan), job.steps, signals_needed(job), {.controls = job.controls});
  const Json commands = to_json(judge(job, trace), job);
  EXPECT_EQ(usual.answer["verdict"]["findings"], more.answer["verdict"]["findings"]);
  ASSERT_EQ(usual.answer["verdict"]["findings"].size(), commands["findings"].size());
  for (std::size_t i = 0; i < commands["findings"].size(); ++i) {
    const Json& shown = usual.answer["verdict"]["findings"][i];
    EXPECT_EQ(shown["name"], commands["findings"][i]["name"]);
    EXPECT_EQ(shown["found"], commands["findings"][i]["found"]);
  }
}

TEST(proving, a_trial_is_run_without_touching_the_file) {
  Proven proven;
  const std::string before = proven.folder.on_disk(stand);
  const Json trial = {{{"do", "set"}, {"at", {"parts", "V2", "setting"}}, {"value", "40 bar"}}};
  const Json answer =
      proven.folder.good(proven.folder.post({"job", stand, "prove"}, {{"tab", "a"}, {"trial", trial}}));
  EXPECT_EQ(answer["outcome"], "broken");
  EXPECT_THAT(answer["line"].get<std::string>(), HasSubstr("seated before any clamp moves"));
  EXPECT_EQ(proven.folder.on_disk(stand), before);
  EXPECT_EQ(answer["revision"], proven.answer["revision"]);
}

TEST(proving, a_value_that_was_tried_is_saved_without_another_run) {
  Proven proven;
  const Json edit = {{"do", "set"}, {"at", {"parts", "V2", "setting"}}, {"value", "118 bar"}};
  const Json tried = proven.folder.good(
      proven.folder.post({"job", stand, "prove"}, {{"tab", "a"}, {"trial", Json::array({edit})}}));
  const Json page = proven.folder.good(proven.folder.edit(stand, tried["revision"], Json::array({edit})));
  const Json saved = proven.folder.good(proven.folder.post({"job", stand, "prove"}, {{"tab", "a"}}));
  EXPECT_EQ(saved["run"], tried["run"]);
  EXPECT_EQ(saved["revision"], page["revision"]);
  EXPECT_NE(tried["run"], proven.answer["run"]);
}

TEST(proving, a_job_with_complaints_is_not_run_and_says_how_many_there_are) {
  OpenFolder folder;
  folder.write(stand,
               "title = \"x\"\n[parts.V1]\nkind = \"relief\"\nsetting = \"210\"\nrated_flow = \"12\"\n");
  const Json answer = folder.good(folder.post({"job", stand, "prove"}, {{"tab", "a"}}));
  EXPECT_EQ(answer["outcome"], "cannot run");
  EXPECT_TRUE(answer["verdict"].is_null());
  EXPECT_THAT(answer["line"].get<std::string>(),
              HasSubstr(std::to_string(answer["complaints"].size()) + " things"));
}

TEST(proving, curves_keep_the_peak_that_the_verdict_names) {
  const Proven proven;
  const auto& findings = proven.answer["verdict"]["findings"];
  const auto pump =
      std::ranges::find_if(findings, [](const Json& f) { return f["name"] == "pump line below 225 bar"; });
  ASSERT_NE(pump, findings.end());
  const double room = (*pump)["margin"]["value"];
  // Promised: never above 225 bar; five figures on the way to the page.
  EXPECT_NEAR(highest(curve(proven.panel("pressure"), "P1.P.pressure")["values"]), 225.0 - room, 0.01);
}

TEST(proving, every_curve_of_a_panel_has_one_value_for_each_of_its_moments_and_these_never_fall) {
  const Proven proven;
  ASSERT_GE(proven.answer["panels"].size(), 3u);
  for (const Json& panel : proven.answer["panels"]) {
    const auto times = panel["time"].get<std::vector<double>>();
    EXPECT_TRUE(std::ranges::is_sorted(times));
    EXPECT_EQ(times.front(), 0.0);
    EXPECT_NEAR(times.back(), proven.answer["duration"].get<double>(), 1e-3);
    for (const Json& each : panel["curves"]) EXPECT_EQ(each["values"].size(), times.size()) << each["name"];
  }
}

TEST(proving, more_signals_are_charted_where_they_are_asked_for) {
  const Proven usual, more(as_the_job_says, {{"signals", {"V3.P.flow", "no.such.signal"}}});
  const auto has = [](const Json& panel) {
    return std::ranges::any_of(panel["curves"], [](const Json& c) { return c["name"] == "V3.P.flow"; });
  };
  EXPECT_FALSE(has(usual.panel("flow")));
  EXPECT_TRUE(has(more.panel("flow")));
}

TEST(proving, the_same_run_reads_in_either_world_of_units) {
  const Proven metric, us(Query{{"units", "us"}});
  EXPECT_EQ(us.panel("pressure")["unit"], "psi");
  const double bar = highest(curve(metric.panel("pressure"), "P1.P.pressure")["values"]);
  const double psi = highest(curve(us.panel("pressure"), "P1.P.pressure")["values"]);
  EXPECT_NEAR(psi, bar * 14.5038, 1e-3 * psi);  // 1 bar = 14.5038 psi (NIST SP 811, appendix B)
}

TEST(proving, each_frame_is_drawn_with_its_own_pressures_and_every_part_by_its_tag) {
  Proven proven;
  const Reply rest = proven.drawing(0), clamped = proven.drawing(60);
  EXPECT_EQ(rest.type, "image/svg+xml");
  EXPECT_NE(rest.body, clamped.body);
  const Json page = proven.folder.page(stand);
  for (const Json& part : page["parts"])
    EXPECT_THAT(clamped.body, HasSubstr("data-name=\"" + part["tag"].get<std::string>() + "\""));
  EXPECT_EQ(proven.drawing(1000000).status, 404);
}

TEST(proving, a_half_built_circuit_is_drawn_and_its_open_ports_are_named) {
  OpenFolder folder;
  folder.write(stand,
               "[parts.T1]\nkind = \"reservoir\"\n[parts.P1]\nkind = \"pump\"\nflow = \"4 L/min\"\n"
               "[[lines]]\nfrom = \"T1.T\"\nto = \"P1.S\"\n");
  EXPECT_EQ(folder.get({"job", stand, "drawing"}).status, 200);
  const Json page = folder.page(stand);
  ASSERT_EQ(page["open"].size(), 1u);
  EXPECT_EQ(page["open"][0]["port"], "P1.P");
  folder.write(stand, "title = \"nothing yet\"\n");
  EXPECT_EQ(folder.get({"job", stand, "drawing"}).status, 404);
}

TEST(proving, a_place_on_a_line_tells_the_ports_on_either_side) {
  OpenFolder folder;
  folder.write(stand, text_of_job("drilling-stand.toml"));
  const std::string line = "P1.P V3.P V1.P";
  // Wherever the line is cut, both sides together are all of its ports.
  const Json sides =
      folder.good(folder.get({"job", stand, "sides"}, {{"line", line}, {"x", "1"}, {"y", "1"}}));
  EXPECT_EQ(sides["here"].size() + sides["there"].size(), 3u);
  EXPECT_FALSE(sides["here"].empty());
  EXPECT_FALSE(sides["there"].empty());
  EXPECT_EQ(folder.get({"job", stand, "sides"}, {{"line", "P9.P"}, {"x", "1"}, {"y", "1"}}).status, 404);
  EXPECT_EQ(folder.get({"job", stand, "sides"}, {{"line", line}, {"x", "one"}, {"y", "1"}}).status, 400);
}

TEST(proving, a_part_shows_its_curve_and_what_it_did_at_the_moment) {
  Proven proven;
  const Json part = proven.folder.good(proven.folder.get(
      {"job", stand, "part"},
      {{"tag", "V3"}, {"run", std::to_string(proven.answer["run"].get<long>())}, {"frame", "60"}}));
  const std::string curve = part["curve"];
  EXPECT_THAT(curve, HasSubstr("<svg"));
  // The stand has four steps; each is marked once, at its end.
  EXPECT_NE(curve.find(">drill: "), std::string::npos);
  EXPECT_EQ(curve.find(">drill: "), curve.rfind(">drill: "));
  const auto pressure =
      std::ranges::find_if(part["now"], [](const Json& n) { return n["name"] == "V3.P.pressure"; });
  ASSERT_NE(pressure, part["now"].end());
  EXPECT_EQ((*pressure)["text"], "210 bar");  // the relief holds what it is set to, 3 s into the clamping
  const std::string run = std::to_string(proven.answer["run"].get<long>());
  EXPECT_EQ(proven.folder.get({"job", stand, "part"}, {{"tag", "X9"}, {"run", run}}).status, 404);
}

TEST(proving, a_part_of_a_job_that_was_not_run_has_no_curve_yet) {
  OpenFolder folder;
  folder.write(stand, text_of_job("drilling-stand.toml"));
  const Json part = folder.good(folder.get({"job", stand, "part"}, {{"tag", "V3"}}));
  EXPECT_TRUE(part["curve"].is_null());
  EXPECT_TRUE(part["now"].empty());
}

TEST(proving, a_work_that_is_told_to_stop_is_told_only_once_why) {
  Work work;
  EXPECT_TRUE(work.at(0.5));
  EXPECT_DOUBLE_EQ(work.progress().share, 0.5);
  work.stop(Work::Why::overtaken);
  work.stop(Work::Why::stopped);
  EXPECT_FALSE(work.at(0.6));
  EXPECT_EQ(work.why(), Work::Why::overtaken);
}

TEST(proving, a_later_wish_of_a_tab_overtakes_the_earlier_and_leaves_other_tabs_alone) {
  Works works;
  const auto first = works.begin("a"), other = works.begin("b"), second = works.begin("a");
  EXPECT_EQ(first->why(), Work::Why::overtaken);
  EXPECT_EQ(other->why(), Work::Why::none);
  works.end("a", first);  // late: it must not take the second one's place away
  EXPECT_TRUE(works.progress("a").has_value());
  works.stop("a");
  EXPECT_EQ(second->why(), Work::Why::stopped);
  works.end("a", second);
  EXPECT_FALSE(works.progress("a").has_value());
}

}  // namespace
}  // namespace poise::desk
