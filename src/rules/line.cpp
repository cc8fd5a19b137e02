// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Lines: speed of the oil, back pressure, walls, lag of pilot lines, oil that is shut in.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "parts/line.hpp"
#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/line_return.hpp"
#include "rules/pressed.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 2> lines{"hose", "tube"};
constexpr std::array<std::string_view, 1> tubes{"tube"};
constexpr std::array<std::string_view, 6> in_the_return{"hose",    "tube",   "quick_coupling",
                                                        "fitting", "filter", "cooler"};
constexpr std::array<std::string_view, 5> that_shut{"check", "pilot_operated_check", "shut_off",
                                                    "quick_coupling", "hose"};
constexpr std::array<std::string_view, 5> piloted{"hose", "tube", "pilot_operated_check", "counterbalance",
                                                  "pressure_switch"};

/// What passes more quickly than this is a pulse, not a flow, s.
constexpr double pulse = 0.1;

// ── Speed of the oil ──

/// How fast the oil of a line may be, by what the line is there for, m/s.
struct Purpose {
  std::string_view name;
  double limit;
};
constexpr std::array purposes{Purpose{"suction line", 1.5}, Purpose{"return line", 4.0},
                              Purpose{"pressure line", 10.0}};

std::string speed_of_oil(const Sight& sight, double speed) {
  return sight.say_in(speed, Quantity::speed, "m/s", "ft/s");
}

/// Index into purposes.
std::size_t purpose_of(const Sight& sight, int line, const std::set<int>& suction,
                       const std::set<int>& tank) {
  if (sight.touches(suction, {line, 0}) || sight.touches(suction, {line, 1})) return 0;
  const bool into_tank = sight.touches(tank, {line, 0}) || sight.touches(tank, {line, 1});
  return into_tank ? 1 : 2;
}

/// Without a run: the speed of a suction line with the whole flow of the pumps that hang on it. What the
/// others carry is not known then.
double planned_speed(const Sight& sight, int line) {
  double flow = 0.0;
  for (int pump : sight.all(Role::source)) {
    const auto suction = sight.port(pump, "S");
    if (!suction) continue;
    const std::set<int> near = sight.reach(*suction, through_return);
    const auto hangs_on = [&](PortOf end) {
      return sight.touches(near, end) && !sight.has_reservoir({sight.group(end)});
    };
    if (hangs_on({line, 0}) || hangs_on({line, 1})) flow += sight.pump_flow(pump);
  }
  return flow / circle(sight.values(line)["bore"]);
}

void look_at_speed(const Sight& sight, Report& report) {
  const std::set<int> suction = sight.suction_lines(), tank = sight.tank_lines();
  std::array<Alike<double>, purposes.size()> worst;
  for (int line : sight.all({"hose", "tube"})) {
    const std::size_t purpose = purpose_of(sight, line, suction, tank);
    const double least = 1.01 * purposes[purpose].limit;
    const Course velocity = sight.output(line, "velocity");
    if (!velocity && purpose != 0) continue;
    const double speed = velocity ? velocity.held_beyond(least, pulse) : planned_speed(sight, line);
    if (speed > least) worst[purpose].add(speed, line, speed);
  }
  for (std::size_t i = 0; i < purposes.size(); ++i) {
    if (!worst[i]) continue;
    const int line = worst[i].part();
    const double speed = worst[i].worst(), limit = purposes[i].limit, bore = sight.values(line)["bore"];
    report.add(line,
               fmt::format("In {}, a {} of {}, the oil runs at {}, and {} is the most for one{}",
                           sight.tag(line), purposes[i].name, sight.say(bore, Quantity::length),
                           speed_of_oil(sight, speed), speed_of_oil(sight, limit), worst[i].others(sight)),
               fmt::format("Take a bore of {} or more for {}",
                           sight.say(bore * std::sqrt(speed / limit), Quantity::length), sight.tag(line)));
    report.also(worst[i].rest());
  }
}

// ── Walls ──

/// Pressure that a tube's wall stands with its safety, were it so thick.
double allowed_in(const Values& v, double thickness) {
  return TubeWall{v["bore"], thickness}.pressure_at(v["wall_strength"] / v["safety"],
                                                    static_cast<WallRule>(v.word("wall_rule")));
}

void look_at_walls(const Sight& sight, Report& report) {
  Alike<double> worst;
  for (int tube : sight.all({"tube"})) {
    const Values& v = sight.values(tube);
    const double share = highest_to_come(sight, tube) / allowed_in(v, v["wall"]);
    if (share > 1.01) worst.add(share, tube, share);
  }
  if (!worst) return;
  const Values& v = sight.values(worst.part());
  const double allowed = allowed_in(v, v["wall"]), highest = worst.worst() * allowed;
  // All three rules allow more in a thicker wall; none of a wall as thick as the bore is of use here.
  double thick = v["wall"];
  while (thick < v["bore"] && allowed_in(v, thick) < highest) thick *= 1.02;
  report.add(worst.part(),
             fmt::format("{} with {} of wall around {} stands {} with a factor of {:.3g}, and sees {}{}",
                         sight.tag(worst.part()), sight.say(v["wall"], Quantity::length),
                         sight.say(v["bore"], Quantity::length), sight.say(allowed, Quantity::pressure),
                         v["safety"], sight.say(highest, Quantity::pressure), worst.others(sight)),
             allowed_in(v, thick) >= highest
                 ? fmt::format("Take {} of wall or more for {}, more in bends, or a narrower tube",
                               sight.say(thick, Quantity::length), sight.tag(worst.part()))
                 : fmt::format("Take a narrower tube of stronger steel for {}, or let it see no more than {}",
                               sight.tag(worst.part()), sight.say(allowed, Quantity::pressure)));
  report.also(worst.rest());
}

// ── Pilot lines ──

/// How much later the far end of a pilot line may follow, s.
constexpr double lag = 0.2;

/// Whether nothing but pilots and pressure switches hangs on a group, apart from one part.
bool only_senses(const Sight& sight, PortOf end) {
  const std::vector<PortOf> others = sight.beside(end);
  return !others.empty() && std::ranges::all_of(others, [&](PortOf at) {
    return sight.plan.port(at).pilot || sight.is(at.part, "pressure_switch");
  });
}

void look_at_pilot_line(const Sight& sight, int line, PortOf from, PortOf to, Report& report) {
  const Course near = sight.pressure(from), far = sight.pressure(to);
  if (!near || !far || !only_senses(sight, to)) return;
  const double half = 0.5 * near.highest().value;
  if (half < si::bar) return;
  const auto begins = near.first_above(half);
  if (!begins) return;
  const auto follows = far.first_above(half, *begins);
  const double late = follows ? *follows - *begins : near.time_above(half);
  if (late <= lag) return;
  const std::string there = sight.name(sight.beside(to).front());
  report.add(line,
             fmt::format("{} {} {} {} the near end of {} has it, with oil of {}", there,
                         follows ? "has" : "does not get to", sight.say(half, Quantity::pressure),
                         follows ? fmt::format("{} later than", sight.say(late, Quantity::time))
                                 : fmt::format("in the {} that", sight.say(late, Quantity::time)),
                         sight.tag(line), sight.say(sight.oil.viscosity(), Quantity::viscosity)),
             fmt::format("Shorten {} or take a wider bore until less than {} are left, also with cold oil",
                         sight.tag(line), sight.say(lag, Quantity::time)),
             *begins);
}

void look_at_pilot_lines(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int line : sight.all({"hose", "tube", "capillary", "snubber"})) {
    look_at_pilot_line(sight, line, {line, 0}, {line, 1}, report);
    look_at_pilot_line(sight, line, {line, 1}, {line, 0}, report);
  }
}

// ── Oil that is shut in ──

/// Oil between parts that can all be shut.
struct ShutRoom {
  int shut_by = 0;  ///< parts that shut it off
  double volume = 0.0, wall = 0.0;
  std::string shut_by_tags;
};

void add_line(const Sight& sight, int p, ShutRoom& room) {
  room.volume += oil_of_line(sight, p);
  room.wall += give_of_line(sight, p);
}

/// The room, or none where something in it moves or lets oil out.
std::optional<ShutRoom> shut_room(const Sight& sight, const std::set<int>& groups) {
  ShutRoom room;
  std::set<int> seen;
  for (const PortOf& at : sight.ports_in(groups)) {
    const bool first = seen.insert(at.part).second;
    if (sight.is_one_of(at.part, {"hose", "tube"})) {
      if (first) add_line(sight, at.part, room);
      continue;
    }
    if (const auto volume = sight.given(at.part, "port_volume")) room.volume += *volume;
    if (through_lines(sight.part(at.part)) || sight.plan.port(at).pilot ||
        sight.is_one_of(at.part, {"gauge", "pressure_switch", "warmed_oil"}))
      continue;
    // Through a check that points out of the room the oil still gets away.
    const bool lets_in = sight.role(at.part) == Role::one_way && at.port == 1;
    const bool shuts = lets_in || sight.is_one_of(at.part, {"shut_off", "quick_coupling"});
    if (!shuts || !first) return std::nullopt;  // both sides of one part: it shuts nothing in
    ++room.shut_by;
    room.shut_by_tags += (room.shut_by_tags.empty() ? "" : " and ") + sight.tag(at.part);
  }
  return room.shut_by >= 2 ? std::optional(room) : std::nullopt;
}

/// Pressure after warming: what the oil grows by beside the steel goes into its compression and into the
/// walls.
double warmed(const Sight& sight, const ShutRoom& room, double before) {
  const double growth = (sight.oil.expansion() - steel_growth) * warms_by;
  const double at_first = sight.oil.density(before).value;
  double low = before, high = before + 3000.0 * si::bar;
  for (int halving = 0; halving < 30; ++halving) {
    const double p = 0.5 * (low + high);
    const double needs = room.volume * (1.0 + growth) * at_first / sight.oil.density(p).value;
    (needs > room.volume + room.wall * (p - before) ? low : high) = p;
  }
  return low;
}

void look_at_shut_in(const Sight& sight, Report& report) {
  std::set<int> done;
  for (int p = 0; p < sight.parts(); ++p) {
    if (sight.role(p) != Role::one_way && !sight.is_one_of(p, {"shut_off", "quick_coupling"})) continue;
    for (const PortOf& at : sight.oil_ports(p)) {
      if (done.contains(sight.group(at))) continue;
      const std::set<int> groups = sight.reach(at, through_lines);
      done.insert(groups.begin(), groups.end());
      const auto room = shut_room(sight, groups);
      const Sight::Weakest weakest = sight.weakest(groups);
      if (!room || weakest.part < 0 || room->volume <= 0.0) continue;
      const auto highest = sight.highest(groups);
      const double before = highest ? std::max(highest->peak.value, 0.0) : 0.0;
      const double after = warmed(sight, *room, before);
      if (after <= weakest.rating) continue;
      report.add(
          at.part,
          fmt::format("{} shut {} in at {}: warmed by {} that rises to {}, and {} is rated {}",
                      room->shut_by_tags, sight.say(room->volume, Quantity::volume),
                      sight.say(before, Quantity::pressure), sight.say(warms_by, Quantity::warming),
                      sight.say(after, Quantity::pressure), sight.tag(weakest.part),
                      sight.say(weakest.rating, Quantity::pressure)),
          fmt::format("Put a small relief valve between {}, set to {} or less, or never shut both while "
                      "oil is between",
                      room->shut_by_tags, sight.say(weakest.rating, Quantity::pressure)));
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "speed of the oil in the lines",
              .harm = Harm::works_badly,
              .holds =
                  "For longer than a pulse of 0.1 s the oil runs no faster than 1.5 m/s in suction lines, "
                  "4 m/s in return lines, 10 m/s in pressure lines; without a run, suction lines with the "
                  "flow of the "
                  "pumps at their ends.",
              .otherwise = "Pressure is lost, oil gets hot, lines sing; in a suction line air comes out.",
              .remedy = "A wider bore: twice the bore is a quarter of the speed.",
              .source = "three notes on line velocity",
              .kinds = lines,
              .look = look_at_speed},
    TradeRule{.name = "little back pressure in the return line",
              .harm = Harm::hurts,
              .holds = "What has an open way to the reservoir through lines, filters, couplings and coolers "
                       "stands below 5 bar for all but a pulse of 0.1 s, and below what the weakest return "
                       "spring of a cylinder without a load makes while it goes in.",
              .otherwise =
                  "A dozen odd symptoms: reliefs and reducing valves climb, pilot checks stay shut or "
                  "open, clamps do not let go, seals leak.",
              .remedy = "A wider return line, drains and reliefs in lines of their own.",
              .kinds = in_the_return,
              .look = look_at_back_pressure},
    TradeRule{.name = "wall of the tube",
              .harm = Harm::hurts,
              .holds = "The working pressure of a tube's wall, by its strength, safety and rule, is at least "
                       "the highest pressure it sees, in the run or with the pumps' flow over the relief.",
              .otherwise = "It bursts, first in a bend.",
              .remedy = "A thicker wall or a narrower tube.",
              .source = "tube sizing notes (design factor 4)",
              .kinds = tubes,
              .look = look_at_walls},
    TradeRule{.name = "pilot line follows at once",
              .harm = Harm::works_badly,
              .holds =
                  "Where a line, capillary or snubber ends in pilots or pressure switches alone, its far "
                  "end has half of the highest pressure no later than 0.2 s after its near end.",
              .otherwise = "Valves open and shut late, later with cold oil.",
              .remedy = "A shorter and wider pilot line.",
              .kinds = piloted,
              .look = look_at_pilot_lines},
    TradeRule{.name = "no oil shut in between two valves",
              .harm = Harm::hurts,
              .holds =
                  "Where oil stands between checks, shut-offs and couplings alone, warming by 20 K keeps "
                  "it below the lowest rating there: its growth beside steel, its compression and the "
                  "swelling of the hoses counted.",
              .otherwise = "The sun alone bursts a seal, splits a body or jams a coupling.",
              .remedy = "A small relief valve between them.",
              .source = "web article on pressure change by temperature; closed form",
              .kinds = that_shut,
              .look = look_at_shut_in},
};

}  // namespace

std::span<const TradeRule> line_rules() { return rules; }

}  // namespace poise::rules
