// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>

#include "papers/paper.hpp"

namespace poise::papers {

/// The papers as one HTML file that needs no other: style and drawings are in it. Printed, or made into a
/// PDF, it has pages of the subject's format with a head, a foot and numbers. With more than one paper it
/// begins with a cover. The same subject and papers give the same bytes.
std::string document(const Subject& subject, std::span<const Paper* const> papers);

}  // namespace poise::papers
