// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>

#include "parts/table.hpp"

namespace poise::cylinder {

/// How cylinders go wrong, and what a practitioner keeps to with them.

inline constexpr Fault friction_up{
    .name = "friction up",
    .sentence =
        "bent rod, dry seal or side load: it takes more pressure to move, moves in jerks and pushes less on "
        "the way out",
    .parameter = "seal_friction",
    .slight = 2.0,
    .grave = 10.0};
inline constexpr Fault wrong_size{
    .name = "wrong size fitted",
    .sentence = "a bore one size smaller: force and time are off from the first day",
    .parameter = "bore",
    .slight = 0.95,
    .grave = 0.89};
inline constexpr Fault weak_spring{
    .name = "return spring weak",
    .sentence = "the spring has tired or is broken: it comes back slowly or not at all",
    .parameter = "spring_preload",
    .slight = 0.7,
    .grave = 0.0};
inline constexpr Fault piston_leak{
    .name = "piston seal leaks",
    .sentence =
        "moving it is slow and warm; held up with both ports shut, the pressures become equal "
        "at load/(A_A − A_B) and it does not drift; a hanging load sinks",
    .parameter = "leakage",
    .change = Fault::Change::plus,
    .slight = 20 * si::cm3_per_minute,
    .grave = 1 * si::litre_per_minute};

inline constexpr const char* lifting_pages = "safety pages on lifting tools";

inline constexpr Rule eighty_capacity{
    .name = "eighty-capacity",
    .sentence =
        "a jack carries at most 80 % of its capacity, by its greatest share of the load and not the average",
    .source = lifting_pages};
inline constexpr Rule eighty_stroke{.name = "eighty-stroke",
                                    .sentence =
                                        "use at most 80 % of the stroke: side load weighs more the further "
                                        "the rod is out",
                                    .source = lifting_pages};
inline constexpr Rule marked{
    .name = "rated-and-marked",
    .sentence =
        "the capacity is marked on the jack and never exceeded; a positive stop keeps "
        "the rod in its body",
    .source = "29 CFR 1926.305 and 1910.244 (jacks)"};
inline constexpr Rule side_load{.name = "side-load",
                                .sentence =
                                    "load in line with the rod, on the whole saddle; sideways at most 3 to "
                                    "10 % of the push, by the datasheet; tilt of the saddle at most 5 deg"};
inline constexpr Rule base_bearing{.name = "base-bearing",
                                   .sentence =
                                       "the floor bears force over base area, else a spread plate or crib; "
                                       "wood between saddle and load where it may slip",
                                   .source = "29 CFR 1926.305 (jacks)"};
inline constexpr Rule extension_halves{
    .name = "extension-halves",
    .sentence = "with an extension on the rod half the pressure is allowed",
    .source = lifting_pages};
inline constexpr Rule buckling{.name = "buckling",
                               .sentence =
                                   "push times 3 to 5 stays below buckling_load at the furthest extension: "
                                   "buckling_share at most 20 to 33 %",
                               .source = "pages on the buckling of cylinder rods"};
inline constexpr Rule spring_back_pressure{.name = "spring-return-back-pressure",
                                           .sentence =
                                               "while it returns the pressure at A, with head and the cold "
                                               "tank line in it, stays below spring force "
                                               "over area, often 1.5 to 5 bar"};
inline constexpr Rule head{
    .name = "pump-below-cylinder",
    .sentence = "each metre of height between pump and cylinder is 0.087 bar either way",
    .source = "density times gravity times height, oil of 890 kg/m3"};
inline constexpr Rule stop_ring{
    .name = "stop-ring",
    .sentence =
        "the rod is driven onto its stop at full pressure only if the stop is rated "
        "for that"};
inline constexpr Rule oil_comes_back{
    .name = "oil-comes-back",
    .sentence =
        "the reservoir is filled with every cylinder in, so that it has room "
        "for all oil that comes back",
    .source = lifting_pages};
inline constexpr Rule oil_alone{
    .name = "oil-alone",
    .sentence =
        "oil alone never holds a load for people: a lock nut, crib or block does; "
        "local codes and a licensed person decide",
    .source = "29 CFR 1926.305 (block, crib or secure at once after raising)"};
inline constexpr Rule saddle{.name = "saddle-in-place",
                             .sentence = "the load stands on the saddle's face, not on the rod's thread",
                             .source = lifting_pages};
inline constexpr Rule load_gauge{
    .name = "load-gauge",
    .sentence = "each lifting point has a gauge or a load cell, else nobody knows its load",
    .source = lifting_pages};
inline constexpr Rule piston_leak_multiplies{
    .name = "piston-leak-multiplies",
    .sentence =
        "both ports shut on a load and a leaking piston seal: the pressure rises to p_load·f/(f − 1), f = "
        "A_A/A_B; at f = 1.25 that is five times",
    .source = "force balance at equal pressures"};
inline constexpr Rule hanging_load{.name = "hanging-load-piston-leak",
                                   .sentence =
                                       "a load that pulls on the rod sinks if the piston seal leaks: the oil "
                                       "around the rod fits behind the piston"};
inline constexpr Rule rod_side_rating{
    .name = "rod-side-rating",
    .sentence =
        "the highest pressure at B stays below the rating of the rod side, "
        "often lower than that of the bore: a shut B makes A_A/A_B times the "
        "pressure"};

}  // namespace poise::cylinder
