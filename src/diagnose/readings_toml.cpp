// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include "diagnose/readings_forms.hpp"
#include "job/node.hpp"
#include "job/section.hpp"

namespace poise::diagnose {
namespace {

/// A text, or a number as its text: what lacks its unit is told so by who reads the value.
std::optional<job::Text> text_or_number(job::Section& section, std::string_view key) {
  const job::Node* node = section.find(key);
  if (node && node->form == job::Node::Form::number)
    return job::Text{fmt::format("{}", node->number), node->place};
  return section.text(key);
}

void read_entry(const job::Node& node, Intake& intake) {
  job::Section section(node, "this reading", intake.remarks());
  const auto at = section.text("at");
  if (at) section.call("reading of " + job::quote(at->value));
  const auto value = text_or_number(section, "value");
  Entry entry{.at = at.value_or(job::Text{}), .value = value.value_or(job::Text{})};
  entry.step = text_or_number(section, "step");
  entry.when = text_or_number(section, "when");
  entry.accuracy = text_or_number(section, "accuracy");
  section.refuse_unknown_keys();
  if (!section.has("at")) section.complain("needs at, what was read, such as at = \"G1\"");
  if (!section.has("value"))
    section.complain("needs value, such as value = \"118 bar\", or \"none\" where its moment did not come");
  if (at && value) intake.take(entry);
}

}  // namespace

void read_toml(std::string_view text, Intake& intake) {
  auto parsed = job::parse(text);
  if (auto* remark = std::get_if<Remark>(&parsed)) {
    intake.remarks().push_back(std::move(*remark));
    return;
  }
  const job::Node& tree = std::get<job::Node>(parsed);
  job::Section top(tree, "the file", intake.remarks());
  for (const std::string& key : occasion_keys()) {
    const job::Node* node = top.find(key);
    if (key == "date" && node && node->form == job::Node::Form::moment) {
      top.complain(key, "write it in quotation marks, such as date = \"2026-11-20\"");
    } else if (const auto value = top.text(key)) {
      take_occasion(intake.readings(), key, *value, intake.remarks());
    }
  }
  for (const job::Node* node : top.tables("readings")) read_entry(*node, intake);
  top.refuse_unknown_keys();
}

}  // namespace poise::diagnose
