// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <tuple>

#include "circuit/circuit.hpp"
#include "job/draft.hpp"
#include "job/reading.hpp"

namespace poise {
namespace job {
namespace {

/// The faults of the plan without those that follow from what was complained about already: a port whose
/// neighbour was not understood is not called open.
Remarks faults_beside(const Draft& draft) {
  Plan plan = draft.job.plan;
  std::set<PortOf> joined;
  for (const Joint& joint : plan.joints) joined.insert({joint.a, joint.b});
  const auto excuse = [&](PortOf port) {
    if (!joined.contains(port) && std::ranges::find(plan.plugged, port) == plan.plugged.end())
      plan.plugged.push_back(port);
  };
  for (const PortOf& port : draft.unsure) excuse(port);
  for (const int part : draft.unsure_parts) {
    for (int port = 0; port < static_cast<int>(plan.parts[part].kind->ports.size()); ++port)
      excuse({part, port});
  }
  for (int part = 0; draft.no_circuit && part < static_cast<int>(plan.parts.size()); ++part) {
    for (int port = 0; port < plan.parts[part].kind->oil_ports; ++port) excuse({part, port});
  }
  return faults_of(plan);
}

}  // namespace

void sort_by_line(Remarks& remarks) {
  const auto order = [](const Remark& a, const Remark& b) {
    return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
  };
  std::ranges::stable_sort(remarks, order);
  const auto same = [&](const Remark& a, const Remark& b) {
    return !order(a, b) && !order(b, a) && a.sentence == b.sentence;
  };
  remarks.erase(std::unique(remarks.begin(), remarks.end(), same), remarks.end());
}

Draft read_draft(const Node& root, std::string_view file_name, const std::filesystem::path& folder) {
  Draft draft;
  Section top(root, "the job", draft.remarks, keys::of_job());
  const auto title = top.text("title");
  const auto note = top.text("note");
  draft.job.title = title ? title->value : std::string(file_name);
  draft.job.note = note ? note->value : std::string();
  read_units(draft, top);
  read_oil(draft, top);
  read_lists(draft, top, folder);
  read_parts(draft, top);
  read_lines(draft, top);
  read_steps(draft, top);
  read_controls(draft, top);
  read_requirements(draft, top);
  read_waivers(draft, top);
  read_drawing(draft, top);
  top.refuse_unknown_keys();
  const Remarks faults = faults_beside(draft);
  draft.remarks.insert(draft.remarks.end(), faults.begin(), faults.end());
  if (draft.remarks.empty() && draft.job.sought.empty()) draft.remarks = start_faults_of(draft.job.plan);
  sort_by_line(draft.remarks);
  return draft;
}

}  // namespace job

const StockItem* item_of(const Job& job, int part) {
  return job.stock ? job.stock->find(job.drawn[static_cast<std::size_t>(part)].model) : nullptr;
}

namespace {

std::variant<Job, Complaints> all_or_nothing(job::Reading reading) {
  if (reading.complaints.list.empty()) return std::move(reading.job);
  return std::move(reading.complaints);
}

}  // namespace

std::variant<Job, Complaints> read_job(std::string_view text, std::string_view file_name) {
  return all_or_nothing(job::read_as_far_as_understood(text, file_name));
}

std::variant<Job, Complaints> read_job_to_find(std::string_view text, std::string_view file_name) {
  return all_or_nothing(job::read_as_far_as_understood(text, file_name, job::ReadTo::find));
}

std::variant<Job, Complaints> read_job_to_compose(std::string_view text, std::string_view file_name) {
  return all_or_nothing(job::read_as_far_as_understood(text, file_name, job::ReadTo::compose));
}

}  // namespace poise
