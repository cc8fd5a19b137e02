// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Reducing valves and the branches behind them.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "parts/common.hpp"
#include "rules/chapters.hpp"
#include "rules/kinds.hpp"
#include "rules/sequence_order.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> relieving{"reducing"};
constexpr std::array<std::string_view, 1> non_relieving{"reducing_non_relieving"};

/// What the main pressure stands above a reducing valve's setting, Pa.
constexpr double below_the_main = 10.0 * si::bar;
/// Share of the setting from which on the branch has its pressure.
constexpr double has_pressure = 0.9;

/// The lowest main pressure, while a pump runs, in a step that the branch has its pressure at the end of;
/// none where it is in order, or where the pumps come to rest in that step. A branch that only comes to its
/// pressure in the step is asked for at the step's end.
std::optional<Peak> dip_of(const Sight& sight, const Course& main, const Course& branch, double setting,
                           const StepSpan& span) {
  if (branch.at(span.end) < has_pressure * setting || pumps_rest(sight, span.end)) return std::nullopt;
  const double least = setting + 0.999 * below_the_main;
  if (branch.at(span.begin) >= has_pressure * setting) {
    const auto dips = [&](std::size_t row) {
      return main.time()[row] > span.begin && main.time()[row] <= span.end && main.value()[row] < least &&
             !pumps_rest(sight, main.time()[row]);
    };
    if (time_while(main, dips) >= 0.05) return lowest_while(main, dips);
  }
  if (main.at(span.end) >= least) return std::nullopt;
  return Peak{main.at(span.end), span.end};
}

void look_below_main(const Sight& sight, Report& report) {
  for (int valve : sight.all({"reducing", "reducing_non_relieving"})) {
    const double setting = setting_of(sight, valve);
    const auto limits = guards_of(sight, {valve, 0});
    if (!limits.empty() && limits.front().cracking < setting + 0.999 * below_the_main) {
      report.add(
          valve,
          fmt::format("{} is set to {}, and {} holds its main line to {}: nothing is left to reduce",
                      sight.tag(valve), sight.say(setting, Quantity::pressure),
                      sight.tag(limits.front().part), sight.say(limits.front().cracking, Quantity::pressure)),
          fmt::format("Set {} to {} or less", sight.tag(valve),
                      sight.say(limits.front().cracking - below_the_main, Quantity::pressure)));
      continue;
    }
    if (!sight.ran()) continue;
    const Course main = sight.pressure({valve, 0}), branch = sight.pressure({valve, 1});
    if (!main || !branch) continue;
    for (const StepSpan& span : sight.spans()) {
      const auto dip = dip_of(sight, main, branch, setting, span);
      if (!dip) continue;
      report.add(
          valve,
          fmt::format("{} is set to {}, and its main line has only {} {}: {} would let it reduce",
                      sight.tag(valve), sight.say(setting, Quantity::pressure),
                      sight.say(dip->value, Quantity::pressure), sight.when(dip->time),
                      sight.say(setting + below_the_main, Quantity::pressure)),
          fmt::format("Keep {} at {} or more while the branch works, or set {} lower", sight.name({valve, 0}),
                      sight.say(setting + below_the_main, Quantity::pressure), sight.tag(valve)),
          dip->time);
      break;
    }
  }
}

/// Share by which a branch climbs above its setting before it is told.
constexpr double climbs_by = 0.10;

/// Highest pressure that the main line of a valve can have: that of its relief valve with the whole flow over
/// it, else that of the run; 0 where neither is known.
double main_pressure(const Sight& sight, int valve) {
  const auto limits = guards_of(sight, {valve, 0});
  if (!limits.empty()) return full_flow_pressure(sight, limits.front());
  const Course main = sight.ran() ? sight.pressure({valve, 0}) : Course();
  return main ? main.highest().value : 0.0;
}

void look_at_dead_end(const Sight& sight, Report& report) {
  for (int valve : sight.all({"reducing_non_relieving"})) {
    const std::set<int> branch = sight.reach(PortOf{valve, 1}, through_restrictions);
    if (sight.has_reservoir(branch) || !sight.limits_of({valve, 1}).empty()) continue;
    const double setting = setting_of(sight, valve), main = main_pressure(sight, valve);
    const auto weakest = sight.weakest(branch);
    const double leak = common::leak_of(sight.values(valve)).k;
    if (weakest.part >= 0 && weakest.rating < main) {
      report.add(
          valve,
          fmt::format("{} shuts at {} but lets nothing off: by a leak past its seat the branch can come to "
                      "the {} of the main line, and {} there is rated {}",
                      sight.tag(valve), sight.say(setting, Quantity::pressure),
                      sight.say(main, Quantity::pressure), sight.tag(weakest.part),
                      sight.say(weakest.rating, Quantity::pressure)),
          fmt::format("Put a relief valve of {} or less behind {}, or take the relieving kind",
                      sight.say(weakest.rating, Quantity::pressure), sight.tag(valve)));
      continue;
    }
    const Course out = sight.ran() ? sight.pressure({valve, 1}) : Course();
    if (!out || leak <= 0.0 || out.time_above((1.0 + climbs_by) * setting) < 0.1) continue;
    const Peak most = out.highest();
    report.add(valve,
               fmt::format("{} is set to {}, leaks, and lets nothing off: its branch climbs to {} {}",
                           sight.tag(valve), sight.say(setting, Quantity::pressure),
                           sight.say(most.value, Quantity::pressure), sight.when(most.time)),
               fmt::format("Put a relief valve of {} behind {}, or take the relieving kind",
                           sight.say((1.0 + climbs_by) * setting, Quantity::pressure), sight.tag(valve)),
               most.time);
  }
}

/// What the spool kind loses to its drain at the least, m3/s.
constexpr double least_drain = 0.05 * si::litre_per_minute;
/// How long a clamp is held at the least, s, and the share of its pressure that may go.
constexpr double hold = 60.0, may_lose = 0.10;

/// Whether the oil at a reducing valve's inlet is shut in: by a check, or by a coupling that is parted. A
/// check that only lets the branch return does not count.
bool is_cut_off(const Sight& sight, const std::set<int>& ahead, const std::set<int>& branch) {
  bool held = false;
  for (const PortOf& at : sight.ports_in(ahead)) {
    const std::string_view kind = sight.part(at.part).kind->about.kind;
    const Role role = sight.role(at.part);
    if (role == Role::source || role == Role::reservoir || is_directional(sight.part(at.part)) ||
        kind == "sequence")
      return false;
    held |= role == Role::one_way && at.port == 1 && !branch.contains(sight.group({at.part, 0}));
    held |= kind == "quick_coupling" && sight.is_worked(at.part);
  }
  return held;
}

/// A clamp of the branch, or none; none either where an accumulator keeps the pressure up.
std::optional<int> held_clamp(const Sight& sight, const std::set<int>& ahead, const std::set<int>& branch) {
  const auto stores = [&](PortOf at) { return sight.is(at.part, "accumulator"); };
  const auto ports = sight.ports_in(branch);
  if (std::ranges::any_of(ports, stores) || std::ranges::any_of(sight.ports_in(ahead), stores)) return {};
  const auto clamp = std::ranges::find_if(ports, [&](PortOf at) { return is_clamp(sight, at.part); });
  return clamp == ports.end() ? std::nullopt : std::optional(clamp->part);
}

void look_at_bleeding(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int valve : sight.all({"reducing"})) {
    const std::set<int> ahead = sight.reach(PortOf{valve, 0}, stays_open);
    std::set<int> branch = sight.reach(PortOf{valve, 1}, stays_open);
    const Course pressure = sight.pressure({valve, 1});
    const auto clamp = held_clamp(sight, ahead, branch);
    if (!pressure || !clamp || !is_cut_off(sight, ahead, branch)) continue;
    branch.insert(ahead.begin(), ahead.end());
    for (const StepSpan& span : sight.spans()) {
      const double p = pressure.at(span.end);
      if (p < 0.5 * setting_of(sight, valve) || !pumps_rest(sight, span.end)) continue;
      const Room room = room_of(sight, branch, span.end);
      const double gone_in = p * (room.volume / sight.oil.effective_modulus(p) + room.give) / least_drain;
      if (gone_in * may_lose > hold) continue;
      report.add(valve,
                 fmt::format("{} is shut in at {} {}: the {} that a spool like {} loses to its drain at the "
                             "least take that away within {}",
                             sight.tag(*clamp), sight.say(p, Quantity::pressure), sight.when(span.end),
                             sight.say(least_drain, Quantity::flow), sight.tag(valve),
                             sight.say(gone_in, Quantity::time)),
                 fmt::format("Put a check behind {} at the clamps, take a poppet kind, or let the pump keep "
                             "the {} up",
                             sight.tag(valve), sight.say(p, Quantity::pressure)),
                 span.end);
      break;
    }
  }
}

void look_at_return(const Sight& sight, Report& report) {
  for (int valve : sight.all({"reducing", "reducing_non_relieving"})) {
    if (sight.is(valve, "reducing_non_relieving") && sight.values(valve).word("reverse_check") == 1) continue;
    const std::set<int> behind = sight.reach(PortOf{valve, 1}, through_restrictions);
    const auto driven = driven_in(sight, behind);
    if (driven.empty() || leads_back(sight, behind, valve)) continue;
    report.add(
        valve,
        fmt::format("{}, set to {}, has no check beside it, and {} can send its oil back by no other way",
                    sight.tag(valve), sight.say(setting_of(sight, valve), Quantity::pressure),
                    sight.tag(driven.front().part())),
        fmt::format("Put a check from {} to {}, so that the branch empties below {} too",
                    sight.name({valve, 1}), sight.name({valve, 0}),
                    sight.say(setting_of(sight, valve), Quantity::pressure)));
  }
}

constexpr std::array rules{
    TradeRule{.name = "reducing below the main pressure",
              .harm = Harm::works_badly,
              .holds =
                  "A reducing valve is set at least 10 bar below the lowest main pressure while its branch "
                  "works, in every step at whose end a pump runs.",
              .otherwise = "It does not reduce: the branch follows each dip of the main pressure.",
              .remedy = "Set it lower, or keep the main pressure up.",
              .kinds = reducers,
              .look = look_below_main},
    TradeRule{.name = "branch behind a reducing valve has a way out",
              .harm = Harm::hurts,
              .holds =
                  "A closed branch behind a reducing valve that lets nothing off stands the main pressure, "
                  "or has a relief valve of its own; and it climbs no more than 10 % above the setting.",
              .otherwise = "Leak past the seat and heat bring the weak branch to the main pressure.",
              .remedy = "Put a relief valve behind it, or take the relieving kind.",
              .kinds = non_relieving,
              .look = look_at_dead_end},
    TradeRule{.name = "no bleeding reducing valve on a held clamp",
              .harm = Harm::hurts,
              .holds =
                  "Where the pump rests and a check or a parted coupling shuts clamps in, no spool reducing "
                  "valve, which loses 0.05 L/min and more to its drain, takes 10 % of their pressure "
                  "within a minute.",
              .otherwise = "The clamps lose their pressure.",
              .remedy = "Put a check behind it, take a poppet kind, or let the pump run.",
              .kinds = relieving,
              .look = look_at_bleeding},
    TradeRule{.name = "return past the reducing valve",
              .harm = Harm::works_badly,
              .holds = "What a reducing valve feeds returns past it by a check, or by another way.",
              .otherwise = "The return is shut off: the cylinder or clamp does not come back.",
              .remedy = "Put a check beside it.",
              .source = "training text on reducing valves",
              .kinds = reducers,
              .look = look_at_return},
};

}  // namespace

std::span<const TradeRule> reducing_rules() { return rules; }

}  // namespace poise::rules
