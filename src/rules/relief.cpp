// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Relief valves: what they guard, how high, and what they let through.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "circuit/rating.hpp"
#include "parts/laws.hpp"
#include "rules/chapters.hpp"
#include "rules/kinds.hpp"
#include "rules/pressed.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 2> direct_reliefs{"relief", "externally_drained_relief"};

/// An opening from which on a valve counts as open.
constexpr double open_from = 0.01;

/// Where the pressure under a relief valve gets to, without what a lower valve guards.
std::set<int> guarded_by(const Sight& sight, const Limit& limit) {
  std::set<int> zone = pressed_from(sight, {limit.part, 0});
  const std::vector<int> pumps = pumps_of(sight, {limit.part, 0});
  for (int other : sight.all(Role::pressure_limit)) {
    if (other == limit.part || sight.limit(other).cracking >= limit.cracking ||
        !limits_all(sight, other, pumps))
      continue;
    for (int group : pressed_from(sight, {other, 0})) zone.erase(group);
  }
  zone.merge(sight.reach(PortOf{limit.part, 0}, through_lines));
  return zone;
}

void look_at_weakest(const Sight& sight, Report& report) {
  for (int valve : sight.all(Role::pressure_limit)) {
    const Limit limit = sight.limit(valve);
    const double full = full_flow_pressure(sight, limit);
    const auto tell = [&](const std::string& who, int weak, double rating) {
      if (full <= rating) return;
      report.add(
          valve,
          fmt::format("{} lets the pressure rise to {} with the whole pump flow over it, and {} rated {}",
                      sight.tag(valve), sight.say(full, Quantity::pressure), who,
                      sight.say(rating, Quantity::pressure)),
          fmt::format("Set {} so that it reads at most {} with the whole flow, or put a part for {} in "
                      "the place of {}",
                      sight.tag(valve), sight.say(rating, Quantity::pressure),
                      sight.say(full, Quantity::pressure), sight.tag(weak)));
    };
    if (const auto own = sight.given(valve, "rated_pressure"))
      tell("is itself", valve, rating_from(*own).alarm);
    const auto weakest = sight.weakest(guarded_by(sight, limit), [&](int part) { return part != valve; });
    if (weakest.part >= 0)
      tell(sight.tag(weakest.part) + ", which sees it, is", weakest.part, weakest.rating);
  }
}

/// Share by which a relief valve cracks above the highest working pressure at least.
constexpr double above_the_work = 0.10;
/// How long a pressure must last to be work, s; shorter is a shock.
constexpr double work_lasts = 0.2;
/// How long a pressure is held that nothing moves under, s.
constexpr double hold_lasts = 1.0;

/// The pressure that moving something takes, where it comes too close under the cracking pressure: not what
/// a pump makes that is dead-headed at the end of its work.
Peak moving_pressure(const Sight& sight, const Limit& limit, const Course& line, double too_close,
                     const std::vector<Driven>& all) {
  const Course over = sight.flow({limit.part, 0});
  // Where a throttle leaves most of the flow to the valve, the throttle makes the pressure, not the work.
  const double most_over = 0.5 * flow_over(sight, limit);
  std::vector<std::size_t> close;
  for (std::size_t row = 1; row < line.time().size(); ++row) {
    if (line.value()[row] > too_close) close.push_back(row);
  }
  Peak most;
  for (const Driven& driven : all) {
    const Course speed = sight.speed(driven.part(), driven.motion), own = sight.pressure(driven.port);
    if (!speed || !own || driven.pace <= 0.0) continue;
    const auto works = [&](std::size_t row) {
      return own.value()[row] > too_close && driven.forward(speed.value()[row]) > driven.moves() &&
             (!over || most_over <= 0.0 || over.value()[row] < most_over);
    };
    double lasts = 0.0;
    for (std::size_t row : close) lasts += works(row) ? line.time()[row] - line.time()[row - 1] : 0.0;
    if (lasts < work_lasts) continue;
    const Peak here = lasting_while(line, work_lasts, too_close, works);
    if (here.value > most.value) most = here;
  }
  return most;
}

/// The pressure that stands at the valve before it has ever opened, where that is too close under it.
Peak held_pressure(const Sight& sight, int valve, const Course& line, double too_close) {
  const double opens = sight.state(valve, "opening").first_above(open_from).value_or(1e300);
  return lasting_while(line, hold_lasts, too_close,
                       [&](std::size_t row) { return line.time()[row] < opens; });
}

void look_above_work(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int valve : sight.all(Role::pressure_limit)) {
    const Course line = sight.pressure({valve, 0});
    const Limit limit = sight.limit(valve);
    const double cracks = limit.cracking, too_close = cracks / (1.0 + above_the_work);
    if (!line || line.highest().value <= too_close) continue;
    const std::set<int> zone = pressed_from(sight, {valve, 0});
    const auto in_zone = [&](int part) { return sight.touches(zone, {part, 0}); };
    // A switch and a compensator end the pumping by themselves; they have rules of their own.
    const bool ends_by_itself = std::ranges::any_of(sight.all({"pressure_switch"}), in_zone) ||
                                !sight.all({"variable_pump", "air_driven_pump"}).empty();
    Peak work = moving_pressure(sight, limit, line, too_close, driven_in(sight, zone));
    if (work.value <= 0.0 && !ends_by_itself) work = held_pressure(sight, valve, line, too_close);
    if (work.value <= 0.0) continue;
    const double right = work.value * (1.0 + above_the_work);
    report.add(
        valve,
        fmt::format("{} cracks at {}, and the work on its line takes {} {}: 10 % between them would be "
                    "{}",
                    sight.tag(valve), sight.say(cracks, Quantity::pressure),
                    sight.say(work.value, Quantity::pressure), sight.when(work.time),
                    sight.say(right, Quantity::pressure)),
        fmt::format(
            "Let {} crack at {} or more if all that sees it stands that, or bring the work down to {}",
            sight.tag(valve), sight.say(right, Quantity::pressure), sight.say(too_close, Quantity::pressure)),
        work.time);
  }
}

/// The flow over a valve in the run where it is more than it passes within its band, m3/s.
Peak more_than_rated(const Sight& sight, const Limit& limit) {
  if (!sight.ran()) return {};
  const Course flow = sight.flow({limit.part, 0});
  const Peak over = flow.highest();
  // A spike as it opens is no flow that it has to carry.
  return over.value > 1.05 * limit.rated_flow && flow.time_above(limit.rated_flow) > 0.02 ? over : Peak{};
}

void look_at_capacity(const Sight& sight, Report& report) {
  std::set<int> seen;
  for (int valve : sight.all(Role::pressure_limit)) {
    if (seen.contains(sight.group({valve, 0}))) continue;
    seen.merge(sight.reach(PortOf{valve, 0}, through_lines));
    const Limit limit = sight.limit(valve);
    double passes = 0.0;
    for (const Limit& other : sight.limits_of({valve, 0})) passes += other.rated_flow;
    const double pumped = flow_over(sight, limit);
    const Peak over = more_than_rated(sight, limit);
    if (passes > 0.0 && pumped > 1.001 * passes) {
      const std::vector<int> pumps = pumps_with_all_flow(sight, {valve, 0});
      report.add(
          valve,
          fmt::format("{} deliver{} {} into the line of {}, which passes {} at the end of its band",
                      tags(sight, pumps), pumps.size() > 1 ? "" : "s", sight.say(pumped, Quantity::flow),
                      sight.tag(valve), sight.say(passes, Quantity::flow)),
          fmt::format("Take a relief valve for {} or more in place of {}",
                      sight.say(1.1 * pumped, Quantity::flow), sight.tag(valve)));
    } else if (over.value > 0.0) {
      report.add(valve,
                 fmt::format("{} goes over {} {}, more than the {} that it passes at the end of its band",
                             sight.say(over.value, Quantity::flow), sight.tag(valve), sight.when(over.time),
                             sight.say(limit.rated_flow, Quantity::flow)),
                 fmt::format("Take a relief valve for {} or more in place of {}",
                             sight.say(1.1 * over.value, Quantity::flow), sight.tag(valve)),
                 over.time);
    }
  }
}

/// Back pressure that a relief valve may have: the less of 3 bar and 2 % of its cracking pressure.
double back_pressure_limit(double cracks) { return std::min(3.0 * si::bar, 0.02 * cracks); }

void look_at_tank_pressure(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int valve : sight.all(Role::pressure_limit)) {
    const PortOf chamber =
        sight.is(valve, "externally_drained_relief") ? *sight.port(valve, "Y") : PortOf{valve, 1};
    const Course line = sight.pressure({valve, 0}), back = sight.pressure(chamber);
    if (!line || !back) continue;
    const double cracks = sight.limit(valve).cracking, most = back_pressure_limit(cracks);
    if (back.highest().value <= most) continue;
    // Without pressure in the line nobody needs the limit.
    const Peak highest =
        lasting_while(back, 0.1, most, [&](std::size_t row) { return line.value()[row] > 0.5 * cracks; });
    if (highest.value <= 0.0) continue;
    report.add(
        valve,
        fmt::format("{} stand in the spring chamber of {} {}: it cracks at {} over that, so only at {}",
                    sight.say(highest.value, Quantity::pressure), sight.tag(valve), sight.when(highest.time),
                    sight.say(cracks, Quantity::pressure),
                    sight.say(cracks + highest.value, Quantity::pressure)),
        fmt::format("Bring the pressure at {} down to {} with a wider or shorter line of its own to tank",
                    sight.name(chamber), sight.say(most, Quantity::pressure)),
        highest.time);
  }
}

/// Share of its rated flow below which a direct-acting valve chatters.
constexpr double least_flow = 0.10;
/// A tank line is long from here on, m, and thin where oil runs faster, m/s.
constexpr double long_line = 2.0, fast_oil = 4.0;

/// A long thin line right at the valve's outlet: its part, or −1.
int thin_tank_line(const Sight& sight, int valve, double flow) {
  for (const PortOf& at : sight.beside({valve, 1})) {
    if (!sight.is_one_of(at.part, {"hose", "tube"}) || sight.has_reservoir({sight.group({valve, 1})}))
      continue;
    const double bore = sight.values(at.part)["bore"];
    if (sight.values(at.part)["length"] > long_line && flow / circle(bore) > fast_oil) return at.part;
  }
  return -1;
}

void look_at_chatter(const Sight& sight, Report& report) {
  for (int valve : sight.all({"relief", "externally_drained_relief"})) {
    const Limit limit = sight.limit(valve);
    // A hand or an air-driven pump gives drops to the smallest valve that there is, and none chatters.
    const auto pulses = [&](int pump) { return sight.is_one_of(pump, {"hand_pump", "air_driven_pump"}); };
    const double flow = flow_over(sight, limit);
    if (flow <= 0.0 || std::ranges::any_of(pumps_of(sight, {valve, 0}), pulses)) continue;
    if (flow < 0.999 * least_flow * limit.rated_flow) {
      report.add(
          valve,
          fmt::format("{} passes {} at most, {} of the {} that it is made for, where 10 % is the least",
                      sight.tag(valve), sight.say(flow, Quantity::flow),
                      sight.say(flow / limit.rated_flow, Quantity::share),
                      sight.say(limit.rated_flow, Quantity::flow)),
          fmt::format("Take a direct-acting valve for {} or less, or a pilot-operated one",
                      sight.say(flow / least_flow, Quantity::flow)));
    } else if (const int line = thin_tank_line(sight, valve, flow); line >= 0) {
      const double bore = sight.values(line)["bore"];
      report.add(
          valve,
          fmt::format("{} blows off into {}, {} long with {} bore: {} run there at {}", sight.tag(valve),
                      sight.tag(line), sight.say(sight.values(line)["length"], Quantity::length),
                      sight.say(bore, Quantity::length), sight.say(flow, Quantity::flow),
                      sight.say(flow / circle(bore), Quantity::speed)),
          fmt::format("Give {} a bore of {} or more, or less than {} of length", sight.tag(line),
                      sight.say(std::sqrt(flow / (0.25 * std::numbers::pi * fast_oil)), Quantity::length),
                      sight.say(long_line, Quantity::length)));
    }
  }
}

/// Share of the cycle beyond which a relief valve is a control, and the heat from which on it tells, W.
constexpr double share_of_cycle = 0.10, least_heat = 500.0;

void look_at_heat(const Sight& sight, Report& report) {
  if (!sight.ran() || sight.duration() <= 0.0) return;
  for (int valve : sight.all(Role::pressure_limit)) {
    const double open = sight.state(valve, "opening").time_above(open_from);
    if (open <= share_of_cycle * sight.duration()) continue;
    const Course flow = sight.flow({valve, 0}), in = sight.pressure({valve, 0}),
                 out = sight.pressure({valve, 1});
    if (!flow || !in || !out) continue;
    double heat = 0.0;
    for (std::size_t row = 1; row < flow.time().size(); ++row) {
      heat += (in.value()[row] - out.value()[row]) * flow.value()[row] *
              (flow.time()[row] - flow.time()[row - 1]);
    }
    const double mean = heat / sight.duration();
    if (mean < least_heat) continue;
    report.add(valve,
               fmt::format("{} is open for {} of the {} that the cycle lasts, and makes {} of heat on "
                           "average",
                           sight.tag(valve), sight.say(open, Quantity::time),
                           sight.say(sight.duration(), Quantity::time), sight.say(mean, Quantity::power)),
               fmt::format("Let the pump stop, idle or be unloaded while the work only holds, so that {} is "
                           "open for no more than {} of a cycle",
                           sight.tag(valve), sight.say(share_of_cycle * sight.duration(), Quantity::time)));
  }
}

/// Share from which on it matters with which flow a valve was set.
constexpr double misread_from = 0.05;

void look_at_named_flow(const Sight& sight, Report& report) {
  std::vector<int> valves = sight.all(Role::pressure_limit);
  std::erase_if(valves, [&](int valve) {
    // Only a valve right at a pump is set with the pump's flow over it.
    const auto ports = sight.ports_in(sight.reach(PortOf{valve, 0}, through_lines));
    const auto is_pump = [&](PortOf at) { return sight.role(at.part) == Role::source; };
    return sight.given(valve, "setting_flow") || !sight.given(valve, "setting") ||
           std::ranges::none_of(ports, is_pump) ||
           full_flow_pressure(sight, sight.limit(valve)) < (1.0 + misread_from) * sight.limit(valve).cracking;
  });
  if (valves.empty()) return;
  const std::vector<int> others(valves.begin() + 1, valves.end());
  const Limit limit = sight.limit(valves.front());
  const std::string tag = sight.tag(limit.part);
  const double flow = std::min(flow_over(sight, limit), limit.rated_flow);
  report.add(
      limit.part,
      fmt::format("The {} of {} are taken for the pressure at which it cracks; with the whole {} over it "
                  "its gauge reads {}{}",
                  sight.say(limit.cracking, Quantity::pressure), tag, sight.say(flow, Quantity::flow),
                  sight.say(full_flow_pressure(sight, limit), Quantity::pressure), likewise(sight, others)),
      fmt::format("Say with which flow {} was set: setting_flow = \"{}\" if its gauge read {} with the "
                  "whole pump flow over it",
                  tag, sight.say(flow, Quantity::flow), sight.say(limit.cracking, Quantity::pressure)));
  report.also(others);
}

constexpr std::array rules{
    TradeRule{.name = "relief below the weakest part",
              .harm = Harm::hurts,
              .holds = "With the whole pump flow over it a relief valve holds the pressure below the lowest "
                       "rating of all that sees it: hose, fitting, gauge, tube, valve, each side of each "
                       "cylinder.",
              .otherwise = "The part with the lowest rating is the limit, and it bursts.",
              .remedy = "Lower the setting, or replace the part by one that stands the pressure.",
              .source = "workholding handbook text",
              .kinds = reliefs,
              .look = look_at_weakest},
    TradeRule{.name = "relief above the work",
              .harm = Harm::works_badly,
              .holds =
                  "A relief valve cracks at least 10 % above the pressure that the work on its line takes "
                  "while something moves or is held; a pump that is dead-headed at the end of a stroke "
                  "may open it.",
              .otherwise =
                  "It weeps in every cycle: heat, a pressure that is never reached, a setting that drifts.",
              .remedy = "Raise the setting, within the ratings of all that sees it, or work at a lower "
                        "pressure.",
              .source = "training texts (10 to 15 %)",
              .kinds = reliefs,
              .look = look_above_work},
    TradeRule{.name = "relief passes the whole pump flow",
              .harm = Harm::hurts,
              .holds =
                  "Within its band a relief valve passes the flow of all pumps on its line together, and "
                  "whatever a loaded cylinder pushes over it.",
              .otherwise = "The pressure with the whole flow over it stands far above the setting.",
              .remedy = "Take a relief valve for at least 110 % of the flow.",
              .source = "rules for ships' hydraulics (110 % of the flow, rise no more than 10 %)",
              .kinds = reliefs,
              .look = look_at_capacity},
    TradeRule{
        .name = "no pressure behind the relief",
        .harm = Harm::hurts,
        .holds = "While its line is under pressure the spring chamber of a relief valve stands under no "
                 "more than 2 % of its cracking pressure, and under no more than 3 bar.",
        .otherwise = "Every bar in the chamber is a bar more on the limit.",
        .remedy = "Give the valve a short wide line of its own to tank, or take the kind that is drained "
                  "outside.",
        .source = "force balance on the valve; figures common practice",
        .kinds = reliefs,
        .look = look_at_tank_pressure},
    TradeRule{.name = "relief valve not too big",
              .harm = Harm::works_badly,
              .holds =
                  "A direct-acting relief valve gets at least 10 % of its rated flow, and a tank line of "
                  "its own over 2 m long is wide enough for 4 m/s.",
              .otherwise = "It chatters: noise, a worn seat, a gauge needle that blurs.",
              .remedy = "Take a smaller valve or a pilot-operated one; widen or shorten the tank line.",
              .kinds = direct_reliefs,
              .look = look_at_chatter},
    TradeRule{.name = "relief valve is no control",
              .harm = Harm::works_badly,
              .holds =
                  "A relief valve is open for no more than 10 % of the cycle, or makes less than 500 W of "
                  "heat on average.",
              .otherwise = "All that goes over it heats the oil.",
              .remedy = "Stop, idle or unload the pump while the work only holds.",
              .source = "heat: pressure times flow; 10 % and 500 W common practice",
              .kinds = reliefs,
              .look = look_at_heat},
    TradeRule{.name = "the setting names its flow",
              .harm = Harm::worth_knowing,
              .holds = "The setting of a relief valve at a pump says with which flow it was read, where "
                       "cracking and the "
                       "whole pump flow are 5 % or more apart.",
              .otherwise = "The setting is misread by 5 to 15 %: in the shop a relief valve is set with the "
                           "whole flow over it.",
              .remedy = "Say with which flow it was set.",
              .source = "course text on setting; figures common practice",
              .kinds = reliefs,
              .look = look_at_named_flow},
};

}  // namespace

std::span<const TradeRule> relief_rules() { return rules; }

}  // namespace poise::rules
