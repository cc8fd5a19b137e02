// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Oil that is shut in behind checks and couplings, where the main relief valve does not see it.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "rules/chapters.hpp"
#include "rules/pressed.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 3> holders{"check", "pilot_operated_check", "quick_coupling"};
constexpr std::array<std::string_view, 2> intensifiers{"intensifier", "cycling_intensifier"};

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
        return role == Role::source || role == Role::reservoir || is_directional(sight.part(at.part)) ||
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

/// What an intensifier can make of the pressure that its supply is held to.
struct Made {
  int part = -1, guard = -1;
  double ratio = 1.0;
  double supply = 0.0;  ///< Pa, with the whole flow over a relief valve
  double flow = 0.0;    ///< m3/s, that is left for a relief valve on the high side

  double pressure() const { return ratio * supply; }
};
std::optional<Made> made_by(const Sight& sight, int part) {
  const PortOf supply = *sight.port(part, "A");
  Made made{.part = part, .ratio = sight.values(part)["ratio"]};
  if (const auto guards = guards_of(sight, supply); !guards.empty()) {
    made.guard = guards.front().part;
    made.supply = full_flow_pressure(sight, guards.front());
    made.flow = flow_over(sight, guards.front()) / made.ratio;
    return made;
  }
  const auto ceiling = ceiling_of(sight, supply);
  if (!ceiling) return std::nullopt;
  made.guard = ceiling->part;
  made.supply = ceiling->pressure;
  for (int pump : sight.all(Role::source)) made.flow += delivery_at(sight, pump, made.supply) / made.ratio;
  return made;
}

/// What a relief valve lets the pressure of shut-in oil come to, and what it should be let come to.
struct Allowed {
  int guard = -1;
  double guarded = 0.0;  ///< Pa, at the relief valve
  double behind = 0.0;   ///< Pa, at the oil: more where an intensifier stands between
  double right = 0.0;    ///< Pa, for a relief valve of its own
};
std::optional<Allowed> allowed_in(const Sight& sight, const ShutIn& room) {
  const std::vector<int> raising = intensifiers_at(sight, room.groups);
  if (raising.empty()) {
    const auto mains = guards_of(sight, room.at);
    if (mains.empty()) return std::nullopt;
    const double full = full_flow_pressure(sight, mains.front());
    return Allowed{mains.front().part, full, full, full};
  }
  const auto weakest = sight.weakest(room.groups);
  Allowed most;
  for (int part : raising) {
    const auto made = made_by(sight, part);
    if (!made) return std::nullopt;
    if (made->pressure() > most.behind) most = {made->guard, made->supply, made->pressure(), 0.0};
  }
  // A relief valve at what the intensifier makes would open in every cycle.
  most.right = weakest.part < 0 ? above_the_main * most.behind : weakest.rating;
  return most;
}

void look_at_blind_relief(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (const ShutIn& room : shut_in(sight)) {
    const auto allowed = allowed_in(sight, room);
    const auto highest = sight.highest(room.groups);
    if (!allowed || !highest || highest->peak.value < above_the_main * allowed->behind) continue;
    const Peak held = lasting_while(sight.pressure(highest->at), held_for, above_the_main * allowed->behind,
                                    [](std::size_t) { return true; });
    if (held.value <= 0.0) continue;
    report.add(room.holder,
               fmt::format("{} stand at {} behind {} {}, and {}, which limits to {}, does not see it",
                           sight.say(held.value, Quantity::pressure), sight.name(highest->at),
                           sight.tag(room.holder), sight.when(held.time), sight.tag(allowed->guard),
                           sight.say(allowed->guarded, Quantity::pressure)),
               fmt::format("Put a relief valve of its own behind {}, set no higher than {}",
                           sight.tag(room.holder), sight.say(allowed->right, Quantity::pressure)),
               held.time);
  }
}

/// The pressure on the high side, with a relief valve there that takes what the intensifier delivers.
double high_side_pressure(const Sight& sight, const Made& made) {
  double pressure = made.pressure();
  for (const Limit& limit : sight.limits_of(*sight.port(made.part, "B")))
    pressure = std::min(pressure, pressure_over(sight, limit, std::min(made.flow, limit.rated_flow)));
  return pressure;
}

void look_at_high_side(const Sight& sight, Report& report) {
  for (int part : sight.all({"intensifier", "cycling_intensifier"})) {
    const PortOf high = *sight.port(part, "B");
    const auto made = made_by(sight, part);
    const auto weakest = sight.weakest(pressed_from(sight, high));
    if (!made || weakest.part < 0) continue;
    const double pressure = high_side_pressure(sight, *made);
    if (pressure <= weakest.rating) continue;
    const std::string stands = sight.say(weakest.rating, Quantity::pressure);
    report.add(
        part,
        fmt::format("{} makes {:.3g} times the {} that {} lets come to it: {} at {} come to {}, rated {}",
                    sight.tag(part), made->ratio, sight.say(made->supply, Quantity::pressure),
                    sight.tag(made->guard), sight.say(pressure, Quantity::pressure), sight.name(high),
                    sight.tag(weakest.part), stands),
        fmt::format("Let no more than {} come to {}, put a relief valve of {} or less at {}, or a part "
                    "for {} in the place of {}",
                    sight.say(weakest.rating / made->ratio, Quantity::pressure), sight.tag(part), stands,
                    sight.name(high), sight.say(pressure, Quantity::pressure), sight.tag(weakest.part)));
  }
}

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
  return room.volume * (sight.oil.expansion() - steel_growth) / give;
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
                 fmt::format("{} are shut in behind {} {}: {} warmer they are {}, and {} is rated {}",
                             sight.say(p, Quantity::pressure), sight.tag(shut.holder), sight.when(span.end),
                             sight.say(warms_by, Quantity::warming), sight.say(warm, Quantity::pressure),
                             sight.tag(weakest.part), sight.say(weakest.rating, Quantity::pressure)),
                 remedy, span.end);
      break;
    }
  }
}

constexpr std::array rules{
    TradeRule{
        .name = "intensified side stands its pressure",
        .harm = Harm::hurts,
        .holds = "The pressure that the relief valve ahead of an intensifier reads with the whole flow, or "
                 "that a reducing valve or compensator is set to, times its ratio is no more than the lowest "
                 "rating on the high side; or a relief valve there holds it below that.",
        .otherwise = "The high side bursts though each gauge ahead of the intensifier reads little.",
        .remedy = "Set the supply lower, put a relief valve at the high side, or take parts for the "
                  "intensified pressure.",
        .source = "balance of forces: ratio times the supply",
        .kinds = intensifiers,
        .look = look_at_high_side},
    TradeRule{
        .name = "no volume that the main relief does not see",
        .harm = Harm::hurts,
        .holds =
            "What a check or a parted coupling shuts in stands no more than 10 % above what the main "
            "relief valve allows (behind an intensifier: times its ratio), or has a relief valve of its own.",
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
