// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/table.hpp"

/// What has to be looked after on cylinders, clamps, supports, motors and lock nuts.
namespace poise::upkeep {

inline constexpr Care rod_surface{
    .what = "Wipe the rod and look at it all round, fully out",
    .interval = "every month",
    .limit = "no score that a nail feels, no rust, no bend; leave it in when not used",
    .source = "safety pages on lifting tools; common practice"};
inline constexpr Care rod_seal{.what = "Look at the rod's seal after ten strokes",
                               .interval = "every month",
                               .limit = "a film, no drops; drops: new seals",
                               .source = "common practice"};
inline constexpr Care drift{
    .what = "Drift: hold with the highest load just above its blocks, nobody under it, for 10 minutes",
    .interval = "every 6 months",
    .limit = "no more than 1 mm; else find out whether valve or piston seal leaks",
    .source = "trade column on cylinder drift; figure common practice"};
inline constexpr Care saddle_and_base{
    .what = "Look at saddle, base, threads and stop ring",
    .interval = "before each use",
    .limit = "saddle in place and whole, base flat, capacity readable",
    .source = "29 CFR 1926.305 and 1910.244 (jacks); safety pages on lifting tools"};
inline constexpr Care jack_inspection{.what = "Thorough inspection by a competent person, with a record",
                                      .interval = "every 6 months, and after any overload or shock",
                                      .limit = "out of use until repaired and tested",
                                      .source = "29 CFR 1926.305 (jacks)"};
inline constexpr Care mounting_tight{
    .what = "Check bolts and pins of its mounting, and that it stands in line with its load",
    .interval = "every 6 months",
    .limit = "at their torque; a rod that rubs on one side is out of line",
    .source = "common practice"};
inline constexpr Care air_out{
    .what = "Bleed it at its highest point at low pressure",
    .interval = "after any opening of its lines",
    .limit = "moves without jerks, oil clear",
    .source = "commissioning article of a lubrication magazine; oil compressibility page"};
inline constexpr Care clamp_arm{
    .what = "Look at arm, its bolt and contact screw; swing it slowly, without a workpiece",
    .interval = "every month",
    .limit = "same angle every time, no play of the arm, contact within the straight stroke",
    .source = "swing-clamp instructions"};
inline constexpr Care clamp_force{
    .what = "Measure the clamping force with a load cell in place of the workpiece",
    .interval = "every year",
    .limit = "no less than 90 % of that worked out at this pressure",
    .source = "common practice"};
inline constexpr Care clamp_clean{
    .what = "Clear chips and coolant from rod and wiper; see that vents breathe dry air",
    .interval = "every shift",
    .limit = "clean, vents open and out of the coolant",
    .source = "swing-clamp instructions"};
inline constexpr Care support_holds{
    .what = "Dial indicator at the plunger: lock it, clamp, and read",
    .interval = "every 6 months",
    .limit = "it gives no more than its datasheet says; more: oil or dirt between sleeve and plunger",
    .source = "workholding design pages; interval common practice"};
inline constexpr Care support_rises{
    .what = "Press the plunger down by hand without pressure and let it rise; clear chips",
    .interval = "every week",
    .limit = "rises freely all the way, wiper whole",
    .source = "common practice"};
inline constexpr Care motor_leak{
    .what = "Look at shaft seal and case drain; compare its speed under load with the first day",
    .interval = "every 6 months",
    .limit = "dry, no more than 10 % slower, drain line open",
    .source = "articles on case drains; figure common practice"};
inline constexpr Care nut_thread{.what = "Clean and oil thread and nut; run it over its whole length by hand",
                                 .interval = "before each use",
                                 .limit = "turns freely, no torn thread, sits flat on the jack's body",
                                 .source = "common practice"};

}  // namespace poise::upkeep
