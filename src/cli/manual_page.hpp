// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "cli/command.hpp"
#include "cli/surface.hpp"

namespace poise::cli {

/// The page that `man poise` shows, in the man macros of troff and in ASCII alone.
std::string manual_page(const Surface& program, const Release& release);

}  // namespace poise::cli
