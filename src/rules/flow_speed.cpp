// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Speeds of cylinders, stops, and valves that shut on moving oil.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/pressed.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 2> cylinders{"double_acting_cylinder", "single_acting_cylinder"};
constexpr std::array<std::string_view, 7> shock_kinds{
    "directional_2_2", "directional_3_2", "directional_4_2", "directional_4_3", "shut_off", "hose", "tube"};

/// Speeds, m/s: into a bare stop; of usual seals; below which a rod judders.
constexpr double stop_speed = 0.1, seal_speed = 0.5, judder_speed = 5e-3;
/// Energy that any stop takes, J.
constexpr double small_blow = 0.5;

/// The fastest row within a millimetre of an end of the stroke, towards it.
Peak hardest_hit(const Sight& sight, int c) {
  const Course position = sight.position(c), speed = sight.speed(c);
  const double stroke = sight.values(c)["stroke"];
  Peak hit;
  for (std::size_t row = 0; row < position.time().size(); ++row) {
    const double x = position.value()[row], v = speed.value()[row];
    const bool towards = (x > stroke - 1.0 * si::mm && v > 0.0) || (x < 1.0 * si::mm && v < 0.0);
    if (towards && std::abs(v) > hit.value) hit = {std::abs(v), position.time()[row]};
  }
  return hit;
}

void look_at_stops(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  struct Place {
    Peak hit;
    double energy = 0.0;
  };
  Alike<Place> hard;
  for (int c : all_cylinders(sight)) {
    if (!sight.position(c) || std::abs(sight.speed(c).greatest().value) <= stop_speed) continue;
    const Peak hit = hardest_hit(sight, c);
    if (hit.value <= stop_speed) continue;
    const double energy = 0.5 * mass_moved(sight, c) * hit.value * hit.value;
    if (energy >= small_blow) hard.add({hit, energy}, c, energy);
  }
  if (!hard) return;
  const int c = hard.part();
  const auto& [hit, energy] = hard.worst();
  report.add(
      c,
      fmt::format("{} runs into its stop at {} {}: {} with {}, where {} is enough for a stop without "
                  "cushion{}",
                  sight.tag(c), sight.say(hit.value, Quantity::speed), sight.when(hit.time),
                  sight.say(energy, Quantity::energy), sight.say(mass_moved(sight, c), Quantity::mass),
                  sight.say(stop_speed, Quantity::speed), hard.others(sight)),
      fmt::format("Take a cylinder with cushions or a shock absorber for {}, or feed it {} of the flow "
                  "towards the end",
                  sight.say(energy, Quantity::energy), sight.say(stop_speed / hit.value, Quantity::share)),
      hit.time);
  report.also(hard.rest());
}

void look_at_seal_speed(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int c : all_cylinders(sight)) {
    const Course speed = sight.speed(c);
    if (std::abs(speed.greatest().value) <= seal_speed) continue;
    const double lasts =
        time_while(speed, [&](std::size_t row) { return std::abs(speed.value()[row]) > seal_speed; });
    if (lasts < 0.02) continue;
    const Peak top = speed.greatest();
    report.add(c,
               fmt::format("{} runs at {} {}, for {} above the {} that usual seals stand", sight.tag(c),
                           sight.say(std::abs(top.value), Quantity::speed), sight.when(top.time),
                           sight.say(lasts, Quantity::time), sight.say(seal_speed, Quantity::speed)),
               fmt::format("Take {} of the flow or a larger bore, or seals made for {}",
                           sight.say(seal_speed / std::abs(top.value), Quantity::share),
                           sight.say(std::abs(top.value), Quantity::speed)),
               top.time);
  }
}

bool is_throttle(const PlannedPart& part) {
  const std::string_view kind = part.kind->about.kind;
  return kind == "needle" || kind == "one_way_flow_control" || kind == "compensated_flow_control";
}

bool up_to_a_throttle(const PlannedPart& part) {
  return can_feed(part) && !is_throttle(part) && !is_directional(part);
}

/// The throttle between a side of a cylinder and what feeds or empties it, or −1: one on a branch beside an
/// open feed, as for letting down, meters nothing on the way in.
int meters(const Sight& sight, PortOf side) {
  int throttle = -1;
  for (const PortOf& at : sight.ports_in(sight.reach(side, up_to_a_throttle))) {
    const PlannedPart& part = sight.part(at.part);
    if (sight.role(at.part) == Role::source || is_directional(part)) return -1;
    if (is_throttle(part)) throttle = at.part;
  }
  return throttle;
}

int throttle_of(const Sight& sight, int c) {
  int found = -1;
  for (const PortOf& side : sight.oil_ports(c)) {
    if (found < 0) found = meters(sight, side);
  }
  return found;
}

/// Whether all that feeds a cylinder is worked by hand or by air, whose strokes nobody expects to be even.
bool is_pumped_in_strokes(const Sight& sight, int c) {
  const auto zone = sight.reach(*sight.port(c, "A"), can_feed);
  bool any = false;
  for (int pump : sight.all(Role::source)) {
    if (!sight.touches(zone, *sight.port(pump, "P"))) continue;
    if (!sight.is_one_of(pump, {"hand_pump", "air_driven_pump"})) return false;
    any = true;
  }
  return any;
}

/// The longest stretch in which a rod creeps one way below the speed at which it judders.
struct Creep {
  double begin = 0.0, lasts = 0.0, way = 0.0;
};

Creep longest_creep(const Sight& sight, int c) {
  const Course speed = sight.speed(c);
  const bool falls_back = sight.is(c, "single_acting_cylinder");
  Creep longest, now;
  const auto time = speed.time();
  for (std::size_t row = 1; row < time.size(); ++row) {
    const double v = speed.value()[row];
    const bool creeps =
        std::abs(v) > 0.02 * judder_speed && std::abs(v) < judder_speed && !(falls_back && v < 0);
    if (!creeps) {
      now = {};
      continue;
    }
    if (now.lasts == 0.0) now.begin = time[row - 1];
    now.lasts += time[row] - time[row - 1];
    now.way += std::abs(v) * (time[row] - time[row - 1]);
    if (now.way > longest.way) longest = now;
  }
  return longest;
}

void look_at_creeping(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int c : all_cylinders(sight)) {
    if (!sight.speed(c)) continue;
    const int throttle = throttle_of(sight, c);
    if (throttle < 0 || is_pumped_in_strokes(sight, c)) continue;
    const Creep creep = longest_creep(sight, c);
    if (creep.lasts < 1.0 || creep.way < 3.0 * si::mm) continue;
    const double mean = creep.way / creep.lasts;
    report.add(
        c,
        fmt::format("{} creeps {} at {} {}, metered by {}, where below {} usual seals stick and slip",
                    sight.tag(c), sight.say(creep.way, Quantity::length), sight.say(mean, Quantity::speed),
                    sight.when(creep.begin), sight.tag(throttle), sight.say(judder_speed, Quantity::speed)),
        fmt::format("Open {} for {:.2g} times the flow, or take seals of low friction, if {} has to move "
                    "evenly",
                    sight.tag(throttle), judder_speed / mean, sight.tag(c)),
        creep.begin);
  }
}

/// Speed of sound in the oil of a line, m/s, its swelling counted.
double sound(const Sight& sight, int line, double pressure) {
  const double area = std::numbers::pi / 4.0 * std::pow(sight.values(line)["bore"], 2);
  double softness = 1.0 / sight.oil.effective_modulus(std::max(pressure, 0.0));
  if (const auto swelling = sight.given(line, "expansion")) softness += *swelling / area;
  return std::sqrt(1.0 / (softness * sight.oil.density(std::max(pressure, 0.0)).value));
}

struct Shock {
  double rise = 0.0, speed = 0.0, wave = 0.0, at_work = 0.0;
};

/// What a valve that shuts within `shut` from `begin` on does to a line that runs into it at its end `end`.
Shock shock(const Sight& sight, int line, int end, double begin, double shut) {
  const Course flow = sight.flow({line, 0}), pressure = sight.pressure({line, end});
  if (!flow || !pressure) return {};
  const double into = end == 1 ? 1.0 : -1.0;
  // What the valve stops shows once the line has filled up to its pressure: a tenth of a second is plenty.
  const StepSpan after{.name = {}, .begin = begin, .end = begin + 0.1};
  const double least = end == 1 ? flow.lowest(after).value : -flow.highest(after).value;
  const double stopped = into * flow.at(begin) - least;
  if (into * flow.at(begin) <= 0.0 || stopped <= 0.0) return {};
  const Values& v = sight.values(line);
  Shock found{.at_work = pressure.at(begin)};
  const double c = sound(sight, line, found.at_work);
  found.wave = 2.0 * v["length"] / c;
  if (shut >= found.wave) return {};
  found.speed = std::min(stopped, into * flow.at(begin)) / (std::numbers::pi / 4.0 * v["bore"] * v["bore"]);
  found.rise = sight.oil.density(found.at_work).value * c * found.speed;
  return found;
}

/// Rise that is a blow whatever the rating, Pa.
constexpr double blow = 50.0 * si::bar;

void look_at_line_end(const Sight& sight, Report& report, int valve, const StepSpan& span, double shut) {
  for (int line : sight.all({"hose", "tube"})) {
    for (int end : {0, 1}) {
      const bool at_it =
          std::ranges::any_of(sight.beside({line, end}), [&](PortOf at) { return at.part == valve; });
      if (!at_it) continue;
      const Shock found = shock(sight, line, end, span.begin, shut);
      const auto weakest = sight.weakest(sight.reach(PortOf{line, end}, through_lines));
      const bool over = weakest.part >= 0 && found.at_work + found.rise > weakest.rating;
      if (found.rise < 10.0 * si::bar || (!over && found.rise < blow)) continue;
      report.add(valve,
                 fmt::format("{} shuts in {} in \"{}\" on oil that runs at {} through {}: the wave needs {} "
                             "there and back, so {} come on top of {}",
                             sight.tag(valve), sight.say(shut, Quantity::time), span.name,
                             sight.say(found.speed, Quantity::speed), sight.tag(line),
                             sight.say(found.wave, Quantity::time), sight.say(found.rise, Quantity::pressure),
                             sight.say(found.at_work, Quantity::pressure)),
                 fmt::format("Let {} take {} or more to shut, or widen {} to {}", sight.tag(valve),
                             sight.say(5.0 * found.wave, Quantity::time), sight.tag(line),
                             sight.say(sight.values(line)["bore"] * std::sqrt(found.rise / (0.5 * blow)),
                                       Quantity::length)),
                 just_after(span));
    }
  }
}

void look_at_shutting(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (std::size_t i = 0; i < sight.spans().size() && i < sight.steps.size(); ++i) {
    for (const Command& command : sight.steps[i].commands) {
      const std::string_view ramp = sight.part(command.part).kind->about.ramp;
      const bool valve = sight.is(command.part, "shut_off") || is_directional(sight.part(command.part));
      if (!valve || ramp.empty()) continue;
      const double shut = command.ramp > 0.0 ? command.ramp : sight.values(command.part)[ramp];
      look_at_line_end(sight, report, command.part, sight.spans()[i], shut);
    }
  }
}

/// When a rod sets out and when it has arrived within one step: 5 % and 95 % of its way.
struct Move {
  double way = 0.0, begin = 0.0, end = 0.0;
};

Move move_in(const Course& position, const StepSpan& span) {
  const auto time = position.time();
  const double from = position.at(span.begin), to = position.at(span.end);
  Move move{.way = to - from, .begin = span.end, .end = span.end};
  if (move.way == 0.0) return move;
  bool set_out = false;
  auto row = static_cast<std::size_t>(std::ranges::lower_bound(time, span.begin) - time.begin());
  for (; row < time.size() && time[row] <= span.end; ++row) {
    const double share = (position.value()[row] - from) / move.way;
    if (!set_out && share > 0.05) {
      move.begin = time[row];
      set_out = true;
    }
    if (share >= 0.95) {
      move.end = time[row];
      break;
    }
  }
  return move;
}

bool on_one_line(const Sight& sight, int first, int second) {
  return sight.part(first).kind == sight.part(second).kind && weight_against(sight, first) == 0.0 &&
         weight_against(sight, second) == 0.0 &&
         sight.touches(sight.reach(*sight.port(first, "A"), through_lines), *sight.port(second, "A"));
}

void compare_moves(const Sight& sight, Report& report, int one, int other, const StepSpan& span) {
  const auto stays = [&](int c) {
    const Course x = sight.position(c);
    return x.at(span.end) - x.at(span.begin) < 0.1 * sight.values(c)["stroke"];
  };
  if (stays(one) || stays(other)) return;
  const Move a = move_in(sight.position(one), span), b = move_in(sight.position(other), span);
  const bool one_leads = a.end < b.begin;
  if (!one_leads && b.end >= a.begin) return;
  const int first = one_leads ? one : other, second = one_leads ? other : one;
  const Move &lead = one_leads ? a : b, &lag = one_leads ? b : a;
  if (lag.begin - lead.begin < 0.2) return;
  const Course pressure = sight.pressure(*sight.port(first, "A"));
  report.add(
      second,
      fmt::format("{} only sets out at {} in \"{}\", when {} has arrived: on one line the flow goes "
                  "where the pressure is lowest, {} for {} and {} for {}",
                  sight.tag(second), sight.say(lag.begin, Quantity::time), span.name, sight.tag(first),
                  sight.say(pressure.at(0.5 * (lead.begin + lead.end)), Quantity::pressure), sight.tag(first),
                  sight.say(pressure.at(0.5 * (lag.begin + lag.end)), Quantity::pressure), sight.tag(second)),
      fmt::format("Give each its own flow control or divide the flow, if {} and {} are to move together; "
                  "a sequence valve, if this order has to be sure",
                  sight.tag(first), sight.tag(second)),
      lag.begin);
}

void look_at_least_resistance(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  const auto all = all_cylinders(sight);
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      if (!on_one_line(sight, all[i], all[j])) continue;
      for (const StepSpan& span : sight.spans()) compare_moves(sight, report, all[i], all[j], span);
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "cushion for a fast stop",
              .harm = Harm::damages,
              .holds = "A cylinder runs into its end at 0.1 m/s (4 in/s) at most, or with less than 0.5 J "
                       "(0.4 ft lbf), unless it has a cushion.",
              .otherwise = "Broken stops, loosened bolts.",
              .remedy = "Cushions, a shock absorber for the energy, or less flow towards the end.",
              .kinds = cylinders,
              .look = look_at_stops},
    TradeRule{.name = "no valve shuts on running oil",
              .harm = Harm::damages,
              .holds =
                  "A valve that shuts before a pressure wave has gone through the line and back (2·L/c) "
                  "raises the pressure by density times speed of sound times change of speed, about 11 bar "
                  "per m/s: that stays below the ratings and below 50 bar (725 psi).",
              .otherwise = "Blows that no gauge shows: loose fittings, broken gauges, burst hoses.",
              .remedy = "A valve that takes longer, or a wider line.",
              .source = "closed form; 50 bar common practice",
              .kinds = shock_kinds,
              .look = look_at_shutting},
    TradeRule{.name = "seal speed",
              .harm = Harm::works_badly,
              .holds = "Cylinders with usual seals run at 0.5 m/s (20 in/s) at most.",
              .otherwise = "Seals wear out and burn.",
              .remedy = "Less flow, a larger bore, or seals for that speed.",
              .source = "from memory",
              .kinds = cylinders,
              .look = look_at_seal_speed},
    TradeRule{.name = "flow takes the least resistance",
              .harm = Harm::works_badly,
              .holds = "Like cylinders on one line without loads to lift move together.",
              .otherwise = "They move one after the other, in an order that friction decides.",
              .remedy = "A flow control each, a divider, or a sequence valve for the order.",
              .source = "trade magazine's e-book on fluid-power circuits, book 1",
              .kinds = cylinders,
              .look = look_at_least_resistance},
    TradeRule{.name = "speed above juddering",
              .harm = Harm::worth_knowing,
              .holds =
                  "A cylinder with a throttle between it and its feed moves at 5 mm/s (0.2 in/s) or more, "
                  "unless its seals are made for less; hand and air-driven pumps left out.",
              .otherwise = "Its seals stick and slip: it moves in jerks.",
              .remedy = "A throttle that is opened further, or seals of low friction.",
              .source = "from memory",
              .kinds = cylinders,
              .look = look_at_creeping},
};

}  // namespace

std::span<const TradeRule> flow_speed_rules() { return rules; }

}  // namespace poise::rules
