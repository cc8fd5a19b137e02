// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Jobs for which nothing can work: the promises that cannot hold together, and by how much each would have to
// give.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "parts/series.hpp"
#include "search/known_formulas.hpp"
#include "search/open_jobs.hpp"

namespace poise {
namespace {

using open_jobs::Given;
using namespace formulas;

/// One promise of the smallest set, and how far it is from holding where all others of the set hold.
struct Short {
  const char* promise;
  std::function<double(const Given&)> by;
};
struct Impossible {
  const char* job;
  std::vector<Short> sides;
};
void PrintTo(const Impossible& impossible, std::ostream* out) { *out << impossible.job; }

// F on an area A needs F/A, and p presses with p·A.
double needed(const Given& g) { return g.limit("the bush is driven home") / g.area("C1"); }
double missing_force(const Given& g) {
  return g.limit("the bush is driven home") - g.limit("the seat is spared") * g.area("C1");
}
double missing_pressure(const Given& g) { return needed(g) - g.limit("the seat is spared"); }

// A way L in a time T needs v = L/T.
double way_down(const Given& g) {
  return g("C1", "start_position") - g.reached("down in time").condition.threshold;
}
double missing_time(const Given& g) {
  return way_down(g) / -g.limit("not too fast") - g.reached("down in time").within;
}
double missing_speed(const Given& g) {
  return way_down(g) / g.reached("down in time").within - -g.limit("not too fast");
}

// Both clamps have one pressure.
double missing_hold(const Given& g) {
  return g.limit("the frame is held") - g.limit("the cover is not bent") / g.area("C2") * g.area("C1");
}
double missing_care(const Given& g) {
  return g.limit("the frame is held") / g.area("C1") * g.area("C2") - g.limit("the cover is not bent");
}

// p_f − p_m − D is missing, wherever it is looked for.
double apart(const Given& g) {
  return needed(g) - g.limit("the lever is not crushed") / g.area("C2") -
         g.limit("the seal bears the difference");
}

// One stroke V at a time, of the preferred numbers: the largest that is light, and the smallest that is
// quick.
double lift_time(const Given& g, double volume) {
  const double rate = g.job().steps[1].commands.front().target;
  const double arrives = volume * rate * pressed(g("F1", "force") / g.area("C1"));
  return g.area("C1") * g.reached("up in time").condition.threshold / arrives;
}
double handle_force(const Given& g, double volume) {
  return g("F1", "force") / g.area("C1") * volume / (g("P1", "handle_travel") * g("P1", "handle_efficiency"));
}
std::vector<double> stroke_volumes() {
  return sizes(Series::general, false, 0.1 * si::cm3, 100 * si::cm3, si::cm3);
}
double missing_quickness(const Given& g) {
  auto volumes = stroke_volumes();
  std::ranges::reverse(volumes);
  const double light =
      smallest(volumes, [&](double v) { return handle_force(g, v) <= g.limit("light at the handle"); });
  return lift_time(g, light) - g.reached("up in time").within;
}
double missing_lightness(const Given& g) {
  const double quick =
      smallest(stroke_volumes(), [&](double v) { return lift_time(g, v) <= g.reached("up in time").within; });
  return handle_force(g, quick) - g.limit("light at the handle");
}

// A bore of ISO 3320: the smallest that is strong, and the largest that is quick.
double bore_time(const Given& g, double bore) {
  return circle(bore) * g.reached("it meets the pin in time").condition.threshold / g("P1", "flow");
}
double bore_force(const Given& g, double bore) { return g("V1", "setting") * circle(bore); }
std::vector<double> bores() { return sizes(Series::bores, false, 1e-3, 1.0, 1.0); }
double missing_way(const Given& g) {
  const double strong = smallest(
      bores(), [&](double bore) { return bore_force(g, bore) >= g.limit("the pin is driven home"); });
  return bore_time(g, strong) - g.reached("it meets the pin in time").within;
}
double missing_strength(const Given& g) {
  auto falling = bores();
  std::ranges::reverse(falling);
  const double quick = smallest(falling, [&](double bore) {
    return bore_time(g, bore) <= g.reached("it meets the pin in time").within;
  });
  return g.limit("the pin is driven home") - bore_force(g, quick);
}

const Impossible impossible[] = {
    {"force-against-pressure",
     {{"the bush is driven home", missing_force}, {"the seat is spared", missing_pressure}}},
    {"us-force-against-pressure",
     {{"the bush is driven home", missing_force}, {"the seat is spared", missing_pressure}}},
    {"force-against-rating",
     {{"the bush is driven home",
       [](const Given& g) {
         return g.limit("the bush is driven home") - g("P1", "rated_pressure") * g.area("C1");
       }},
      {"no part above its rated pressure",
       [](const Given& g) { return needed(g) - g("P1", "rated_pressure"); }}}},
    {"slow-and-soon", {{"not too fast", missing_speed}, {"down in time", missing_time}}},
    {"beyond-the-stroke",
     {{"pushed off the table",
       [](const Given& g) {
         return g.reached("pushed off the table").condition.threshold - g("C1", "stroke");
       }}}},
    {"two-clamps-one-pressure",
     {{"the frame is held", missing_hold}, {"the cover is not bent", missing_care}}},
    {"three-of-a-seal",
     {{"the bush is driven home", [](const Given& g) { return apart(g) * g.area("C1"); }},
      {"the lever is not crushed", [](const Given& g) { return apart(g) * g.area("C2"); }},
      {"the seal bears the difference", apart}}},
    {"light-and-quick-by-hand",
     {{"up in time", missing_quickness}, {"light at the handle", missing_lightness}}},
    {"clamp-against-line",
     {{"clamped while it is pushed",
       [](const Given& g) {
         return g.limit("clamped while it is pushed") -
                g.limit("line spared while it is pushed") * g.area("C1");
       }},
      {"line spared while it is pushed",
       [](const Given& g) {
         return g.limit("clamped while it is pushed") / g.area("C1") -
                g.limit("line spared while it is pushed");
       }}}},
    {"load-alone-too-much",
     {{"the pump's line is spared",
       [](const Given& g) {
         return g("F1", "force") / g.area("C1") - g.limit("the pump's line is spared");
       }}}},
    {"idle-and-supplied",
     {{"the pump idles", [](const Given& g) { return g("V1", "setting") - g.limit("the pump idles"); }},
      {"the line is supplied", nullptr}}},
    {"strong-and-quick",
     {{"the pin is driven home", missing_strength}, {"it meets the pin in time", missing_way}}},
    {"step-without-end",
     {{"every step comes to its end",
       [](const Given& g) { return g.job().steps[0].until[0].threshold - g.limit("the line is spared"); }},
      {"the line is spared",
       [](const Given& g) { return g.job().steps[0].until[0].threshold - g.limit("the line is spared"); }}}},
};

std::vector<std::string> names(const search::Conflict& conflict) {
  std::vector<std::string> all;
  for (const search::Side& side : conflict.sides) all.push_back(side.name);
  return all;
}

class impossible_job : public testing::TestWithParam<Impossible> {};

TEST_P(impossible_job, names_the_smallest_set_that_cannot_hold_and_by_how_much) {
  const std::string text = open_jobs::text_of(std::string("impossible/") + GetParam().job);
  const Job job = open_jobs::job_of(text);
  const Given given(job);
  const search::Found found = search::find(text, job, {});
  SCOPED_TRACE(open_jobs::told(found));
  EXPECT_FALSE(found.holds());
  ASSERT_EQ(found.conflicts.size(), 1U);
  std::vector<std::string> expected;
  for (const Short& side : GetParam().sides) expected.emplace_back(side.promise);
  ASSERT_THAT(names(found.conflicts.front()), testing::UnorderedElementsAreArray(expected));
  for (const Short& side : GetParam().sides) {
    const search::Side& said =
        *std::ranges::find(found.conflicts.front().sides, side.promise, &search::Side::name);
    ASSERT_TRUE(said.short_by) << side.promise;
    if (!side.by) continue;
    const double by = side.by(given);
    EXPECT_NEAR(*said.short_by, by, 0.05 * by) << side.promise;
  }
}

INSTANTIATE_TEST_SUITE_P(jobs, impossible_job, testing::ValuesIn(impossible), [](const auto& entry) {
  std::string name = entry.param.job;
  std::ranges::replace(name, '-', '_');
  return name;
});

}  // namespace
}  // namespace poise
