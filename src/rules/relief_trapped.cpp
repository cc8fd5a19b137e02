// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Oil that is shut in behind checks and couplings, where the main relief valve does not see it.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/chapters.hpp"
#include "rules/pressed.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 3> holders{"check", "pilot_operated_check", "quick_coupling"};

/// Oil that one part shuts in.
struct ShutIn {
  int holder = 0;
  PortOf at;  ///< the held side of the holder
  std::set<int> groups;
};

/// The held ports of a part, if it holds anything.
std::vector<PortOf> held_sides(const Sight& sight, int part) {
  if (sight.role(part) == Role::one_way) return {{part, 1}};
  if (sight.is(part, "quick_coupling") && sight.is_worked(part)) return {{part, 0}, {part, 1}};
  return {};
}

bool has_any(const Sight& sight, const std::set<int>& groups, std::initializer_list<std::string_view> kinds) {
  return std::ranges::any_of(sight.ports_in(groups),
                             [&](PortOf at) { return sight.is_one_of(at.part, kinds); });
}

/// Volumes behind checks and parted couplings that work something and have no way out: no relief valve, no
/// valve that opens by the pressure itself, no check that leads on, no directional valve or pump.
std::vector<ShutIn> shut_in(const Sight& sight) {
  std::vector<ShutIn> found;
  std::set<int> seen;
  for (int part = 0; part < sight.parts(); ++part) {
    for (const PortOf& side : held_sides(sight, part)) {
      if (seen.contains(sight.group(side))) continue;
      const std::set<int> groups = sight.reach(side, stays_open);
      seen.insert(groups.begin(), groups.end());
      const auto lets_off = [&](PortOf at) {
        const Role role = sight.role(at.part);
        const std::string_view kind = sight.part(at.part).kind->about.kind;
        return role == Role::source || role == Role::reservoir || kind.starts_with("directional_") ||
               kind == "sequence" || kind == "counterbalance" || (kind == "reducing" && at.port == 1) ||
               ((role == Role::pressure_limit || role == Role::one_way) && at.port == 0);
      };
      const auto works = [&](PortOf at) { return sight.role(at.part) == Role::actuator; };
      const auto ports = sight.ports_in(groups);
      if (std::ranges::any_of(ports, lets_off) || std::ranges::none_of(ports, works)) continue;
      found.push_back({part, side, groups});
    }
  }
  return found;
}

/// Share by which a shut-in pressure exceeds what the main relief valve allows before it is told, and how
/// long it must last, s: not the blow as a pump comes to a stop.
constexpr double above_the_main = 1.10, held_for = 0.2;

void look_at_blind_relief(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (const ShutIn& room : shut_in(sight)) {
    const auto mains = guards_of(sight, room.at);
    const auto highest = sight.highest(room.groups);
    if (mains.empty() || !highest) continue;
    const Limit& main = mains.front();
    const double allows = full_flow_pressure(sight, main);
    if (highest->peak.value < above_the_main * allows) continue;
    const Peak held = lasting_while(sight.pressure(highest->at), held_for, above_the_main * allows,
                                    [](std::size_t) { return true; });
    if (held.value <= 0.0) continue;
    report.add(room.holder,
               fmt::format("{} stand at {} behind {} {}, and {}, which limits to {}, does not see it",
                           sight.say(held.value, Quantity::pressure), sight.name(highest->at),
                           sight.tag(room.holder), sight.when(held.time), sight.tag(main.part),
                           sight.say(allows, Quantity::pressure)),
               fmt::format("Put a relief valve of its own behind {}, set no higher than {}",
                           sight.tag(room.holder), sight.say(allows, Quantity::pressure)),
               held.time);
  }
}

/// Rise of temperature that shut-in oil must stand: sun on a fixture, a hall that warms up over the day.
constexpr double warms_by = 20.0;
/// Linear expansion of steel, 1/K.
constexpr double steel = 12e-6;

/// Stiffness of what an actuator presses on at a moment, N/m: 0 where it can give way.
double stiffness_against(const Sight& sight, const Driven& driven, double time) {
  const int part = driven.part();
  const Values& v = sight.values(part);
  if (sight.is(part, "swing_clamp"))
    return driven.port.port == 0 && sight.output(part, "clamp_force").at(time) > 1.0 ? v["part_stiffness"]
                                                                                     : 0.0;
  const double x = sight.position(part, driven.motion).at(time);
  const auto stroke = sight.given(part, "stroke");
  if (stroke && (driven.swept > 0.0 ? *stroke - x : x) < 0.05 * si::mm) return v["stop_stiffness"];
  for (int other : sight.on_rod({part, sight.part(part).kind->oil_ports + driven.motion})) {
    if (driven.swept > 0.0 && sight.is(other, "spring") && x > sight.values(other)["free_travel"])
      return sight.values(other)["rate"];
  }
  return 0.0;
}

/// Rise of the pressure per kelvin in shut-in oil, Pa/K, for walls of steel; none where something gives way.
std::optional<double> rise_per_kelvin(const Sight& sight, const ShutIn& shut, double pressure, double time) {
  Room room = room_of(sight, shut.groups, time);
  for (const Driven& driven : driven_in(sight, shut.groups)) {
    const double stiffness = stiffness_against(sight, driven, time);
    if (stiffness <= 0.0) return std::nullopt;
    room.give += driven.swept * driven.swept / stiffness;
  }
  const double give = room.volume / sight.oil.effective_modulus(pressure) + room.give;
  return room.volume * (sight.oil.expansion() - 3.0 * steel) / give;
}

void look_at_warming(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (const ShutIn& shut : shut_in(sight)) {
    if (has_any(sight, shut.groups, {"accumulator", "warmed_oil"})) continue;
    const auto weakest = sight.weakest(shut.groups);
    const Course held = sight.pressure(shut.at);
    if (weakest.part < 0 || !held) continue;
    for (const StepSpan& span : sight.spans()) {
      const double p = held.at(span.end);
      if (p < 5.0 * si::bar || p < 0.5 * held.highest().value || !pumps_rest(sight, span.end)) continue;
      const auto rise = rise_per_kelvin(sight, shut, p, span.end);
      if (!rise || p + warms_by * *rise <= weakest.rating) continue;
      const double warm = p + warms_by * *rise;
      const std::string remedy =
          1.1 * p < weakest.rating
              ? fmt::format("Put a small relief valve on that line, set between {} and {}, or an accumulator",
                            sight.say(1.1 * p, Quantity::pressure),
                            sight.say(weakest.rating, Quantity::pressure))
              : fmt::format("Hold less than {}, or take parts for {} there",
                            sight.say(weakest.rating / 1.1, Quantity::pressure),
                            sight.say(warm, Quantity::pressure));
      report.add(shut.holder,
                 fmt::format("{} are shut in behind {} {}: 20 K warmer they are {}, and {} is rated {}",
                             sight.say(p, Quantity::pressure), sight.tag(shut.holder), sight.when(span.end),
                             sight.say(warm, Quantity::pressure), sight.tag(weakest.part),
                             sight.say(weakest.rating, Quantity::pressure)),
                 remedy, span.end);
      break;
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "no volume that the main relief does not see",
              .harm = Harm::hurts,
              .holds =
                  "What a check or a parted coupling shuts in stands no more than 10 % above what the main "
                  "relief valve allows, or has a relief valve of its own.",
              .otherwise = "A load, a ratio of areas or heat raises it, and the main relief valve protects "
                           "nothing behind a closed check.",
              .remedy = "Put a relief valve on that line.",
              .source = "rules for ships' hydraulics (any part that can be shut off and pressed)",
              .kinds = holders,
              .look = look_at_blind_relief},
    TradeRule{
        .name = "room for oil that gets warm",
        .harm = Harm::hurts,
        .holds = "Oil that is shut in between stiff walls while the pump rests may get 20 K warmer without "
                 "passing the lowest rating there: some 11 bar a kelvin, less what walls and workpiece "
                 "give.",
        .otherwise = "Seals burst, bodies split, couplings jam.",
        .remedy = "A small relief valve or an accumulator on that line.",
        .source = "article on pressure and temperature (11 bar/K, 90 psi/degF); formula: expansion over "
                  "compressibility; 20 K common practice",
        .kinds = holders,
        .look = look_at_warming},
};

}  // namespace

std::span<const TradeRule> trapped_rules() { return rules; }

}  // namespace poise::rules
