// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/naming.hpp"

#include <algorithm>

#include "draw/codes.hpp"

namespace poise::papers {

std::vector<std::string> codes_shown(const Job& job) {
  return job.drawing.codes ? draw::codes_of(job) : std::vector<std::string>(job.plan.parts.size());
}

std::string in_words(std::string_view name) {
  std::string text(name);
  std::ranges::replace(text, '_', ' ');
  return text;
}

}  // namespace poise::papers
