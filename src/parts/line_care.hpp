// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/table.hpp"

/// What has to be looked after on lines, fittings, filters and gauges.
namespace poise::upkeep {

inline constexpr Care hose_cover{
    .what =
        "Look at the cover for cuts, blisters, rubbed or soft places and bare wire, at the ends for seeping; "
        "without pressure, and never feel for a leak by hand",
    .interval = "before each shift",
    .limit = "none of it; else replace the hose before it is pressed again",
    .source = "contractor's list of hose hazards; safety article on injection"};
inline constexpr Care hose_age{
    .what = "Read the date on the hose",
    .interval = "every year",
    .limit = "replace after 6 years, of these 2 in store at most; earlier where hot, bent or chafed",
    .source = "DIN 20066 as quoted in a lift manual"};
inline constexpr Care hose_lie{
    .what = "Look at how it lies with the machine at both ends of its stroke",
    .interval = "every month",
    .limit = "not pulled, not twisted, no tighter than its least bend, whip restraint in place",
    .source = "hose selection notes; university page on ISO 4413"};
inline constexpr Care tube_clamps{
    .what = "Look at clamps, joints and bends of the tube; nobody stands on it or hangs things from it",
    .interval = "every 6 months",
    .limit = "clamps tight, dry, no dent, no rust pits, no rubbing",
    .source = "university page on ISO 4413; common practice"};
inline constexpr Care joint_dry{.what = "Look for seeping, with cardboard, never with a hand",
                                .interval = "every month",
                                .limit = "dry; tighten or reseal without pressure only",
                                .source = "safety article on injection; fluid power safety alerts"};
inline constexpr Care block_dry{.what = "Look at plugs, screws and faces of the block",
                                .interval = "every 6 months",
                                .limit = "dry, screws at their torque, every port marked",
                                .source = "common practice"};
inline constexpr Care coupling_clean{.what = "Wipe both halves before joining; put the caps on after parting",
                                     .interval = "at every use",
                                     .limit = "clean, no dents on the seats, home by hand on both halves",
                                     .source = "lifting-tool safety page; lesson on couplings"};
inline constexpr Care coupling_drips{
    .what = "Look at the parted halves, capped and from a distance, for drops; search with cardboard",
    .interval = "every 3 months",
    .limit = "no drop in a minute; else new seals or a new half"};
inline constexpr Care filter_flag{.what = "Read the clogging indicator with warm oil at full flow",
                                  .interval = "every week",
                                  .limit = "below its mark; at the mark replace the element",
                                  .source = "notes on filter bypass"};
inline constexpr Care filter_element{
    .what = "Replace the element, look at the old one for metal and torn folds",
    .interval = "every year; the first time after 50 hours",
    .limit = "metal in it: find which part it comes from",
    .source = "common practice; 50 hours from memory"};
inline constexpr Care cooler_clean{.what = "Clean fins or water side; compare the oil before and behind it",
                                   .interval = "every 6 months",
                                   .limit = "oil in the reservoir at most 60 °C in the hottest hour",
                                   .source = "university page on ISO 4413 (inlet at most 60 °C)"};
inline constexpr Care hole_free{
    .what = "Watch the needle as the pressure comes and goes",
    .interval = "every 3 months",
    .limit = "it follows within a second or two and falls to zero; else clean the hole"};
inline constexpr Care gauge_calibrated{
    .what = "Compare with a master gauge at a quarter, half and three quarters of the scale",
    .interval = "every year",
    .limit = "within its class; else replace it and look again at what was set by it",
    .source = "gauge guide on calibration"};
inline constexpr Care gauge_zero{
    .what = "See that it stands at zero when nothing presses, and that the glass is whole",
    .interval = "before each shift",
    .limit = "zero within its class; stuck or bent: replace",
    .source = "gauge guide on failure modes and calibration"};

}  // namespace poise::upkeep
