// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

#include "parts/kind.hpp"
#include "units/units.hpp"

namespace poise::reference {

/// "pilot_operated_check" as a heading: "Pilot operated check"; "directional_4_3": "Directional 4/3", ports
/// and positions as the trade writes them.
std::string title_of(std::string_view kind);
/// A text as it may stand in running Markdown: signs that Markdown reads as its own stand for themselves.
std::string running(std::string_view text);
/// A text as it may stand in a cell of a Markdown table.
std::string cell(std::string_view text);

/// A value in metric and in US units: "200 bar (2900 psi)"; once where both are the same.
std::string both(double value, Quantity quantity);
/// The default, or that it must be given or may be left out; in one world of units, or in both.
std::string default_of(const Parameter& p, const units::World& world);
std::string default_of(const Parameter& p);
/// From lowest to highest, or the words, or what the points of a curve are.
std::string range_of(const Parameter& p, const units::World& world);
std::string range_of(const Parameter& p);
/// How a value of it is looked for, and how far off it may be: "; a setting; ± 3 %"; empty where there is
/// nothing to say.
std::string found_as(const Parameter& p);
/// How far a fault changes its parameter, slight … grave: "× 0.97 … × 0.6".
std::string size_of(const Fault& fault, const Parameter& parameter);
/// When in the setting of a whole machine it is its turn: "2nd of 8, with the relief valves".
std::string turn_of(const Adjusting& adjusting);
/// What tells its value: "the gauge at P", "a stop-watch".
std::string read_by(const Adjusting& adjusting);
/// To which side it may be rounded and may drift: "down", "up", "neither".
std::string_view safe_side(const Adjusting& adjusting);
/// The signals of a port by their shortest names, set as code: "P.pressure`, `P.flow".
std::string signal_names(const Port& port, const Kind& kind);

}  // namespace poise::reference
