// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "papers/subject.hpp"

namespace poise::papers {

/// What becomes of the promises where values are off within their tolerances, or that nobody has looked.
std::string tolerances_studied(const Subject& subject);

/// What single faults break, for a risk assessment, or that nobody has looked.
std::string faults_studied(const Subject& subject);

}  // namespace poise::papers
