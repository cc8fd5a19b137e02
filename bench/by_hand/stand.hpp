// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>

namespace poise::by_hand {

/// The drilling stand of jobs/drilling-stand.toml as one would write it for this machine alone: one flat
/// vector, one function, numbers typed in. The unknown of an oil volume is ln((p + p_atm)/p_atm), so that its
/// pressure needs no iteration and never passes absolute zero. It shares no line with the library and so
/// checks it, too.
///
/// Oil volumes by what they lie at: pump line, tank side of V1, A and B side of V1, rams A and B (B: all
/// returns), clamps, reduced line, clamp K4.
enum Volume { pump, return_line, valve_a, valve_b, rams_a, rams_b, clamps, reduced, k4_line, volumes };
enum Mover { r1, r2, k1, k2, k3, k4, movers };

/// Places in the vector of unknowns.
constexpr int position(int mover) { return volumes + 2 * mover; }
constexpr int speed(int mover) { return volumes + 2 * mover + 1; }
inline constexpr int relief_opening = volumes + 2 * movers;
inline constexpr int sequence_opening = relief_opening + 1;
inline constexpr int reducing_spool = relief_opening + 2;
inline constexpr int unknowns = relief_opening + 3;

/// Paths of the directional valve V1.
enum Path { p_to_a, b_to_t, p_to_b, a_to_t, p_to_t, paths };

/// What the operator has set at a moment.
struct Commands {
  double pump_speed = 0.0;           ///< share of full speed
  std::array<double, paths> open{};  ///< share of full opening of each path of V1
  double thrust = 0.0;               ///< N, of the drill against ram R1
};
Commands commands_at(double time);

/// Moments at which a command begins or ends, s; the last is the end of the cycle.
inline constexpr std::array breaks{0.3, 0.5, 0.55, 4.5, 4.7, 7.0, 7.05, 10.0};

/// The fixed pattern of the Jacobian, by columns.
inline constexpr int nonzeros = 100;
struct Pattern {
  std::array<int, unknowns + 1> starts;
  std::array<int, nonzeros> rows;
};
const Pattern& pattern();

std::array<double, unknowns> start();
/// y' at a moment. False where y cannot be: a step that was too long has a pressure run away.
bool rates(double time, const double* y, double* rate);
/// ∂y'/∂y in the order of the pattern, by hand.
bool jacobian(double time, const double* y, double* values);
/// Error below which each unknown is good enough, by kind of quantity as the library's defaults have it.
void noise(const double* y, double* size);

double pressure(const double* y, int volume);
/// Press of a clamp's arm on the workpiece, N.
double clamp_force(const double* y, int clamp);

}  // namespace poise::by_hand
