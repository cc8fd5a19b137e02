// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "parts/kind.hpp"

namespace poise::compose {

/// What the ports of a part are for, as far as it matters where it is joined. Names of ports, without the
/// tag.
struct PortUse {
  std::optional<std::string> enter;  ///< that oil comes in by, or that the part hangs on a line by
  std::optional<std::string> leave;  ///< that it goes on by, where the part can stand on a line
  std::vector<std::string> drains;   ///< to the reservoir
  std::vector<std::string> motion;
};

/// `ports`: those of the kind that exist.
PortUse use_of(const Kind& kind, const std::vector<std::string_view>& ports);

/// Whether oil that leaves by this port goes to the reservoir.
bool is_drain(const Port& port);

}  // namespace poise::compose
