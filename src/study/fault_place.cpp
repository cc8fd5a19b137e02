// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fault_place.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "study/fault_parts.hpp"

namespace poise::study {
namespace {

using Of = FaultPlace::Of;

enum class Chapter { rooms, circuit, oil, power, people, settings };

Chapter chapter_of(Of of) {
  switch (of) {
    case Of::room:
      return Chapter::rooms;
    case Of::return_blocked:
    case Of::suction_clogged:
    case Of::sucks_air:
    case Of::leaks_outside:
    case Of::air_left:
      return Chapter::circuit;
    case Of::oil_colder:
    case Of::oil_hotter:
    case Of::oil_thinner:
    case Of::oil_thicker:
    case Of::oil_aerated:
    case Of::other_fluid:
      return Chapter::oil;
    case Of::source_stops:
    case Of::power_lost:
      return Chapter::power;
    case Of::set_low:
    case Of::set_high:
      return Chapter::settings;
    default:
      return Chapter::people;
  }
}

bool put(Job& job, const FaultPlace& place, double t) {
  switch (chapter_of(place.of)) {
    case Chapter::rooms:
      return put_room_fault(job, place, t);
    case Chapter::circuit:
      return put_circuit_fault(job, place, t);
    case Chapter::oil:
      return put_oil_fault(job, place, t);
    case Chapter::power:
      return put_power_fault(job, place);
    case Chapter::people:
      return put_people_fault(job, place);
    case Chapter::settings:
      return put_wrong_setting(job, place, t);
  }
  return false;
}

/// Two lines without tags may have one name: the later ones are counted.
void make_unique(std::vector<FaultPlace>& places) {
  std::map<std::string, int> seen;
  for (FaultPlace& place : places) {
    const int count = ++seen[place.name];
    if (count > 1) place.name += fmt::format(" ({})", count);
  }
}

}  // namespace

double FaultPlace::size(double t) const {
  if (one_size || t == 1.0) return grave;
  if (t == 0.0) return slight;
  return factors ? slight * std::pow(grave / slight, t) : slight + t * (grave - slight);
}

bool within_what_goes_together(const Job& job, FaultPlace& place) {
  if (with_fault(job, place, 1.0)) return true;
  if (place.one_size || !with_fault(job, place, 0.0)) return false;
  constexpr int parts = 20;
  for (int i = parts - 1; i > 0; --i) {
    const double t = static_cast<double>(i) / parts;
    if (!with_fault(job, place, t)) continue;
    place.grave = place.size(t);
    return true;
  }
  place.one_size = true;
  place.grave = place.slight;
  return true;
}

FaultList list_faults(const Job& job, const Trace* nominal) {
  FaultList list;
  add_faults_of_rooms(job, list);
  add_faults_of_circuit(job, nominal, list);
  add_faults_of_oil(job, list);
  add_faults_of_power(job, nominal, list);
  add_faults_of_people(job, list);
  FaultList good{{}, std::move(list.not_applicable)};
  for (FaultPlace& place : list.places) {
    if (within_what_goes_together(job, place))
      good.places.push_back(std::move(place));
    else
      good.not_applicable.push_back({place.name, "with it the part's values no longer go together"});
  }
  make_unique(good.places);
  return good;
}

std::vector<FaultPlace> faults_of(const Job& job, const Trace* nominal) {
  return list_faults(job, nominal).places;
}

std::optional<Job> with_fault(const Job& job, const FaultPlace& place, double t) {
  Job faulty = job;
  if (!put(faulty, place, t)) return std::nullopt;
  return faulty;
}

std::string change_at(const Job& job, const FaultPlace& place, double t) {
  switch (chapter_of(place.of)) {
    case Chapter::rooms:
      return room_change(job, place, t);
    case Chapter::circuit:
      return circuit_change(job, place, t);
    case Chapter::oil:
      return oil_change(job, place, t);
    case Chapter::settings:
      return setting_change(job, place, t);
    default:
      return place.fault;
  }
}

std::string change_of(const Job& job, const FaultPlace& place) {
  const std::string slight = change_at(job, place, 0.0), grave = change_at(job, place, 1.0);
  const std::string stated = chapter_of(place.of) == Chapter::rooms ? room_stated(job, place) : "";
  // What both sizes begin with is said once: "setting 120 bar → 116 bar … 72.0 bar".
  std::size_t same = 0;
  for (std::size_t i = 0; i < std::min(slight.size(), grave.size()) && slight[i] == grave[i]; ++i) {
    if (slight[i] == ' ' && stated.starts_with(slight.substr(0, i + 1))) same = i + 1;
  }
  std::string text = stated.empty() || stated == grave ? "" : stated + " → ";
  if (text.empty()) same = 0;
  if (slight != grave) text += slight.substr(same) + " … ";
  return text + grave.substr(slight != grave || !text.empty() ? same : 0);
}

bool splits_a_step(const FaultPlace& place) {
  return place.of == Of::leaks_outside || chapter_of(place.of) == Chapter::power;
}

std::string show_flow(double value, const units::World& world) {
  constexpr double least_shown = 0.1 * si::litre_per_minute;
  units::World drips = world;
  const bool drip = std::abs(value) < least_shown && world[Quantity::flow] == "L/min";
  return units::show(value, Quantity::flow,
                     drip && units::set_unit(drips, Quantity::flow, "cm3/min") ? drips : world);
}

int add_part(Job& job, std::string_view kind_name, std::string tag,
             std::initializer_list<std::pair<std::string_view, double>> values) {
  const Kind* kind = find_kind(kind_name);
  std::vector<double> numbers;
  for (const Parameter& line : kind->parameters)
    numbers.push_back(line.fallback.value_or(std::numeric_limits<double>::quiet_NaN()));
  for (const auto& [name, value] : values) {
    const int at = *find_parameter(kind->parameters, name);
    numbers[at] = std::clamp(value, kind->parameters[at].low, kind->parameters[at].high);
  }
  job.plan.parts.push_back({std::move(tag), kind, Values(kind->parameters, std::move(numbers)), {}});
  job.drawn.emplace_back();
  return static_cast<int>(job.plan.parts.size()) - 1;
}

void for_each_command(Job& job, int part, int parameter, const std::function<void(Command&)>& change) {
  const Kind& kind = *job.plan.parts[part].kind;
  const auto look = [&](std::vector<Command>& commands) {
    for (Command& command : commands) {
      if (command.part == part && kind.inputs[command.input] == parameter) change(command);
    }
  };
  for (Step& step : job.steps) look(step.commands);
  for (Control& control : job.controls) look(control.commands);
}

bool commands_set_it(const Job& job, int part, int parameter) {
  const Kind& kind = *job.plan.parts[part].kind;
  const auto sets = [&](const Command& command) {
    return command.part == part && kind.inputs[command.input] == parameter && command.target != 0.0;
  };
  const auto any = [&](const auto& of) { return std::ranges::any_of(of.commands, sets); };
  return std::ranges::any_of(job.steps, any) || std::ranges::any_of(job.controls, any);
}

double middle_of(const Job& job, const Trace* nominal, int step) {
  const auto at = static_cast<std::size_t>(step);
  if (nominal && at < nominal->steps.size()) return 0.5 * (nominal->steps[at].end - nominal->steps[at].begin);
  return 0.5 * job.steps[at].lasts;
}

void split_step(Job& job, int step, double time) {
  Step second = job.steps[step];
  second.commands.clear();
  second.lasts = std::max(second.lasts - time, 0.0);
  job.steps[step].lasts = time;
  job.steps[step].until.clear();
  job.steps.insert(job.steps.begin() + step + 1, std::move(second));
}

bool goes_together(const PlannedPart& part) { return part.kind->check(part.values).empty(); }

int input_of(const Kind& kind, std::string_view parameter) {
  for (std::size_t i = 0; i < kind.inputs.size(); ++i) {
    if (kind.parameters[kind.inputs[i]].name == parameter) return static_cast<int>(i);
  }
  return -1;
}

}  // namespace poise::study
