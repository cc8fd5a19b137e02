// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Fixtures: clamps together, zones, pallets that are cut off.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/chapters.hpp"
#include "rules/rods.hpp"
#include "rules/switch_use.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> clamps{"swing_clamp"};
constexpr std::array<std::string_view, 3> zoned{"swing_clamp", "check", "hose"};
constexpr std::array<std::string_view, 2> pallets{"swing_clamp", "quick_coupling"};
constexpr std::array<std::string_view, 3> switched{"swing_clamp", "pressure_switch", "check"};
constexpr std::array<std::string_view, 3> staged{"two_stage_pump", "sequence", "swing_clamp"};

double free_volume(const Sight& sight, int clamp) {
  const Values& v = sight.values(clamp);
  return v["clamp_area"] * (v["swing_stroke"] + sight.given(clamp, "gap").value_or(0.5 * v["clamp_stroke"]));
}

/// Spread of the moments at which like clamps of one line touch that counts as uneven, s.
constexpr double spread = 0.5;

void look_at_spread(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  auto touches = first_above(sight, "swing_clamp", "clamp_force", 1.0);
  if (touches.empty() || touches.front().time - touches.back().time <= spread) return;
  while (touches.size() > 1) {
    const First last = touches.front();
    touches.erase(touches.begin());
    const auto zone = sight.reach(*sight.port(last.part, "A"), through_lines);
    const First* first = nullptr;
    for (const First& other : touches) {
      const bool like = sight.touches(zone, *sight.port(other.part, "A")) &&
                        std::abs(free_volume(sight, other.part) / free_volume(sight, last.part) - 1.0) < 0.1;
      if (like) first = &other;
    }
    if (!first || last.time - first->time <= spread) continue;
    report.add(last.part,
               fmt::format("{} touches at {}, and {} at {}: {} apart on one line", sight.tag(last.part),
                           sight.say(last.time, Quantity::time), sight.tag(first->part),
                           sight.say(first->time, Quantity::time),
                           sight.say(last.time - first->time, Quantity::time)),
               fmt::format("Widen the trunk of the line towards {}, or lead a line of its own to it, until "
                           "they touch within {}",
                           sight.tag(last.part), sight.say(spread, Quantity::time)),
               last.time);
    return;
  }
}

/// The last moment at which a clamp is more than a tenth out, if it comes back at all.
std::optional<double> back_at(const Course& position) {
  const double far = position.highest().value;
  if (far <= 0.0 || position.value().back() > 0.1 * far) return std::nullopt;
  for (std::size_t row = position.time().size(); row-- > 0;) {
    if (position.value()[row] > 0.1 * far) return position.time()[row];
  }
  return std::nullopt;
}

void look_at_mixed_returns(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  const auto all = sight.all({"swing_clamp"});
  for (int sprung : all) {
    if (sight.values(sprung).word("return") != 0 || !sight.position(sprung)) continue;
    const auto zone = sight.reach(*sight.port(sprung, "A"), through_lines);
    for (int by_oil : all) {
      if (sight.values(by_oil).word("return") != 1 || !sight.position(by_oil)) continue;
      const auto slow = back_at(sight.position(sprung)), fast = back_at(sight.position(by_oil));
      if (!sight.touches(zone, *sight.port(by_oil, "A")) || !slow || !fast || *slow < *fast + 0.2) continue;
      report.add(
          sprung,
          fmt::format("{} comes back by its spring at {}, {} by oil at {} on the same line: {} later its "
                      "arm is still over the part",
                      sight.tag(sprung), sight.say(*slow, Quantity::time), sight.tag(by_oil),
                      sight.say(*fast, Quantity::time), sight.say(*slow - *fast, Quantity::time)),
          fmt::format("Take clamps of one kind on a line, or wait for {} before the part is moved",
                      sight.say(*slow - *fast, Quantity::time)),
          *slow);
      return;
    }
  }
}

bool through_stiff_lines(const PlannedPart& part) {
  return through_lines(part) && part.kind->about.kind != "hose";
}

/// Clamps that stiff lines join, and a hose that they hang on.
struct Zone {
  std::vector<int> clamps;
  int hose = -1;
  std::set<int> groups;
};

std::vector<Zone> clamp_zones(const Sight& sight) {
  std::vector<Zone> zones;
  for (int k : sight.all({"swing_clamp"})) {
    const PortOf a = *sight.port(k, "A");
    const auto known = std::ranges::find_if(zones, [&](const Zone& z) { return sight.touches(z.groups, a); });
    if (known != zones.end()) {
      known->clamps.push_back(k);
      continue;
    }
    Zone zone{{k}, -1, sight.reach(a, through_stiff_lines)};
    for (const PortOf& at : sight.ports_in(zone.groups)) {
      if (sight.is(at.part, "hose")) zone.hose = at.part;
    }
    zones.push_back(std::move(zone));
  }
  return zones;
}

void look_at_zones(const Sight& sight, Report& report) {
  const auto zones = clamp_zones(sight);
  for (const Zone& zone : zones) {
    if (zone.hose < 0) continue;
    const auto open = sight.reach(*sight.port(zone.clamps[0], "A"), through_restrictions);
    std::vector<int> lost = zone.clamps, hoses{zone.hose};
    for (const Zone& other : zones) {
      if (&other == &zone || other.hose < 0 || !sight.touches(open, *sight.port(other.clamps[0], "A")))
        continue;
      lost.insert(lost.end(), other.clamps.begin(), other.clamps.end());
      if (std::ranges::find(hoses, other.hose) == hoses.end()) hoses.push_back(other.hose);
    }
    const auto feed = feeding_pressure(sight, *sight.port(zone.clamps[0], "A"));
    if (hoses.size() < 2 || !feed) continue;
    report.add(
        zone.clamps[0],
        fmt::format(
            "{} hang together without a check between them: if one of the hoses {} bursts at {} "
            "{} open",
            tags(sight, lost), tags(sight, hoses), sight.say(*feed, Quantity::pressure),
            lost.size() == 2 ? std::string("both clamps") : fmt::format("all {} clamps", lost.size())),
        fmt::format("Put a check, opened by a pilot to unclamp, in front of each of the {} hoses or at "
                    "their clamps",
                    hoses.size()));
    return;
  }
}

/// The pallet's side of a coupling: clamps that nothing feeds once it is apart.
bool stays_on_pallet(const PlannedPart& part) {
  return can_feed(part) && part.kind->about.kind != "quick_coupling";
}

struct Pallet {
  std::vector<int> clamps;
  bool is_fed = false, has_accumulator = false, is_watched = false;
};

Pallet pallet_at(const Sight& sight, PortOf half) {
  Pallet pallet;
  for (const PortOf& at : sight.ports_in(sight.reach(half, stays_on_pallet))) {
    if (sight.is(at.part, "swing_clamp") && sight.plan.port(at).name == "A") pallet.clamps.push_back(at.part);
    if (sight.role(at.part) == Role::source) pallet.is_fed = true;
    if (sight.is(at.part, "accumulator")) pallet.has_accumulator = true;
    if (sight.is_one_of(at.part, {"gauge", "pressure_switch"})) pallet.is_watched = true;
  }
  return pallet;
}

/// How far a fixture may cool down while it stands apart, K.
constexpr double cools = 5.0;

void look_at_pallets(const Sight& sight, Report& report) {
  for (int q : sight.all({"quick_coupling"})) {
    const auto positions = values_taken(sight, q, "position");
    if (std::ranges::find(positions, 0.0) == positions.end()) continue;
    for (int half : {0, 1}) {
      const Pallet pallet = pallet_at(sight, {q, half});
      if (pallet.clamps.empty() || pallet.is_fed || (pallet.has_accumulator && pallet.is_watched)) continue;
      const Course course = sight.ran() ? sight.pressure(*sight.port(pallet.clamps[0], "A")) : Course();
      const auto feed = feeding_pressure(sight, {q, half});
      const double at = course ? course.highest().value : feed.value_or(0.0);
      const double falls = cools * sight.oil.expansion() * sight.oil.effective_modulus(at);
      if (at <= 0.0) continue;
      std::string lacks = pallet.has_accumulator ? "" : "accumulator";
      if (!pallet.is_watched) lacks += lacks.empty() ? "gauge or switch" : " and no gauge or switch";
      report.add(
          q,
          fmt::format("{} live on what {} shuts in, {} at most: {} cooler takes up to {} of it, leakage "
                      "the rest, and there is no {} on their side",
                      tags(sight, pallet.clamps), sight.tag(q), sight.say(at, Quantity::pressure),
                      sight.say(cools, Quantity::warming), sight.say(std::min(falls, at), Quantity::pressure),
                      lacks),
          fmt::format("Put on the pallet: an accumulator that gives back {} of fall, a gauge, and a "
                      "switch that stops the machine below {}",
                      sight.say(std::min(falls, at), Quantity::pressure),
                      sight.say(0.8 * at, Quantity::pressure)));
    }
  }
}

bool through_restrictions_and_checks(const PlannedPart& part) {
  return through_restrictions(part) || part.kind->about.role == Role::one_way;
}

void look_at_switch(const Sight& sight, Report& report) {
  const auto switches = sight.all({"pressure_switch"});
  auto watching = switches;
  // Of one that lets the work go on "pressure switch at the clamps" says which clamps it misses.
  std::erase_if(watching, [&](int s) { return switch_use(sight, s).lets_go_on; });
  std::vector<int> unseen;
  int ahead = -1;
  for (int k : sight.all({"swing_clamp"})) {
    const auto near = sight.reach(*sight.port(k, "A"), through_restrictions),
               behind = sight.reach(*sight.port(k, "A"), through_restrictions_and_checks);
    const auto sees = [&](const std::set<int>& zone, int s) { return sight.touches(zone, {s, 0}); };
    if (std::ranges::any_of(switches, [&](int s) { return sees(near, s); })) continue;
    const auto upstream = std::ranges::find_if(watching, [&](int s) { return sees(behind, s); });
    if (upstream == watching.end()) continue;
    ahead = *upstream;
    unseen.push_back(k);
  }
  if (ahead < 0) return;
  report.add(
      ahead,
      fmt::format("{} (made at {}, broken at {}) sits ahead of the check in the line of {}: what they lose "
                  "behind it, it does not see",
                  sight.tag(ahead), sight.say(sight.values(ahead)["setting"], Quantity::pressure),
                  sight.say(sight.values(ahead)["reset"], Quantity::pressure), tags(sight, unseen)),
      fmt::format("Join a switch behind the last check of each zone, which below {} stops feed and spindle "
                  "and keeps them from starting again",
                  sight.say(sight.values(ahead)["reset"], Quantity::pressure)));
}

/// Time that clamps may take on the small stage alone, s.
constexpr double slow_clamping = 3.0;

void look_at_small_stage(const Sight& sight, Report& report) {
  for (int pump : sight.all({"two_stage_pump"})) {
    const Values& v = sight.values(pump);
    if (!sight.given(pump, "high_pressure_flow") || !sight.given(pump, "low_pressure_flow")) continue;
    for (int valve : sight.all({"sequence"})) {
      const double opens = sight.values(valve)["setting"];
      if (opens <= v["unloading_pressure"]) continue;
      double volume = 0.0;
      const auto behind = sight.reach(PortOf{valve, 1}, through_restrictions_and_checks);
      for (int k : sight.all({"swing_clamp"})) {
        if (sight.touches(behind, *sight.port(k, "A"))) volume += free_volume(sight, k);
      }
      const double slow = volume / v["high_pressure_flow"], fast = volume / v["low_pressure_flow"];
      if (slow < slow_clamping || slow < 2.0 * fast) continue;
      report.add(
          pump,
          fmt::format("{} opens at {}, when {} has dropped its large stage at {}: the {} of the clamps "
                      "behind it take {} at {}, not {}",
                      sight.tag(valve), sight.say(opens, Quantity::pressure), sight.tag(pump),
                      sight.say(v["unloading_pressure"], Quantity::pressure),
                      sight.say(volume, Quantity::volume), sight.say(slow, Quantity::time),
                      sight.say(v["high_pressure_flow"], Quantity::flow), sight.say(fast, Quantity::time)),
          fmt::format("Set {} below {}, or unload the large stage of {} above {}, or reckon with {}",
                      sight.tag(valve), sight.say(v["unloading_pressure"], Quantity::pressure),
                      sight.tag(pump), sight.say(opens, Quantity::pressure),
                      sight.say(slow, Quantity::time)));
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "check for each clamp zone",
              .harm = Harm::hurts,
              .holds =
                  "Clamps on several hoses have a check for each zone: the loss of one line does not open "
                  "the others.",
              .otherwise = "One burst hose opens all clamps with the tool in the cut.",
              .remedy = "A check that a pilot opens for each zone or pallet.",
              .kinds = zoned,
              .look = look_at_zones},
    TradeRule{.name = "pallet keeps its pressure apart",
              .harm = Harm::hurts,
              .holds =
                  "Clamps that are uncoupled from the pump have an accumulator, and a gauge or switch on "
                  "their side: shut-in oil loses about 11 bar (90 psi per degF) for each kelvin.",
              .otherwise = "The part comes loose hours later, and nobody sees it.",
              .remedy = "Accumulator, gauge and switch on the pallet, or charge it again in time.",
              .source = "web article on pressure change by temperature; common practice",
              .kinds = pallets,
              .look = look_at_pallets},
    TradeRule{.name = "pressure switch behind the last check",
              .harm = Harm::hurts,
              .holds = "Where pressure switches watch clamps, each zone has one behind its last check.",
              .otherwise = "A zone loses its pressure behind the check while the switch stays made: a thrown "
                           "part.",
              .remedy = "A switch in each zone, which stops feed and spindle and blocks their restart.",
              .kinds = switched,
              .look = look_at_switch},
    TradeRule{.name = "like clamps touch together",
              .harm = Harm::works_badly,
              .holds = "Like clamps on one line touch within 0.5 s of each other.",
              .otherwise = "The near one pushes the part before the far one is there.",
              .remedy = "The biggest bore in the trunk, branches of like length.",
              .kinds = clamps,
              .look = look_at_spread},
    TradeRule{.name = "one kind of return on a line",
              .harm = Harm::works_badly,
              .holds = "Clamps with springs and clamps with oil return on one line are back within 0.2 s of "
                       "each other.",
              .otherwise = "The last arm scrapes the part as it is taken out.",
              .remedy = "One kind on a line, or a wait.",
              .kinds = clamps,
              .look = look_at_mixed_returns},
    TradeRule{
        .name = "clamps on the small stage",
        .harm = Harm::works_badly,
        .holds = "Clamps behind a sequence valve that opens above the pump's unloading pressure need less "
                 "than 3 s with the small stage alone.",
        .otherwise = "The promised clamping time is missed: all that comes after runs at the small flow.",
        .remedy = "Set the sequence valve below the unloading pressure, or reckon with the small stage.",
        .source = "worksheet on clamping time",
        .kinds = staged,
        .look = look_at_small_stage},
};

}  // namespace

std::span<const TradeRule> clamping_fixture_rules() { return rules; }

}  // namespace poise::rules
