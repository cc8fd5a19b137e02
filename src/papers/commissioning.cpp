// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper for the first start: what is done in which order, and what the gauges read then.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "draw/words.hpp"
#include "judge/wording.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/readings.hpp"
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

/// The settings of a job as they are made: places in their list.
struct Made {
  using Places = std::vector<std::size_t>;

  const Subject& subject;
  std::vector<Setting> list;
  Table sheet;  ///< a row for each of the list
  std::map<Adjusting::Turn, Places> in_place{};
  Places on_a_bench{};  ///< relief valves that nothing here brings to their setting
  Places kept_shut{};   ///< throttles that nothing passes in the cycle

  explicit Made(const Subject& of) : subject(of), list(settings_of(of.job, of.trace)), sheet(settings(of)) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      const Setting& setting = list[i];
      if (!setting.how) continue;
      if (is_set_on_a_bench(subject, setting)) {
        on_a_bench.push_back(i);
      } else if (setting.how->turn == Adjusting::Turn::flow && !is_passed(subject, setting)) {
        kept_shut.push_back(i);
      } else {
        in_place[setting.how->turn].push_back(i);
      }
    }
    // A throttle that another step opens is set there.
    const auto& flows = in_place[Adjusting::Turn::flow];
    std::erase_if(kept_shut, [&](std::size_t shut) {
      return std::ranges::any_of(flows, [&](std::size_t i) { return list[i].part == list[shut].part; });
    });
  }

  const std::string& tag(std::size_t i) const { return subject.job.plan.parts[list[i].part].tag; }
  /// What stands on the settings' sheet under a head.
  const std::string& said(std::size_t i, std::string_view head) const {
    const auto column = std::ranges::find(sheet.columns, head, &Column::head) - sheet.columns.begin();
    return sheet.rows[i][static_cast<std::size_t>(column)].text;
  }
};

/// What is filled in as values are set: each valve with its value, and what its gauge is to read meanwhile.
Table to_fill_in(const Made& made, const Made::Places& places) {
  Table table{"set",
              {{"valve", 1.7},
               {"set to", 1.1, true},
               {"meanwhile", 3.6},
               {"read at", 1.2},
               {"should read", 1.1, true},
               {"acceptable", 1.6, true},
               {"reads", 1.2}},
              {}};
  const units::World& world = made.subject.job.world;
  bool any = false;
  for (const std::size_t i : places) {
    const WhileSet meanwhile = while_set(made.subject, made.list[i]);
    const bool bench = is_set_on_a_bench(made.subject, made.list[i]);
    any |= meanwhile.reads.has_value();
    std::vector<Cell> row{{fmt::format("{}: {}", made.tag(i), made.said(i, "Valve"))},
                          {made.said(i, "Set to")},
                          {made.said(i, "While setting")},
                          {bench ? "gauge of the bench" : made.said(i, "Read at")},
                          {},
                          {},
                          {}};
    if (meanwhile.reads) {
      row[4] = measured(*meanwhile.reads, Quantity::pressure, world);
      row[5] = {range_in_words(meanwhile.lowest, meanwhile.highest, Quantity::pressure, world)};
    }
    table.rows.push_back(std::move(row));
  }
  if (any) return table;
  // No gauge tells: what is noted is where the adjuster stands.
  table.columns.erase(table.columns.begin() + 4, table.columns.begin() + 6);
  table.columns.back().head = "stands at";
  for (std::vector<Cell>& row : table.rows) row.erase(row.begin() + 4, row.begin() + 6);
  return table;
}

class Steps {
 public:
  explicit Steps(const Made& made) : made_(made) {}
  void add(std::string_view words) {
    list_ += html::element("li", std::string(html::box) + html::text(words));
  }
  /// With the tags at {}; nothing where there are none.
  void add(const Made::Places& places, std::string_view words) {
    if (!places.empty()) add(with_tags(places, words));
  }
  void begin(Adjusting::Turn turn, std::string_view words) {
    const auto places = made_.in_place.find(turn);
    if (places != made_.in_place.end()) add(places->second, words);
  }
  /// With each value that is the most: "V6 (2 turns from shut at most)".
  void set_at_most(Adjusting::Turn turn, std::string_view words) {
    const auto places = made_.in_place.find(turn);
    if (places == made_.in_place.end() || places->second.empty()) return;
    std::vector<std::string> valves;
    for (const std::size_t i : places->second)
      valves.push_back(fmt::format("{} ({} at most)", made_.tag(i), made_.said(i, "Set to")));
    add(fmt::format(fmt::runtime(words), wording::joined(valves, " and ")));
  }
  /// The same with a row for each value to be filled in.
  void fill_in(const Made::Places& places, std::string_view words) {
    if (places.empty()) return;
    list_ += html::element("li",
                           std::string(html::box) + html::text(with_tags(places, words)) +
                               html::table(to_fill_in(made_, places), "", "form small"),
                           " class=\"filled\"");
  }
  void set(Adjusting::Turn turn, std::string_view words) {
    const auto places = made_.in_place.find(turn);
    if (places != made_.in_place.end()) fill_in(places->second, words);
  }
  std::string list() const { return html::element("ol", list_); }

 private:
  std::string with_tags(const Made::Places& places, std::string_view words) const {
    std::vector<std::string> tags;
    for (const std::size_t i : places) {
      if (std::ranges::find(tags, made_.tag(i)) == tags.end()) tags.push_back(made_.tag(i));
    }
    return fmt::format(fmt::runtime(words), wording::joined(tags, " and "));
  }

  const Made& made_;
  std::string list_;
};

/// Everything as it stands before oil is let in.
void add_beginning(Steps& steps, const Made& made) {
  using Turn = Adjusting::Turn;
  steps.set(Turn::precharge, "Check the gas of {} without oil pressure, with dry nitrogen only.");
  steps.fill_in(made.on_a_bench,
                "{}: set on a bench and sealed before fitting; never unscrewed or set in place.");
  steps.begin(Turn::relief, "Unscrew {} fully, so that the pump finds no pressure.");
  steps.begin(Turn::pump, "Bring {} low: the spring nearly let off.");
  steps.begin(Turn::reducing, "Bring {} to the lowest setting.");
  steps.begin(Turn::load_holding, "Leave {} high, as delivered: it holds.");
  steps.add(made.kept_shut,
            "Keep {} shut: nothing passes there in the cycle, and an open one may let a load down.");
  steps.begin(Turn::flow, "Open {} by a quarter of the range, counted from shut.");
}

/// Settings without load; those that take one come after the load has been put on in steps.
void add_settings(Steps& steps, const Has& has) {
  using Turn = Adjusting::Turn;
  steps.set(Turn::relief, "Set {} from open upward.");
  steps.set(Turn::pump, "Set {} from low upward.");
  steps.set(Turn::reducing, "Set {} from low upward, with nothing flowing behind it.");
  steps.set(
      Turn::sequence,
      "Set {}: the second group starts only when the first has its pressure. Then bleed what lies behind.");
  steps.set_at_most(Turn::flow,
                    "Open {} so that the motions without load are slower than in Motions and states.");
  steps.set(Turn::contact, "Set {}: the contact is made as the pressure rises to its value.");
  if (has.load)
    steps.add(
        "Load in steps: a quarter, a half, three quarters, all. After each step let it stand and look.");
  steps.set(Turn::load_holding, "Set {} with the load just above its blocks and nobody near.");
  steps.set(Turn::flow, "Set {} by stop-watch under the usual load: times stand below.");
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

/// A paragraph that stays on the page of the table below it.
std::string before_table(std::string_view words) {
  return html::element("p", html::text(words), " class=\"with-next\"");
}

/// What the bands mean, or how to get them.
std::string about_bands(const Subject& subject) {
  const std::string oil = fmt::format(
      "Oil at {}. ", draw::shown(subject.job.plan.oil.temperature, Quantity::temperature, subject.job.world));
  if (!subject.bands) {
    return before_table(fmt::format(
        "{}The class is what the gauge itself may be off by; how far settings and parts let a reading stray "
        "comes on top: the command \"poise commission {}\" works out within which bands sound machines read, "
        "and then they stand here.",
        oil, subject.file));
  }
  return before_table(
      oil +
      "Of twenty sound machines, with all values within their tolerances and the usual instruments, nineteen "
      "read within the band: of many readings a few lie out of theirs by chance, narrowly. One that lies "
      "far out, or several, are understood before anything is turned.");
}

}  // namespace

std::string commissioning(const Subject& subject) {
  return steps_of(subject) + html::heading(3, "Readings, step by step") + about_bands(subject) +
         html::table(readings(subject),
                     "The circuit has no gauge: read with a portable one at the pump line.", "form") +
         html::heading(3, "Times by stop-watch, and where it ends") +
         before_table("A time is taken from the beginning of the step until the part is as good as there.") +
         html::table(times(subject), "Nothing moves.", "form") +
         html::element("p", html::text("Date, name ") + "<span class=\"blank\"></span>");
}

}  // namespace poise::papers
