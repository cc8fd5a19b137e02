// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Cylinders that are to keep together: flow dividers, and needles in their place.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "rules/chapters.hpp"
#include "rules/pressed.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> spool{"flow_divider"};
constexpr std::array<std::string_view, 1> gears{"gear_flow_divider"};
constexpr std::array<std::string_view, 4> by_needles{"needle", "one_way_flow_control",
                                                     "single_acting_cylinder", "double_acting_cylinder"};

/// Time in which a divider gets too little or too much, and the mean flow then.
struct Outside {
  double lasts = 0.0, flow = 0.0, begin = 0.0;
};

template <class Is>
Outside outside(const Course& flow, Is is) {
  Outside sum;
  double volume = 0.0;
  const auto time = flow.time();
  for (std::size_t row = 1; row < time.size(); ++row) {
    if (!is(flow.value()[row - 1]) || !is(flow.value()[row])) continue;
    if (sum.lasts == 0.0) sum.begin = time[row - 1];
    sum.lasts += time[row] - time[row - 1];
    volume += flow.value()[row] * (time[row] - time[row - 1]);
  }
  if (sum.lasts > 0.0) sum.flow = volume / sum.lasts;
  return sum;
}

void look_at_window(const Sight& sight, Report& report) {
  for (int p : sight.all({"flow_divider"})) {
    const double least = sight.values(p)["minimum_flow"], rated = rated_flow(sight, p);
    Outside low, high;
    if (const Course flow = sight.ran() ? sight.flow({p, 0}) : Course()) {
      low = outside(flow, [&](double q) { return q > 0.05 * least && q < 0.98 * least; });
      high = outside(flow, [&](double q) { return rated > 0.0 && q > 1.1 * rated; });
    } else if (const double pump = whole_pump_flow(sight); pump > 0.0 && pump < 0.98 * least) {
      low = {.lasts = 1.0, .flow = pump};
    }
    if (low.lasts >= 0.3) {
      report.add(
          p,
          fmt::format("{} gets {}, and divides within {} only from {} on", sight.tag(p),
                      sight.say(low.flow, Quantity::flow),
                      sight.say(sight.values(p)["error"], Quantity::share), sight.say(least, Quantity::flow)),
          fmt::format("Take a divider for a least flow of {} or below", sight.say(low.flow, Quantity::flow)),
          low.begin);
    } else if (high.lasts >= 0.3) {
      report.add(
          p,
          fmt::format("{} gets {} and is rated {}: what it loses and how far it errs grow", sight.tag(p),
                      sight.say(high.flow, Quantity::flow), sight.say(rated, Quantity::flow)),
          fmt::format("Take a divider for {} or more", sight.say(high.flow, Quantity::flow)), high.begin);
    }
  }
}

/// Whether a check lets an outlet's oil past the divider back to its inlet.
bool has_way_past(const Sight& sight, int divider, int outlet) {
  const auto in = sight.reach(PortOf{divider, 0}, through_lines),
             out = sight.reach(PortOf{divider, outlet}, through_lines);
  return std::ranges::any_of(sight.all({"check", "pilot_operated_check", "one_way_flow_control"}),
                             [&](int c) {
                               return sight.touches(out, {c, 0}) && sight.touches(in, {c, 1});
                             });
}

void look_at_way_back(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int p : sight.all({"flow_divider"})) {
    if (sight.values(p).word("combining") == 1) continue;
    if (has_way_past(sight, p, 1) && has_way_past(sight, p, 2)) continue;
    const double a = sight.flow({p, 1}).positive_integral(), b = sight.flow({p, 2}).positive_integral();
    if (std::max(a, b) < 2.0 * si::cm3) continue;
    report.add(p,
               fmt::format("{} does not combine, and oil comes back through it: {} at A and {} at B, divided "
                           "by nothing but the loads",
                           sight.tag(p), sight.say(a, Quantity::volume), sight.say(b, Quantity::volume)),
               fmt::format("Take a divider that combines, or lead {} back past it through a check at each "
                           "outlet",
                           sight.say(a + b, Quantity::volume)));
  }
}

/// The longest stroke of a cylinder in the lines at a port; 0: there is none.
double stroke_at(const Sight& sight, PortOf outlet) {
  double longest = 0.0;
  for (const PortOf& at : sight.ports_in(sight.reach(outlet, can_feed))) {
    if (is_cylinder(sight, at.part)) longest = std::max(longest, sight.values(at.part)["stroke"]);
  }
  return longest;
}

/// Whether only what the divider gives can move the oil in the lines at an outlet.
bool is_locked_in(const Sight& sight, PortOf outlet) {
  const auto ways = exits(sight, sight.reach(outlet, through_lines));
  return std::ranges::all_of(ways, [&](int p) {
    return p == outlet.part || sight.role(p) == Role::one_way || sight.is(p, "quick_coupling");
  });
}

void look_at_lagging_side(const Sight& sight, Report& report) {
  for (int p : sight.all({"flow_divider"})) {
    const double stroke = std::min(stroke_at(sight, {p, 1}), stroke_at(sight, {p, 2}));
    if (stroke <= 0.0 || (!is_locked_in(sight, {p, 1}) && !is_locked_in(sight, {p, 2}))) continue;
    const double error = sight.values(p)["error"], apart = 2.0 * error * stroke;
    if (apart < 1.0 * si::mm) continue;
    report.add(
        p,
        fmt::format("{} errs by up to {}: after {} of stroke its sides may be {} apart, and the one that "
                    "lags then gets no more than leaks",
                    sight.tag(p), sight.say(error, Quantity::share), sight.say(stroke, Quantity::length),
                    sight.say(apart, Quantity::length)),
        fmt::format("Put a small relief valve at each outlet of {}, set {} to {} above the work, so that "
                    "both reach their end",
                    sight.tag(p), sight.say(3.5 * si::bar, Quantity::pressure),
                    sight.say(10.0 * si::bar, Quantity::pressure)));
  }
}

bool has_relief(const Sight& sight, const std::set<int>& zone) {
  return std::ranges::any_of(sight.all(Role::pressure_limit), [&](int v) {
    return sight.touches(zone, {v, 0});
  });
}

void look_at_gears(const Sight& sight, Report& report) {
  for (int p : sight.all({"gear_flow_divider"})) {
    const auto feed = feeding_pressure(sight, {p, 0});
    if (!feed) continue;
    double whole = 0.0;
    const auto sections = sight.values(p).points("sections");
    for (const CurvePoint& section : sections) whole += section.x;
    std::vector<std::string> bare;
    double worst = 0.0;
    Sight::Weakest weakest;
    for (std::size_t i = 0; i < sections.size(); ++i) {
      const PortOf outlet{p, static_cast<int>(i) + 1};
      const auto zone = sight.reach(outlet, through_lines);
      const auto here = sight.weakest(zone);
      const double reaches = *feed * whole / sections[i].x;
      if (has_relief(sight, pressed_from(sight, outlet)) || here.part < 0 || reaches <= here.rating) continue;
      bare.push_back(sight.name(outlet));
      if (reaches / here.rating > (weakest.part < 0 ? 0.0 : worst / weakest.rating)) {
        worst = reaches;
        weakest = here;
      }
    }
    if (bare.empty()) continue;
    report.add(
        p,
        fmt::format("One outlet of {} can reach {} while the others run free, with {} at its inlet, and "
                    "{} is rated {}: there is no relief valve at {}",
                    sight.tag(p), sight.say(worst, Quantity::pressure), sight.say(*feed, Quantity::pressure),
                    sight.tag(weakest.part), sight.say(weakest.rating, Quantity::pressure),
                    fmt::join(bare, ", ")),
        fmt::format("Put a relief valve set to at most {} at each outlet",
                    sight.say(weakest.rating, Quantity::pressure)));
  }
}

/// The throttle that a lifting cylinder has to itself, or −1.
int own_needle(const Sight& sight, int c) {
  for (const PortOf& at : sight.ports_in(sight.reach(*sight.port(c, "A"), through_lines_and_checks))) {
    if (sight.is_one_of(at.part, {"needle", "one_way_flow_control"})) return at.part;
  }
  return -1;
}

/// Whether an outlet of a divider feeds a cylinder.
bool is_divided(const Sight& sight, int c) {
  const auto zone = sight.reach(*sight.port(c, "A"), can_feed);
  return std::ranges::any_of(sight.ports_in(zone), [&](PortOf at) {
    return at.port > 0 && sight.is_one_of(at.part, {"flow_divider", "gear_flow_divider"});
  });
}

/// Cylinders that lift one load with its weight on them, one after the other as the job names them.
std::vector<int> lift_together(const Sight& sight, int load) {
  std::vector<int> found;
  for (int c : all_cylinders(sight)) {
    const auto on_it = sight.on_rod(*sight.port(c, "rod"));
    if (std::ranges::find(on_it, load) != on_it.end() && weight_against(sight, c) > 0.0) found.push_back(c);
  }
  return found;
}

void look_at_needles_of(const Sight& sight, Report& report, int load) {
  std::vector<int> cylinders, needles;
  double travel = 0.0;
  for (int c : lift_together(sight, load)) {
    const int needle = own_needle(sight, c);
    if (needle < 0 || std::ranges::find(needles, needle) != needles.end() || is_divided(sight, c)) continue;
    cylinders.push_back(c);
    needles.push_back(needle);
    const Course position = sight.position(c);
    travel = std::max(travel, sight.ran() && position ? position.highest().value - position.lowest().value
                                                      : sight.values(c)["stroke"]);
  }
  const double apart = 0.05 * travel;
  if (cylinders.size() < 2 || apart < 1.0 * si::mm) return;
  report.add(
      needles[0],
      fmt::format("{} alone keep {} level on {} over {}: needles part by 5 to 10 % of the travel, here {} "
                  "to {}, and stroke by stroke it adds up",
                  tags(sight, needles), sight.tag(load), tags(sight, cylinders),
                  sight.say(travel, Quantity::length), sight.say(apart, Quantity::length),
                  sight.say(2.0 * apart, Quantity::length)),
      fmt::format("Level it every {} on the way, and run both onto a stop after each stroke; or take a "
                  "divider",
                  sight.say(0.25 * travel, Quantity::length)));
}

void look_at_needles_for_level(const Sight& sight, Report& report) {
  for (int load : sight.all({"rigid_load", "mass"})) look_at_needles_of(sight, report, load);
}

constexpr std::array rules{
    TradeRule{.name = "gear divider has a relief at each outlet",
              .harm = Harm::hurts,
              .holds = "Each outlet of a gear divider has a relief valve, or all on it stands the inlet's "
                       "pressure times the sum of the displacements over its own.",
              .otherwise = "Sections whose outlets run free drive the one that is held: it intensifies and "
                           "bursts what it feeds.",
              .remedy = "A relief valve at each outlet.",
              .source = "troubleshooting story on gear dividers in a trade magazine's e-book",
              .kinds = gears,
              .look = look_at_gears},
    TradeRule{
        .name = "needles do not keep a load level",
        .harm = Harm::hurts,
        .holds =
            "Cylinders that carry one load together do not rely on needles alone to keep it level: these "
            "part by 5 to 10 % of the travel.",
        .otherwise = "The load tilts, further with every stroke.",
        .remedy = "Level it on the way, or take a divider.",
        .source = "trade magazine's e-book on fluid-power circuits, book 2 (idea); figure from memory",
        .kinds = by_needles,
        .look = look_at_needles_for_level},
    TradeRule{.name = "divider in its flow window",
              .harm = Harm::damages,
              .holds =
                  "While it works a spool divider gets its least flow or more, and its rated flow at most "
                  "(10 % allowed).",
              .otherwise = "It errs by more than its datasheet says: out of step, a twisted rack.",
              .remedy = "A divider for the flow that it gets.",
              .source = "trade magazine's e-book on fluid-power circuits, book 2",
              .kinds = spool,
              .look = look_at_window},
    TradeRule{.name = "divider and the way back",
              .harm = Harm::damages,
              .holds = "Oil comes back through a spool divider only if it combines; else past it through "
                       "checks.",
              .otherwise = "Going back the sides part as their loads like.",
              .remedy = "A divider that combines, or a check past each outlet.",
              .source = "trade magazine's e-book on fluid-power circuits, book 2",
              .kinds = spool,
              .look = look_at_way_back},
    TradeRule{.name = "lagging side of a divider catches up",
              .harm = Harm::damages,
              .holds =
                  "Both outlets of a spool divider let off enough for the lagging side to reach its end: "
                  "small reliefs of 3.5 to 10 bar (50 to 150 psi) over the work.",
              .otherwise = "The lagging cylinder ends at the speed of the leakage; the error adds up.",
              .remedy = "A small relief valve at each outlet, and each stroke run to its end.",
              .source = "trade magazine's e-book on fluid-power circuits, book 2",
              .kinds = spool,
              .look = look_at_lagging_side},
};

}  // namespace

std::span<const TradeRule> flow_divider_rules() { return rules; }

}  // namespace poise::rules
