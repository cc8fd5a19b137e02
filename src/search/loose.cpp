// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/loose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "job/oil_table.hpp"

namespace poise::search {
namespace {

constexpr double usual_temperature_range = 10.0;  // K to either side
constexpr Tolerance within_a_grade = 0.1;
constexpr Tolerance usual_air{0.8, 1.0};
constexpr Tolerance usual_modulus = 0.05;

const StatedTolerance* stated(const Job& job, int part, int parameter) {
  const auto found = std::ranges::find_if(job.tolerances, [&](const StatedTolerance& each) {
    return each.part == part && each.parameter == parameter;
  });
  return found == job.tolerances.end() ? nullptr : &*found;
}

Loose with_tolerance(Loose loose, const StatedTolerance* stated, Tolerance otherwise, Loose::From from) {
  loose.tolerance = stated ? stated->tolerance : otherwise;
  loose.from = stated ? (stated->from_list ? Loose::From::list : Loose::From::job) : from;
  return loose;
}

Loose temperature(const Job& job) {
  const double at = job.plan.oil.temperature;
  Loose loose{.of = Loose::Of::oil_temperature, .stated = at, .from = Loose::From::usual};
  loose.tolerance = {usual_temperature_range, usual_temperature_range, Tolerance::Of::absolute};
  if (job.oil_temperatures) {
    loose.tolerance = {std::max(at - job.oil_temperatures->coldest, 0.0),
                       std::max(job.oil_temperatures->hottest - at, 0.0), Tolerance::Of::absolute};
    loose.from = Loose::From::job;
  }
  return loose;
}

void add_oil(std::vector<Loose>& all, const Job& job) {
  const OilData& oil = job.plan.oil;
  const auto of_oil = [&](Loose::Of of, double value, std::string_view key, Tolerance usual) {
    const auto parameter = find_parameter(oil_parameters(), key);
    all.push_back(with_tolerance({.of = of, .stated = value}, stated(job, -1, parameter.value_or(-1)), usual,
                                 Loose::From::usual));
  };
  all.push_back(temperature(job));
  of_oil(Loose::Of::oil_viscosity, oil.viscosity_40, "viscosity_40", within_a_grade);
  of_oil(Loose::Of::oil_air, oil.air, "air", usual_air);
  of_oil(Loose::Of::oil_modulus, oil.modulus, "modulus", usual_modulus);
}

bool can_be_off(const Parameter& line, double value, const Tolerance& tolerance) {
  if (!line.words.empty() || !std::isfinite(value) || tolerance.exact()) return false;
  return tolerance.of != Tolerance::Of::value || value != 0.0;
}

void put_commands_off(std::vector<Command>& commands, const Kind& kind, const Loose& loose, double u) {
  for (Command& command : commands) {
    if (command.part != loose.part || kind.inputs[command.input] != loose.parameter) continue;
    const Parameter& line = kind.parameters[loose.parameter];
    if (command.target != 0.0)
      command.target = std::clamp(loose.tolerance.at(command.target, u), line.low, line.high);
  }
}

void put_part_off(Job& job, const Loose& loose, double u) {
  PlannedPart& part = job.plan.parts[loose.part];
  const Parameter& line = part.kind->parameters[loose.parameter];
  const auto within = [&](double value) {
    return std::clamp(loose.tolerance.at(value, u), line.low, line.high);
  };
  if (line.against) {
    const auto given = part.values.points(line.name);
    Points points(given.begin(), given.end());
    for (CurvePoint& point : points) point.x = within(point.x);
    part.values.set_points(loose.parameter, std::move(points));
    return;
  }
  part.values.set(loose.parameter, within(part.values.all()[loose.parameter]));
  for (Step& step : job.steps) put_commands_off(step.commands, *part.kind, loose, u);
  for (Control& control : job.controls) put_commands_off(control.commands, *part.kind, loose, u);
}

}  // namespace

std::vector<Loose> loose_values(const Job& job) {
  std::vector<Loose> all;
  add_oil(all, job);
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    for (int i = 0; i < static_cast<int>(part.kind->parameters.size()); ++i) {
      const Parameter& line = part.kind->parameters[i];
      const Loose loose = with_tolerance({.part = p, .parameter = i, .stated = part.values.all()[i]},
                                         stated(job, p, i), line.tolerance, Loose::From::kind);
      if (can_be_off(line, loose.stated, loose.tolerance)) all.push_back(loose);
    }
  }
  std::erase_if(all, [](const Loose& loose) { return loose.tolerance.exact(); });
  return all;
}

std::string name_of(const Loose& loose, const Job& job) {
  switch (loose.of) {
    case Loose::Of::oil_viscosity:
      return "oil viscosity";
    case Loose::Of::oil_air:
      return "air in the oil";
    case Loose::Of::oil_modulus:
      return "oil modulus";
    case Loose::Of::oil_temperature:
      return "oil temperature";
    case Loose::Of::part:
      break;
  }
  const PlannedPart& part = job.plan.parts[loose.part];
  return fmt::format("{}.{}", part.tag, part.kind->parameters[loose.parameter].name);
}

Quantity quantity_of(const Loose& loose, const Job& job) {
  switch (loose.of) {
    case Loose::Of::oil_viscosity:
      return Quantity::viscosity;
    case Loose::Of::oil_air:
      return Quantity::share;
    case Loose::Of::oil_modulus:
      return Quantity::modulus;
    case Loose::Of::oil_temperature:
      return Quantity::temperature;
    case Loose::Of::part:
      break;
  }
  return job.plan.parts[loose.part].kind->parameters[loose.parameter].quantity;
}

void put_off(Job& job, const Loose& loose, double u) {
  OilData& oil = job.plan.oil;
  const auto off = [&](double value, std::string_view key) {
    const Parameter& line = oil_parameters()[*find_parameter(oil_parameters(), key)];
    return std::clamp(loose.tolerance.at(value, u), line.low, line.high);
  };
  switch (loose.of) {
    case Loose::Of::oil_viscosity:
      oil.viscosity_100 *= loose.tolerance.at(oil.viscosity_40, u) / oil.viscosity_40;
      oil.viscosity_40 = loose.tolerance.at(oil.viscosity_40, u);
      return;
    case Loose::Of::oil_air:
      oil.air = off(oil.air, "air");
      return;
    case Loose::Of::oil_modulus:
      oil.modulus = off(oil.modulus, "modulus");
      return;
    case Loose::Of::oil_temperature:
      oil.temperature = off(oil.temperature, "temperature");
      return;
    case Loose::Of::part:
      put_part_off(job, loose, u);
  }
}

}  // namespace poise::search
