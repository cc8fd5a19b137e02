// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the ratio of a cylinder's areas does to pressure, flow and force.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "rules/chapters.hpp"
#include "rules/pressed.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> cylinders{"double_acting_cylinder"};

/// What a rod side comes to when nothing, or too little, leaves it while the supply presses behind the
/// piston.
struct RodSide {
  int cylinder = -1;
  double feed = 0.0, pressure = 0.0, ratio = 0.0;
  Sight::Weakest weakest;
};

/// Of a cylinder whose rod side has no relief of its own and is rated for less than that; none otherwise.
std::optional<RodSide> overpressed_rod_side(const Sight& sight, int cylinder) {
  const auto a = *sight.port(cylinder, "A"), b = *sight.port(cylinder, "B");
  const auto feed = feeding_pressure(sight, a);
  if (!feed || !sight.limits_of(b).empty()) return std::nullopt;
  const Faces face = faces(sight, cylinder);
  const double against =
      weight_against(sight, cylinder) + forces_against(sight, *sight.port(cylinder, "rod")).least;
  RodSide side{cylinder, *feed, (*feed * face.a - against) / face.b, face.ratio(),
               sight.weakest(sight.reach(b, through_lines))};
  if (side.weakest.part < 0 || side.pressure <= side.weakest.rating) return std::nullopt;
  return side;
}

/// A throttle in the lines at a rod side that meters what leaves it, or −1.
int meters_out_of(const Sight& sight, PortOf rod_side) {
  for (const PortOf& at : sight.ports_in(sight.reach(rod_side, through_lines))) {
    const std::string_view port = sight.plan.port(at).name;
    const bool meters = (sight.is(at.part, "one_way_flow_control") && port == "B") ||
                        (sight.is(at.part, "compensated_flow_control") && port == "A") ||
                        sight.is(at.part, "needle");
    if (meters) return at.part;
  }
  return -1;
}

std::string lower_the_feed(const Sight& sight, const RodSide& side) {
  return fmt::format("put a relief valve set to at most {} on its rod side, or limit the supply to {}",
                     sight.say(side.weakest.rating, Quantity::pressure),
                     sight.say(side.feed * side.weakest.rating / side.pressure, Quantity::pressure));
}

void look_at_meter_out(const Sight& sight, Report& report) {
  for (int c : sight.all({"double_acting_cylinder"})) {
    const int throttle = meters_out_of(sight, *sight.port(c, "B"));
    if (throttle < 0) continue;
    const auto side = overpressed_rod_side(sight, c);
    if (!side) continue;
    report.add(
        c,
        fmt::format("{} throttles what leaves the rod side of {}: {} behind its piston make up to {} "
                    "there by the ratio of areas of {:.2f}, and {} is rated {}",
                    sight.tag(throttle), sight.tag(c), sight.say(side->feed, Quantity::pressure),
                    sight.say(side->pressure, Quantity::pressure), side->ratio, sight.tag(side->weakest.part),
                    sight.say(side->weakest.rating, Quantity::pressure)),
        fmt::format("Throttle what flows in, if the load does not pull; or {}",
                    lower_the_feed(sight, *side)));
  }
}

void look_at_blocked_rod_side(const Sight& sight, Report& report) {
  std::map<int, std::vector<RodSide>> shut_by;
  for (int c : sight.all({"double_acting_cylinder"})) {
    const auto ways = exits(sight, sight.reach(*sight.port(c, "B"), through_lines));
    if (ways.size() != 1 || !sight.is(ways[0], "shut_off")) continue;
    if (const auto side = overpressed_rod_side(sight, c)) shut_by[ways[0]].push_back(*side);
  }
  for (auto& [shutter, sides] : shut_by) {
    std::ranges::sort(sides, std::greater{}, [](const RodSide& s) { return s.pressure / s.weakest.rating; });
    const RodSide& worst = sides.front();
    std::vector<int> others;
    for (const RodSide& side : sides) {
      if (side.cylinder != worst.cylinder) others.push_back(side.cylinder);
    }
    report.add(shutter,
               fmt::format(
                   "{} is the only way out of the rod side of {}: while it is shut {} behind the piston make "
                   "{} there by the ratio of areas of {:.2f}, and {} is rated {}{}",
                   sight.tag(shutter), sight.tag(worst.cylinder), sight.say(worst.feed, Quantity::pressure),
                   sight.say(worst.pressure, Quantity::pressure), worst.ratio, sight.tag(worst.weakest.part),
                   sight.say(worst.weakest.rating, Quantity::pressure), likewise(sight, others)),
               fmt::format("For {}, {}", sight.tag(worst.cylinder), lower_the_feed(sight, worst)));
    report.also(others);
  }
}

/// The greatest ratio of areas of a cylinder that a pump can push in.
int most_uneven(const Sight& sight) {
  int found = -1;
  for (int c : sight.all({"double_acting_cylinder"})) {
    if (found < 0 || faces(sight, c).ratio() > faces(sight, found).ratio()) found = c;
  }
  return found;
}

/// A flow that is passed or exceeded for a tenth of a second in all, found by halving.
double lasting_flow(const Course& flow, double from) {
  double low = from, high = std::max(flow.highest().value, from);
  for (int i = 0; i < 12; ++i) {
    const double middle = 0.5 * (low + high);
    (flow.time_above(middle) > 0.1 ? low : high) = middle;
  }
  return low;
}

/// Whether a part stands in the way from directional valves back to the reservoir.
bool in_return(const Sight& sight, int p) {
  return sight.is_tank_line({p, 1}, through_restrictions) && is_behind_a_valve(sight, p);
}

void look_at_return_flow(const Sight& sight, Report& report) {
  const int cylinder = most_uneven(sight);
  const double pump = whole_pump_flow(sight);
  if (cylinder < 0 || pump <= 0.0) return;
  const double ratio = faces(sight, cylinder).ratio();
  for (int p : sight.all({"filter", "cooler", "check", "quick_coupling"})) {
    const double rated = rated_flow(sight, p);
    if (rated <= 0.0 || !in_return(sight, p)) continue;
    double flow = pump * ratio;
    if (sight.ran()) {
      const Course course = sight.flow({p, 0});
      const double over = std::max(rated, pump) * 1.05;
      if (!course || course.time_above(over) < 0.1) continue;
      flow = lasting_flow(course, over);
    }
    if (flow <= rated * 1.05) continue;
    report.add(p,
               fmt::format("{} passes {} on the way back and is rated {}: {} gives {:.2f} times what is "
                           "pumped into its rod side, and the pumps give {}",
                           sight.tag(p), sight.say(flow, Quantity::flow), sight.say(rated, Quantity::flow),
                           sight.tag(cylinder), ratio, sight.say(pump, Quantity::flow)),
               fmt::format("Take a {} for {} or more, with the line to the reservoir to match",
                           sight.is(p, "quick_coupling") ? "coupling" : sight.part(p).kind->about.kind,
                           sight.say(flow, Quantity::flow)));
  }
}

/// Whether both sides of a cylinder are joined for good, or by the centre of its valve.
enum class Joined { no, in_centre, always };
Joined sides_joined(const Sight& sight, int c) {
  const auto zone_a = sight.reach(*sight.port(c, "A"), through_lines);
  if (sight.touches(zone_a, *sight.port(c, "B"))) return Joined::always;
  const auto near_a = sight.reach(*sight.port(c, "A"), through_restrictions);
  const auto near_b = sight.reach(*sight.port(c, "B"), through_restrictions);
  for (int v : sight.all({"directional_4_3"})) {
    constexpr int regenerative = 4;
    const PortOf a = *sight.port(v, "A"), b = *sight.port(v, "B");
    const bool works_it = (sight.touches(near_a, a) && sight.touches(near_b, b)) ||
                          (sight.touches(near_a, b) && sight.touches(near_b, a));
    if (works_it && sight.values(v).word("centre") == regenerative) return Joined::in_centre;
  }
  return Joined::no;
}

void look_at_regeneration(const Sight& sight, Report& report) {
  for (int c : sight.all({"double_acting_cylinder"})) {
    const Joined joined = sides_joined(sight, c);
    if (joined == Joined::no) continue;
    const auto feed = feeding_pressure(sight, *sight.port(c, "A"));
    if (!feed) continue;
    double load = weight_against(sight, c);
    // Behind a valve the work may be done in another position; a weight is there in all of them.
    if (joined == Joined::always) load += forces_against(sight, *sight.port(c, "rod")).greatest;
    const Faces face = faces(sight, c);
    const double rod = face.a - face.b, force = *feed * rod;
    if (load <= force) continue;
    report.add(
        c,
        fmt::format("With both its sides joined {} pushes with its rod's area alone: {} at {}, and the load "
                    "is {}",
                    sight.tag(c), sight.say(force, Quantity::force), sight.say(*feed, Quantity::pressure),
                    sight.say(load, Quantity::force)),
        fmt::format("Let the rod side of {} to the reservoir while it pushes ({} are then enough), or take "
                    "a rod of {} or more",
                    sight.tag(c), sight.say(load / face.a, Quantity::pressure),
                    sight.say(std::sqrt(load / *feed * 4.0 / std::numbers::pi), Quantity::length)));
  }
}

void look_at_series(const Sight& sight, Report& report) {
  for (int first : sight.all({"double_acting_cylinder"})) {
    const auto middle = sight.reach(*sight.port(first, "B"), through_lines);
    if (!exits(sight, middle).empty()) continue;
    for (int second : all_cylinders(sight)) {
      if (second == first || !sight.touches(middle, *sight.port(second, "A"))) continue;
      const auto load = [&](int c) {
        return std::max(0.0,
                        weight_against(sight, c) + forces_against(sight, *sight.port(c, "rod")).greatest);
      };
      const Faces face = faces(sight, first);
      const double area = face_at_a(sight, second), behind = load(second) / area;
      const double need = (load(first) + behind * face.b) / face.a;
      report.add(
          first,
          fmt::format("{} and {} stand in series with nothing on the line between: {} has to bring {} for "
                      "both loads, and each {} that is lost between leaves {} {} short",
                      sight.tag(first), sight.tag(second), sight.tag(first),
                      sight.say(need, Quantity::pressure), sight.say(si::cm3, Quantity::volume),
                      sight.tag(second), sight.say(si::cm3 / area, Quantity::length)),
          fmt::format("Join a make-up feed to the line between them, through a check from a line of {} or "
                      "more, and let it out at the end of each stroke",
                      sight.say(behind, Quantity::pressure)));
    }
  }
}

constexpr std::array<std::string_view, 4> throttles{"double_acting_cylinder", "one_way_flow_control",
                                                    "needle", "compensated_flow_control"};
constexpr std::array<std::string_view, 2> shutters{"double_acting_cylinder", "shut_off"};
constexpr std::array<std::string_view, 5> on_the_way_back{"double_acting_cylinder", "filter", "cooler",
                                                          "check", "quick_coupling"};
constexpr std::array<std::string_view, 2> by_the_valve{"double_acting_cylinder", "directional_4_3"};

constexpr std::array rules{
    TradeRule{.name = "throttled rod side stands its pressure",
              .harm = Harm::hurts,
              .holds =
                  "Where what leaves a rod side is throttled, all on that side is rated for the supply's "
                  "pressure times the ratio of areas, more where the load pulls: (p·A_A + pull)/A_B; or "
                  "that side has a relief valve.",
              .otherwise = "Rod seal, hose or gauge bursts, and the main relief valve sees nothing of it.",
              .remedy = "Throttle the inflow, or guard the rod side by a relief valve, or lower the supply.",
              .source = "pages on intensification: rod side, annulus pressure",
              .kinds = throttles,
              .look = look_at_meter_out},
    TradeRule{.name = "rod side that can be shut stands its pressure",
              .harm = Harm::hurts,
              .holds = "Where a shut-off is the only way out of a rod side, all on that side is "
                       "rated for the supply's pressure times the ratio of areas, or has a relief valve.",
              .otherwise = "Forgotten shut it makes an intensifier of the cylinder, which bursts.",
              .remedy = "Put a relief valve on the rod side, or limit the supply, or leave the shut-off out.",
              .source = "page on cylinders (glossary); page on a cold rod side",
              .kinds = shutters,
              .look = look_at_blocked_rod_side},
    TradeRule{
        .name = "return parts take the cap side's flow",
        .harm = Harm::damages,
        .holds = "Filter, cooler, check and coupling on the way back are rated for the pumps' flow times "
                 "the greatest ratio of areas, 5 % allowed.",
        .otherwise = "Back pressure, a filter element pressed flat, a slow return.",
        .remedy = "Size the way back for what comes out behind the piston, not for the pump.",
        .source = "collapsed return filter (about twice the pump's flow); article on a retract speed myth",
        .kinds = on_the_way_back,
        .look = look_at_return_flow},
    TradeRule{.name = "joined sides still push the load",
              .harm = Harm::works_badly,
              .holds =
                  "Where the two sides of a cylinder are joined, the load stays below pressure times the "
                  "area of its rod.",
              .otherwise = "It runs fast until the load comes, and stands still.",
              .remedy = "Let the rod side to the reservoir for the work, or take a thicker rod.",
              .kinds = by_the_valve,
              .look = look_at_regeneration},
    TradeRule{.name = "cylinders in series are made up",
              .harm = Harm::damages,
              .holds = "The line between cylinders in series can be filled and emptied, and the first one "
                       "stands the sum of the pressures.",
              .otherwise = "What leaks between them adds up stroke by stroke: they drift apart, and one is "
                           "overloaded.",
              .remedy = "Feed the line between them through a check and let it out at the end of the stroke.",
              .source = "trade magazine's e-book on fluid-power circuits, book 2",
              .kinds = cylinders,
              .look = look_at_series},
};

}  // namespace

std::span<const TradeRule> flow_ratio_rules() { return rules; }

}  // namespace poise::rules
