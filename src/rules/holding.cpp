// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Loads that are held: by what, where it sits, and what happens without power.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "parts/common.hpp"
#include "rules/chapters.hpp"
#include "rules/holding.hpp"
#include "rules/load.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 7> lifters{"single_acting_cylinder",
                                                  "double_acting_cylinder",
                                                  "lock_nut",
                                                  "pilot_operated_check",
                                                  "counterbalance",
                                                  "mass",
                                                  "rigid_load"};
constexpr std::array<std::string_view, 4> spools{"directional_4_3", "directional_4_2", "directional_3_2",
                                                 "directional_2_2"};
constexpr std::array<std::string_view, 4> holders{"pilot_operated_check", "counterbalance",
                                                  "hose_burst_valve", "hose"};

const Rest* longest(const std::vector<Rest>& all) {
  const auto found = std::ranges::max_element(all, {}, &Rest::lasts);
  return found == all.end() ? nullptr : &*found;
}

void look_oil_alone(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  const std::vector<HeldLoad> loads = held_loads(sight);
  std::optional<std::pair<HeldLoad, Rest>> worst;
  std::vector<int> others;
  for (const HeldLoad& load : loads) {
    const auto all = rests(sight, load);
    const Rest* rest = longest(all);
    if (!rest) continue;
    if (!worst) {
      worst.emplace(load, *rest);
    } else if (load.weight * rest->height > worst->first.weight * worst->second.height) {
      others.push_back(worst->first.cylinder);
      worst.emplace(load, *rest);
    } else {
      others.push_back(load.cylinder);
    }
  }
  if (!worst) return;
  const auto& [load, rest] = *worst;
  const std::string& carrier = sight.tag(load.cylinder);
  const std::string height = sight.say(rest.height, Quantity::length);
  report.add(load.cylinder,
             fmt::format("{}, {}, hangs on nothing but the oil of {}, {} up, for {} in \"{}\"{}",
                         sight.tag(load.load), sight.say(load.mass, Quantity::mass), carrier, height,
                         sight.say(rest.lasts(), Quantity::time), rest.span->name, likewise(sight, others)),
             load.hanging
                 ? fmt::format("Put a stop that bears {} under {} in \"{}\", before anyone reaches below it",
                               sight.say(load.weight, Quantity::force), sight.tag(load.load), rest.span->name)
                 : fmt::format("Run a lock nut down on {} or put stands for {} under {} in \"{}\", before "
                               "anyone reaches below it",
                               carrier, sight.say(load.weight, Quantity::force), sight.tag(load.load),
                               rest.span->name),
             rest.span->end);
  report.also(others);
}

/// What a spool passes from one shut port at 350 bar where the job does not say, m3/s: some 10 to 300 cm3/min
/// are met (from memory).
constexpr double usual_spool_leak = 50 * si::cm3_per_minute;

std::optional<double> spool_leak(const Sight& sight, int valve) {
  const double k = common::leak_of(sight.values(valve)).k;
  if (k > 0.0) return k;
  if (sight.values(valve).given("leakage_class") || sight.is(valve, "directional_2_2")) return std::nullopt;
  return usual_spool_leak / common::leakage_pressure(sight.values(valve));
}

void look_spool(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  constexpr double allowed = 1 * si::mm;
  for (const HeldLoad& load : held_loads(sight)) {
    const auto all = rests(sight, load);
    const Rest* rest = longest(all);
    const auto way = rest ? way_out(sight, load.side) : std::nullopt;
    if (!way || way->shut != 1 ||
        std::ranges::find(spools, sight.part(way->valves[0]).kind->about.kind) == spools.end())
      continue;
    const int valve = way->valves[0];
    const auto leak = spool_leak(sight, valve);
    if (!leak) continue;
    const double flow = *leak * rest->pressure, sinks = flow / load.area * rest->lasts();
    if (sinks <= allowed) continue;
    const bool stated = common::leak_of(sight.values(valve)).k > 0.0;
    report.add(
        valve,
        fmt::format("Only the spool of {} holds {} in \"{}\": at {} {} passes {}, and {} sinks {} in {}",
                    sight.tag(valve), sight.tag(load.cylinder), rest->span->name,
                    sight.say(rest->pressure, Quantity::pressure), stated ? "it" : "a usual one",
                    sight.say(flow, Quantity::flow), sight.tag(load.load), sight.say(sinks, Quantity::length),
                    sight.say(rest->lasts(), Quantity::time)),
        fmt::format("Put a pilot-operated check at {}: it passes next to nothing, and at most {} sinks "
                    "in \"{}\" with {} or less",
                    sight.name(load.side), sight.say(allowed, Quantity::length), rest->span->name,
                    sight.say(allowed * load.area / rest->lasts(), Quantity::flow)),
        rest->span->end);
  }
}

void look_power_off(const Sight& sight, Report& report) {
  std::vector<int> others;
  std::optional<HeldLoad> worst;
  for (const HeldLoad& load : held_loads(sight)) {
    const auto way = way_out(sight, load.side);
    if (!way || way->shut > 0) continue;
    if (worst) others.push_back(worst->weight >= load.weight ? load.cylinder : worst->cylinder);
    if (!worst || load.weight > worst->weight) worst = load;
  }
  if (!worst) return;
  report.add(
      worst->cylinder,
      fmt::format("{} is open to tank with every valve at rest: without power {} comes down with {} on "
                  "{}{}",
                  sight.name(worst->side), sight.tag(worst->load), sight.say(worst->weight, Quantity::force),
                  sight.tag(worst->cylinder), likewise(sight, others)),
      fmt::format("Put a pilot-operated check or counterbalance valve at {} that holds {} without "
                  "power",
                  sight.name(worst->side), sight.say(worst->most / worst->area, Quantity::pressure)));
  report.also(others);
}

bool without_hoses(const PlannedPart& part) {
  return through_restrictions(part) && part.kind->about.kind != "hose";
}

struct HoldingPort {
  std::string_view kind, port;
};
constexpr std::array holding_ports{HoldingPort{"pilot_operated_check", "B"},
                                   HoldingPort{"counterbalance", "A"}, HoldingPort{"hose_burst_valve", "B"}};

/// The first hose between a load and what holds it; none where a valve that holds sits at the cylinder.
int hose_before_holder(const Sight& sight, PortOf side) {
  const auto rigid_zone = sight.reach(side, without_hoses);
  for (const auto& [kind, name] : holding_ports) {
    for (int valve : sight.all({kind})) {
      if (sight.touches(rigid_zone, *sight.port(valve, name))) return -1;
    }
  }
  for (int hose : sight.all({"hose"})) {
    if (sight.touches(rigid_zone, {hose, 0}) || sight.touches(rigid_zone, {hose, 1})) return hose;
  }
  return -1;
}

void look_at_port(const Sight& sight, Report& report) {
  std::vector<int> others;
  std::optional<HeldLoad> worst;
  int worst_hose = -1;
  for (const HeldLoad& load : held_loads(sight)) {
    const int hose = hose_before_holder(sight, load.side);
    if (hose < 0) continue;
    if (worst) others.push_back(worst->weight >= load.weight ? load.cylinder : worst->cylinder);
    if (!worst || load.weight > worst->weight) {
      worst = load;
      worst_hose = hose;
    }
  }
  if (!worst) return;
  report.add(worst->cylinder,
             fmt::format("{} of {} hang on hose {}: no valve that holds sits between it and {}{}",
                         sight.say(worst->weight, Quantity::force), sight.tag(worst->load),
                         sight.tag(worst_hose), sight.name(worst->side), likewise(sight, others)),
             fmt::format("Screw a pilot-operated check, counterbalance or hose-burst valve for {} into {}, "
                         "ahead of {}",
                         sight.say(worst->most / worst->area, Quantity::pressure), sight.name(worst->side),
                         sight.tag(worst_hose)));
  report.also(others);
}

constexpr std::array rules{
    TradeRule{
        .name = "more than oil holds a load",
        .harm = Harm::hurts,
        .holds = "Where a load of 25 kg or more stands still, raised by more than 5 mm, for 1 s or more "
                 "of a step, a lock nut, stand or block carries it, and not the oil.",
        .otherwise = "A hose, a seal or a hand on the wrong lever, and the load is on whoever is below.",
        .remedy = "Run the lock nut down or put blocks or stands under it before anyone reaches in. Local "
                  "codes and those licensed for such work decide.",
        .source = "29 CFR 1926.305 (block, crib or secure at once after raising), Washington Adm. Code "
                  "296-807-17010 and 17015; safety pages on lifting tools",
        .kinds = lifters,
        .look = look_oil_alone},
    TradeRule{.name = "no spool alone holds a load",
              .harm = Harm::hurts,
              .holds =
                  "A load that stands on the shut port of a spool valve alone sinks no more than 1 mm in "
                  "the step; where the job gives no leakage, 50 cm3/min at the rated pressure count.",
              .otherwise = "A spool leaks by its clearance, and the load creeps down.",
              .remedy = "Put a pilot-operated check at the cylinder: its seat passes next to nothing.",
              .source = "web article on leakage of spool and poppet valves; figures from memory",
              .kinds = spools,
              .look = look_spool},
    TradeRule{.name = "load stays up without power",
              .harm = Harm::hurts,
              .holds = "With nothing energised, every valve at rest whatever the job begins with, no open "
                       "way leads from the oil that "
                       "carries a load of 25 kg or more to tank.",
              .otherwise = "A cable, a fuse or the emergency stop lets the load fall.",
              .remedy = "Hold it with a valve that is shut at rest, at the cylinder.",
              .source = "university page on ISO 4413 (loss of power); Taiwan safety standard of machinery, "
                        "art. 48",
              .kinds = spools,
              .look = look_power_off},
    TradeRule{.name = "no hose between load and holding valve",
              .harm = Harm::hurts,
              .holds = "What holds a load of 25 kg or more sits in or on the cylinder's port, with no hose "
                       "between.",
              .otherwise = "The hose bursts and the load drops: the valve behind it does not even notice.",
              .remedy = "Screw the valve into the cylinder's port, or a hose-burst valve ahead of the hose.",
              .source = "lift-table note on velocity fuses; ISO 4413; common practice",
              .kinds = holders,
              .look = look_at_port},
};

}  // namespace

std::span<const TradeRule> holding_rules() {
  static const std::vector<TradeRule> all = [] {
    std::vector<TradeRule> pieces(rules.begin(), rules.end());
    for (const auto piece : {lowering_rules(), pilot_check_rules(), counterbalance_rules()})
      pieces.insert(pieces.end(), piece.begin(), piece.end());
    return pieces;
  }();
  return all;
}

}  // namespace poise::rules
