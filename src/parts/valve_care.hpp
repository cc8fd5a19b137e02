// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/table.hpp"

/// What has to be looked after as long as the machine lives. Where local law asks for more, that counts.
namespace poise::upkeep {

inline constexpr Care relief_test{
    .what =
        "Test as Settings says how it is set, in place or on a bench: read the gauge, and see that it shuts "
        "again as the pressure falls",
    .interval = "every year, and after any work on it",
    .limit =
        "within ± 3 % of the settings sheet and half a division of the gauge; never raised to "
        "cure a fault elsewhere",
    .source = "technician's story on testing reliefs; equipment manual; figures common practice"};
inline constexpr Care adjuster_locked{
    .what = "Look at its lock nut, cap or seal",
    .interval = "every month",
    .limit = "locked or sealed as the settings sheet says; else read the setting again",
    .source = "ISO 4413:1998, 7.6 (title; content from memory)"};
inline constexpr Care relief_silent{
    .what =
        "Feel its tank line, with a glove and away from its joints, and listen while the machine works below "
        "the setting",
    .interval = "every month",
    .limit = "cool and silent; warm or hissing: dirt on the seat, clean or replace",
    .source = "relief trouble page"};
inline constexpr Care vent_line{.what = "Look at all that is joined to its vent X for leaks and shut cocks",
                                .interval = "every 6 months",
                                .limit = "dry, open as drawn; a leak there unloads the pump"};
inline constexpr Care drain_free{
    .what = "See that the drain of its spring chamber runs free to the reservoir",
    .interval = "every year",
    .limit = "no pressure at the drain while the machine works: every bar there adds to the setting",
    .source = "web restatement of an army manual; open textbook on outside drains"};
inline constexpr Care unloads{
    .what = "Watch it let go and come back: gauge before the check, gauge behind it",
    .interval = "every 6 months",
    .limit =
        "opens within ± 3 % of its setting, the pump then idles below 10 bar, shuts again after the "
        "stated fall",
    .source = "article on setting two-stage pumps; figures common practice"};
inline constexpr Care reduced_reading{
    .what = "Read the reduced branch with nothing flowing, and again after 10 minutes",
    .interval = "every 6 months",
    .limit = "within ± 3 % of the settings sheet, and not climbing",
    .source = "common practice"};
inline constexpr Care order_of_motions{
    .what = "Watch the order: the first group is at its end and firm before the second one moves",
    .interval = "every month, and on a cold morning",
    .limit = "no creep of the second group before its turn; opens within ± 3 % of the settings sheet"};
inline constexpr Care switch_points{
    .what = "Raise and let down the pressure slowly by the gauge: note where it switches on and off",
    .interval = "every year",
    .limit = "within ± 2 % of its settings; it stops the machine when its wire is off",
    .source = "common practice"};

inline constexpr Care holds_pressure{
    .what = "Hold test: press the zone behind it, stop the pump, wait 10 minutes",
    .interval = "every 6 months",
    .limit = "the gauge behind it falls no more than 2 % beyond what cooling takes",
    .source = "web article on leakage of spool and poppet valves; figures common practice"};
inline constexpr Care holds_load{
    .what =
        "Hold test with the load just above its blocks, nobody under it: measure where the rod stands, again "
        "after 10 minutes",
    .interval = "every 6 months; before lifting for work under mechanical supports",
    .limit =
        "no more than 1 mm in 10 minutes; else the valve or the piston seal leaks. Oil alone never "
        "holds a load for people",
    .source = "trade column on cylinder drift; 29 CFR 1926.305; figure common practice"};
inline constexpr Care pilot_lets_go{.what = "Lower the heaviest load slowly and watch the pilot's gauge",
                                    .interval = "every year",
                                    .limit = "lets go smoothly, at no more pilot pressure than worked out"};
inline constexpr Care flow_timed{
    .what = "Time the motion by stop-watch over its stroke, oil warm",
    .interval = "every 6 months",
    .limit = "within ± 5 % of the settings sheet; slower: dirt, open and flush it, then set it again",
    .source = "figure common practice"};
inline constexpr Care level_checked{
    .what = "Measure at the end of a stroke by how much its sides are out of step",
    .interval = "every 6 months",
    .limit = "within its error over the stroke; more: wear or dirt",
    .source = "trade magazine's e-book on fluid-power circuits, book 2"};
inline constexpr Care sides_switch{
    .what = "Press each inlet in turn and read the outlet; press one and see that the other stays empty",
    .interval = "every year",
    .limit = "the outlet follows the higher one; nothing comes into the other"};
inline constexpr Care burst_valve_trip{
    .what =
        "Trip test by the maker's instruction: lower faster than the trip flow with a test load just above "
        "its blocks, nobody near, "
        "nobody near",
    .interval = "every year",
    .limit = "shuts within the way stated, and holds; the test is for trained people",
    .source = "lift-table note on velocity fuses; interval common practice"};
inline constexpr Care cam_and_roller{
    .what = "Look at cam, roller and their bolts; grease the roller",
    .interval = "every 3 months",
    .limit = "cam tight, roller turns, slows at the same place as on the first day"};
inline constexpr Care handle_turns{
    .what = "Shut and open it fully; with it shut, see that what is behind it keeps its pressure",
    .interval = "every 6 months",
    .limit = "turns by hand without a pipe on the handle, dry at the stem, shuts tight"};
inline constexpr Care spool_moves{
    .what = "Shift it by hand override and by command, both ways, without pressure and with it",
    .interval = "every 6 months",
    .limit = "moves freely to both ends and comes back; the coil is not too hot to touch for long",
    .source = "common practice"};
inline constexpr Care spool_leaks{.what = "Feel and hear its tank line with all motions at rest",
                                  .interval = "every 6 months",
                                  .limit = "cool and silent; warm: the spool is worn, loads creep",
                                  .source = "web article on leakage of spool and poppet valves"};

}  // namespace poise::upkeep
