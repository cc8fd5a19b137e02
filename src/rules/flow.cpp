// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Throttles: needles and flow controls.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/chapters.hpp"
#include "rules/pressed.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 2> needles{"needle", "one_way_flow_control"};
constexpr std::array<std::string_view, 1> compensated{"compensated_flow_control"};
constexpr std::array<std::string_view, 3> throttles{"needle", "one_way_flow_control",
                                                    "compensated_flow_control"};
/// What a throttle passes in one step in one direction: means weighted by the volume.
struct Metered {
  double volume = 0.0, flow = 0.0, drop = 0.0;
  const StepSpan* step = nullptr;
};

Metered metered_in(const Sight& sight, int throttle, const StepSpan& span, double direction) {
  const Course flow = sight.flow({throttle, 0}), a = sight.pressure({throttle, 0}),
               b = sight.pressure({throttle, 1});
  Metered sum{.step = &span};
  if (!flow || !a || !b) return sum;
  const auto time = flow.time();
  const auto first = static_cast<std::size_t>(std::ranges::lower_bound(time, span.begin) - time.begin());
  for (std::size_t row = first + 1; row < time.size() && time[row] <= span.end; ++row) {
    const double q = direction * flow.value()[row];
    if (q <= 0.0) continue;
    const double volume = q * (time[row] - time[row - 1]);
    sum.volume += volume;
    sum.flow += volume * q;
    sum.drop += volume * direction * (a.value()[row] - b.value()[row]);
  }
  if (sum.volume > 0.0) {
    sum.flow /= sum.volume;
    sum.drop /= sum.volume;
  }
  return sum;
}

/// Whether something that the throttle's oil gets to moves in a step.
bool moves_something(const Sight& sight, int throttle, const StepSpan& span) {
  const auto zone = sight.reach(PortOf{throttle, 0}, can_feed);
  return std::ranges::any_of(sight.all(Role::actuator), [&](int p) {
    const Course position = sight.position(p);
    return sight.touches(zone, *sight.port(p, "A")) && position &&
           std::abs(position.at(span.end) - position.at(span.begin)) > 1.0 * si::mm;
  });
}

void compare_loads(const Sight& sight, Report& report, int throttle, double direction) {
  std::vector<Metered> steps;
  double most = 0.0;
  for (const StepSpan& span : sight.spans()) {
    steps.push_back(metered_in(sight, throttle, span, direction));
    most = std::max(most, steps.back().volume);
  }
  // A step that only tops up pressure says nothing of speed.
  std::erase_if(steps, [&](const Metered& m) { return m.volume < 0.2 * most || m.drop < 3.0 * si::bar; });
  if (most <= 0.0 || steps.size() < 2) return;
  const auto [slow, fast] = std::ranges::minmax(steps, {}, &Metered::flow);
  if (fast.flow <= 1.1 * slow.flow || fast.drop <= 1.2 * slow.drop) return;
  if (!moves_something(sight, throttle, *fast.step) || !moves_something(sight, throttle, *slow.step)) return;
  report.add(
      throttle,
      fmt::format("{} lets {} through in \"{}\" with {} over it, and {} in \"{}\" with {}: {:.2f} times "
                  "as fast",
                  sight.tag(throttle), sight.say(fast.flow, Quantity::flow), fast.step->name,
                  sight.say(fast.drop, Quantity::pressure), sight.say(slow.flow, Quantity::flow),
                  slow.step->name, sight.say(slow.drop, Quantity::pressure), fast.flow / slow.flow),
      fmt::format("Take a flow control with a compensator, set to {}, if both loads have to move alike",
                  sight.say(slow.flow, Quantity::flow)));
}

void look_at_loads(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int p : sight.all({"needle", "one_way_flow_control"})) {
    if (values_taken(sight, p, "turns").size() > 1) continue;
    compare_loads(sight, report, p, -1.0);
    if (sight.is(p, "needle")) compare_loads(sight, report, p, 1.0);
  }
}

void look_at_minimum_drop(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int p : sight.all({"compensated_flow_control"})) {
    if (values_taken(sight, p, "flow").size() > 1) continue;
    const double set = sight.values(p)["flow"], least = sight.values(p)["minimum_drop"];
    const Course flow = sight.flow({p, 0}), a = sight.pressure({p, 0}), b = sight.pressure({p, 1});
    if (!flow || !a || !b || set <= 0.0) continue;
    const auto drop = [&](std::size_t row) { return a.value()[row] - b.value()[row]; };
    const auto short_of = [&](std::size_t row) {
      return flow.value()[row] > 0.3 * set && drop(row) < 0.98 * least;
    };
    const auto time = flow.time();
    double lasts = 0.0, passed = 0.0, over = 0.0, begin = 0.0;
    for (std::size_t row = 1; row < time.size(); ++row) {
      if (!short_of(row - 1) || !short_of(row)) continue;
      const double h = time[row] - time[row - 1];
      if (lasts == 0.0) begin = time[row - 1];
      lasts += h;
      passed += h * flow.value()[row];
      over += h * drop(row);
    }
    if (lasts < 0.2) continue;
    const double mean = passed / lasts, mean_drop = over / lasts;
    report.add(
        p,
        fmt::format("{} has only {} over it while {} flow (from {} on): it needs {} to hold its {}, and "
                    "lacks it for {} in all",
                    sight.tag(p), sight.say(mean_drop, Quantity::pressure), sight.say(mean, Quantity::flow),
                    sight.say(begin, Quantity::time), sight.say(least, Quantity::pressure),
                    sight.say(set, Quantity::flow), sight.say(lasts, Quantity::time)),
        fmt::format("Set {} below {}, or give it {} more in front", sight.tag(p),
                    sight.say(mean, Quantity::flow), sight.say(least - mean_drop, Quantity::pressure)),
        begin);
  }
}

/// Turns and share of full opening below which a needle counts as nearly shut.
constexpr double few_turns = 0.5, small_share = 0.15;

void look_at_nearly_shut(const Sight& sight, Report& report) {
  for (int p : sight.all({"needle", "one_way_flow_control"})) {
    const Values& v = sight.values(p);
    const auto curve = v.points("flow_curve");
    const double full = curve.empty() ? v["full_turns"] : curve.back().x;
    for (double turns : values_taken(sight, p, "turns")) {
      if (turns <= 0.0 || turns > few_turns - 1e-6 || turns > small_share * full) continue;
      // The same area at two turns out of eight.
      const std::string smaller =
          curve.empty() ? fmt::format("one of {} bore, which passes as much at a quarter of its turns",
                                      sight.say(v["bore"] * std::sqrt(4.0 * turns / full), Quantity::length))
                        : "the next smaller one, which passes as much at a quarter of its turns";
      report.add(
          p,
          fmt::format("{} stands {} of {} open: below half a turn its gap drifts with dirt and warmth",
                      sight.tag(p), sight.say(turns, Quantity::turns), sight.say(full, Quantity::turns)),
          fmt::format("Take {}, or a fixed orifice", smaller));
      break;
    }
  }
}

/// Where a throttle of a fixed pump meters, row by row.
struct Throttle {
  int part;
  Course flow, a, b;
  bool meters(std::size_t row, double least_flow) const {
    const double q = flow.value()[row], drop = a.value()[row] - b.value()[row];
    return std::abs(q) > least_flow && std::abs(drop) > 10.0 * si::bar;
  }
};

std::vector<Throttle> throttles_on(const Sight& sight, PortOf pump_line) {
  std::vector<Throttle> found;
  const auto zone = sight.reach(pump_line, can_feed);
  for (int p : sight.all({"needle", "one_way_flow_control", "compensated_flow_control"})) {
    const Throttle t{p, sight.flow({p, 0}), sight.pressure({p, 0}), sight.pressure({p, 1})};
    if (sight.touches(zone, {p, 0}) && t.flow && t.a && t.b) found.push_back(t);
  }
  return found;
}

void look_at_surplus(const Sight& sight, Report& report) {
  if (!sight.ran() || sight.all(Role::actuator).empty()) return;
  for (int pump : sight.all({"pump", "shaft_pump"})) {
    const double given = sight.pump_flow(pump);
    const auto limits = sight.limits_of({pump, 1});
    if (limits.empty() || given <= 0.0) continue;
    const int relief = limits.front().part;
    const Course surplus = sight.flow({relief, 0}), pressure = sight.pressure({pump, 1});
    const auto on_line = throttles_on(sight, {pump, 1});
    if (!surplus || !pressure || !sight.flow({pump, 0}) || on_line.empty()) continue;
    const auto time = surplus.time();
    const Course drawn = sight.flow({pump, 0});
    const auto wasted = [&](std::size_t row) {
      // A throttle that the pump does not feed, such as one that lowers a weight, is not what it is about.
      return surplus.value()[row] > 0.3 * given && drawn.value()[row] - surplus.value()[row] > 0.02 * given &&
             std::ranges::any_of(on_line, [&](const Throttle& t) { return t.meters(row, 0.02 * given); });
    };
    double lasts = 0.0, volume = 0.0, energy = 0.0;
    for (std::size_t row = 1; row < time.size(); ++row) {
      if (!wasted(row - 1) || !wasted(row)) continue;
      const double h = time[row] - time[row - 1];
      lasts += h;
      volume += h * surplus.value()[row];
      energy += h * surplus.value()[row] * pressure.value()[row];
    }
    if (lasts < 1.0 || lasts < 0.25 * sight.duration()) continue;
    std::vector<int> who;
    for (const Throttle& t : on_line) who.push_back(t.part);
    report.add(
        relief,
        fmt::format("With {} metering, {} lets {} go to the reservoir at full pressure for {}: {} of heat "
                    "from the {} that {} gives",
                    tags(sight, who), sight.tag(relief), sight.say(volume / lasts, Quantity::flow),
                    sight.say(lasts, Quantity::time), sight.say(energy / lasts, Quantity::power),
                    sight.say(given, Quantity::flow), sight.tag(pump)),
        fmt::format("Take a pump of about {}, or a variable one, or bleed the surplus off at the load's "
                    "pressure",
                    sight.say(given - volume / lasts, Quantity::flow)));
  }
}

/// Parts with a tank or drain port in a zone.
std::vector<int> drained_into(const Sight& sight, const std::set<int>& zone) {
  std::vector<int> found;
  for (const PortOf& at : sight.ports_in(zone)) {
    const std::string_view port = sight.plan.port(at).name;
    if (sight.role(at.part) == Role::reservoir || (port != "T" && port != "Y")) continue;
    if (std::ranges::find(found, at.part) == found.end()) found.push_back(at.part);
  }
  return found;
}

/// What a shared tank line may stand at, Pa.
constexpr double tank_pressure = 5.0 * si::bar;

void look_at_tank_line(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int p : sight.all({"needle", "one_way_flow_control", "compensated_flow_control"})) {
    for (int end : {0, 1}) {
      const auto zone = sight.reach(PortOf{p, end}, through_lines_and_filters);
      if (sight.has_reservoir(zone) || !sight.is_tank_line({p, 1 - end}, through_lines_and_filters)) continue;
      const auto drained = drained_into(sight, zone);
      const bool shared =
          drained.size() > 1 || std::ranges::any_of(drained, [&](int d) {
            return sight.role(d) == Role::pressure_limit || sight.is_one_of(d, {"sequence", "reducing"});
          });
      const Course course = sight.pressure({p, end});
      if (!shared || !course || course.time_above(tank_pressure) < 0.05) continue;
      const Peak peak = course.highest();
      report.add(
          p,
          fmt::format("{} throttles the tank line of {}: {} stand there {}, which adds to settings and "
                      "loads tank ports",
                      sight.tag(p), tags(sight, drained), sight.say(peak.value, Quantity::pressure),
                      sight.when(peak.time)),
          fmt::format("Meter each cylinder's own line, and let {} go freely to the reservoir, below "
                      "{}",
                      tags(sight, drained), sight.say(tank_pressure, Quantity::pressure)),
          peak.time);
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "needle and changing load",
              .harm = Harm::works_badly,
              .holds = "A needle without compensator moves its cylinder in all steps with flows that differ "
                       "by 10 % at most: the flow goes with the root of the drop.",
              .otherwise = "The light load creeps and the heavy one runs.",
              .remedy = "A flow control with a compensator.",
              .source = "web article on hooking up flow controls; 10 % common practice",
              .kinds = needles,
              .look = look_at_loads},
    TradeRule{.name = "compensator has its least drop",
              .harm = Harm::works_badly,
              .holds = "While oil flows, a compensated flow control has at least its minimum drop over it "
                       "(often 7 to 10 bar); 0.2 s below it are allowed.",
              .otherwise = "It is a plain orifice: the speed goes with the load and jumps at the start.",
              .remedy = "Set it to less than the pump gives, or supply more pressure.",
              .source = "from memory; one design 20 psi (web restatement of an army manual)",
              .kinds = compensated,
              .look = look_at_minimum_drop},
    TradeRule{.name = "needle not nearly shut",
              .harm = Harm::works_badly,
              .holds = "A needle works at half a turn or more, or at 15 % of its full turns.",
              .otherwise = "The narrow gap silts up, and the speed drifts with the oil's warmth.",
              .remedy = "A smaller needle further open, or a fixed orifice.",
              .kinds = needles,
              .look = look_at_nearly_shut},
    TradeRule{.name = "no throttle behind a fixed pump",
              .harm = Harm::works_badly,
              .holds = "While a throttle meters, less than 30 % of a fixed pump's flow goes over the relief "
                       "valve, or that for less than a quarter of the cycle.",
              .otherwise = "The surplus turns to heat at full pressure.",
              .remedy = "A pump that fits, a variable pump, or a bleed-off.",
              .source = "trade magazine's e-book on fluid-power circuits, book 2",
              .kinds = throttles,
              .look = look_at_surplus},
    TradeRule{.name = "no needle in a shared tank line",
              .harm = Harm::damages,
              .holds =
                  "A tank line that a pressure valve or more than one valve drains into is not throttled "
                  "to more than 5 bar (70 psi).",
              .otherwise = "Settings shift by what stands there, and tank ports that cannot bear it jam.",
              .remedy = "Meter each cylinder's own line.",
              .source = "trade magazine's e-book on fluid-power circuits, book 2; 5 bar common practice",
              .kinds = throttles,
              .look = look_at_tank_line},
};

}  // namespace

std::span<const TradeRule> flow_rules() { return rules; }

}  // namespace poise::rules
