// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Pressures, ways and speeds that steps and requirements ask of actuators, in closed form.
#include <algorithm>
#include <cmath>

#include "compose/circuits_wanted.hpp"

namespace poise::compose {
namespace {

/// A signal that is to pass a value, or not to, and who says so.
struct Asked {
  const Signal* signal;
  bool above = true;  ///< whether it is to be above; else below
  double value = 0.0;
  bool stays = false;  ///< at all times, rather than once
  std::string_view name;
};

double seal_share(const PlannedPart& part) {
  return part.kind->about.kind == "work_support" || !find_parameter(part.kind->parameters, "seal_friction")
             ? 0.0
             : part.values["seal_friction"];
}

/// The pressure at A with which an actuator pushes with a force.
double pressure_for(const Wanted& wanted, const Actuator& a, double force) {
  const double seal = seal_share(wanted.job.plan.parts[a.part]);
  return (force + a.springs + std::max(a.weight, 0.0)) / (a.area_a * (1.0 - seal));
}

double capacity_pressure(const Values& v, double force) {
  if (!v.given("capacity") || !v.given("capacity_pressure")) return v["lock_pressure"];
  const double slope = v["capacity"] / (v["capacity_pressure"] - v["lock_pressure"]);
  return v["lock_pressure"] + force / slope;
}

/// What a signal of a force or pressure means for the pressure at A; none where it means nothing.
std::optional<double> pressure_of(const Wanted& wanted, const Actuator& a, const Asked& asked) {
  const Signal& signal = *asked.signal;
  const PlannedPart& part = wanted.job.plan.parts[signal.part];
  if (signal.what == Signal::What::pressure && signal.part == a.part)
    return signal.index == 0 ? std::optional(asked.value) : std::nullopt;
  if (signal.what != Signal::What::output) return std::nullopt;
  const std::string_view output = part.kind->outputs[signal.index].name;
  if (output == "capacity") return capacity_pressure(part.values, asked.value);
  if (signal.quantity != Quantity::force) return std::nullopt;
  if (output == "clamp_force") return pressure_for(wanted, a, asked.value / part.values["arm_factor"]);
  if (output == "force") return pressure_for(wanted, a, asked.value);
  return std::nullopt;
}

/// How far out the rod stands where a signal passes a value; none where it says nothing of that.
std::optional<double> way_of(const Wanted& wanted, const Actuator& a, const Asked& asked) {
  const Signal& signal = *asked.signal;
  const PlannedPart& part = wanted.job.plan.parts[signal.part];
  if (signal.what == Signal::What::position && signal.part == a.part) return asked.value;
  if (signal.what != Signal::What::output) return std::nullopt;
  const Values& v = part.values;
  if (part.kind->about.kind == "spring")
    return v["free_travel"] + std::max(0.0, asked.value - v["preload"]) / v["rate"];
  if (part.kind->about.kind == "swing_clamp")
    return v["swing_stroke"] + (v.given("gap") ? v["gap"] : 0.5 * v["clamp_stroke"]);
  return std::nullopt;
}

void limit_speed(Actuator& a, const Asked& asked) {
  const bool out = !asked.above && asked.value > 0.0, in = asked.above && asked.value < 0.0;
  if (!asked.stays || (!out && !in)) return;
  double& limit = out ? a.out_limit : a.in_limit;
  if (limit != 0.0 && limit <= std::abs(asked.value)) return;
  limit = std::abs(asked.value);
  (out ? a.out_limit_for : a.in_limit_for) = asked.name;
}

void ask(const Wanted& wanted, Actuator& a, const Asked& asked) {
  const Signal& signal = *asked.signal;
  if (signal.what == Signal::What::speed && signal.part == a.part) return limit_speed(a, asked);
  if (asked.above) {
    if (const auto way = way_of(wanted, a, asked)) a.way = std::max(a.way, std::min(*way, a.stroke));
  }
  const auto pressure = pressure_of(wanted, a, asked);
  if (!pressure) return;
  if (asked.above) {
    a.needs = std::max(a.needs, *pressure);
    if (asked.stays) a.keeps = std::max(a.keeps, *pressure);
  } else if (asked.stays && *pressure < a.most) {
    a.most = *pressure;
    a.most_for = asked.name;
  }
}

struct AllAsked {
  std::vector<Asked> list;
  void add(const std::vector<Condition>& conditions, std::string_view name) {
    for (const Condition& c : conditions) list.push_back({&c.signal, c.above, c.threshold, false, name});
  }
};

std::vector<Asked> all_asked(const Job& job) {
  AllAsked all;
  for (const Step& step : job.steps) all.add(step.until, step.name);
  for (const Requirement& requirement : job.requirements) {
    const std::string_view name = requirement.name;
    if (const auto* never = std::get_if<Never>(&requirement.what))
      all.list.push_back({&never->signal, !never->above, never->limit, true, name});
    if (const auto* band = std::get_if<Band>(&requirement.what)) {
      all.list.push_back({&band->signal, true, band->low, true, name});
      all.list.push_back({&band->signal, false, band->high, true, name});
    }
    if (const auto* reached = std::get_if<Reached>(&requirement.what)) {
      const Condition& c = reached->condition;
      all.list.push_back({&c.signal, c.above, c.threshold, false, name});
    }
    if (const auto* order = std::get_if<Order>(&requirement.what)) all.add(order->first, name);
  }
  return all.list;
}

bool goes_in(const Actuator& a, const std::vector<int>& steps, Goes goes) {
  return std::ranges::any_of(steps, [&](int s) { return a.goes[s] == goes && a.is_told[s]; });
}

std::vector<int> steps_of(const Job& job, const Requirement& requirement) {
  std::vector<int> steps;
  for (int s = 0; s < static_cast<int>(job.steps.size()); ++s) {
    const auto& during = requirement.during;
    if (during.empty() || std::ranges::find(during, job.steps[s].name) != during.end()) steps.push_back(s);
  }
  return steps;
}

/// Share of the time that is asked for in which it is to be done: the rest is for starting, stopping and
/// pressing oil together.
constexpr double part_of_the_time = 0.75;
constexpr double usual_time = 6.0;

void reckon_times(Wanted& wanted) {
  for (const Requirement& requirement : wanted.job.requirements) {
    const auto* reached = std::get_if<Reached>(&requirement.what);
    if (!reached) continue;
    const auto steps = steps_of(wanted.job, requirement);
    const double time = part_of_the_time * reached->within;
    double volume = 0.0;
    for (Actuator& a : wanted.actuators) {
      if (reached->condition.above && goes_in(a, steps, Goes::out)) volume += a.area_a * a.way;
      if (reached->condition.above || !goes_in(a, steps, Goes::in)) continue;
      volume += a.area_b * a.way;
      a.quick_in = std::max(a.quick_in, a.way / time);
    }
    wanted.flow = std::max(wanted.flow, volume / time);
  }
  if (wanted.flow > 0.0) return;
  for (const Actuator& a : wanted.actuators) wanted.flow += a.area_a * a.way / usual_time;
}

}  // namespace

void reckon_needs(Wanted& wanted) {
  for (Actuator& a : wanted.actuators) {
    a.way = 0.0;
    a.needs = pressure_for(wanted, a, 0.0);
    for (const Asked& asked : all_asked(wanted.job)) {
      const auto about = actuators_of(wanted, asked.signal->part);
      const auto self = static_cast<int>(&a - wanted.actuators.data());
      if (std::ranges::find(about, self) != about.end()) ask(wanted, a, asked);
    }
    if (a.way == 0.0) a.way = a.stroke;
    if (a.keeps == 0.0) a.keeps = a.needs;
    wanted.pressure = std::max(wanted.pressure, a.needs);
    // A load that pulls the rod out is lifted by oil at B.
    if (a.weight < 0.0 && a.both)
      wanted.pressure = std::max(wanted.pressure, (a.springs - a.weight) / a.area_b);
    wanted.rating = wanted.rating == 0.0 ? a.rating : std::min(wanted.rating, a.rating);
  }
  reckon_times(wanted);
}

}  // namespace poise::compose
