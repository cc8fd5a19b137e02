// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/table.hpp"

/// What has to be looked after on the reservoir, pumps, motors, accumulators and intensifiers.
namespace poise::upkeep {

inline constexpr Care oil_level{
    .what = "Read the oil level with every cylinder in",
    .interval = "before each shift",
    .limit = "between the marks; fill with cylinders in only, through a filter",
    .source = "lifting-tool safety pages; commissioning article of a lubrication magazine"};
inline constexpr Care breather{.what = "Look at the breather",
                               .interval = "every 3 months",
                               .limit = "dry and clean; replace it every year",
                               .source = "suction blockage article; intervals common practice"};
inline constexpr Care oil_sample{
    .what = "Take a sample of warm oil: colour, smell, water, cleanliness code",
    .interval = "every 6 months",
    .limit =
        "ISO 4406 18/16/13 or cleaner above 210 bar, water below 300 ppm; dark, milky or burnt: change it "
        "and "
        "find out why",
    .source = "target cleanliness tables of two distributors; water from memory"};
inline constexpr Care oil_change{.what = "Change the oil, clean the reservoir and its strainer",
                                 .interval = "every 2 years or 2000 hours, or by the sample",
                                 .limit = "same grade, filled through a filter",
                                 .source = "from memory"};
inline constexpr Care oil_temperature{.what = "Read the oil's temperature in the hottest hour",
                                      .interval = "every week",
                                      .limit = "at most 60 °C at the pump's inlet",
                                      .source = "university page on ISO 4413 (inlet at most 60 °C)"};
inline constexpr Care pump_test{
    .what = "Time a known stroke near the highest pressure, oil warm, and compare with the baseline",
    .interval = "every 6 months",
    .limit = "no more than 10 % longer; else test pump against relief with a bucket",
    .source = "troubleshooting steps (bucket test of relief and pump); figure common practice"};
inline constexpr Care pump_noise{
    .what = "Listen at the pump, look at shaft seal and coupling, read the inlet's vacuum",
    .interval = "every week",
    .limit = "no whine, dry, inlet not below −0.2 bar with cold oil",
    .source = "pump symptoms article; −0.2 bar from memory"};
inline constexpr Care case_drain{
    .what = "Measure the flow of the case drain at full pressure, oil warm",
    .interval = "every 6 months",
    .limit = "no more than twice that of the first day; the drain line open, no cock, no check in it",
    .source = "articles on case drains; factor common practice"};
inline constexpr Care air_supply{
    .what = "Drain the water from the air filter, fill the oiler, read the air gauge while it runs",
    .interval = "every week",
    .limit = "air within 0.5 bar of the regulator; dry exhaust, no ice",
    .source = "common practice"};
inline constexpr Care hand_pump_dry{
    .what = "Look at plunger, release valve and handle; hold at pressure for a minute",
    .interval = "before each use",
    .limit = "dry, the handle does not rise, the gauge does not fall; handle pins whole",
    .source = "hand pump stroke note; safety pages on lifting tools"};
inline constexpr Care motor_current{
    .what = "Measure the current at the highest pressure; clean the fan cover",
    .interval = "every 6 months",
    .limit =
        "no more than its plate says, save for as long as its duty on the plate allows; work on it by a "
        "licensed electrician, locked "
        "off",
    .source = "common practice"};
inline constexpr Care shaft_coupling{
    .what = "Look at coupling and its spider, and the bolts of both feet; locked off, guard back on",
    .interval = "every 6 months",
    .limit = "no play beyond its datasheet, no rubber dust",
    .source = "common practice"};
inline constexpr Care precharge_read{
    .what = "Read the precharge: at start the gauge jumps to it; or at the gas valve, oil drained",
    .interval = "after a week, after a month, then every 6 months",
    .limit = "within ± 5 % of the settings sheet at that temperature; dry nitrogen only, trained people only",
    .source = "maintenance note and charging instruction, read in excerpts; intervals from memory"};
inline constexpr Care vessel_law{.what = "Inspection as a pressure vessel",
                                 .interval = "as the local law says",
                                 .limit = "a licensed person decides",
                                 .source = "local codes"};
inline constexpr Care intensifier_ends{
    .what = "Read both sides with it at rest",
    .interval = "every 6 months",
    .limit = "the high side at the ratio within 5 %, and not falling for a minute",
    .source = "common practice"};
inline constexpr Care return_free{
    .what = "See that the line of its return chamber runs free",
    .interval = "every year",
    .limit = "no pressure there, no shut cock, vent open: every bar takes (ratio − 1) bar from the high side",
    .source = "common practice"};

}  // namespace poise::upkeep
