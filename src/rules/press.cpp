// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Presses and big cylinders.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/chapters.hpp"
#include "rules/load.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 3> cylinders_and_valves{"double_acting_cylinder", "directional_4_3",
                                                               "directional_4_2"};
constexpr std::array<std::string_view, 2> cylinders{"single_acting_cylinder", "double_acting_cylinder"};
constexpr std::array<std::string_view, 3> slides{"double_acting_cylinder", "counterbalance",
                                                 "pilot_operated_check"};
constexpr std::array<std::string_view, 2> prefills{"pilot_operated_check", "double_acting_cylinder"};
constexpr std::array<std::string_view, 2> punches{"double_acting_cylinder", "force"};

std::vector<PortOf> sides(const Sight& sight) {
  std::vector<PortOf> found;
  for (int c : all_cylinders(sight)) {
    for (PortOf side : sight.oil_ports(c)) found.push_back(side);
  }
  return found;
}

// ── Letting go of pressed oil ──

/// Energy of pressed oil from which letting it go at once is a blow, J (common practice).
constexpr double blow = 500.0;

/// The greatest flow out of a place through a directional valve in a stretch of time, and that valve's
/// rating.
struct Rush {
  int valve = -1;
  double flow = 0.0, rated = 0.0;
};
Rush rush_from(const Sight& sight, PortOf side, double from, double to) {
  Rush rush;
  const auto zone = sight.reach(side, through_restrictions);
  const StepSpan stretch{.name = {}, .begin = from, .end = to};
  for (int valve : sight.all({"directional_4_3", "directional_4_2", "directional_3_2"})) {
    for (PortOf at : sight.oil_ports(valve)) {
      const auto rated = sight.given(valve, "rated_flow");
      if (!rated || !sight.touches(zone, at)) continue;
      const double flow = sight.flow(at).highest(stretch).value;
      if (flow > rush.flow) rush = {valve, flow, *rated};
    }
  }
  return rush;
}

void look_decompression(const Sight& sight, Report& report) {
  constexpr double high = 50 * si::bar, quickly = 0.2, over_rated = 3.0, small_blow = 50.0;
  if (!sight.ran()) return;
  for (PortOf side : sides(sight)) {
    const Course pressure = sight.pressure(side);
    if (!pressure) continue;
    for (const StepSpan& span : sight.spans()) {
      const double before = pressure.at(span.begin);
      if (before < high || pressure.at(span.begin + quickly) > 0.3 * before) continue;
      const Trapped oil = trapped(sight, side, span.begin);
      const Rush rush = rush_from(sight, side, span.begin, span.begin + quickly);
      const bool rushes = oil.energy > small_blow && rush.flow > over_rated * rush.rated;
      if (oil.energy < blow && !rushes) continue;
      const std::string flow =
          rush.valve < 0 ? std::string()
                         : fmt::format(", {} through {}, rated {}", sight.say(rush.flow, Quantity::flow),
                                       sight.tag(rush.valve), sight.say(rush.rated, Quantity::flow));
      report.add(
          side.part,
          fmt::format("{} lets {} at {} go within {} of the start of \"{}\": {} at once{}", sight.name(side),
                      sight.say(oil.volume, Quantity::volume), sight.say(before, Quantity::pressure),
                      sight.say(quickly, Quantity::time), span.name, sight.say(oil.energy, Quantity::energy),
                      flow),
          fmt::format("Let {} go through a small opening for 0.2 s to 1 s before \"{}\", down to {} or "
                      "less",
                      sight.say(before, Quantity::pressure), span.name,
                      sight.say(0.2 * before, Quantity::pressure)),
          just_after(span));
      break;
    }
  }
}

/// A force that the job takes away so fast breaks through, s.
constexpr double quick_break = 20 * si::ms;

/// Whether a step or control ever changes a force within the time of a break.
bool is_taken_away(const Sight& sight, int part) {
  const auto takes = [&](const auto& all) {
    return std::ranges::any_of(all, [&](const auto& each) {
      return std::ranges::any_of(each.commands, [&](const Command& command) {
        return command.part == part && command.ramp <= quick_break;
      });
    });
  };
  return takes(sight.steps) || takes(sight.controls);
}

/// The moment from which a force on a rod falls to less than half at once.
std::optional<double> breaks_through(const Course& force) {
  constexpr double counts = 5 * si::kN;
  std::size_t first = 0;
  for (std::size_t row = 1; row < force.time().size(); ++row) {
    while (first + 1 < row && force.time()[row] - force.time()[first] > quick_break) ++first;
    const double before = force.value()[first];
    if (before > counts && force.value()[row] < 0.5 * before) return force.time()[first];
  }
  return std::nullopt;
}

void look_break_through(const Sight& sight, Report& report) {
  constexpr double fast = 0.5;
  if (!sight.ran()) return;
  for (int c : all_cylinders(sight)) {
    for (int part : sight.on_rod(*sight.port(c, "rod"))) {
      if (!sight.is(part, "force") || !is_taken_away(sight, part)) continue;
      const auto moment = breaks_through(sight.output(part, "force"));
      const Course pressure = sight.pressure({c, 0});
      if (!moment || !pressure) continue;
      const Trapped oil = trapped(sight, {c, 0}, *moment);
      const StepSpan after{.name = {}, .begin = *moment, .end = *moment + 0.1};
      const double speed = sight.speed(c).highest(after).value;
      if (oil.energy < blow && speed < fast) continue;
      report.add(
          c,
          fmt::format("As {} gives way {}, {} lets {} go with {} in it and shoots on at {}", sight.tag(part),
                      sight.when(*moment), sight.tag(c), sight.say(pressure.at(*moment), Quantity::pressure),
                      sight.say(oil.energy, Quantity::energy), sight.say(speed, Quantity::speed)),
          fmt::format("Keep the pipes of {} short and stiff, and let cushions or a second cylinder take "
                      "{} after the break",
                      sight.tag(c), sight.say(oil.energy, Quantity::energy)),
          *moment);
    }
  }
}

// ── Frame and slide ──

void look_frame(const Sight& sight, Report& report) {
  const auto there = supply(sight);
  if (!there) return;
  const std::vector<HeldLoad> loads = held_loads(sight);
  for (int c : all_cylinders(sight)) {
    const auto rating = sight.given(c, "frame_rating");
    if (!rating) continue;
    double pressure = there->full, weight = 0.0;
    int valve = there->valve;
    for (const Limit& limit : sight.limits_of({c, 0})) {
      if (limit.cracking + limit.band < pressure) {
        pressure = limit.cracking + limit.band;
        valve = limit.part;
      }
    }
    for (const HeldLoad& load : loads) {
      if (load.cylinder == c && load.hanging) weight = load.weight;
    }
    const double area = face_at_a(sight, c), push = pressure * area + weight;
    if (push <= *rating) continue;
    report.add(
        c,
        fmt::format("{} lets {} press with {}, and its frame may take {}", sight.tag(valve), sight.tag(c),
                    sight.say(push, Quantity::force), sight.say(*rating, Quantity::force)),
        fmt::format("Set {} so that it reads {} at most with the whole flow", sight.tag(valve),
                    sight.say((*rating - weight) / area, Quantity::pressure)));
  }
}

void look_two_means(const Sight& sight, Report& report) {
  for (const HeldLoad& load : held_loads(sight)) {
    if (!load.hanging || !sight.is(load.cylinder, "double_acting_cylinder")) continue;
    const auto way = way_out(sight, load.side), seats = way_out(sight, load.side, Spools::leak);
    // Where nothing stands shut it comes down without power: another rule.
    if (!way || !seats || way->shut == 0 || seats->shut > 1) continue;
    const int only = seats->shut == 1 ? seats->valves[0] : way->valves[0];
    report.add(
        load.cylinder,
        fmt::format(
            "{} of {} hang on {} alone: {} on the way from {} to tank",
            sight.say(load.weight, Quantity::force), sight.tag(load.load), sight.tag(only),
            way->shut > 1 ? "there is no other seat, but a spool that leaks," : "nothing else is shut",
            sight.name(load.side)),
        fmt::format("Put a second, independent valve for {} into the way down, have both watched, and a "
                    "stop that carries {} for work at the tool",
                    sight.say(load.most / load.area, Quantity::pressure),
                    sight.say(load.weight, Quantity::force)));
  }
}

// ── Prefill ──

/// Checks that let a cylinder draw oil straight from the reservoir.
std::vector<int> prefill_valves(const Sight& sight, PortOf side) {
  std::vector<int> found;
  for (std::string_view kind : {"pilot_operated_check", "check"}) {
    for (int valve : valves_at(sight, side, kind, "B")) {
      if (sight.is_tank_line({valve, 0}, through_restrictions)) found.push_back(valve);
    }
  }
  return found;
}

void look_starving(const Sight& sight, Report& report) {
  constexpr double least = -0.3 * si::bar, at_least = 0.05;
  if (!sight.ran()) return;
  for (int c : sight.all({"double_acting_cylinder"})) {
    const auto valves = prefill_valves(sight, {c, 0});
    const Course pressure = sight.pressure({c, 0}), speed = sight.speed(c);
    if (valves.empty() || !pressure || !speed) continue;
    Peak worst;
    double starves = 0.0;
    for (std::size_t row = 1; row < pressure.time().size(); ++row) {
      if (speed.value()[row] < 1 * si::mm || pressure.value()[row] > least) continue;
      starves += pressure.time()[row] - pressure.time()[row - 1];
      if (pressure.value()[row] < worst.value) worst = {pressure.value()[row], pressure.time()[row]};
    }
    if (starves < at_least) continue;
    const double draws = speed.at(worst.time) * face_at_a(sight, c);
    report.add(
        c,
        fmt::format("{} starves as it comes down at {} {}: {} behind its piston, where {} is the least",
                    sight.tag(c), sight.say(speed.at(worst.time), Quantity::speed), sight.when(worst.time),
                    sight.say(worst.value, Quantity::pressure), sight.say(least, Quantity::pressure)),
        fmt::format("Take a larger {} that passes {} at 0.3 bar, or slow the approach", sight.tag(valves[0]),
                    sight.say(draws, Quantity::flow)),
        worst.time);
  }
}

/// The pressure that a prefill valve is told to open against.
struct Told {
  double pressure = 0.0, pilot = 0.0, time = 0.0;
  bool opens = false;
};
std::optional<Told> told_under_pressure(const Sight& sight, int valve) {
  constexpr double high = 20 * si::bar, told = 3 * si::bar;
  const Course pilot = sight.pressure(*sight.port(valve, "X")), behind = sight.pressure({valve, 0}),
               load = sight.pressure({valve, 1});
  if (!pilot || !behind || !load) return std::nullopt;
  const double ratio = sight.values(valve)["ratio"], cracking = sight.values(valve)["cracking_pressure"];
  std::optional<Told> found;
  double since = 0.0;
  for (std::size_t row = 1; row < pilot.time().size(); ++row) {
    const double p = load.value()[row], x = pilot.value()[row], back = behind.value()[row];
    if (p < high || x < told) {
      since = pilot.time()[row];
      continue;
    }
    const bool opens = ratio * (x - back) > p - back + cracking;
    const bool was = ratio * (pilot.value()[row - 1] - behind.value()[row - 1]) >
                     load.value()[row - 1] - behind.value()[row - 1] + cracking;
    if (opens && !was) return Told{p, x, pilot.time()[row], true};
    if (!opens && !found && pilot.time()[row] - since > 0.2) found = Told{p, x, since, false};
  }
  return found;
}

void look_prefill(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int c : sight.all({"double_acting_cylinder"})) {
    for (int valve : prefill_valves(sight, {c, 0})) {
      if (!sight.is(valve, "pilot_operated_check")) continue;
      const auto told = told_under_pressure(sight, valve);
      if (!told) continue;
      report.add(
          valve,
          fmt::format("{} is told to open by {} against {} {}, and {}", sight.tag(valve),
                      sight.say(told->pilot, Quantity::pressure),
                      sight.say(told->pressure, Quantity::pressure), sight.when(told->time),
                      told->opens ? "lets it go with a bang" : "stands shut"),
          fmt::format("Let {} down below {} through a small opening before the pilot of {} comes",
                      sight.name({c, 0}), sight.say(20 * si::bar, Quantity::pressure), sight.tag(valve)),
          told->time);
    }
  }
}

// ── Dwell ──

/// Whether a step itself changes the force on a rod or puts the pressure off.
bool changes_load(const Sight& sight, int cylinder, std::string_view step) {
  const auto found = std::ranges::find(sight.steps, step, &Step::name);
  if (found == sight.steps.end()) return true;
  const auto parts = sight.on_rod(*sight.port(cylinder, "rod"));
  return std::ranges::any_of(found->commands, [&](const Command& command) {
    return std::ranges::find(parts, command.part) != parts.end();
  });
}

void look_dwell(const Sight& sight, Report& report) {
  constexpr double high = 50 * si::bar, at_least = 1.0, share = 0.10, let_go = 0.5, settled = 0.3;
  if (!sight.ran()) return;
  for (int c : all_cylinders(sight)) {
    const auto on_rod = sight.on_rod(*sight.port(c, "rod"));
    const bool presses = std::ranges::any_of(on_rod, [&](int p) {
      return sight.is_one_of(p, {"spring", "force"});
    });
    const Course pressure = sight.pressure({c, 0}), position = sight.position(c);
    if (!presses || !pressure || !position) continue;
    for (const StepSpan& span : sight.spans()) {
      const double lasts = span.end - span.begin, from = span.begin + settled;
      const double before = pressure.at(from), after = pressure.at(span.end), lost = before - after;
      if (lasts < at_least || before < high || after < let_go * before || lost <= share * before) continue;
      if (std::abs(position.at(span.end) - position.at(from)) > 1 * si::mm) continue;
      if (changes_load(sight, c, span.name)) continue;
      report.add(
          c,
          fmt::format("{} loses {} of {} in the {} of \"{}\": {}, where 10 % is usual", sight.tag(c),
                      sight.say(lost, Quantity::pressure), sight.say(before, Quantity::pressure),
                      sight.say(lasts, Quantity::time), span.name, sight.say(lost / before, Quantity::share)),
          fmt::format("Find the leak, or let a pressure switch pump up again at {}",
                      sight.say((1.0 - share) * before, Quantity::pressure)),
          span.end);
      break;
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "decompress before the valve shifts",
              .harm = Harm::hurts,
              .holds =
                  "Oil above 50 bar on a side of a cylinder that holds 500 J or more is let down over more "
                  "than 0.2 s; with 50 J or more no more than 3 times the valve's rated flow rushes "
                  "through it.",
              .otherwise = "Broken pipes, blown hoses, seals pushed out.",
              .remedy = "A small opening to tank for 0.2 s to 1 s before the valve shifts.",
              .source = "trade magazine's e-book on fluid-power circuits, book 2; thresholds common practice",
              .kinds = cylinders_and_valves,
              .look = look_decompression},
    TradeRule{
        .name = "break-through is caught",
        .harm = Harm::damages,
        .holds = "Where the work gives way within 20 ms, the pressed oil behind the piston holds less than "
                 "500 J and the rod stays below 0.5 m/s.",
        .otherwise = "The worst shock there is: all that the pressed oil and the frame hold, within "
                     "milliseconds.",
        .remedy = "Short stiff pipes, cushions or resisting cylinders, a smaller volume behind the piston.",
        .source = "trade magazine's e-book on fluid-power circuits, book 2; thresholds common practice",
        .kinds = punches,
        .look = look_break_through},
    TradeRule{.name = "relief guards the frame",
              .harm = Harm::hurts,
              .holds = "Relief pressure at full flow times the cap area, and the weight of the slide, stay "
                       "below frame_rating where it is given.",
              .otherwise = "The frame tears, and not at the gauge's red mark.",
              .remedy = "Set the relief valve for the frame as well as for the oil.",
              .kinds = cylinders,
              .look = look_frame},
    TradeRule{
        .name = "two means hold a vertical slide",
        .harm = Harm::hurts,
        .holds = "A slide of 25 kg or more that hangs on the rod side has two valves that stand shut at "
                 "rest in its way down; the spool of a valve with three or four ports leaks and counts as "
                 "none.",
        .otherwise = "One grain of dirt in one seat, and the slide comes down on hands.",
        .remedy = "Two independent, watched valves, and a mechanical stop for work at the tool. Local "
                  "codes and those licensed for such work decide.",
        .source = "ISO 16092-3 (topic); Taiwan safety standard of machinery, art. 47; details from memory",
        .kinds = slides,
        .look = look_two_means},
    TradeRule{.name = "approach fills the cap side",
              .harm = Harm::works_badly,
              .holds = "A cylinder with a prefill valve keeps −0.3 bar or more behind its piston as it comes "
                       "down.",
              .otherwise = "Oil with air and holes in it: a spongy press, and the dwell is lost.",
              .remedy = "A larger prefill valve and line, a reservoir above the press, or a slower approach.",
              .source = "trade magazine's e-book on fluid-power circuits, book 1",
              .kinds = prefills,
              .look = look_starving},
    TradeRule{.name = "prefill valve opens without pressure",
              .harm = Harm::works_badly,
              .holds = "The pilot of a prefill valve comes when there are 20 bar or less behind the piston.",
              .otherwise = "Its big poppet does not open against the pressure, or opens with a bang.",
              .remedy = "Decompress first, then the pilot.",
              .source = "trade magazine's e-book on fluid-power circuits, book 1; 20 bar common practice",
              .kinds = prefills,
              .look = look_prefill},
    TradeRule{.name = "pressure held through the dwell",
              .harm = Harm::works_badly,
              .holds =
                  "A cylinder that stands on its work at 50 bar or more for 1 s or more of a step loses no "
                  "more than 10 % of its pressure.",
              .otherwise = "The part is pressed less than asked for, and nobody sees it.",
              .remedy = "Tight seats, or a switch that pumps up again.",
              .kinds = cylinders,
              .look = look_dwell},
};

}  // namespace

std::span<const TradeRule> press_rules() { return rules; }

}  // namespace poise::rules
