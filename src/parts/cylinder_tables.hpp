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
    .grave = 0.89,
    .comes = Comes::after_work};
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
inline constexpr Rule saddle{.name = "saddle-in-place",
                             .sentence = "the load stands on the saddle's face, not on the rod's thread",
                             .source = lifting_pages};

}  // namespace poise::cylinder
