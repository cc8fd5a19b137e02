// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

namespace poise::papers {

/// What to say where the font that papers are set in is not on this machine, so that another one stands in
/// the PDF in its place; empty where it is there, or where nobody can tell.
std::string missing_font();

}  // namespace poise::papers
