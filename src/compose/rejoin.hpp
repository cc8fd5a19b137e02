// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "compose/nets.hpp"
#include "compose/sheet.hpp"

namespace poise::compose {

/// A line that is new and laid as a hose or tube; its ends are the ports TAG.A and TAG.B of the nets.
struct NewConduit {
  std::string tag;
  std::string word;  ///< "hose", "tube"
  job::Written table;
};

/// How lines are to be written anew.
struct Wish {
  std::vector<std::string> near;  ///< ports beside which, as written, something new is written
  std::vector<NewConduit> conduits{};
  std::optional<std::vector<std::string>> plugged{};  ///< other ports than those plugged now
};

/// What it takes to bring the text's lines to the nets.
struct Rejoined {
  std::vector<job::Edit> edits;           ///< to be made in this order
  std::vector<std::string> hoses_gone{};  ///< tags of hoses and tubes that had an end left open
  std::vector<std::pair<std::string, std::string>> hoses_renamed{};  ///< tags made of ends: from, to
};

/// The changes of the lines after which the text joins what the nets join, as few as can be: entries whose
/// ports stay together stay as they are, and a port that comes or goes does so in the entry of its
/// neighbours.
Rejoined rejoin(const Sheet& sheet, Nets wanted, const Wish& wish);

}  // namespace poise::compose
