// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "compose/nets.hpp"
#include "compose/sheet.hpp"

namespace poise::compose {

/// Whether oil comes to the line between the two ports from the side of the first: from the pump on its way
/// out, from the load on its way back to the reservoir, from the reservoir on its way to the pump. The ports
/// are in two nets.
bool comes_from(const Sheet& sheet, const Nets& nets, const std::string& first, const std::string& second);

/// The reservoir that the pump behind this port sucks from, else the first of the job; its port, or empty.
std::string reservoir_of(const Sheet& sheet, const Nets& nets, const std::string& port);

/// The part and all that gets oil only by it, with the loads on their rods; tags in the order of the text.
std::vector<std::string> branch_of(const Sheet& sheet, const Nets& nets, std::string_view tag);

}  // namespace poise::compose
