// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "job/commands.hpp"
#include "job/draft.hpp"
#include "job/value.hpp"

namespace poise::job {
namespace {

constexpr Parameter over_line{.name = "over", .quantity = Quantity::time, .low = 0.0, .high = 86400.0};

/// The control's own name, or its conditions in the job's words.
std::string read_name(Draft& draft, Section& section) {
  const auto name = section.text("name");
  if (name && name->value.empty()) section.complain("name", "the name is empty");
  if (name && std::ranges::find(draft.job.controls, name->value, &Control::name) != draft.job.controls.end())
    section.complain("name", "there is a control of this name already; give each control its own");
  if (name) {
    section.call(fmt::format("control {}", quote(name->value)));
    return name->value;
  }
  std::string made;
  for (const Text& text : section.texts("when")) made += (made.empty() ? "" : ", ") + text.value;
  return made;
}

Control read_control(Draft& draft, const Node& node, int number) {
  Section section(node, fmt::format("control {}", number), draft.remarks, keys::of_control());
  Control control;
  control.place = node.place;
  control.name = read_name(draft, section);
  section.text("note");
  control.when = read_conditions(draft, section, "when");
  std::optional<double> over;
  if (const Node* time = section.find("over"))
    over = read_value(*time, over_line, section.owner(), draft.job.world, draft.remarks);
  const Node* set = section.table("set");
  if (set) control.commands = read_commands(draft, *set, section.owner(), over, false);
  if (!section.has("when")) section.complain("needs when, a condition such as when = \"S1 on\"");
  if (!section.has("set") || (set && set->fields.empty()))
    section.complain("needs set, what it changes, such as set = { P1 = \"off\" }");
  section.refuse_unknown_keys();
  return control;
}

}  // namespace

void read_controls(Draft& draft, Section& top) {
  for (const Node* node : top.tables("controls")) {
    draft.job.controls.push_back(read_control(draft, *node, static_cast<int>(draft.job.controls.size()) + 1));
  }
}

}  // namespace poise::job
