// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Loads that counterbalance valves hold.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/holding.hpp"
#include "rules/load.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> valves{"counterbalance"};

/// A counterbalance valve with the load that it holds.
struct HeldBy {
  HeldLoad load;
  int valve = 0;
  double setting = 0.0, ratio = 0.0;
  double lightest = 0.0, heaviest = 0.0;  ///< Pa that the load makes
};

std::vector<HeldBy> held_by_valves(const Sight& sight) {
  std::vector<HeldBy> found;
  if (sight.all({"counterbalance"}).empty()) return found;
  for (const HeldLoad& load : held_loads(sight)) {
    for (int valve : valves_at(sight, load.side, "counterbalance", "A")) {
      const Values& v = sight.values(valve);
      found.push_back({load, valve, v["setting"], v["ratio"], load.least / load.area, load.most / load.area});
    }
  }
  return found;
}

void look_setting(const Sight& sight, Report& report) {
  constexpr double above = 1.3, rounding = 0.005;
  for (const HeldBy& each : held_by_valves(sight)) {
    const std::string set = sight.say(each.setting, Quantity::pressure);
    const double least = above * each.heaviest;
    const Sight::Weakest weakest = sight.weakest(sight.reach(each.load.side, through_lines));
    if (each.setting < least * (1.0 - rounding))
      report.add(
          each.valve,
          fmt::format("{} is set to {}, and {} makes {} at {}: {:.2f} times, where 1.3 times is usual",
                      sight.tag(each.valve), set, sight.tag(each.load.load),
                      sight.say(each.heaviest, Quantity::pressure), sight.name(each.load.side),
                      each.setting / each.heaviest),
          fmt::format("Set {} to {} or more", sight.tag(each.valve), sight.say(least, Quantity::pressure)));
    else if (weakest.part >= 0 && each.setting > weakest.rating)
      report.add(
          each.valve,
          fmt::format("{} lets {} rise to {}, and {} there stands {}", sight.tag(each.valve),
                      sight.name(each.load.side), set, sight.tag(weakest.part),
                      sight.say(weakest.rating, Quantity::pressure)),
          fmt::format("Set {} to no more than {}; {} would do for the load", sight.tag(each.valve),
                      sight.say(weakest.rating, Quantity::pressure), sight.say(least, Quantity::pressure)));
  }
}

/// Mean pressure behind a valve while a load comes down through it, and since when.
Peak mean_behind(const Sight& sight, int valve) {
  constexpr double of_fastest = 0.3;
  const Course flow = sight.flow({valve, 0}), behind = sight.pressure({valve, 1});
  if (!flow || !behind) return {};
  const double lowers = of_fastest * flow.highest().value;
  double sum = 0.0, lasts = 0.0, since = 0.0;
  for (std::size_t row = 1; row < flow.time().size(); ++row) {
    if (lowers <= 0.0 || flow.value()[row] < lowers) continue;
    const double step = flow.time()[row] - flow.time()[row - 1];
    if (lasts == 0.0) since = flow.time()[row];
    sum += behind.value()[row] * step;
    lasts += step;
  }
  return lasts > 0.0 ? Peak{sum / lasts, since} : Peak{};
}

void look_back_pressure(const Sight& sight, Report& report) {
  constexpr double share = 0.25;
  if (!sight.ran()) return;
  for (const HeldBy& each : held_by_valves(sight)) {
    if (sight.values(each.valve).word("spring_chamber") == 1) continue;
    const Peak mean = mean_behind(sight, each.valve);
    const double adds = (1.0 + each.ratio) * mean.value;
    if (adds <= share * each.setting) continue;
    const auto throttles = throttles_in(sight, way_to_tank(sight, {each.valve, 1}));
    report.add(each.valve,
               fmt::format("{} stand behind {} on the average as {} comes down and count {:.1f} times: {} on "
                           "a setting of {}",
                           sight.say(mean.value, Quantity::pressure), sight.tag(each.valve),
                           sight.tag(each.load.cylinder), 1.0 + each.ratio,
                           sight.say(adds, Quantity::pressure), sight.say(each.setting, Quantity::pressure)),
               throttles.empty()
                   ? fmt::format("Make the way behind {} wide enough for {} at most, or take the vented kind",
                                 sight.tag(each.valve),
                                 sight.say(share * each.setting / (1.0 + each.ratio), Quantity::pressure))
                   : fmt::format("Take {} out from behind {}, keep {} there at most, or take the vented kind",
                                 tags(sight, throttles), sight.tag(each.valve),
                                 sight.say(share * each.setting / (1.0 + each.ratio), Quantity::pressure)),
               mean.time);
  }
}

void look_pilot(const Sight& sight, Report& report) {
  constexpr double usable = 0.8;
  const auto there = supply(sight);
  if (!there) return;
  for (const HeldBy& each : held_by_valves(sight)) {
    if (each.ratio <= 0.0) continue;
    const double phi = area_ratio(sight, each.load.cylinder);
    const double helps = !is_piloted_by_other_side(sight, each.load, each.valve) ? 0.0
                         : each.load.side.port == 0                              ? 1.0 / phi
                                                                                 : phi;
    const double lever = each.ratio + helps, needs = (each.setting - each.lightest) / lever;
    const double may = usable * there->cracking;
    if (needs <= may) continue;
    report.add(each.valve,
               fmt::format("{} needs {} at its pilot to lower {}, and of the {} that {} leaves 0.8 are {}",
                           sight.tag(each.valve), sight.say(needs, Quantity::pressure),
                           sight.tag(each.load.load), sight.say(there->cracking, Quantity::pressure),
                           sight.tag(there->valve), sight.say(may, Quantity::pressure)),
               fmt::format("Set {} down towards {}, or take a ratio of {:.1f} or more", sight.tag(each.valve),
                           sight.say(1.3 * each.heaviest, Quantity::pressure),
                           std::ceil(10.0 * ((each.setting - each.lightest) / may - helps)) / 10.0));
  }
}

void look_ratio(const Sight& sight, Report& report) {
  constexpr double high = 4.0, varies = 1.5;
  for (const HeldBy& each : held_by_valves(sight)) {
    if (each.ratio <= high || each.heaviest < varies * each.lightest) continue;
    report.add(
        each.valve,
        fmt::format("{} has a pilot ratio of {:.3g} : 1, and the load on {} goes from {} to {}",
                    sight.tag(each.valve), each.ratio, sight.tag(each.load.cylinder),
                    sight.say(each.lightest, Quantity::pressure),
                    sight.say(each.heaviest, Quantity::pressure)),
        fmt::format("Give {} a ratio of 2 : 1 to 4 : 1; at 4 : 1 its pilot takes {}", sight.tag(each.valve),
                    sight.say((each.setting - each.lightest) / high, Quantity::pressure)));
  }
}

/// What stands behind a piston and what a valve keeps at its rod side over what is behind the valve, on the
/// average while it pushes its rod out hardest, within a tenth.
struct Push {
  double cap = 0.0, kept = 0.0, time = 0.0;
};
Push lasting_push(const Course& cap, const Course& rod, const Course& behind, const Course& speed) {
  constexpr double lasts = 20 * si::ms, pushes_out = 0.1 * si::mm, hard = 0.9;
  if (!speed) return {};
  const auto goes_out = [&](std::size_t row) { return speed.value()[row] > pushes_out; };
  const Peak hardest = lasting_while(cap, lasts, 0.0, goes_out);
  Push sum{.time = hardest.time};
  double time = 0.0;
  for (std::size_t row = 1; row < cap.time().size(); ++row) {
    if (!goes_out(row) || cap.value()[row] < hard * hardest.value) continue;
    const double step = cap.time()[row] - cap.time()[row - 1];
    sum.cap += cap.value()[row] * step;
    sum.kept += (rod.value()[row] - std::max(0.0, behind.value()[row])) * step;
    time += step;
  }
  if (time <= 0.0) return {};
  return {sum.cap / time, sum.kept / time, sum.time};
}

void look_cost(const Sight& sight, Report& report) {
  constexpr double share = 0.10;
  if (!sight.ran()) return;
  for (const HeldBy& each : held_by_valves(sight)) {
    const int c = each.load.cylinder;
    if (each.load.side.port != 1 || !each.load.hanging) continue;
    // One that the press itself opens so far is only kept shut by what stands behind it: another rule.
    if (each.ratio >= 2.0 && is_piloted_by_other_side(sight, each.load, each.valve)) continue;
    const Course cap = sight.pressure({c, 0}), rod = sight.pressure(each.load.side),
                 behind = sight.pressure({each.valve, 1});
    if (!cap || !rod || !behind) continue;
    const Push push = lasting_push(cap, rod, behind, sight.speed(c));
    const double presses = push.cap * face_at_a(sight, c), pushes = presses + each.load.weight;
    const double lost = push.kept * each.load.area;
    if (presses < 2.0 * each.load.weight || lost <= share * pushes) continue;
    report.add(each.valve,
               fmt::format("{} keeps {} at {} while {} presses {}: {} are lost of the {} of oil and weight",
                           sight.tag(each.valve), sight.say(push.kept, Quantity::pressure),
                           sight.name(each.load.side), sight.tag(c), sight.when(push.time),
                           sight.say(lost, Quantity::force), sight.say(pushes, Quantity::force)),
               fmt::format("Pilot {} from {} with a ratio of 2 or more, so that no more than {} stay at {}",
                           sight.tag(each.valve), sight.name({c, 0}),
                           sight.say(share * pushes / each.load.area, Quantity::pressure),
                           sight.name(each.load.side)),
               push.time);
  }
}

constexpr std::array rules{
    TradeRule{
        .name = "counterbalance set above the load",
        .harm = Harm::hurts,
        .holds = "A counterbalance valve is set to 1.3 times what the heaviest load makes or more, and no "
                 "higher than the rating of what is at the cylinder's side.",
        .otherwise = "Too low the load drops or is not held; too high the cylinder's side sees more than "
                     "it stands.",
        .remedy = "Set it to 1.3 times the load's pressure, on paper and then with the load.",
        .source = "vendors' setting advice (1.3; some 1.1 to 1.15)",
        .kinds = valves,
        .look = look_setting},
    TradeRule{.name = "no back pressure on a counterbalance valve",
              .harm = Harm::works_badly,
              .holds =
                  "Of a counterbalance valve drained to its outlet, (1 + ratio) times the pressure behind it "
                  "while the load comes down is no more than a quarter of its setting.",
              .otherwise = "It does not lower, or hunts.",
              .remedy = "No throttle, series actuator or shut-off behind it, or the vented kind.",
              .source = "data of counterbalance cartridges; force balance; quarter common practice",
              .kinds = valves,
              .look = look_back_pressure},
    TradeRule{.name = "pilot pressure to lower over a counterbalance valve",
              .harm = Harm::works_badly,
              .holds =
                  "(setting − lightest load)/(ratio + what the pilot's side presses back) is no more than "
                  "0.8 of the pump's relief setting.",
              .otherwise = "It lowers slowly and hot, or not at all without load.",
              .remedy = "A lower setting, still 1.3 times the load, or a larger ratio.",
              .source = "force balance; 0.8 common practice",
              .kinds = valves,
              .look = look_pilot},
    TradeRule{.name = "counterbalance ratio for a load that varies",
              .harm = Harm::works_badly,
              .holds = "Where the load varies 1.5 times or more the pilot ratio is 4 : 1 or less.",
              .otherwise = "It bounces on its way down.",
              .remedy =
                  "2 : 1 to 4 : 1 for loads that vary, swing or spring; 8 : 1 to 10 : 1 only for steady "
                  "ones, where it saves heat.",
              .source = "trade article on setting and faults of counterbalance valves; figures from memory",
              .kinds = valves,
              .look = look_ratio},
    TradeRule{.name = "counterbalance valve leaves the press its force",
              .harm = Harm::works_badly,
              .holds = "While a press pushes its rod out, what its counterbalance valve keeps at the rod "
                       "side takes no more "
                       "than 10 % of the push.",
              .otherwise = "The press is weaker than its bore says: 16 % in a printed example.",
              .remedy = "An outside pilot from the cap side.",
              .source = "trade magazine's e-book on fluid-power circuits, book 2; 10 % common practice",
              .kinds = valves,
              .look = look_cost},
};

}  // namespace

std::span<const TradeRule> counterbalance_rules() { return rules; }

}  // namespace poise::rules
