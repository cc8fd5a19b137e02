// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "diagnose/belief.hpp"
#include "diagnose/next.hpp"
#include "units/units.hpp"

namespace poise::diagnose {

/// A group of suspects in words.
struct Told {
  std::vector<std::string> suspects{};  ///< "V2 spring relaxed: setting 88.0 bar", the likeliest first
  std::string sentence{};               ///< what is behind the first
  std::string why{};                    ///< the readings that it explains
  std::vector<std::string> against{};   ///< the readings that speak against it
  double share = 0.0;
  bool is_sound = false;  ///< the first is that nothing is wrong
};

/// One reading beside what the sound machine would show.
struct Seen {
  std::string name{}, reads{}, sound{};  ///< in the units asked for
  bool out_of_band = false;
};

/// A measurement that would tell most, in words.
struct Advice {
  std::size_t watch = 0;             ///< place in the atlas
  std::string name{};                ///< "portable gauge at V4.A at the end of "clamp""
  std::string before{};              ///< what comes before anybody opens a fitting for it; may be empty
  std::vector<std::string> shows{};  ///< "about 60.2 bar: nothing wrong"
};

/// What the readings say, in words.
struct Diagnosis {
  std::string doubt{};  ///< that nothing looked for explains the readings; empty where something does
  std::vector<std::string> ask_first{};  ///< questions and looks that come before any measurement
  std::vector<Seen> seen{};
  std::vector<Told> groups{};  ///< at most eight, the likeliest first
  std::vector<Advice> next{};
};

/// Weighs the readings. `machine`: unknown, or by its baseline. `world`: the units that people see.
Diagnosis diagnose(const Atlas& atlas, const Machine& machine, const Readings& readings,
                   const units::World& world);

/// For a terminal of usual width.
std::string show(const Diagnosis& diagnosis);
/// Every member by its name, lists as arrays.
nlohmann::json to_json(const Diagnosis& diagnosis);

}  // namespace poise::diagnose
