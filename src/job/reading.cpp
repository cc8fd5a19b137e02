// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "job/draft.hpp"
#include "job/file_text.hpp"

namespace poise::job {
namespace {

bool is_there(const Plan& plan, PortOf at) { return port_exists(plan.port(at), plan.parts[at.part].values); }

bool go_together(const Plan& plan, const Joint& joint) {
  const Port &a = plan.port(joint.a), &b = plan.port(joint.b);
  return joint.a != joint.b && a.domain == b.domain && a.turns == b.turns && is_there(plan, joint.a) &&
         is_there(plan, joint.b);
}

/// Takes out what has been complained about and nobody can draw: joints of ports that are not there or do not
/// go together, plugs in ports that are joined as well.
void leave_what_fits(Plan& plan) {
  std::erase_if(plan.joints, [&](const Joint& joint) { return !go_together(plan, joint); });
  std::set<PortOf> taken;
  for (const Joint& joint : plan.joints) taken.insert({joint.a, joint.b});
  std::erase_if(plan.plugged,
                [&](PortOf port) { return !is_there(plan, port) || !taken.insert(port).second; });
}

Remark complaint_of(const Job& job, const Sought& open) {
  const PlannedPart& part = job.plan.parts[open.part];
  const std::string_view name =
      open.of == Sought::Of::model ? "model" : part.kind->parameters[open.parameter].name;
  return {open.place, fmt::format("{} of {} is left open; \"poise find\" works it out and writes it here",
                                  name, part.tag)};
}

/// The search for the deepest thing that stands at a place.
struct Search {
  Place place;
  Way here{};
  std::optional<Way> found{};

  static bool same(Place a, Place b) { return a.line == b.line && a.column == b.column; }

  void note(Place other) {
    if (same(other, place) && (!found || found->size() < here.size())) found = here;
  }

  void walk(const Node& node) {
    note(node.place);
    for (std::size_t i = 0; i < node.items.size(); ++i) {
      here.emplace_back(i);
      walk(node.items[i]);
      here.pop_back();
    }
    for (const Field& field : node.fields) {
      here.emplace_back(field.key);
      note(field.place);
      walk(field.value);
      here.pop_back();
    }
  }
};

}  // namespace

Reading read_as_far_as_understood(std::string_view text, std::string_view file_name, ReadTo to,
                                  const std::filesystem::path& folder) {
  Reading reading;
  reading.complaints.file = file_name;
  reading.job.title = file_name;
  reading.job.world = units::metric();
  const std::string fault = fault_of(text);
  if (!fault.empty()) reading.complaints.list.push_back({{}, fault});
  reading.is_toml = is_blank(text);
  if (!fault.empty()) return reading;
  auto parsed = parse(text);
  if (auto* remark = std::get_if<Remark>(&parsed)) {
    reading.complaints.list.push_back(std::move(*remark));
    return reading;
  }
  reading.is_toml = true;
  reading.tree = std::move(std::get<Node>(parsed));
  Draft draft = read_draft(reading.tree, file_name,
                           folder.empty() ? std::filesystem::path(file_name).parent_path() : folder);
  for (Sought& open : draft.job.sought) {
    open.way = way_to(reading.tree, open.place).value_or(Way{});
    if (to == ReadTo::run) draft.remarks.push_back(complaint_of(draft.job, open));
  }
  if (draft.no_circuit && to != ReadTo::compose)
    draft.remarks.push_back({*draft.no_circuit,
                             "there is no circuit yet that could move anything; \"poise propose\" composes "
                             "some that do, with set in place of move"});
  sort_by_line(draft.remarks);
  reading.job = std::move(draft.job);
  reading.complaints.list = std::move(draft.remarks);
  leave_what_fits(reading.job.plan);
  return reading;
}

std::optional<Way> way_to(const Node& tree, Place place) {
  if (Search::same(place, tree.place)) return Way{};  // what is said of this place is said of the job
  Search search{place};
  search.walk(tree);
  return search.found;
}

}  // namespace poise::job
