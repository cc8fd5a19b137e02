// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Loads that pilot-operated checks hold.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/holding.hpp"
#include "rules/load.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> checks{"pilot_operated_check"};
constexpr std::array<std::string_view, 2> checks_and_valves{"pilot_operated_check", "directional_4_3"};
constexpr std::array<std::string_view, 2> checks_and_cylinders{"pilot_operated_check",
                                                               "double_acting_cylinder"};

/// A pilot-operated check with the load that it holds.
struct HeldBy {
  HeldLoad load;
  int valve = 0;
  double ratio = 1.0, cracking = 0.0, held = 0.0;  ///< held: Pa that the greatest load makes
  bool outside = false;                            ///< drained outside
  bool by_other_side = false;                      ///< its pilot is the other side of the cylinder

  /// Share of a pilot pressure that comes back at the load's side through the piston: φ or 1/φ.
  double returns(const Sight& sight) const {
    if (!by_other_side) return 0.0;
    const double phi = area_ratio(sight, load.cylinder);
    return load.side.port == 0 ? 1.0 / phi : phi;
  }
};

std::vector<HeldBy> held_by_checks(const Sight& sight) {
  std::vector<HeldBy> found;
  if (sight.all({"pilot_operated_check"}).empty()) return found;
  for (const HeldLoad& load : held_loads(sight)) {
    for (int valve : valves_at(sight, load.side, "pilot_operated_check", "B")) {
      const Values& v = sight.values(valve);
      HeldBy each{load, valve, v["ratio"], v["cracking_pressure"], load.most / load.area};
      each.outside = v.word("drain") == 1;
      each.by_other_side = is_piloted_by_other_side(sight, load, valve);
      found.push_back(each);
    }
  }
  return found;
}

/// The valve of three positions that feeds a check's pilot, or −1.
int feeder(const Sight& sight, PortOf pilot) {
  const auto zone = sight.reach(pilot, through_restrictions);
  for (int valve : sight.all({"directional_4_3"})) {
    if (sight.touches(zone, *sight.port(valve, "A")) || sight.touches(zone, *sight.port(valve, "B")))
      return valve;
  }
  return -1;
}

void look_centre(const Sight& sight, Report& report) {
  constexpr std::array<std::string_view, 5> centres{"closed", "open", "tandem", "float", "regenerative"};
  std::set<int> told;
  for (const HeldBy& each : held_by_checks(sight)) {
    const PortOf pilot = *sight.port(each.valve, "X");
    const int valve = feeder(sight, pilot);
    if (valve < 0 || told.contains(valve)) continue;
    const int centre = sight.values(valve).word("centre");
    if (centre == 1 || centre == 3) continue;
    told.insert(valve);
    const double opens = std::max(0.0, each.held + each.cracking) / each.ratio;
    report.add(each.valve,
               fmt::format("The centre of {} is {} and keeps what stands at the pilot of {}, and {} there "
                           "already let go of {}",
                           sight.tag(valve), centres[centre], sight.tag(each.valve),
                           sight.say(opens, Quantity::pressure), sight.say(each.held, Quantity::pressure)),
               fmt::format("Give {} a centre that joins A and B to tank, so that the pilot of {} falls below "
                           "{}",
                           sight.tag(valve), sight.tag(each.valve), sight.say(opens, Quantity::pressure)));
  }
}

/// Pressure behind the check as its pilot first comes, Pa.
double behind_at_start(const Sight& sight, const HeldBy& each) {
  if (each.outside || !sight.ran()) return 0.0;
  const Course pilot = sight.pressure(*sight.port(each.valve, "X"));
  const auto begins = pilot.first_above(3 * si::bar);
  const Course behind = sight.pressure({each.valve, 0});
  return begins && behind ? std::max(0.0, behind.at(*begins)) : 0.0;
}

void look_pilot_pressure(const Sight& sight, Report& report) {
  constexpr double usable = 0.8;
  const auto there = supply(sight);
  if (!there) return;
  for (const HeldBy& each : held_by_checks(sight)) {
    const double back = each.returns(sight), lever = each.ratio - back;
    if (lever <= 0.0) continue;  // it locks itself: another rule
    const double load = each.held + each.cracking;
    const double needs =
        (load + (each.outside ? 0.0 : (each.ratio - 1.0) * behind_at_start(sight, each))) / lever;
    if (needs <= there->cracking) continue;
    const double ratio = load / (usable * there->cracking) + back;
    report.add(
        each.valve,
        fmt::format("{} needs {} at its pilot to let {} go at {:.3g} : 1, and {} opens at {}",
                    sight.tag(each.valve), sight.say(needs, Quantity::pressure),
                    sight.say(each.held, Quantity::pressure), each.ratio, sight.tag(there->valve),
                    sight.say(there->cracking, Quantity::pressure)),
        fmt::format("Give {} a pilot ratio of {:.1f} : 1 or more, or {} a larger bore", sight.tag(each.valve),
                    std::ceil(10.0 * ratio) / 10.0, sight.tag(each.load.cylinder)));
  }
}

void look_locks_itself(const Sight& sight, Report& report) {
  for (const HeldBy& each : held_by_checks(sight)) {
    if (!each.by_other_side || each.load.side.port != 1) continue;
    const double phi = area_ratio(sight, each.load.cylinder);
    if (each.ratio >= phi + 1.0 - 0.005) continue;
    report.add(
        each.valve,
        fmt::format(
            "{} has a pilot ratio of {:.3g} : 1, and its pilot makes {:.2f} times its own pressure at {}{}",
            sight.tag(each.valve), each.ratio, phi, sight.name(each.load.side),
            each.ratio <= phi ? ": it never opens, for more pilot locks it more" : ""),
        fmt::format("Give {} a pilot ratio of {:.1f} : 1 or more", sight.tag(each.valve),
                    std::ceil(10.0 * (phi + 1.0)) / 10.0));
  }
}

/// How near a check comes to shutting by what stands behind it while a load comes down.
struct Nearness {
  double behind = 0.0, shuts = 0.0, time = 0.0;  ///< at the moment at which it is nearest
  double near = 0.0, lowers = 0.0;               ///< s: how long it is near, of how long in all
  static double share(double behind, double shuts) { return shuts > 0.0 ? behind / shuts : 1.0; }
};
Nearness nearness(const Sight& sight, const HeldBy& each) {
  constexpr double is_near = 0.8, of_fastest = 0.1;
  const Course flow = sight.flow({each.valve, 0}), behind = sight.pressure({each.valve, 0}),
               load = sight.pressure({each.valve, 1}), pilot = sight.pressure(*sight.port(each.valve, "X"));
  Nearness found;
  if (!flow || !behind || !load || !pilot) return found;
  const double lowers = of_fastest * flow.lowest().value;
  for (std::size_t row = 1; row < flow.time().size(); ++row) {
    if (flow.value()[row] > lowers) continue;
    const double step = flow.time()[row] - flow.time()[row - 1], back = behind.value()[row];
    found.lowers += step;
    const double shuts =
        (each.ratio * pilot.value()[row] - load.value()[row] - each.cracking) / (each.ratio - 1.0);
    const double share = Nearness::share(back, shuts);
    if (back < 3 * si::bar || share < is_near) continue;
    if (found.near == 0.0 || share > Nearness::share(found.behind, found.shuts)) {
      found.behind = back;
      found.shuts = shuts;
      found.time = flow.time()[row];
    }
    found.near += step;
  }
  return found;
}

/// What throttles between a check and tank.
std::vector<int> behind_check(const Sight& sight, int valve) {
  std::vector<int> found = throttles_in(sight, way_to_tank(sight, {valve, 0}));
  std::ranges::copy(valves_at(sight, {valve, 0}, "counterbalance", "A"), std::back_inserter(found));
  return found;
}

void look_back_pressure(const Sight& sight, Report& report) {
  constexpr double of_the_time = 0.1;  // less is a valve that shifts
  if (!sight.ran()) return;
  for (const HeldBy& each : held_by_checks(sight)) {
    if (each.outside) continue;
    const auto throttles = behind_check(sight, each.valve);
    if (throttles.empty()) continue;
    const Nearness nearest = nearness(sight, each);
    if (nearest.near <= of_the_time * nearest.lowers) continue;
    const std::string behind = tags(sight, throttles);
    report.add(
        each.valve,
        fmt::format("{} shuts again at {} behind it, and {} keeps {} there as {} comes down, {}",
                    sight.tag(each.valve), sight.say(std::max(0.0, nearest.shuts), Quantity::pressure),
                    behind, sight.say(nearest.behind, Quantity::pressure), sight.tag(each.load.cylinder),
                    sight.when(nearest.time)),
        fmt::format("Put {} between {} and {}, or take a {} drained outside; else keep it below {}", behind,
                    sight.tag(each.load.cylinder), sight.tag(each.valve), sight.tag(each.valve),
                    sight.say(std::max(0.0, 0.5 * nearest.shuts), Quantity::pressure)),
        nearest.time);
  }
}

/// Whether something throttles a load on its way down: a throttle on either side of the check, a one-way
/// flow control only the way round in which it meters.
bool is_throttled(const Sight& sight, const HeldBy& each) {
  const auto load_side = sight.reach(each.load.side, through_restrictions);
  const auto near = sight.reach(each.load.side, through_lines);
  const auto meters = [&](int p) {
    if (sight.is_one_of(p, {"filter", "quick_coupling"})) return false;
    if (!sight.is(p, "one_way_flow_control")) return true;
    if (sight.touches(load_side, {p, 0})) return sight.touches(near, {p, 1});
    return sight.touches(sight.reach(PortOf{each.valve, 0}, through_dividers), {p, 1}) ||
           sight.is_tank_line({p, 0});
  };
  return std::ranges::any_of(throttles_in(sight, load_side), meters) ||
         std::ranges::any_of(behind_check(sight, each.valve), meters) ||
         !valves_at(sight, each.load.side, "counterbalance", "A").empty();
}

void look_no_metering(const Sight& sight, Report& report) {
  std::vector<int> others;
  std::optional<HeldBy> first;
  for (const HeldBy& each : held_by_checks(sight)) {
    if (is_throttled(sight, each)) continue;
    if (first)
      others.push_back(each.valve);
    else
      first = each;
  }
  if (!first) return;
  const Course speed = sight.speed(first->load.cylinder);
  const Peak down = !speed ? Peak{} : first->load.hanging ? speed.highest() : speed.lowest();
  const std::string fast =
      std::abs(down.value) > 1 * si::mm
          ? fmt::format(", and it comes down at up to {} {}",
                        sight.say(std::abs(down.value), Quantity::speed), sight.when(down.time))
          : std::string();
  report.add(first->valve,
             fmt::format("{} is open or shut, and nothing else throttles the {} of {} on {}{}{}",
                         sight.tag(first->valve), sight.say(first->held, Quantity::pressure),
                         sight.tag(first->load.load), sight.tag(first->load.cylinder), fast,
                         likewise(sight, others)),
             fmt::format("Put a one-way flow control between {} and {}, metering towards {}, or lower over a "
                         "counterbalance valve set to {}",
                         sight.name(first->load.side), sight.tag(first->valve), sight.tag(first->valve),
                         sight.say(1.3 * first->held, Quantity::pressure)),
             down.value != 0.0 ? std::optional(down.time) : std::nullopt);
  report.also(others);
}

/// What rushes out of a side of a cylinder as the check that keeps it pressed lets go.
void look_bang_at(const Sight& sight, int valve, PortOf side, Report& report) {
  constexpr double over_rated = 3.0, counts = 50.0, quickly = 0.2, left = 0.3;
  const auto rated = sight.given(valve, "rated_flow");
  const Course flow = sight.flow({valve, 0}), pressure = sight.pressure(side);
  if (!rated || !flow || !pressure) return;
  const Peak peak = flow.lowest();
  if (-peak.value <= over_rated * *rated) return;
  // Where a load goes on making the pressure it runs away, which is another rule's.
  const double before = std::max(0.0, peak.time - 0.5 * quickly), was = pressure.at(before);
  if (pressure.at(before + quickly) > left * was) return;
  const Trapped oil = trapped(sight, side, before);
  if (oil.energy < counts) return;
  report.add(valve,
             fmt::format("{} lets {} at {} go at once: {} rush through it {}, rated {}", sight.tag(valve),
                         sight.say(oil.energy, Quantity::energy), sight.name(side),
                         sight.say(-peak.value, Quantity::flow), sight.when(peak.time),
                         sight.say(*rated, Quantity::flow)),
             fmt::format("Give {} a decompression poppet, or let {} down from {} through a throttle first",
                         sight.tag(valve), sight.name(side), sight.say(was, Quantity::pressure)),
             peak.time);
}

void look_bang(const Sight& sight, Report& report) {
  if (!sight.ran() || sight.all({"pilot_operated_check"}).empty()) return;
  for (int c : all_cylinders(sight)) {
    for (PortOf side : sight.oil_ports(c)) {
      for (int valve : valves_at(sight, side, "pilot_operated_check", "B")) {
        if (!sight.is_tank_line({valve, 0}, through_restrictions)) look_bang_at(sight, valve, side, report);
      }
    }
  }
}

constexpr std::array rules{
    TradeRule{
        .name = "centre lets the pilot go",
        .harm = Harm::hurts,
        .holds = "A valve of three positions that feeds the pilot of a load-holding check joins A and B "
                 "to tank in its centre (open or float).",
        .otherwise = "Closed or tandem, it keeps the pilot pressed: the check stays open and the load "
                     "creeps or falls in neutral.",
        .remedy = "A centre that joins both lines to tank.",
        .source = "trade magazine's e-book on fluid-power circuits, book 1; centre rule common practice",
        .kinds = checks_and_valves,
        .look = look_centre},
    TradeRule{.name = "pilot pressure to let the load go",
              .harm = Harm::hurts,
              .holds = "The pilot that a check needs, (load + (ratio − 1)·back pressure + cracking)/(ratio − "
                       "what the pilot's own side presses back), is no more than the pump's relief valve "
                       "leaves.",
              .otherwise = "The load does not come down, or in jerks.",
              .remedy = "A larger pilot ratio, a larger bore, or a higher setting within the ratings.",
              .source = "force balance on seat and pilot piston; trade column on pilot ratio",
              .kinds = checks,
              .look = look_pilot_pressure},
    TradeRule{.name = "check at the rod side can open",
              .harm = Harm::damages,
              .holds = "A check that holds the rod side with its pilot from the cap side has a ratio of the "
                       "cylinder's area ratio plus 1 or more.",
              .otherwise = "More pilot makes more lock: it never opens, and the rod side is pressed past the "
                           "pump's pressure.",
              .remedy = "A larger pilot ratio, or a pilot from elsewhere.",
              .source = "trade column on pilot ratio (area ratio 2:1 needs 3:1 or more); cartridge FAQ",
              .kinds = checks_and_cylinders,
              .look = look_locks_itself},
    TradeRule{.name = "no back pressure on a pilot check",
              .harm = Harm::hurts,
              .holds = "While a load comes down, what throttles behind an internally drained check keeps it "
                       "below 0.8 of (ratio·pilot − load side − cracking)/(ratio − 1).",
              .otherwise = "It shuts, opens, shuts: saw-tooth lowering, chatter, burst hoses.",
              .remedy = "Throttles, filters and couplings between cylinder and check, or a check with an "
                        "outside drain.",
              .source = "trade magazine's e-book on fluid-power circuits, book 1",
              .kinds = checks,
              .look = look_back_pressure},
    TradeRule{
        .name = "something meters beside a pilot check",
        .harm = Harm::hurts,
        .holds = "Where a check alone holds a load, a throttle that meters, or a counterbalance valve, is "
                 "in the way down as well.",
        .otherwise = "The load runs ahead, the pilot falls, the check shuts: it comes down in jerks, or "
                     "without any limit.",
        .remedy = "A one-way flow control at the load side, or a counterbalance valve.",
        .source = "cartridge FAQ (a pilot-operated check does not modulate)",
        .kinds = checks,
        .look = look_no_metering},
    TradeRule{.name = "check lets go gently",
              .harm = Harm::damages,
              .holds = "As a check lets oil with 50 J or more in it go, no more than 3 times its rated flow "
                       "rushes through it.",
              .otherwise = "A bang that breaks seals and pipes.",
              .remedy = "A decompression poppet, or a throttle that lets the pressure down first.",
              .source = "trade magazine's e-book on fluid-power circuits, book 1; thresholds common practice",
              .kinds = checks,
              .look = look_bang},
};

}  // namespace

std::span<const TradeRule> pilot_check_rules() { return rules; }

}  // namespace poise::rules
