// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What people do wrong: a command forgotten, the wrong way, settings exchanged, adjusters and cocks left as
// they should not be.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/wording.hpp"
#include "study/fault_parts.hpp"

namespace poise::study {
namespace {

using Of = FaultPlace::Of;

constexpr std::string_view by_people = "common practice";

const Parameter& line_of(const Job& job, const Command& command) {
  const Kind& kind = *job.plan.parts[command.part].kind;
  return kind.parameters[kind.inputs[command.input]];
}

std::string target_of(const Job& job, const Parameter& line, double target) {
  if (!line.words.empty()) return std::string(line.words[static_cast<std::size_t>(target)]);
  return units::show(target, line.quantity, job.world);
}

std::string words_of(const Job& job, const Command& command, double target) {
  const PlannedPart& part = job.plan.parts[command.part];
  const Parameter& line = line_of(job, command);
  const bool alone = part.kind->inputs.size() == 1;
  return fmt::format("{}{} = {}", part.tag, alone ? "" : "." + std::string(line.name),
                     target_of(job, line, target));
}

/// The other side of a valve that has a and b: the target in its place, or none.
std::optional<double> other_way(const Job& job, const Command& command) {
  const Parameter& line = line_of(job, command);
  const auto place_of = [&](std::string_view word) -> std::optional<double> {
    const auto at = std::ranges::find(line.words, word);
    if (at == line.words.end()) return std::nullopt;
    return static_cast<double>(at - line.words.begin());
  };
  const auto a = place_of("a"), b = place_of("b");
  if (!a || !b) return std::nullopt;
  if (command.target == *a) return b;
  return command.target == *b ? a : std::nullopt;
}

/// What an input stands at before a command of a step is given, by the steps alone.
double before(const Job& job, int step, int index) {
  const Command& wanted = job.steps[step].commands[index];
  const PlannedPart& part = job.plan.parts[wanted.part];
  double now = part.values.all()[part.kind->inputs[wanted.input]];
  for (int s = 0; s <= step; ++s) {
    const auto& commands = job.steps[s].commands;
    for (int c = 0; c < (s == step ? index : static_cast<int>(commands.size())); ++c) {
      if (commands[c].part == wanted.part && commands[c].input == wanted.input) now = commands[c].target;
    }
  }
  return now;
}

void add_command(const Job& job, int step, int index, FaultList& list) {
  const Command& command = job.steps[step].commands[index];
  const std::string& name = job.steps[step].name;
  const std::string words = words_of(job, command, command.target);
  const std::string& tag = job.plan.parts[command.part].tag;
  FaultPlace place{.of = Of::forgotten,
                   .name = fmt::format("{} forgotten in \"{}\"", words, name),
                   .part = tag,
                   .fault = fmt::format("{} forgotten in \"{}\"", words, name),
                   .sentence = "The operator or the machine leaves the command out.",
                   .source = std::string(by_people),
                   .on = command.part,
                   .step = step,
                   .command = index,
                   .one_size = true};
  if (before(job, step, index) == command.target)
    list.not_applicable.push_back({place.name, "it stands so already"});
  else
    list.places.push_back(place);
  if (const auto other = other_way(job, command)) {
    place.of = Of::wrong_way;
    place.fault = fmt::format("{} in \"{}\" instead of {}", words_of(job, command, *other), name,
                              target_of(job, line_of(job, command), command.target));
    place.name = place.fault;
    place.sentence = "The lever goes the wrong way, or coils or lines are exchanged.";
    list.places.push_back(std::move(place));
  }
}

/// The setting of a pressure valve, or −1.
int setting_of(const PlannedPart& part) {
  const auto at = find_parameter(part.kind->parameters, "setting");
  if (!at || part.kind->about.kind == "pressure_switch") return -1;
  const Parameter& line = part.kind->parameters[*at];
  const bool valve = part.kind->about.role != Role::source;
  return valve && line.adjusted && line.quantity == Quantity::pressure &&
                 std::isfinite(part.values.all()[*at])
             ? *at
             : -1;
}

void add_swapped(const Job& job, FaultList& list) {
  const auto& parts = job.plan.parts;
  for (int a = 0; a < static_cast<int>(parts.size()); ++a) {
    if (setting_of(parts[a]) < 0) continue;
    for (int b = a + 1; b < static_cast<int>(parts.size()); ++b) {
      if (setting_of(parts[b]) < 0) continue;
      FaultPlace place{.of = Of::swapped,
                       .name = fmt::format("settings of {} and {} exchanged", parts[a].tag, parts[b].tag),
                       .part = parts[a].tag,
                       .fault = fmt::format("settings of {} and {} exchanged", parts[a].tag, parts[b].tag),
                       .sentence = "Two lines of the settings sheet were mixed up.",
                       .source = std::string(by_people),
                       .on = a,
                       .other = b,
                       .one_size = true};
      if (parts[a].values["setting"] == parts[b].values["setting"])
        list.not_applicable.push_back({place.name, "they are alike"});
      else
        list.places.push_back(std::move(place));
    }
  }
}

double most_turns(const PlannedPart& part) {
  const auto curve = part.values.points("flow_curve");
  return curve.empty() ? part.values["full_turns"] : curve.back().x;
}

void add_adjusters(const Job& job, FaultList& list) {
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    if (input_of(*part.kind, "turns") < 0) continue;
    const auto add = [&](Of of, std::string_view how, std::string_view sentence, double turns) {
      FaultPlace place{.of = of,
                       .name = fmt::format("{} left {}", part.tag, how),
                       .part = part.tag,
                       .fault = fmt::format("left {}", how),
                       .sentence = std::string(sentence),
                       .source = std::string(by_people),
                       .on = p,
                       .one_size = true};
      if (part.values["turns"] == turns)
        list.not_applicable.push_back({place.name, "it is so by the job"});
      else
        list.places.push_back(std::move(place));
    };
    add(Of::wide_open, "fully open", "Opened for bleeding and not set again.", most_turns(part));
    add(Of::left_shut, "shut", "Shut for start-up and not set again.", 0.0);
  }
}

void add_cocks(const Job& job, FaultList& list) {
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    if (part.kind->about.kind != "shut_off") continue;
    bool ever_shut = part.values["position"] == 0.0;
    for (const Step& step : job.steps) {
      for (const Command& command : step.commands)
        ever_shut = ever_shut || (command.part == p && command.target == 0.0);
    }
    FaultPlace place{.of = Of::left_open,
                     .name = part.tag + " left open",
                     .part = part.tag,
                     .fault = "left open",
                     .sentence = "Nobody shut it: what it should hold runs off.",
                     .source = std::string(by_people),
                     .on = p,
                     .one_size = true};
    if (ever_shut)
      list.places.push_back(std::move(place));
    else
      list.not_applicable.push_back({place.name, "it is never shut"});
  }
}

constexpr int closed_centre = 0, open_centre = 1, tandem_centre = 2;

/// The centre that makes the other kind of trouble: what shut the actuator's lines lets them go, and the
/// other way round. None where the valve has no centre.
std::optional<double> other_centre(const PlannedPart& part) {
  if (!find_parameter(part.kind->parameters, "centre")) return std::nullopt;
  const int now = part.values.word("centre");
  return now == closed_centre || now == tandem_centre ? open_centre : closed_centre;
}

void add_spools(const Job& job, FaultList& list) {
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    if (!other_centre(part)) continue;
    list.places.push_back({.of = Of::wrong_spool,
                           .name = part.tag + " has the wrong spool",
                           .part = part.tag,
                           .fault = "has the wrong spool",
                           .sentence =
                               "After a repair another spool is in it: in the centre it lets go what it "
                               "should shut, or shuts what it should let go.",
                           .source = std::string(by_people),
                           .on = p,
                           .one_size = true});
  }
}

void leave_all_at(Job& job, int part, std::string_view parameter, double value) {
  PlannedPart& of = job.plan.parts[part];
  const int at = *find_parameter(of.kind->parameters, parameter);
  of.values.set(at, value);
  for_each_command(job, part, at, [&](Command& command) { command.target = value; });
}

bool swap_settings(Job& job, const FaultPlace& place) {
  PlannedPart &a = job.plan.parts[place.on], &b = job.plan.parts[place.other];
  const double of_a = a.values["setting"], of_b = b.values["setting"];
  const auto put = [](PlannedPart& part, double value) {
    const int at = setting_of(part);
    const Parameter& line = part.kind->parameters[at];
    part.values.set(at, std::clamp(value, line.low, line.high));
    return goes_together(part);
  };
  const bool first = put(a, of_b), second = put(b, of_a);
  return first && second;
}

}  // namespace

void add_faults_of_people(const Job& job, FaultList& list) {
  for (int s = 0; s < static_cast<int>(job.steps.size()); ++s) {
    for (int c = 0; c < static_cast<int>(job.steps[s].commands.size()); ++c) add_command(job, s, c, list);
  }
  add_swapped(job, list);
  add_adjusters(job, list);
  add_cocks(job, list);
  add_spools(job, list);
}

bool put_people_fault(Job& job, const FaultPlace& place) {
  switch (place.of) {
    case Of::forgotten: {
      auto& commands = job.steps[place.step].commands;
      commands.erase(commands.begin() + place.command);
      return true;
    }
    case Of::wrong_way: {
      Command& command = job.steps[place.step].commands[place.command];
      command.target = other_way(job, command).value_or(command.target);
      return true;
    }
    case Of::swapped:
      return swap_settings(job, place);
    case Of::wide_open:
      leave_all_at(job, place.on, "turns", most_turns(job.plan.parts[place.on]));
      return true;
    case Of::left_shut:
      leave_all_at(job, place.on, "turns", 0.0);
      return true;
    case Of::left_open:
      leave_all_at(job, place.on, "position", 1.0);
      return true;
    case Of::wrong_spool: {
      PlannedPart& valve = job.plan.parts[place.on];
      valve.values.set(*find_parameter(valve.kind->parameters, "centre"), *other_centre(valve));
      return true;
    }
    default:
      return false;
  }
}

}  // namespace poise::study
