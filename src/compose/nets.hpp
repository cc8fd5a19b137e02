// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "compose/sheet.hpp"

namespace poise::compose {

/// Which ports are joined to which, by name, hoses' own ends among them. A port that is joined to nothing is
/// in no net.
class Nets {
 public:
  explicit Nets(const Sheet& sheet);

  std::optional<std::size_t> of(std::string_view port) const;
  /// Ports of a net in the order in which the text names them.
  const std::vector<std::string>& ports(std::size_t net) const { return nets_[net]; }
  std::size_t size() const { return nets_.size(); }  ///< empty ones included
  bool together(std::string_view a, std::string_view b) const;

  /// Makes one net of the ports and of the nets they are in, in the order given.
  void join(std::span<const std::string> ports);
  /// Takes a port out of its net.
  void take(std::string_view port);
  /// Moves ports of one net into a new one.
  void part(std::span<const std::string> ports);

 private:
  std::vector<std::vector<std::string>> nets_;
  std::map<std::string, std::size_t, std::less<>> net_of_;
};

}  // namespace poise::compose
