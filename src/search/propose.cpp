// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/propose.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace poise::search {
namespace {

double cost_of(const Found& found) {
  double cost = 0.0;
  for (const FoundValue& value : found.values) cost += value.cost;
  return cost;
}

/// Whether a is the better proposal.
bool goes_before(const Proposal& a, const Proposal& b, double enough) {
  constexpr double alike = 2e-3;
  if (a.found.holds() != b.found.holds()) return a.found.holds();
  if (const int by = compared(a.found.trial, b.found.trial, enough, alike); by != 0) return by < 0;
  if (a.cost != b.cost) return a.cost < b.cost;
  return a.parts < b.parts;
}

/// The circuit with its values; what was read from it where there is nothing to find.
std::variant<Proposal, Complaints> worked_out(compose::Composed circuit, std::string_view file_name,
                                              const FindWish& wish) {
  auto open = read_job_to_find(circuit.text, file_name);
  if (auto* complaints = std::get_if<Complaints>(&open)) return std::move(*complaints);
  Proposal proposal{.circuit = std::move(circuit), .job = std::get<Job>(std::move(open))};
  proposal.found = find(proposal.circuit.text, proposal.job, wish);
  proposal.cost = cost_of(proposal.found);
  proposal.parts = proposal.job.plan.parts.size();
  if (proposal.found.runs == 0) return proposal;
  auto closed = read_job(proposal.found.text, file_name);
  if (auto* complaints = std::get_if<Complaints>(&closed)) return std::move(*complaints);
  proposal.job = std::get<Job>(std::move(closed));
  return proposal;
}

}  // namespace

std::variant<std::vector<Proposal>, Complaints> propose(std::string_view text, std::string_view file_name,
                                                        const ProposeWish& wish) {
  auto composed = compose::circuits_for(text, file_name);
  if (auto* complaints = std::get_if<Complaints>(&composed)) return std::move(*complaints);
  auto& circuits = std::get<std::vector<compose::Composed>>(composed);
  if (circuits.size() > wish.tried) circuits.resize(wish.tried);
  std::vector<Proposal> proposals;
  std::optional<Complaints> refused;
  const auto count = static_cast<double>(circuits.size());
  for (std::size_t i = 0; i < circuits.size(); ++i) {
    const std::string name = circuits[i].name;
    FindWish find_wish = wish.find;
    bool stopped = false;
    find_wish.progress = [&](double share) {
      stopped = stopped || (wish.progress && !wish.progress((static_cast<double>(i) + share) / count, name));
      return !stopped;
    };
    auto proposal = worked_out(std::move(circuits[i]), file_name, find_wish);
    if (stopped) break;
    if (auto* complaints = std::get_if<Complaints>(&proposal)) {
      refused = std::move(*complaints);
      continue;
    }
    proposals.push_back(std::get<Proposal>(std::move(proposal)));
  }
  if (proposals.empty() && refused) return std::move(*refused);
  std::ranges::stable_sort(
      proposals, [&](const Proposal& a, const Proposal& b) { return goes_before(a, b, wish.find.enough); });
  if (proposals.size() > wish.most) proposals.resize(wish.most);
  return proposals;
}

}  // namespace poise::search
