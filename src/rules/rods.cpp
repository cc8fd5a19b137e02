// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/rods.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "parts/laws.hpp"
#include "rules/pressed.hpp"

namespace poise::rules {
namespace {

constexpr double quarter_pi = std::numbers::pi / 4.0;

double square(double x) { return x * x; }

void add_weight(RodLoad& sum, int load, double mass, double weight) {
  if (sum.load < 0 || std::abs(weight) > std::abs(sum.weight)) {
    sum.load = load;
    sum.mass = mass;
  }
  sum.weight += weight;
}

}  // namespace

bool is_cylinder(const Sight& sight, int p) {
  return sight.is_one_of(p, {"single_acting_cylinder", "double_acting_cylinder"});
}

std::vector<int> all_cylinders(const Sight& sight) {
  return sight.all({"single_acting_cylinder", "double_acting_cylinder"});
}

double area_behind(const Sight& sight, int cylinder) {
  const Values& v = sight.values(cylinder);
  return circle(v["bore"]) - circle(v["hole"]);
}

double area_around_rod(const Sight& sight, int cylinder) {
  const auto rod = sight.given(cylinder, "rod");
  return rod ? circle(sight.values(cylinder)["bore"]) - circle(*rod) : 0.0;
}

double area_of_side(const Sight& sight, PortOf side) {
  const bool around = side.port == 1 || pulls(sight, side.part);
  return around ? area_around_rod(sight, side.part) : area_behind(sight, side.part);
}

Faces faces(const Sight& sight, int cylinder) {
  const Values& v = sight.values(cylinder);
  return {quarter_pi * (square(v["bore"]) - square(v["hole"])),
          quarter_pi * (square(v["bore"]) - square(v["rod"]))};
}

bool pulls(const Sight& sight, int cylinder) {
  return sight.is(cylinder, "single_acting_cylinder") && sight.values(cylinder).word("acts") == 1;
}

double face_at_a(const Sight& sight, int cylinder) {
  const Values& v = sight.values(cylinder);
  const double off = pulls(sight, cylinder) ? sight.given(cylinder, "rod").value_or(0.0) : v["hole"];
  return quarter_pi * (square(v["bore"]) - square(off));
}

RodLoad load_on(const Sight& sight, PortOf rod) {
  RodLoad sum;
  for (const PortOf& at : sight.members(sight.group(rod))) {
    const Values& v = sight.values(at.part);
    if (sight.is(at.part, "mass"))
      add_weight(sum, at.part, v["mass"], v["mass"] * si::gravity * std::sin(v["slope"]));
    else if (sight.is(at.part, "rigid_load") && sight.plan.port(at).name.starts_with("point_"))
      add_weight(sum, at.part, v["mass"], share_of_point(sight, at));
    else if (is_cylinder(sight, at.part))
      ++sum.cylinders;
  }
  return sum;
}

Course force_on_point(const Sight& sight, PortOf point) {
  const std::string_view name = sight.plan.port(point).name;  // point_3
  return sight.output(point.part, "force_" + std::string(name.substr(name.rfind('_') + 1)));
}

double share_of_point(const Sight& sight, PortOf point) {
  const Course force = force_on_point(sight, point);
  double greatest = 0.0;
  for (const StepSpan& span : sight.spans()) greatest = std::max(greatest, force.at(span.end));
  if (greatest > 0.0) return greatest;
  const Values& v = sight.values(point.part);
  return v["mass"] * si::gravity / static_cast<double>(v.points("points").size());
}

double weight_against(const Sight& sight, int cylinder) {
  const auto rod = sight.port(cylinder, "rod");
  if (!rod) return 0.0;
  const RodLoad on_it = load_on(sight, *rod);
  const double share = on_it.weight / std::max(1, on_it.cylinders);
  return std::abs(share) < 1.0 ? 0.0 : share;
}

std::vector<double> values_taken(const Sight& sight, int p, std::string_view parameter) {
  const Kind& kind = *sight.part(p).kind;
  std::vector<double> taken;
  if (const auto first = sight.given(p, parameter)) taken.push_back(*first);
  const auto collect = [&](const std::vector<Command>& commands) {
    for (const Command& command : commands) {
      if (command.part == p && kind.parameters[kind.inputs[command.input]].name == parameter)
        taken.push_back(command.target);
    }
  };
  for (const Step& step : sight.steps) collect(step.commands);
  for (const Control& control : sight.controls) collect(control.commands);
  return taken;
}

Span forces_against(const Sight& sight, PortOf rod) {
  Span sum;
  for (int p : sight.on_rod(rod)) {
    if (!sight.is(p, "force")) continue;
    const auto [least, greatest] = std::ranges::minmax(values_taken(sight, p, "force"));
    sum.least += least;
    sum.greatest += greatest;
  }
  return sum;
}

double mass_moved(const Sight& sight, int cylinder) {
  double sum = sight.values(cylinder)["moving_mass"];
  const auto rod = sight.port(cylinder, "rod");
  if (!rod) return sum;
  for (int p : sight.on_rod(*rod)) {
    if (sight.is(p, "mass")) sum += sight.values(p)["mass"];
  }
  return sum;
}

bool can_feed(const PlannedPart& part) {
  const std::string_view kind = part.kind->about.kind;
  return through_restrictions(part) || part.kind->about.role == Role::one_way || is_directional(part) ||
         kind == "sequence" || kind == "counterbalance";
}

bool through_lines_and_checks(const PlannedPart& part) {
  return through_lines(part) || part.kind->about.role == Role::one_way ||
         part.kind->about.kind == "hose_burst_valve";
}

std::optional<double> feeding_pressure(const Sight& sight, PortOf at) {
  if (!sight.all({"intensifier", "cycling_intensifier"}).empty()) return std::nullopt;
  const auto near = sight.reach(at, through_restrictions);
  for (int valve : sight.all({"reducing", "reducing_non_relieving"})) {
    if (sight.touches(near, *sight.port(valve, "A"))) return sight.values(valve)["setting"];
  }
  const auto zone = sight.reach(at, can_feed);
  std::optional<double> highest;
  for (int pump : sight.all(Role::source)) {
    const auto outlet = sight.port(pump, "P");
    if (!outlet || !sight.touches(zone, *outlet)) continue;
    const auto full = sight.limited_at(*outlet, sight.pump_flow(pump));
    if (!full) return std::nullopt;
    highest = std::max(highest.value_or(*full), *full);
  }
  return highest;
}

double whole_pump_flow(const Sight& sight) {
  double sum = 0.0;
  for (int pump : sight.all(Role::source)) {
    const double flow = sight.pump_flow(pump);
    if (flow <= 0.0) return 0.0;
    sum += flow;
  }
  return sum;
}

double rated_flow(const Sight& sight, int p) {
  if (const auto rated = sight.given(p, "rated_flow")) return *rated;
  if (!find_parameter(sight.part(p).kind->parameters, "drop_curve")) return 0.0;
  const auto points = sight.values(p).points("drop_curve");
  return points.empty() ? 0.0 : points.back().x;
}

std::vector<int> exits(const Sight& sight, const std::set<int>& zone) {
  std::vector<int> found;
  for (const PortOf& at : sight.ports_in(zone)) {
    const int p = at.part;
    const Role role = sight.role(p);
    if (role == Role::line || role == Role::actuator || sight.is_one_of(p, {"gauge", "pressure_switch"}))
      continue;
    if (std::ranges::find(found, p) == found.end()) found.push_back(p);
  }
  return found;
}

std::vector<First> first_above(const Sight& sight, std::string_view kind, std::string_view output,
                               double threshold) {
  std::vector<First> moments;
  for (int p = 0; p < sight.parts(); ++p) {
    if (!sight.is(p, kind)) continue;
    if (const auto time = sight.output(p, output).first_above(threshold)) moments.push_back({*time, p});
  }
  std::ranges::sort(moments, std::greater{}, &First::time);
  return moments;
}

}  // namespace poise::rules
