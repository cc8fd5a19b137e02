// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/table.hpp"

/// How the settings of parts are brought to their values on the machine, in the order of commissioning. Which
/// way an adjuster turns is said by the part's datasheet alone: it is not the same for all.
namespace poise::adjust {

using Turn = Adjusting::Turn;
using Safe = Adjusting::Safe;

inline constexpr std::string_view commissioning =
    "commissioning article of a lubrication magazine; order common practice";

inline constexpr Adjusting precharge{
    .parameter = "precharge",
    .turn = Turn::precharge,
    .port = "gas",
    .begin = "cut off from the oil, its oil side drained and read at zero",
    .while_setting =
        "no oil in it; dry nitrogen let in slowly at its gas valve, and read there a quarter of an hour "
        "later, "
        "as warm as its surroundings",
    .source = "charging instruction, read in excerpts; the quarter of an hour from memory"};

inline constexpr Adjusting relief{
    .parameter = "setting",
    .turn = Turn::relief,
    .port = "P",
    .begin = "fully open: its spring let off",
    .while_setting = "its line dead-headed, the whole pump flow over it, oil warm; raised from below",
    .safe = Safe::lower,
    .source = "course text: the setting is the pressure at full pump flow; aircraft relief description"};

inline constexpr Adjusting unloading{
    .parameter = "setting",
    .turn = Turn::pump,
    .port = "X",
    .begin = "low: its spring nearly let off",
    .while_setting =
        "the main relief set, the pressure behind the check rising slowly; read as the pump's flow goes to "
        "tank",
    .safe = Safe::lower,
    .source = "article on setting two-stage pumps"};

inline constexpr Adjusting change_over{
    .parameter = "unloading_pressure",
    .turn = Turn::pump,
    .port = "P",
    .begin = "low: its spring nearly let off",
    .while_setting =
        "the main relief set, both stages delivering against a slowly rising load; read as the fast flow and "
        "the motor's load fall",
    .safe = Safe::lower,
    .source = "article on setting two-stage pumps"};

inline constexpr Adjusting compensator{
    .parameter = "setting",
    .turn = Turn::pump,
    .port = "P",
    .begin = "low: its spring nearly let off",
    .while_setting =
        "the relief that guards it set and above it, the outlet dead-headed, the pump stroked back; no oil "
        "over the relief",
    .safe = Safe::lower};

inline constexpr Adjusting reducing{
    .parameter = "setting",
    .turn = Turn::reducing,
    .port = "A",
    .begin = "low: its spring nearly let off",
    .while_setting = "the main relief set, the outlet shut off, nothing flowing; raised from below",
    .safe = Safe::lower,
    .source = commissioning};

inline constexpr Adjusting sequence{
    .parameter = "setting",
    .turn = Turn::sequence,
    .port = "A",
    .begin = "above the pressure that the first group moves at, below the main relief",
    .while_setting =
        "the first group at its end, the pressure rising slowly; read as the second group just starts to "
        "move",
    .safe = Safe::higher,
    .source = commissioning};

inline constexpr Adjusting by_turns{
    .parameter = "turns",
    .turn = Turn::flow,
    .begin = "a quarter open, counted from shut",
    .while_setting = "the motion timed by stop-watch over its stroke, under its usual load, oil warm",
    .source = commissioning};

inline constexpr Adjusting by_flow{
    .parameter = "flow",
    .turn = Turn::flow,
    .begin = "a quarter open",
    .while_setting =
        "the motion timed by stop-watch over its stroke, oil warm, the difference of pressure above its "
        "minimum; flow is area times stroke over time",
    .source = commissioning};

inline constexpr Adjusting load_holding{
    .parameter = "setting",
    .turn = Turn::load_holding,
    .port = "A",
    .begin = "high, as delivered: it holds",
    .while_setting =
        "with the load a hand's breadth above its blocks, nobody near; lowered by its pilot, stopped, and "
        "watched for holding. By turns from the datasheet; which way raises it says the datasheet alone",
    .safe = Safe::higher,
    .source = "trade article on setting and faults of counterbalance valves; cartridge data"};

inline constexpr Adjusting contact{
    .parameter = "setting",
    .turn = Turn::contact,
    .port = "M",
    .begin = "above the pressure of the motion before it",
    .while_setting =
        "the actuator at its end and firm, the pressure rising slowly; read as the contact is made, then "
        "falling for the reset",
    .safe = Safe::higher,
    .source = commissioning};

}  // namespace poise::adjust
