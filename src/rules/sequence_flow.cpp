// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Sequence valves: what leaks, what flows, what the cold does, and the drains of all pressure valves.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "parts/common.hpp"
#include "rules/chapters.hpp"
#include "rules/kinds.hpp"
#include "rules/sequence_order.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> sequences{"sequence"};

/// How far a second group may creep before its turn, m.
constexpr double may_creep = 0.5 * si::mm;

void look_at_creep(const Sight& sight, Report& report) {
  for (const Order& order : orders_of(sight)) {
    const double leak = common::leak_of(sight.values(order.valve)).k;
    if (leak <= 0.0) continue;
    std::vector<int> creeping;
    double most = 0.0;
    for (const Driven& driven : order.second) {
      const Course position = sight.position(driven.part(), driven.motion);
      if (!position) continue;
      const double crept = driven.forward(position.at(order.opens) - position.value().front());
      if (crept <= may_creep) continue;
      creeping.insert(crept > most ? creeping.begin() : creeping.end(), driven.part());
      most = std::max(most, crept);
    }
    if (creeping.empty()) continue;
    const int worst = creeping.front();
    creeping.erase(creeping.begin());
    report.add(
        order.valve,
        fmt::format("{} creeps {} by {} before {} opens, which leaks {} at {}{}", sight.tag(worst),
                    sight.say(most, Quantity::length), sight.say(order.opens, Quantity::time),
                    sight.tag(order.valve), sight.say(leak * setting_of(sight, order.valve), Quantity::flow),
                    sight.say(setting_of(sight, order.valve), Quantity::pressure), likewise(sight, creeping)),
        fmt::format("Take a poppet kind for {}, or one that leaks no more than {} there",
                    sight.tag(order.valve),
                    sight.say(leak * setting_of(sight, order.valve) * may_creep / most, Quantity::flow)),
        order.opens);
    report.also(creeping);
  }
}

void look_at_size(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int valve : sight.all({"sequence"})) {
    const auto rated = sight.given(valve, "rated_flow");
    const Course flow = sight.flow({valve, 0});
    if (!rated || !flow || flow.highest().value < 1.01 * *rated) continue;
    const Peak most = lasting_while(flow, 0.05, 1.01 * *rated, [](std::size_t) { return true; });
    if (most.value <= 0.0) continue;
    const double drop = sight.values(valve)["pressure_drop"];
    report.add(valve,
               fmt::format("{} goes through {} {}, which is made for {}: some {} are lost in it there",
                           sight.say(most.value, Quantity::flow), sight.tag(valve), sight.when(most.time),
                           sight.say(*rated, Quantity::flow),
                           sight.say(drop * std::pow(most.value / *rated, 2), Quantity::pressure)),
               fmt::format("Take a sequence valve for {} or more in place of {}",
                           sight.say(most.value, Quantity::flow), sight.tag(valve)),
               most.time);
  }
}

/// The coldest start of a workshop's week, K.
constexpr double coldest = si::zero_celsius + 5.0;

void look_at_cold(const Sight& sight, Report& report) {
  const OilData& oil = sight.plan.oil;
  if (!sight.ran() || oil.temperature < coldest + 5.0) return;
  const double thicker =
      walther_viscosity(oil.viscosity_40, oil.viscosity_100, coldest) / sight.oil.viscosity();
  for (const Order& order : orders_of(sight)) {
    const double setting = setting_of(sight, order.valve);
    const std::set<int> lines = sight.reach(pilot_of(sight, order.valve), through_lines);
    for (const Driven& driven : order.first) {
      // Only what lines take grows with the viscosity; what a throttle takes does not.
      const Course own = sight.pressure(driven.port), speed = sight.speed(driven.part(), driven.motion);
      if (!sight.touches(lines, driven.port) || !own || !speed || driven.pace <= 0.0) continue;
      const auto cold_pressure = [&](std::size_t row) {
        return own.value()[row] + thicker * (order.pilot.value()[row] - own.value()[row]);
      };
      const auto opens_it = [&](std::size_t row) {
        return own.time()[row] < order.opens && driven.forward(speed.value()[row]) > driven.moves() &&
               order.pilot.value()[row] - own.value()[row] > 0.5 * si::bar &&
               cold_pressure(row) > (1.0 - setting_tolerance) * setting;
      };
      if (time_while(own, opens_it) < 0.1) continue;
      // The moment at which the line takes most.
      Peak cold;
      double loss = 0.0, own_then = 0.0;
      for (std::size_t row = 0; row < own.time().size(); ++row) {
        if (!opens_it(row) || cold_pressure(row) <= cold.value) continue;
        cold = {cold_pressure(row), own.time()[row]};
        own_then = own.value()[row];
        loss = order.pilot.value()[row] - own_then;
      }
      report.add(
          order.valve,
          fmt::format("The line from {} to {} takes {} {}, and {} at {}: {} there then stand against the "
                      "{} of {}, which opens early",
                      sight.name(pilot_of(sight, order.valve)), sight.tag(driven.part()),
                      sight.say(loss, Quantity::pressure), sight.when(cold.time),
                      sight.say(thicker * loss, Quantity::pressure),
                      sight.say(coldest, Quantity::temperature), sight.say(cold.value, Quantity::pressure),
                      sight.say(setting, Quantity::pressure), sight.tag(order.valve)),
          fmt::format("Take {} off right at {}, or let the line take no more than {} with the oil at {}",
                      sight.name(pilot_of(sight, order.valve)), sight.tag(driven.part()),
                      sight.say(std::max((1.0 - setting_tolerance) * setting - own_then, 0.0) / thicker,
                                Quantity::pressure),
                      sight.say(oil.temperature, Quantity::temperature)),
          cold.time);
      break;
    }
  }
}

/// Pressure that may stand in the drain of a pressure valve: the less of 3 bar and 2 % of its setting.
double drain_limit(double setting) { return std::min(3.0 * si::bar, 0.02 * setting); }

/// What is wrong with a drain: the finding's sentence and remedy; nothing where it is free.
void look_at_drain(const Sight& sight, int valve, PortOf drain, PortOf working, Report& report) {
  const double setting = setting_of(sight, valve), most = drain_limit(setting);
  const std::string remedy = fmt::format("Lead {} to tank by a line of its own, with no more than {} in it",
                                         sight.name(drain), sight.say(most, Quantity::pressure));
  if (!sight.is_tank_line(drain)) {
    report.add(valve,
               fmt::format("{} of {}, set to {}, has no open way to tank: what stands there adds one to one",
                           sight.name(drain), sight.tag(valve), sight.say(setting, Quantity::pressure)),
               remedy);
    return;
  }
  const Course back = sight.pressure(drain), line = sight.pressure(working);
  if (!back || !line || back.highest().value <= most) return;
  const Peak highest =
      lasting_while(back, 0.1, most, [&](std::size_t row) { return line.value()[row] > 0.5 * setting; });
  if (highest.value <= 0.0) return;
  report.add(valve,
             fmt::format("{} stand in the drain {} {}: {}, set to {}, works at {}",
                         sight.say(highest.value, Quantity::pressure), sight.name(drain),
                         sight.when(highest.time), sight.tag(valve), sight.say(setting, Quantity::pressure),
                         sight.say(setting + highest.value, Quantity::pressure)),
             remedy, highest.time);
}

void look_at_sequence_drain(const Sight& sight, Report& report) {
  for (int valve : sight.all({"sequence"}))
    look_at_drain(sight, valve, *sight.port(valve, "Y"), pilot_of(sight, valve), report);
}

void look_at_reducing_drain(const Sight& sight, Report& report) {
  for (int valve : sight.all({"reducing", "reducing_non_relieving"}))
    look_at_drain(sight, valve, {valve, 2}, {valve, 1}, report);
}

constexpr std::array rules{
    TradeRule{.name = "second group waits for its turn",
              .harm = Harm::works_badly,
              .holds =
                  "Before a sequence valve that leaks opens for the first time, what it feeds has crept no "
                  "more than 0.5 mm.",
              .otherwise = "A clamp rests on the workpiece before its turn.",
              .remedy = "Take a poppet kind.",
              .kinds = sequences,
              .look = look_at_creep},
    TradeRule{.name = "sequence valve big enough",
              .harm = Harm::works_badly,
              .holds = "No more than its rated flow goes through a sequence valve.",
              .otherwise = "What it takes from the second group while that moves makes it slow and uneven.",
              .remedy = "Take a bigger valve.",
              .kinds = sequences,
              .look = look_at_size},
    TradeRule{.name = "sequence right on a cold morning",
              .harm = Harm::hurts,
              .holds =
                  "With oil of 5 degC too, what the line to the first group takes and what that needs to "
                  "move stay 3 % below the setting of the sequence valve.",
              .otherwise = "It opens before the first group is there: a fault of Monday mornings.",
              .remedy = "Take the pilot off right at the first group; or widen the line.",
              .source = "laminar loss of lines grows with the viscosity (ASTM D341); 5 degC common practice",
              .kinds = sequences,
              .look = look_at_cold},
    TradeRule{.name = "drain of the sequence valve",
              .harm = Harm::works_badly,
              .holds = "The drain of a sequence valve has an open way to tank and no more than 2 % of the "
                       "setting, nor more than 3 bar, in it.",
              .otherwise = "What stands in the drain adds one to one to the setting: the valve opens late or "
                           "never.",
              .remedy = "Give the drain a line of its own to tank.",
              .source = "training text and open textbook on outside drains; figures common practice",
              .kinds = sequences,
              .look = look_at_sequence_drain},
    TradeRule{.name = "drain of the reducing valve",
              .harm = Harm::hurts,
              .holds = "The drain of a reducing valve has an open way to tank and no more than 2 % of the "
                       "setting, nor more than 3 bar, in it.",
              .otherwise = "What stands in the drain adds one to one; blocked, the branch climbs to the main "
                           "pressure.",
              .remedy = "Give the drain a line of its own to tank, without a shut-off.",
              .source = "training text and open textbook on outside drains; figures common practice",
              .kinds = reducers,
              .look = look_at_reducing_drain},
};

}  // namespace

std::span<const TradeRule> sequence_flow_rules() { return rules; }

}  // namespace poise::rules
