// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "circuit/join.hpp"

#include <numeric>

namespace poise {
namespace {

int root_of(std::vector<int>& parent, int i) {
  while (parent[i] != i) i = parent[i] = parent[parent[i]];
  return i;
}

}  // namespace

Groups join(const Plan& plan) {
  std::vector<int> first;  // number of each part's first port
  int count = 0;
  for (const PlannedPart& part : plan.parts) {
    first.push_back(count);
    count += static_cast<int>(part.kind->ports.size());
  }
  std::vector<int> parent(count);
  std::iota(parent.begin(), parent.end(), 0);
  for (const Joint& joint : plan.joints) {
    parent[root_of(parent, first[joint.a.part] + joint.a.port)] =
        root_of(parent, first[joint.b.part] + joint.b.port);
  }

  Groups groups;
  std::vector<int> number(count, -1);
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    auto& of_part = groups.group_of.emplace_back();
    for (int k = 0; k < static_cast<int>(plan.parts[p].kind->ports.size()); ++k) {
      int& group = number[root_of(parent, first[p] + k)];
      if (group < 0) {
        group = static_cast<int>(groups.members.size());
        groups.members.emplace_back();
      }
      of_part.push_back(group);
      groups.members[group].push_back({p, k});
    }
  }
  return groups;
}

}  // namespace poise
