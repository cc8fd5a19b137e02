// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "cli/surface.hpp"

namespace poise::cli {

/// Scripts by which a shell completes commands, options, their words, files and folders.
std::string bash_completion(const Surface& program);
std::string zsh_completion(const Surface& program);
std::string fish_completion(const Surface& program);

}  // namespace poise::cli
