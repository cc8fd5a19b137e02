// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Faults that the parts' own rooms state, as changes of their values, their curves, and of what steps set.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "judge/wording.hpp"
#include "parts/common.hpp"
#include "study/fault_parts.hpp"

namespace poise::study {
namespace {

/// A value that a curve of the datasheet says instead, where its line in the table does not say so itself.
struct SaidByCurve {
  std::string_view parameter, curve;
};
constexpr std::array said_by_curves{
    SaidByCurve{"pressure_drop", "drop_curve"},
    SaidByCurve{"override", "override_curve"},
    SaidByCurve{"flow", "delivery_curve"},
    SaidByCurve{"expansion", "expansion_curve"},
};

/// Place of the curve that stands for a parameter in this part, or none.
std::optional<int> curve_for(const PlannedPart& part, int parameter) {
  const auto table = part.kind->parameters;
  const auto given = [&](std::string_view name) -> std::optional<int> {
    const auto at = find_parameter(table, name);
    return at && table[*at].against && part.values.given(name) ? at : std::nullopt;
  };
  if (!table[parameter].instead.empty()) {
    if (const auto at = given(table[parameter].instead)) return at;
  }
  for (const SaidByCurve& each : said_by_curves) {
    if (each.parameter == table[parameter].name) return given(each.curve);
  }
  return std::nullopt;
}

Points points_of(const PlannedPart& part, int curve) {
  const auto given = part.values.points(part.kind->parameters[curve].name);
  return {given.begin(), given.end()};
}

/// A relief valve's wider band: its cracking pressure, taken at the first point, stays.
void widen(Points& points, double factor) {
  const double cracking = points.front().y;
  for (CurvePoint& point : points) point.y = cracking + factor * (point.y - cracking);
}

/// The fast stage of a pump delivers less; what is left at high pressure is the other stage's.
void slow_the_fast_stage(Points& points, double factor) {
  const auto [least, most] = std::ranges::minmax(points, {}, &CurvePoint::y);
  const double middle = 0.5 * (least.y + most.y);
  double other = least.y;
  for (const CurvePoint& point : points) {
    if (point.y < middle) other = std::max(other, point.y);
  }
  for (CurvePoint& point : points) {
    if (point.y >= middle) point.y = std::max(factor * point.y, other);
  }
}

bool scale_curve(PlannedPart& part, int curve, const Parameter& line, double factor) {
  const Parameter& axes = part.kind->parameters[curve];
  Points points = points_of(part, curve);
  if (points.empty()) return false;
  if (line.name == "override") {
    widen(points, factor);
  } else if (line.name == "low_pressure_flow") {
    slow_the_fast_stage(points, factor);
  } else if (axes.against == line.quantity) {
    for (CurvePoint& point : points) point.y *= factor;
  } else if (line.name == "expansion") {
    for (CurvePoint& point : points) point.y *= factor;
  } else {
    return false;
  }
  part.values.set_points(curve, std::move(points));
  return true;
}

const Fault& fault_of(const Job& job, const FaultPlace& place) {
  return job.plan.parts[place.on].kind->faults[place.which];
}

int parameter_of(const Job& job, const FaultPlace& place) {
  return *find_parameter(job.plan.parts[place.on].kind->parameters, fault_of(job, place).parameter);
}

/// The value as it stands; of a leakage that is stated by its class, the flow that the class stands for.
double stated_value(const PlannedPart& part, int parameter) {
  if (part.kind->parameters[parameter].name == "leakage" &&
      find_parameter(part.kind->parameters, "leakage_class") && part.values.given("leakage_class"))
    return common::leakage_flows[static_cast<std::size_t>(part.values.word("leakage_class"))];
  return part.values.all()[parameter];
}

/// What one value becomes. Where the machine's own is already past the slight size of what it "becomes", the
/// fault comes on top of it.
double changed(double value, const Fault& fault, const Parameter& line, double size, double stated) {
  double now = size;
  if (fault.change == Fault::Change::times) now = value * size;
  if (fault.change == Fault::Change::plus) now = value + size;
  if (fault.change == Fault::Change::becomes && line.words.empty() && std::isfinite(stated) &&
      line.fallback && stated != *line.fallback &&
      (fault.grave >= fault.slight ? stated >= fault.slight : stated <= fault.slight))
    now = stated + (size - *line.fallback);
  return std::clamp(now, line.low, line.high);
}

/// The value at a size, where it is a value.
double value_at(const Job& job, const FaultPlace& place, double t) {
  const PlannedPart& part = job.plan.parts[place.on];
  const int parameter = parameter_of(job, place);
  const double stated = stated_value(part, parameter);
  return changed(stated, fault_of(job, place), part.kind->parameters[parameter], place.size(t), stated);
}

/// Why a fault has nothing to change in this part; empty where it has.
std::string nothing_to_change(const Job& job, const FaultPlace& place) {
  const PlannedPart& part = job.plan.parts[place.on];
  const Fault& fault = fault_of(job, place);
  const int parameter = parameter_of(job, place);
  const Parameter& line = part.kind->parameters[parameter];
  if (const auto curve = curve_for(part, parameter)) {
    const std::string_view curve_name = part.kind->parameters[*curve].name;
    if (fault.change != Fault::Change::times)
      return fmt::format("{} says this, and the fault is no factor", curve_name);
    PlannedPart tried = part;
    if (!scale_curve(tried, *curve, line, 0.5))
      return fmt::format("{} does not say its {}", curve_name, line.name);
    return {};
  }
  const double value = part.values.all()[parameter];
  if (!std::isfinite(value) && fault.change != Fault::Change::becomes)
    return fmt::format("its {} is not stated", line.name);
  if (commands_set_it(job, place.on, parameter)) return {};
  if (line.name == "speed" && find_parameter(part.kind->parameters, "displacement") &&
      !part.values.given("displacement"))
    return "its flow is stated, not its displacement and speed";
  if (value_at(job, place, 1.0) == value)
    return value == 0.0 ? fmt::format("its {} is none as it is", line.name)
                        : fmt::format("its {} is so as it is", line.name);
  return {};
}

}  // namespace

void add_faults_of_rooms(const Job& job, FaultList& list) {
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    for (int f = 0; f < static_cast<int>(part.kind->faults.size()); ++f) {
      const Fault& fault = part.kind->faults[f];
      FaultPlace place{.name = fmt::format("{} {}", part.tag, fault.name),
                       .part = part.tag,
                       .fault = std::string(fault.name),
                       .sentence = std::string(fault.sentence),
                       .source = std::string(fault.source),
                       .on = p,
                       .which = f,
                       .slight = fault.slight,
                       .grave = fault.grave};
      const Parameter& line = part.kind->parameters[parameter_of(job, place)];
      const bool ratio = fault.slight > 0.0 && fault.grave > 0.0;
      place.factors = ratio && (fault.change == Fault::Change::times || line.quantity == Quantity::flow);
      place.one_size = fault.slight == fault.grave || !line.words.empty();
      std::string reason = nothing_to_change(job, place);
      if (reason.empty())
        list.places.push_back(std::move(place));
      else
        list.not_applicable.push_back({place.name, std::move(reason)});
    }
  }
}

bool put_room_fault(Job& job, const FaultPlace& place, double t) {
  PlannedPart& part = job.plan.parts[place.on];
  const Fault& fault = fault_of(job, place);
  const int parameter = parameter_of(job, place);
  const Parameter& line = part.kind->parameters[parameter];
  const bool sound = goes_together(part);
  if (const auto curve = curve_for(part, parameter)) {
    if (!scale_curve(part, *curve, line, place.size(t))) return false;
  } else {
    const double now = value_at(job, place, t);
    if (line.name == "leakage") {
      if (const auto by_class = find_parameter(part.kind->parameters, "leakage_class"))
        part.values.set(*by_class, std::nan(""));
    }
    const double stated = part.values.all()[parameter];
    part.values.set(parameter, now);
    for_each_command(job, place.on, parameter, [&](Command& command) {
      if (fault.change == Fault::Change::times && command.target == 0.0) return;
      command.target = changed(command.target, fault, line, place.size(t), stated);
    });
  }
  return !sound || goes_together(part);
}

namespace {

std::string plain_name(const Parameter& line) {
  std::string name(line.name);
  std::ranges::replace(name, '_', ' ');
  return name;
}

std::string value_in_words(const Job& job, const Parameter& line, double value) {
  if (!line.words.empty())
    return fmt::format("{} {}", plain_name(line), line.words[static_cast<std::size_t>(value)]);
  return fmt::format("{} {}", plain_name(line),
                     line.quantity == Quantity::flow ? show_flow(value, job.world)
                                                     : units::show(value, line.quantity, job.world));
}

/// Whether only the factor says what changes: a curve, or what steps command.
bool said_by_factor(const Job& job, const FaultPlace& place) {
  const PlannedPart& part = job.plan.parts[place.on];
  const int parameter = parameter_of(job, place);
  const double stated = stated_value(part, parameter);
  const bool times = fault_of(job, place).change == Fault::Change::times;
  return curve_for(part, parameter) || (times && (stated == 0.0 || !std::isfinite(stated)));
}

}  // namespace

std::string room_stated(const Job& job, const FaultPlace& place) {
  const PlannedPart& part = job.plan.parts[place.on];
  const int parameter = parameter_of(job, place);
  const double stated = stated_value(part, parameter);
  if (said_by_factor(job, place) || !std::isfinite(stated)) return "";
  return value_in_words(job, part.kind->parameters[parameter], stated);
}

std::string room_change(const Job& job, const FaultPlace& place, double t) {
  const PlannedPart& part = job.plan.parts[place.on];
  const Parameter& line = part.kind->parameters[parameter_of(job, place)];
  if (said_by_factor(job, place)) return fmt::format("{} × {:.3g}", plain_name(line), place.size(t));
  return value_in_words(job, line, value_at(job, place, t));
}

}  // namespace poise::study
