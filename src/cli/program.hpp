// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <memory>
#include <string_view>

#include "cli/command.hpp"

namespace poise::cli {

/// What an exit code means where a command does not say more.
inline constexpr std::string_view exit_words =
    "Commands end with 0 when all held, 1 when something is broken, 2 when the job cannot be read or run.";

/// What must be known before the answer is relied on.
inline constexpr std::string_view safety_words =
    "Poise calculates from the data it is given. Loads held by oil can fall, hoses can burst, oil under "
    "pressure goes "
    "through skin. Local codes and a licensed person decide what may be built and used; nobody goes under a "
    "load that "
    "oil alone holds.";

/// The program with every command. The exit code is written by the command that runs.
std::unique_ptr<CLI::App> make_program(const Release& release, int& exit_code);

}  // namespace poise::cli
