// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/commands.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job/stock_part.hpp"
#include "job/value.hpp"

namespace poise::job {
namespace {

std::vector<std::string> inputs_of(const Kind& kind) {
  std::vector<std::string> names;
  for (const int index : kind.inputs) names.emplace_back(kind.parameters[index].name);
  return names;
}

/// Which input a name means; the part may be named alone if it has only one.
std::optional<int> find_input(Draft& draft, const PlannedPart& part, std::string_view parameter,
                              Place place) {
  const Kind& kind = *part.kind;
  const std::vector<std::string> names = inputs_of(kind);
  const std::string who = fmt::format("{} ({})", part.tag, kind.about.kind);
  if (names.empty()) {
    draft.remarks.push_back({place, fmt::format("{} has nothing that a step can set", who)});
    return std::nullopt;
  }
  if (parameter.empty()) {
    if (names.size() == 1) return 0;
    draft.remarks.push_back(
        {place, fmt::format("{} has several things that a step can set; write \"{}.{}\"", who, part.tag,
                            fmt::join(names, fmt::format("\" or \"{}.", part.tag)))});
    return std::nullopt;
  }
  const auto found = std::ranges::find(names, parameter);
  if (found != names.end()) return static_cast<int>(found - names.begin());
  draft.remarks.push_back({place, fmt::format("a step cannot set {} of {}; it can set {}", quote(parameter),
                                              who, listed(names, "and"))});
  return std::nullopt;
}

struct Commands {
  Draft& draft;
  const std::string& step;
  std::optional<double> over;
  bool may_be_open;
  std::vector<Command> all{};

  /// Notes that this command of the step that is being read is to be found; something stands in for it.
  double leave_open(int part, int parameter, Place place) {
    draft.job.sought.push_back({.of = Sought::Of::command,
                                .part = part,
                                .parameter = parameter,
                                .step = static_cast<int>(draft.job.steps.size()),
                                .command = static_cast<int>(all.size()),
                                .place = place});
    return draft.job.plan.parts[part].kind->parameters[parameter].low;
  }

  double ramp_of(const PlannedPart& part) const {
    if (over) return *over;
    return part.kind->about.ramp.empty() ? 0.0 : part.values[part.kind->about.ramp];
  }

  void add(std::string_view tag, std::string_view parameter, const Node& value, Place place) {
    if (draft.left_out.contains(tag)) return;
    const auto found = draft.parts.find(tag);
    if (found == draft.parts.end()) {
      draft.remarks.push_back({place, fmt::format("set of {}: {}", step, no_such_part(draft, tag))});
      return;
    }
    const PlannedPart& part = draft.job.plan.parts[found->second];
    const auto input = find_input(draft, part, parameter, place);
    if (!input) return;
    const Parameter& what = part.kind->parameters[part.kind->inputs[*input]];
    const bool open = may_be_open && what.words.empty() && is_open(value, what);
    const auto target = open ? leave_open(found->second, part.kind->inputs[*input], value.place)
                             : read_value(value, what, part.tag, draft.job.world, draft.remarks);
    if (!target) return;
    if (!open)
      check_range(draft, item_of(draft.job, found->second), part.tag, part.kind->inputs[*input], *target,
                  value.place);
    const bool twice = std::ranges::any_of(
        all, [&](const Command& other) { return other.part == found->second && other.input == *input; });
    if (twice) {
      draft.remarks.push_back({place, fmt::format("{} sets {} of {} twice", step, what.name, part.tag)});
    }
    all.push_back({found->second, *input, *target, ramp_of(part)});
  }

  void add(const Field& field) {
    const std::string_view key = field.key;
    // TOML reads the unquoted key N2.turns as a table in a table.
    if (field.value.form == Node::Form::table) {
      for (const Field& inner : field.value.fields) add(key, inner.key, inner.value, inner.place);
      return;
    }
    const std::size_t dot = key.rfind('.');
    if (draft.parts.contains(key) || draft.left_out.contains(key) || dot == std::string_view::npos) {
      add(key, {}, field.value, field.place);
    } else {
      add(key.substr(0, dot), key.substr(dot + 1), field.value, field.place);
    }
  }
};

}  // namespace

std::vector<Command> read_commands(Draft& draft, const Node& set, const std::string& step,
                                   std::optional<double> over, bool may_be_open) {
  Commands commands{draft, step, over, may_be_open};
  for (const Field& field : set.fields) commands.add(field);
  return commands.all;
}

}  // namespace poise::job
