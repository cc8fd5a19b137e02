// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "job/commands.hpp"
#include "job/draft.hpp"
#include "job/value.hpp"

namespace poise::job {
namespace {

constexpr double day = 86400.0;
constexpr double usual_wait = 60.0;

constexpr Parameter duration(std::string_view name, double shortest) {
  return {.name = name, .quantity = Quantity::time, .low = shortest, .high = day};
}

std::optional<double> read_time(Draft& draft, Section& section, std::string_view name, double shortest) {
  const Node* node = section.find(name);
  if (!node) return std::nullopt;
  return read_value(*node, duration(name, shortest), section.owner(), draft.job.world, draft.remarks);
}

void read_end(Draft& draft, Section& section, Step& step) {
  const bool lasts = section.has("lasts"), until = section.has("until");
  const auto time = read_time(draft, section, "lasts", si::ms);
  const auto wait = read_time(draft, section, "at_most", si::ms);
  step.until = read_conditions(draft, section, "until");
  step.lasts = until ? wait.value_or(usual_wait) : time.value_or(0.0);
  if (lasts && until) {
    section.complain("lasts",
                     "until is given as well; a step lasts a time, or until something holds (with at_most)");
  } else if (!lasts && !until) {
    section.complain("needs an end: lasts = \"4 s\", or until = \"C1.A.pressure > 180 bar\"");
  } else if (!until && section.has("at_most")) {
    section.complain("at_most", "only a step with until has it");
  }
}

std::string read_name(Draft& draft, Section& section, int number) {
  const auto name = section.text("name");
  const auto& steps = draft.job.steps;
  if (!name || name->value.empty()) {
    if (name) section.complain("name", "the name is empty");
    if (!section.has("name")) section.complain("needs name, such as name = \"clamp\"");
    return fmt::format("step {}", number);
  }
  section.call(fmt::format("step {}", quote(name->value)));
  if (std::ranges::find(steps, name->value, &Step::name) != steps.end()) {
    section.complain("name", "there is a step of this name already; give each step its own");
  }
  return name->value;
}

Step read_step(Draft& draft, const Node& node, int number) {
  Section section(node, fmt::format("step {}", number), draft.remarks, keys::of_step());
  Step step;
  step.place = node.place;
  step.name = read_name(draft, section, number);
  section.text("note");
  const auto over = read_time(draft, section, "over", 0.0);
  if (const Node* set = section.table("set"))
    step.commands = read_commands(draft, *set, section.owner(), over, true);
  read_moves(draft, section);
  read_end(draft, section, step);
  section.refuse_unknown_keys();
  return step;
}

}  // namespace

void read_steps(Draft& draft, Section& top) {
  const auto nodes = top.tables("steps");
  const Node* written = top.find("steps");
  if (!written || (written->form == Node::Form::list && written->items.empty()))
    top.complain("has no steps; each step begins with [[steps]]");
  for (const Node* node : nodes) {
    draft.job.steps.push_back(read_step(draft, *node, static_cast<int>(draft.job.steps.size()) + 1));
  }
}

}  // namespace poise::job
