// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/nets.hpp"

#include <algorithm>

namespace poise::compose {

Nets::Nets(const Sheet& sheet) {
  for (const Entry& entry : sheet.entries) join(entry.ports);
}

std::optional<std::size_t> Nets::of(std::string_view port) const {
  const auto found = net_of_.find(port);
  return found == net_of_.end() ? std::nullopt : std::optional(found->second);
}

bool Nets::together(std::string_view a, std::string_view b) const {
  const auto net = of(a);
  return net && net == of(b);
}

void Nets::join(std::span<const std::string> ports) {
  std::optional<std::size_t> into;
  for (const std::string& port : ports) {
    if (!into) into = of(port);
  }
  if (!into) {
    into = nets_.size();
    nets_.emplace_back();
  }
  std::vector<std::string> all;
  for (const std::string& port : ports) {
    const auto net = of(port);
    if (!net) {
      all.push_back(port);
      net_of_[port] = *into;
      continue;
    }
    for (std::string& other : nets_[*net]) {
      net_of_[other] = *into;
      all.push_back(std::move(other));
    }
    nets_[*net].clear();
  }
  nets_[*into] = std::move(all);
}

void Nets::take(std::string_view port) {
  const auto net = of(port);
  if (!net) return;
  std::erase(nets_[*net], port);
  net_of_.erase(net_of_.find(port));
}

void Nets::part(std::span<const std::string> ports) {
  for (const std::string& port : ports) take(port);
  join(ports);
}

}  // namespace poise::compose
