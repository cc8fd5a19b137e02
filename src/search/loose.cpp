// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/loose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

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

/// The greatest that steps and controls set an input to, whatever its sign; none: 0.
double greatest_command(const Job& job, int part, int parameter) {
  double greatest = 0.0;
  const auto look = [&](const std::vector<Command>& commands) {
    for (const Command& command : commands) {
      if (command.part != part || job.plan.parts[part].kind->inputs[command.input] != parameter) continue;
      if (std::abs(command.target) > std::abs(greatest)) greatest = command.target;
    }
  };
  for (const Step& step : job.steps) look(step.commands);
  for (const Control& control : job.controls) look(control.commands);
  return greatest;
}

/// What a value is stated as: of a curve its greatest second value, of an input that is zero until a step
/// sets it what it is set to at most.
double stated_of(const Job& job, int p, int parameter) {
  const PlannedPart& part = job.plan.parts[p];
  const Parameter& line = part.kind->parameters[parameter];
  if (line.against) {
    double greatest = std::numeric_limits<double>::quiet_NaN();
    for (const CurvePoint& point : part.values.points(line.name))
      greatest = std::isnan(greatest) ? point.y : std::max(greatest, point.y);
    return greatest;
  }
  const double value = part.values.all()[parameter];
  return value == 0.0 && line.tolerance.of == Tolerance::Of::value ? greatest_command(job, p, parameter)
                                                                   : value;
}

bool can_be_off(const Parameter& line, double value, const Tolerance& tolerance) {
  if (!line.words.empty() || !std::isfinite(value) || tolerance.exact()) return false;
  return tolerance.of != Tolerance::Of::value || value != 0.0;
}

/// A point's second value off; it does not change its side, and none stays none.
double point_off(double y, const Tolerance& tolerance, double u) {
  const double off = tolerance.at(y, u);
  if (y == 0.0) return 0.0;
  return y > 0.0 ? std::max(off, 0.0) : std::min(off, 0.0);
}

double within(const Parameter& line, double value) { return std::clamp(value, line.low, line.high); }

Values values_off(const PlannedPart& part, const Loose& loose, double u) {
  const Parameter& line = part.kind->parameters[loose.parameter];
  Values values = part.values;
  if (line.against) {
    const auto given = part.values.points(line.name);
    Points points(given.begin(), given.end());
    for (CurvePoint& point : points) point.y = point_off(point.y, loose.tolerance, u);
    values.set_points(loose.parameter, std::move(points));
  } else {
    values.set(loose.parameter, within(line, loose.tolerance.at(values.all()[loose.parameter], u)));
  }
  return values;
}

/// How far off its kind takes the value beside the others, which may be off already: a switch that is broken
/// at a higher pressure than it is made at is none.
double taken(const PlannedPart& part, const Loose& loose, double u) {
  const auto goes = [&](double share) { return part.kind->check(values_off(part, loose, share)).empty(); };
  if (goes(u) || !part.kind->check(part.values).empty()) return u;
  constexpr int halvings = 40;
  double good = 0.0, refused = u;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (good + refused);
    (goes(middle) ? good : refused) = middle;
  }
  return good;
}

void put_commands_off(std::vector<Command>& commands, const Kind& kind, const Loose& loose, double u) {
  for (Command& command : commands) {
    if (command.part != loose.part || kind.inputs[command.input] != loose.parameter) continue;
    if (command.target != 0.0)
      command.target = within(kind.parameters[loose.parameter], loose.tolerance.at(command.target, u));
  }
}

/// Thinner or thicker by the same share at every temperature.
void put_viscosity_off(OilData& oil, double viscosity_40) {
  oil.viscosity_100 *= viscosity_40 / oil.viscosity_40;
  oil.viscosity_40 = viscosity_40;
}

void put_part_off(Job& job, const Loose& loose, double wanted) {
  PlannedPart& part = job.plan.parts[loose.part];
  const double u = taken(part, loose, wanted);
  part.values = values_off(part, loose, u);
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
      const Loose loose = with_tolerance({.part = p, .parameter = i, .stated = stated_of(job, p, i)},
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

double value_off(const Loose& loose, const Job& job, double u) {
  const auto of_oil = [&](std::string_view key) {
    return within(oil_parameters()[*find_parameter(oil_parameters(), key)], loose.at(u));
  };
  switch (loose.of) {
    case Loose::Of::oil_viscosity:
      return of_oil("viscosity_40");
    case Loose::Of::oil_air:
      return of_oil("air");
    case Loose::Of::oil_modulus:
      return of_oil("modulus");
    case Loose::Of::oil_temperature:
      return of_oil("temperature");
    case Loose::Of::part:
      break;
  }
  const Parameter& line = job.plan.parts[loose.part].kind->parameters[loose.parameter];
  return line.against ? loose.at(u) : within(line, loose.at(u));
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
  const Parameter& line = job.plan.parts[loose.part].kind->parameters[loose.parameter];
  return line.against.value_or(line.quantity);
}

void put_off(Job& job, const Loose& loose, double u) {
  OilData& oil = job.plan.oil;
  const auto off = [&](double value, std::string_view key) {
    const Parameter& line = oil_parameters()[*find_parameter(oil_parameters(), key)];
    return std::clamp(loose.tolerance.at(value, u), line.low, line.high);
  };
  switch (loose.of) {
    case Loose::Of::oil_viscosity:
      put_viscosity_off(oil, off(oil.viscosity_40, "viscosity_40"));
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
