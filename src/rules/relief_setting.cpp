// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What is set against what: two relief valves, compensators, unloading valves, pressure switches.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "rules/chapters.hpp"
#include "rules/kinds.hpp"
#include "rules/pressed.hpp"
#include "rules/switch_use.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> variable_pumps{"variable_pump"};
constexpr std::array<std::string_view, 1> unloading_valves{"unloading_valve"};
constexpr std::array<std::string_view, 2> unloaders{"unloading_valve", "two_stage_pump"};
constexpr std::array<std::string_view, 1> switches{"pressure_switch"};

void look_at_two_reliefs(const Sight& sight, Report& report) {
  std::set<int> seen;
  for (int valve : sight.all(Role::pressure_limit)) {
    if (seen.contains(sight.group({valve, 0}))) continue;
    seen.merge(sight.reach(PortOf{valve, 0}, through_lines));
    const std::vector<Limit> both = sight.limits_of({valve, 0});
    for (std::size_t i = 1; i < both.size(); ++i) {
      const Limit &low = both[i - 1], &high = both[i];
      const double apart = std::max({0.10 * low.cracking, low.band, high.band});
      if (high.cracking - low.cracking >= 0.999 * apart) continue;
      report.add(low.part,
                 fmt::format("{} cracks at {} and {} at {} on one line: {} apart, where {} is the least",
                             sight.tag(low.part), sight.say(low.cracking, Quantity::pressure),
                             sight.tag(high.part), sight.say(high.cracking, Quantity::pressure),
                             sight.say(high.cracking - low.cracking, Quantity::pressure),
                             sight.say(apart, Quantity::pressure)),
                 fmt::format("Set {} to {} or more if all that sees it stands that, or leave one out",
                             sight.tag(high.part), sight.say(low.cracking + apart, Quantity::pressure)));
    }
  }
}

/// What a relief valve stands above a compensator, Pa.
constexpr double above_the_compensator = 10.0 * si::bar;

void look_at_compensator(const Sight& sight, Report& report) {
  for (int pump : sight.all({"variable_pump"})) {
    const auto limits = sight.limits_of({pump, 1});
    if (limits.empty()) continue;
    const double setting = sight.values(pump)["setting"];
    const Limit& limit = limits.front();
    if (limit.cracking >= setting + 0.999 * above_the_compensator) continue;
    report.add(pump,
               fmt::format("{} is held at {} by its compensator, and {} cracks at {}", sight.tag(pump),
                           sight.say(setting, Quantity::pressure), sight.tag(limit.part),
                           sight.say(limit.cracking, Quantity::pressure)),
               fmt::format("Let {} crack at {} or more, or set {} to {} or less", sight.tag(limit.part),
                           sight.say(setting + above_the_compensator, Quantity::pressure), sight.tag(pump),
                           sight.say(limit.cracking - above_the_compensator, Quantity::pressure)));
  }
}

/// What takes a pump's flow off at a pressure, and where that pressure is felt.
struct Unloader {
  int part = 0;
  PortOf pilot;
  double setting = 0.0;  ///< Pa
};

std::vector<Unloader> unloaders_of(const Sight& sight) {
  std::vector<Unloader> found;
  for (int valve : sight.all({"unloading_valve"}))
    found.push_back({valve, *sight.port(valve, "X"), sight.values(valve)["setting"]});
  for (int pump : sight.all({"two_stage_pump"})) {
    if (!sight.given(pump, "delivery_curve"))
      found.push_back({pump, {pump, 1}, sight.values(pump)["unloading_pressure"]});
  }
  return found;
}

/// Share of the relief's cracking pressure up to which a pump is unloaded.
constexpr double unloads_below = 0.9;

void look_at_unloading(const Sight& sight, Report& report) {
  for (const Unloader& unloader : unloaders_of(sight)) {
    const auto limits = guards_of(sight, unloader.pilot);
    if (limits.empty()) continue;
    const Limit& limit = limits.front();
    const double most = unloads_below * limit.cracking;
    if (unloader.setting <= 1.001 * most) continue;
    report.add(
        unloader.part,
        fmt::format("{} unloads at {}, and {} cracks at {}: {} is the most for that",
                    sight.tag(unloader.part), sight.say(unloader.setting, Quantity::pressure),
                    sight.tag(limit.part), sight.say(limit.cracking, Quantity::pressure),
                    sight.say(most, Quantity::pressure)),
        fmt::format("Set {} to {} or less", sight.tag(unloader.part), sight.say(most, Quantity::pressure)));
  }
}

/// Share by which it unloads above the pressure of the fast approach, and how long that must last, s.
constexpr double above_the_approach = 1.1, approach_lasts = 0.3;

/// The highest pressure of a fast approach that runs close to where it unloads; 0 where none does.
Peak close_approach(const Sight& sight, const Unloader& unloader) {
  const Course pilot = sight.pressure(unloader.pilot);
  const double least = unloader.setting / above_the_approach, most = unloader.setting * above_the_approach;
  if (!pilot || pilot.highest().value < least) return {};
  for (const Driven& driven : driven_in(sight, pressed_from(sight, unloader.pilot))) {
    const Course speed = sight.speed(driven.part(), driven.motion);
    if (!speed || driven.pace <= 0.0) continue;
    const auto approaches = [&](std::size_t row) {
      const double p = pilot.value()[row], v = driven.forward(speed.value()[row]);
      // Once it is unloaded the rest of the approach is slow.
      return p > least && p < most && v > (p < unloader.setting ? 0.5 * driven.pace : driven.moves());
    };
    const Peak close = lasting_while(pilot, approach_lasts, least, approaches);
    if (close.value > 0.0) return close;
  }
  return {};
}

void look_at_approach(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (const Unloader& unloader : unloaders_of(sight)) {
    const Peak approach = close_approach(sight, unloader);
    if (approach.value <= 0.0) continue;
    const double right = above_the_approach * approach.value;
    report.add(
        unloader.part,
        fmt::format("{} unloads at {}, and the approach still takes {} {}: {} would leave it whole",
                    sight.tag(unloader.part), sight.say(unloader.setting, Quantity::pressure),
                    sight.say(approach.value, Quantity::pressure), sight.when(approach.time),
                    sight.say(right, Quantity::pressure)),
        fmt::format("Set {} to {} or more", sight.tag(unloader.part), sight.say(right, Quantity::pressure)),
        approach.time);
  }
}

void look_at_unloading_check(const Sight& sight, Report& report) {
  for (int valve : sight.all({"unloading_valve"})) {
    const PortOf pilot = *sight.port(valve, "X");
    if (!sight.touches(sight.reach(PortOf{valve, 0}, through_restrictions), pilot)) continue;
    const double setting = sight.values(valve)["setting"];
    const double shuts = setting * (1.0 - sight.values(valve)["differential"]);
    report.add(
        valve,
        fmt::format("The pilot of {} is joined to the line that it unloads: it opens at {}, takes its "
                    "own pilot away and shuts again at {}",
                    sight.tag(valve), sight.say(setting, Quantity::pressure),
                    sight.say(shuts, Quantity::pressure)),
        fmt::format("Put a check behind {} and join {} behind it, where {} stay", sight.name({valve, 0}),
                    sight.name(pilot), sight.say(setting, Quantity::pressure)));
  }
}

/// Share of what ends the rise of the pressure up to which a switch is made.
constexpr double made_below = 0.95;

/// "V1 cracks at 210 bar", and what is done to it to end the rise higher.
std::pair<std::string, std::string> words_of(const Sight& sight, const Ceiling& ceiling) {
  const std::string &tag = sight.tag(ceiling.part), at = sight.say(ceiling.pressure, Quantity::pressure);
  if (sight.role(ceiling.part) == Role::pressure_limit)
    return {fmt::format("{} cracks at {}", tag, at), fmt::format("let {} crack at", tag)};
  const bool is_pump = sight.role(ceiling.part) == Role::source;
  return {fmt::format("{} is set to {}{}", tag, at, is_pump ? " by its compensator" : ""),
          fmt::format("set {} to", tag)};
}

void look_at_switch_and_relief(const Sight& sight, Report& report) {
  for (int contact : sight.all({"pressure_switch"})) {
    const SwitchUse use = switch_use(sight, contact);
    const auto ceiling = ceiling_of(sight, {contact, 0});
    if (!ceiling || (!use.ends_pumping && !use.lets_go_on)) continue;
    const double made = sight.values(contact)["setting"], most = made_below * ceiling->pressure;
    if (made <= 1.001 * most) continue;
    const auto [is_so, raise] = words_of(sight, *ceiling);
    report.add(contact,
               fmt::format("{} is made at {}, and {}: {} is the most for the switch", sight.tag(contact),
                           sight.say(made, Quantity::pressure), is_so, sight.say(most, Quantity::pressure)),
               fmt::format("Set {} to {} or less, or {} {} or more if all that sees it stands that",
                           sight.tag(contact), sight.say(most, Quantity::pressure), raise,
                           sight.say(made / made_below, Quantity::pressure)));
  }
}

/// Least distance between made and broken, as a share of the setting.
constexpr double least_band = 0.02;
/// A pump that is switched this often within this time hammers.
constexpr int often = 3;
constexpr double soon = 3.0;  ///< s from one start to the next

struct Beats {
  int times = 0;
  double first = 0.0, last = 0.0;
};
Beats beats_of(const Course& made) {
  Beats beats;
  for (std::size_t row = 1; row < made.time().size(); ++row) {
    if (made.value()[row] < 0.5 || made.value()[row - 1] > 0.5) continue;
    if (beats.times++ == 0) beats.first = made.time()[row];
    beats.last = made.time()[row];
  }
  return beats;
}

void look_at_switch_band(const Sight& sight, Report& report) {
  for (int contact : sight.all({"pressure_switch"})) {
    const double made = sight.values(contact)["setting"], broken = sight.values(contact)["reset"];
    const SwitchUse use = switch_use(sight, contact);
    if (!use.ends_pumping) continue;
    if (made - broken < 0.999 * least_band * made) {
      report.add(
          contact,
          fmt::format("{} is made at {} and broken at {}: {} between them is less than 2 %",
                      sight.tag(contact), sight.say(made, Quantity::pressure),
                      sight.say(broken, Quantity::pressure), sight.say(made - broken, Quantity::pressure)),
          fmt::format("Let {} break at {} or less", sight.tag(contact),
                      sight.say(made * (1.0 - least_band), Quantity::pressure)));
      continue;
    }
    const Beats beats = beats_of(sight.mode(contact, "made"));
    if (beats.times < often || beats.last - beats.first > soon * (beats.times - 1)) continue;
    report.add(
        contact,
        fmt::format("{} is made {} times between {} and {}: the pump hammers between {} and {}",
                    sight.tag(contact), beats.times, sight.say(beats.first, Quantity::time),
                    sight.say(beats.last, Quantity::time), sight.say(broken, Quantity::pressure),
                    sight.say(made, Quantity::pressure)),
        fmt::format("Hold the pressure behind a check, or with an accumulator, and let {} break farther "
                    "below {}",
                    sight.tag(contact), sight.say(broken, Quantity::pressure)),
        beats.last);
  }
}

/// Clamps and supports whose pressing side has the pressure of these groups.
std::set<int> clamps_in(const Sight& sight, const std::set<int>& groups) {
  std::set<int> found;
  for (const PortOf& at : sight.ports_in(groups)) {
    if (is_clamp(sight, at.part) && at.port == 0) found.insert(at.part);
  }
  return found;
}

/// What gets its pressure past a switch and is seen by none: each swing clamp, and supports where there is
/// no clamp and not one of them is seen.
std::vector<int> unseen_behind(const Sight& sight, int contact, const std::set<int>& seen) {
  const std::set<int> behind = clamps_in(sight, pressed_from(sight, {contact, 0}));
  std::vector<int> clamps, supports;
  for (int part : behind) (sight.is(part, "swing_clamp") ? clamps : supports).push_back(part);
  const auto is_seen = [&](int part) { return seen.contains(part); };
  if (clamps.empty() && std::ranges::none_of(supports, is_seen)) return supports;
  std::erase_if(clamps, is_seen);
  return clamps;
}

void look_at_switch_place(const Sight& sight, Report& report) {
  std::vector<int> contacts = sight.all({"pressure_switch"});
  std::erase_if(contacts, [&](int contact) { return !switch_use(sight, contact).lets_go_on; });
  std::set<int> seen;
  for (int contact : contacts) seen.merge(clamps_in(sight, pressed_unchecked(sight, {contact, 0})));
  for (int contact : contacts) {
    const std::vector<int> clamps = unseen_behind(sight, contact, seen);
    if (clamps.empty()) continue;
    const std::string made = sight.say(sight.values(contact)["setting"], Quantity::pressure);
    report.add(contact,
               fmt::format("{}, made at {}, lets the work go on but sits ahead of a check, coupling or "
                           "sequence valve: {} {} seen by no switch",
                           sight.tag(contact), made, tags(sight, clamps), clamps.size() > 1 ? "are" : "is"),
               fmt::format("Put {} behind the last check, coupling and sequence valve, at {}, or a second "
                           "switch there, made at {}",
                           sight.tag(contact), sight.name({clamps.front(), 0}), made));
  }
}

constexpr std::array rules{
    TradeRule{.name = "two reliefs set apart",
              .harm = Harm::works_badly,
              .holds =
                  "Two relief valves on one line crack at least 10 % apart, and no closer than the band of "
                  "either.",
              .otherwise = "They hunt, and the lower one takes all the flow.",
              .remedy = "Set the second one higher, within the ratings, or leave one out.",
              .kinds = reliefs,
              .look = look_at_two_reliefs},
    TradeRule{.name = "relief above the compensator",
              .harm = Harm::works_badly,
              .holds =
                  "The relief valve of a pump with a pressure compensator cracks at least 10 bar above the "
                  "compensator's setting.",
              .otherwise = "Both limit the pressure at once: heat, and they hunt.",
              .remedy = "Set the relief valve 10 to 20 bar above the compensator.",
              .source = "from memory",
              .kinds = variable_pumps,
              .look = look_at_compensator},
    TradeRule{
        .name = "unloading below the relief",
        .harm = Harm::works_badly,
        .holds = "A pump or its low-pressure stage is unloaded at no more than 0.9 times the pressure at "
                 "which the relief valve cracks.",
        .otherwise = "It is never unloaded: the motor is overloaded, and all goes over the relief valve.",
        .remedy = "Lower the unloading pressure.",
        .source = "article on setting two-stage pumps; figure common practice",
        .kinds = unloaders,
        .look = look_at_unloading},
    TradeRule{.name = "unloading above the fast approach",
              .harm = Harm::works_badly,
              .holds =
                  "A pump or its low-pressure stage is unloaded at no less than 1.1 times the pressure that "
                  "the fast approach takes.",
              .otherwise = "It is unloaded too early: part of the approach is slow.",
              .remedy = "Raise the unloading pressure, or lower what the approach takes.",
              .source = "article on setting two-stage pumps; figure common practice",
              .kinds = unloaders,
              .look = look_at_approach},
    TradeRule{.name = "check before the unloading pilot",
              .harm = Harm::works_badly,
              .holds =
                  "A check stands between the pump that an unloading valve unloads and the point where the "
                  "valve's pilot is taken.",
              .otherwise = "The pump cycles and never stays unloaded.",
              .remedy = "Put a check there and take the pilot behind it.",
              .kinds = unloading_valves,
              .look = look_at_unloading_check},
    TradeRule{.name = "switch made below the relief",
              .harm = Harm::hurts,
              .holds =
                  "A pressure switch that a step or a control waits for is made at no more than 0.95 times "
                  "the lowest that ends the rise of its pressure: where the relief valve on its line cracks, "
                  "the setting of the pump's compensator, or of a reducing valve ahead of it.",
              .otherwise = "It may never be made: the pump runs on, and the next step waits.",
              .remedy = "Lower the switch, or raise what ends the rise, within the ratings.",
              .kinds = switches,
              .look = look_at_switch_and_relief},
    TradeRule{.name = "band of the pressure switch",
              .harm = Harm::hurts,
              .holds =
                  "A pressure switch that stops and starts a pump is broken at least 2 % below where it is "
                  "made, and is not made three times and more within 3 s of each other.",
              .otherwise = "The pump hammers, and what it holds swings with it.",
              .remedy = "Set made and broken farther apart; hold the pressure behind a check.",
              .kinds = switches,
              .look = look_at_switch_band},
    TradeRule{
        .name = "pressure switch at the clamps",
        .harm = Harm::hurts,
        .holds = "Each swing clamp that gets its pressure past a switch that lets the work go on has such a "
                 "switch behind its last check, coupling or sequence valve; supports alone have one.",
        .otherwise = "The pressure ahead proves nothing about the clamp: the work starts on a weak one.",
        .remedy = "Move the switch to the clamps, or add one there.",
        .kinds = switches,
        .look = look_at_switch_place},
};

}  // namespace

std::span<const TradeRule> setting_rules() { return rules; }

}  // namespace poise::rules
