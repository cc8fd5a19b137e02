// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper for the first start: what is done in which order, and what the gauges read then.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "draw/words.hpp"
#include "judge/wording.hpp"
#include "papers/cycle.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/settings.hpp"

namespace poise::papers {
namespace {

/// What this circuit has, as far as starting it up is concerned.
struct Has {
  bool pump = false, motor = false, filter = false, load = false;
  explicit Has(const Plan& plan) {
    for (const PlannedPart& part : plan.parts) {
      const std::string_view kind = part.kind->about.kind;
      const bool source = part.kind->about.role == Role::source;
      pump |= source;
      motor |= source && kind != "hand_pump" && kind != "air_driven_pump";
      filter |= kind == "filter";
      load |= kind == "mass" || kind == "rigid_load" || kind == "force";
    }
  }
};

/// The settings of a job as they are made: tags of the parts, each once.
struct Made {
  std::map<Adjusting::Turn, std::vector<std::string>> in_place{};
  std::vector<std::string> on_a_bench{};  ///< relief valves that nothing here brings to their setting
  std::vector<std::string> kept_shut{};   ///< throttles that nothing passes in the cycle

  explicit Made(const Subject& subject) {
    const auto add = [](std::vector<std::string>& tags, const std::string& tag) {
      if (std::ranges::find(tags, tag) == tags.end()) tags.push_back(tag);
    };
    for (const Setting& setting : settings_of(subject.job, subject.trace)) {
      if (!setting.how) continue;
      const std::string& tag = subject.job.plan.parts[setting.part].tag;
      if (is_set_on_a_bench(subject, setting)) {
        add(on_a_bench, tag);
      } else if (setting.how->turn == Adjusting::Turn::flow && !is_passed(subject, setting)) {
        add(kept_shut, tag);
      } else {
        add(in_place[setting.how->turn], tag);
      }
    }
    // A throttle that another step opens is set there.
    const auto& flows = in_place[Adjusting::Turn::flow];
    std::erase_if(kept_shut,
                  [&](const std::string& tag) { return std::ranges::find(flows, tag) != flows.end(); });
  }
};

class Steps {
 public:
  explicit Steps(const Made& made) : made_(made) {}
  void add(std::string_view words) {
    list_ += html::element("li", std::string(html::box) + html::text(words));
  }
  /// With the tags at {}; nothing where there are none.
  void add(const std::vector<std::string>& tags, std::string_view words) {
    if (!tags.empty()) add(fmt::format(fmt::runtime(words), wording::joined(tags, " and ")));
  }
  void set(Adjusting::Turn turn, std::string_view words) {
    const auto tags = made_.in_place.find(turn);
    if (tags != made_.in_place.end()) add(tags->second, words);
  }
  std::string list() const { return html::element("ol", list_); }

 private:
  const Made& made_;
  std::string list_;
};

/// Everything as it stands before oil is let in.
void add_beginning(Steps& steps, const Made& made) {
  using Turn = Adjusting::Turn;
  steps.set(Turn::precharge, "Check the gas of {} without oil pressure, with dry nitrogen only.");
  steps.add(made.on_a_bench,
            "{}: set on a bench and sealed before fitting; never unscrewed or set in place.");
  steps.set(Turn::relief, "Unscrew {} fully, so that the pump finds no pressure.");
  steps.set(Turn::pump, "Bring {} low: the spring nearly let off.");
  steps.set(Turn::reducing, "Bring {} to the lowest setting.");
  steps.set(Turn::load_holding, "Leave {} high, as delivered: it holds.");
  steps.add(made.kept_shut,
            "Keep {} shut: nothing passes there in the cycle, and an open one may let a load down.");
  steps.set(Turn::flow, "Open {} by a quarter of the range, counted from shut.");
}

/// Settings without load; those that take one come after the load has been put on in steps.
void add_settings(Steps& steps, const Has& has) {
  using Turn = Adjusting::Turn;
  steps.set(Turn::relief, "Set {} from open upward, as Settings says.");
  steps.set(Turn::pump, "Set {}, as Settings says.");
  steps.set(Turn::reducing, "Set {} with nothing flowing behind it.");
  steps.set(
      Turn::sequence,
      "Set {}: the second group starts only when the first has its pressure. Then bleed what lies behind.");
  steps.set(Turn::flow, "Set {} so that the motions without load are slower than in Motions and states.");
  steps.set(Turn::contact, "Set {}: contact made and broken at the pressures in Settings.");
  if (has.load)
    steps.add(
        "Load in steps: a quarter, a half, three quarters, all. After each step let it stand and look.");
  steps.set(Turn::load_holding, "Set {} with the load just above its blocks and nobody near.");
  steps.set(Turn::flow, "Set {} by stop-watch under the usual load: times stand in Motions and states.");
}

/// Common practice; outline after a lubrication magazine's articles on commissioning.
std::string steps_of(const Subject& subject) {
  const Has has(subject.job.plan);
  const Made made(subject);
  const units::World& world = subject.job.world;
  Steps steps(made);
  steps.add(
      "Compare the machine with schematic and bill of materials: every part, every port letter, every line. "
      "Fittings tight, transport caps out, rods and clamps free. Loads and workpieces off.");
  steps.add(fmt::format("Fill {} through a filter to the upper mark{}.",
                        draw::oil_of(subject.job.plan.oil, world),
                        has.pump ? ", and the pump's case where it has one" : ""));
  add_beginning(steps, made);
  if (has.motor)
    steps.add(
        "Jog the motor: turning direction as the arrow on the pump. Listen: a pump that sucks air howls.");
  if (has.filter)
    steps.add(
        "Let the oil run round without pressure until it is warm and the filter's indicator stays down.");
  steps.add(fmt::format(
      "Bleed: raise the pressure to no more than {}, move every actuator that gets oil at that to "
      "and fro, let the air out at the highest points. Top the oil up.",
      draw::shown(15 * si::bar, Quantity::pressure, world)));
  steps.add(
      "Move each actuator alone, without load or workpiece, in the order of Motions and states, as far as "
      "the "
      "pressure allows. Nobody within reach.");
  add_settings(steps, has);
  steps.add(
      "Run the whole cycle and enter the readings below. What is out of its place is found before anything "
      "is turned: never raise a relief valve to cure a weakness.");
  steps.add("Let each held position stand for 10 min and note by how much pressure and position fall.");
  steps.add(
      "Try once, with nobody near: power off and emergency stop in the middle of each step. Nothing falls, "
      "opens or "
      "moves by itself.");
  steps.add("Run it cold and warm. Look for leaks with cardboard, never with a hand.");
  steps.add(
      "Lock and seal every adjuster, hang Settings on the wall, sign the readings: they are what the next "
      "fault is measured by.");
  return steps.list();
}

constexpr double too_short = 1.0;  // s, for a stop-watch in a hand; common practice

/// What each gauge is to show at the end of each step, with an empty place for what it does show.
Table readings(const Subject& subject) {
  Table table{"readings",
              {{"step", 2.0},
               {"gauge", 1.2},
               {"at", 2.6},
               {"should read", 1.5, true},
               {"class of the gauge", 1.5, true},
               {"reads", 1.5}},
              {}};
  const Job& job = subject.job;
  for (std::size_t step = 0; step < subject.trace.steps.size(); ++step) {
    const Moment* moment = end_of(step, subject);
    if (!moment) continue;
    for (std::size_t p = 0; p < job.plan.parts.size(); ++p) {
      const PlannedPart& part = job.plan.parts[p];
      if (part.kind->about.kind != "gauge") continue;
      Cell accuracy = measured(part.values["accuracy"] * part.values["range"], Quantity::pressure, job.world);
      accuracy.text = "± " + accuracy.text;
      table.rows.push_back({{subject.trace.steps[step].name},
                            {part.tag},
                            {p < job.drawn.size() ? job.drawn[p].note : ""},
                            seen(moment->parts[p].outputs.front(), Quantity::pressure, job.world),
                            std::move(accuracy),
                            {}});
    }
  }
  return table;
}

/// How long each motion is to take, with an empty place for the stop-watch.
Table times(const Subject& subject) {
  Table table{
      "times", {{"step", 2.0}, {"part", 1.2}, {"way", 2.6}, {"should take", 1.5, true}, {"takes", 1.5}}, {}};
  const units::World& world = subject.job.world;
  for (const Way& way : ways_of(subject)) {
    table.rows.push_back(
        {{subject.trace.steps[way.step].name},
         {way.signal.name.substr(0, way.signal.name.rfind('.'))},
         {fmt::format("{} to {}", place_of(way, way.from, world).text, place_of(way, way.to, world).text)},
         seen(way.took, Quantity::time, world),
         {way.took < too_short ? "too short to time" : ""}});
  }
  return table;
}

}  // namespace

std::string commissioning(const Subject& subject) {
  return steps_of(subject) + html::heading(3, "Readings at the end of each step") +
         html::paragraph(
             "Oil at " +
             draw::shown(subject.job.plan.oil.temperature, Quantity::temperature, subject.job.world) +
             ". The class is what the gauge itself may be off by; how far settings and parts let a reading "
             "stray comes on top.") +
         html::table(readings(subject),
                     "The circuit has no gauge: read with a portable one at the pump line.", "form") +
         html::heading(3, "Times by stop-watch") + html::table(times(subject), "Nothing moves.", "form") +
         html::element("p", html::text("Oil temperature ") + "<span class=\"blank\"></span>" +
                                html::text(" Date, name ") + "<span class=\"blank\"></span>");
}

}  // namespace poise::papers
