// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "papers/subject.hpp"

namespace poise::papers {

/// The style sheet of all papers: black on white, told apart by weight, line and word, never by colour alone.
std::string style_of(const Subject& subject);

}  // namespace poise::papers
