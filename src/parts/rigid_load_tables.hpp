// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>

#include "parts/table.hpp"

/// What the reference says of a rigid load.
namespace poise::rigid_load {

inline constexpr int most_points = 8;
inline constexpr std::array<std::string_view, 2> grounds{"blocks", "jacks"};

constexpr Port lifting_point(std::string_view name, int points_before) {
  return {.name = name,
          .domain = Domain::motion,
          .meaning = "the jack's rod under this point",
          .needed_if_parameter = points_before < 2 ? "" : "points",
          .needed_if_word = points_before};
}
constexpr Output lifting_force(std::string_view name) {
  return {name, Quantity::force, "what the jack carries at this point; 0 where there is none"};
}

inline constexpr About about{
    .kind = "rigid_load",
    .sentence =
        "A rigid load on two to eight lifting points, each on a jack's rod: it rises, pitches and rolls "
        "about "
        "its centre of gravity. Two points carry a beam that is held upright.",
    .law =
        "force at point k = contact_stiffness·depth + contact_damping·(speed of approach), never a pull; "
        "depth = x_k − gap − rise of the point from where it stands on its blocks; "
        "height of point k = heave + dx·pitch + dy·roll + centre_height·(pitch² + roll²)/2; "
        "mass·heave'' = Σ forces − mass·g; mass·pitch_radius²·pitch'' = Σ forces·(dx + "
        "centre_height·pitch); "
        "roll the same with dy; a load that has tipped comes to lie at 0.25 rad (14 deg)",
    .source =
        "rigid body with small angles, e.g. Meriam and Kraige, Engineering Mechanics: Dynamics (from "
        "memory); "
        "standard gravity 9.80665 m/s2 (ISO 80000-3)",
    .beside = "{mass}\n[{note}]"};
inline constexpr std::array parameters{
    Parameter{.name = "mass",
              .quantity = Quantity::mass,
              .low = 1.0,
              .high = 2e7,
              .meaning = "mass of the whole load",
              .tolerance = 0.05},
    Parameter{
        .name = "points",
        .quantity = Quantity::length,
        .low = -500.0,
        .high = 500.0,
        .meaning =
            "places of the lifting points seen from above, x along the load and y across it, from any one "
            "origin; point_1 first. Two make a beam",
        .source = "the load's drawing",
        .against = Quantity::length,
        .rising = false},
    Parameter{.name = "centre_x",
              .quantity = Quantity::length,
              .low = -500.0,
              .high = 500.0,
              .meaning = "x of the centre of gravity, from the same origin",
              .source = "the load's drawing"},
    Parameter{.name = "centre_y",
              .quantity = Quantity::length,
              .low = -500.0,
              .high = 500.0,
              .meaning = "y of the centre of gravity, from the same origin",
              .source = "the load's drawing"},
    Parameter{
        .name = "centre_height",
        .quantity = Quantity::length,
        .fallback = 0.0,
        .low = -50.0,
        .high = 50.0,
        .meaning =
            "height of the centre of gravity over the points: a high one moves sideways as the load tilts",
        .source = "the load's drawing"},
    Parameter{.name = "pitch_radius",
              .quantity = Quantity::length,
              .low = 0.01,
              .high = 500.0,
              .meaning =
                  "radius of gyration for pitch; left out, that of an even bar between the outermost points "
                  "along x, length/√12",
              .optional = true},
    Parameter{.name = "roll_radius",
              .quantity = Quantity::length,
              .low = 0.01,
              .high = 500.0,
              .meaning = "radius of gyration for roll; left out, that of an even bar along y",
              .optional = true},
    Parameter{.name = "contact_stiffness",
              .quantity = Quantity::spring_rate,
              .fallback = 1e8,
              .low = 1e4,
              .high = 1e11,
              .meaning =
                  "stiffness of load, saddle and floor at each point: it shares the weight where there "
                  "are more points than needed"},
    Parameter{.name = "stiffness_at",
              .low = 1.0,
              .high = most_points,
              .meaning = "points with another stiffness: number of the point, its stiffness",
              .optional = true,
              .against = Quantity::spring_rate,
              .fewest_points = 1},
    Parameter{.name = "contact_damping",
              .quantity = Quantity::damping,
              .low = 0.0,
              .high = 1e9,
              .meaning = "force per speed of approach at each point; left out, stiffness times 1 ms",
              .optional = true},
    Parameter{.name = "gap",
              .quantity = Quantity::length,
              .fallback = 0.0,
              .low = -1.0,
              .high = 20.0,
              .meaning = "way of a rod before it touches the load as it stands on its blocks (without "
                         "blocks: at height 0)"},
    Parameter{.name = "gap_at",
              .low = 1.0,
              .high = most_points,
              .meaning =
                  "points with another gap, as shims and an uneven floor make it: number of the point, "
                  "its gap",
              .optional = true,
              .against = Quantity::length,
              .fewest_points = 1},
    Parameter{
        .name = "stands_on",
        .fallback = 0.0,
        .low = 0.0,
        .high = 1.0,
        .meaning =
            "what it stands on when the job begins: blocks of its own, one under each point, or the jacks "
            "alone",
        .words = grounds},
    Parameter{.name = "start_height",
              .quantity = Quantity::length,
              .fallback = 0.0,
              .low = -1.0,
              .high = 20.0,
              .meaning = "with jacks alone: height from which it settles on the rods before the job begins"},
    Parameter{.name = "block_stiffness",
              .quantity = Quantity::spring_rate,
              .fallback = 2e8,
              .low = 1e4,
              .high = 1e11,
              .meaning = "stiffness of each block"},
    Parameter{.name = "guide_damping",
              .quantity = Quantity::damping,
              .fallback = 0.0,
              .low = 0.0,
              .high = 1e9,
              .meaning = "what guides, hoses and air take out of its motion: force per speed"},
    Parameter{.name = "tilt_limit",
              .quantity = Quantity::share,
              .fallback = 0.01,
              .low = 1e-5,
              .high = 0.2,
              .meaning = "slope above which the lift has to be stopped",
              .source = "1:200 fine, 1:100 rough work: common practice"},
};
inline constexpr std::array ports{
    Port{.name = "heave",
         .domain = Domain::motion,
         .meaning = "rise of the centre of gravity",
         .may_stay_free = true},
    Port{.name = "pitch",
         .domain = Domain::motion,
         .meaning = "turning that raises the end towards +x",
         .may_stay_free = true,
         .turns = true},
    Port{.name = "roll",
         .domain = Domain::motion,
         .meaning = "turning that raises the side towards +y",
         .may_stay_free = true,
         .turns = true},
    lifting_point("point_1", 0),
    lifting_point("point_2", 1),
    lifting_point("point_3", 2),
    lifting_point("point_4", 3),
    lifting_point("point_5", 4),
    lifting_point("point_6", 5),
    lifting_point("point_7", 6),
    lifting_point("point_8", 7),
};
inline constexpr std::array outputs{
    lifting_force("force_1"),
    lifting_force("force_2"),
    lifting_force("force_3"),
    lifting_force("force_4"),
    lifting_force("force_5"),
    lifting_force("force_6"),
    lifting_force("force_7"),
    lifting_force("force_8"),
    Output{"on_blocks", Quantity::force, "part of the weight that still stands on the blocks"},
    Output{"tilt", Quantity::share, "greatest slope of the load, 1:100 is 1 %"},
    Output{"corner_difference", Quantity::length, "height of the highest point over the lowest"},
};
inline constexpr std::array happenings{Happening{"leaves its blocks"}, Happening{"is down on a block again"},
                                       Happening{"hangs free at a point"},
                                       Happening{"tilts beyond its limit"}};
inline constexpr std::array faults{
    Fault{.name = "load shifted along",
          .sentence =
              "the centre of gravity is not where the drawing has it: the gauges of the points change, "
              "their sum does not",
          .parameter = "centre_x",
          .change = Fault::Change::plus,
          .slight = 50 * si::mm,
          .grave = 0.5,
          .comes = Comes::after_work},
    Fault{.name = "load shifted across",
          .sentence =
              "the centre of gravity is not where the drawing has it: the gauges of the points change, "
              "their sum does not",
          .parameter = "centre_y",
          .change = Fault::Change::plus,
          .slight = 50 * si::mm,
          .grave = 0.5,
          .comes = Comes::after_work},
    Fault{.name = "heavier than stated",
          .sentence = "the load weighs more than its papers say: every gauge reads more",
          .parameter = "mass",
          .slight = 1.1,
          .grave = 1.5,
          .comes = Comes::after_work},
    Fault{.name = "floor gives way",
          .sentence = "the floor sinks under the jacks: the points are softer than thought and shares wander",
          .parameter = "contact_stiffness",
          .slight = 0.5,
          .grave = 0.05},
};
inline constexpr std::array rules{

    Rule{.name = "follow-with-blocks",
         .sentence = "blocks follow the load all the way, 10 to 25 mm below it; nobody goes under it"},

};

}  // namespace poise::rigid_load
