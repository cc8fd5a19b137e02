// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>

#include "judge/verdict.hpp"

namespace poise {

/// Up to these shares the books of a run count as closed: the residual of oil as a share of what was drawn
/// and held, of energy as a share of what was put in.
inline constexpr double allowed_mass_share = 1e-6, allowed_energy_share = 1e-3;

/// The verdict in one word. Without closed books nothing is proven, not even a failure; a run that ended
/// early proves only what it broke before it ended.
enum class Outcome { held, broken, not_proven };
Outcome outcome(const Verdict& verdict);

/// The same for one finding: `unseen` is one that the run ended too early for.
enum class Mark { held, broken, unseen };
Mark mark(const Finding& finding, const Verdict& verdict);

/// What every verdict says to whoever acts on it.
inline constexpr std::string_view notice =
    "Calculated from the data given. Local codes and a licensed person decide. Keep clear of held "
    "loads.";

}  // namespace poise
