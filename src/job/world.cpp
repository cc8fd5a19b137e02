// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include "job/draft.hpp"
#include "units/catalogue.hpp"

namespace poise::job {
namespace {

void set_base(Draft& draft, const Node& node) {
  if (node.form == Node::Form::text && (node.text == "metric" || node.text == "us")) {
    draft.job.world = node.text == "us" ? units::us() : units::metric();
    return;
  }
  const std::string found = node.form == Node::Form::text ? quote(node.text) : std::string(form_of(node));
  draft.remarks.push_back(
      {node.place, fmt::format("units of the job: found {}; expected \"metric\" or \"us\"", found)});
}

void set_one(Draft& draft, Section& section, const units::Kind& kind) {
  const std::string key = unit_key(kind.quantity);
  const auto unit = section.text(key);
  if (!unit || units::set_unit(draft.job.world, kind.quantity, unit->value)) return;
  std::string offered(kind.offered);
  for (std::size_t comma = offered.find(','); comma != std::string::npos;
       comma = offered.find(',', comma + 2)) {
    offered.replace(comma, 1, ", ");
  }
  section.complain(
      key, fmt::format("{} is no unit of {}; usual ones are {}", quote(unit->value), kind.name, offered));
}

}  // namespace

void read_units(Draft& draft, Section& top) {
  draft.job.world = units::metric();
  const Node* node = top.find("units");
  if (!node) return;
  if (node->form != Node::Form::table) {
    set_base(draft, *node);
    return;
  }
  Section section(*node, "[units]", draft.remarks);
  if (const Node* base = section.find("base")) set_base(draft, *base);
  for (const units::Kind& kind : units::kinds()) {
    if (kind.quantity != Quantity::none) set_one(draft, section, kind);
  }
  section.refuse_unknown_keys();
}

}  // namespace poise::job
