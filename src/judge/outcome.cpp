// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/outcome.hpp"

#include <algorithm>

namespace poise {

Mark mark(const Finding& finding, const Verdict& verdict) {
  if (finding.held) return Mark::held;
  return verdict.halt && !finding.margin ? Mark::unseen : Mark::broken;
}

Outcome outcome(const Verdict& verdict) {
  if (verdict.holds()) return Outcome::held;
  const auto is_broken = [&](const Finding& finding) { return mark(finding, verdict) == Mark::broken; };
  const bool any_broken = std::ranges::any_of(verdict.findings, is_broken);
  return verdict.books_close && any_broken ? Outcome::broken : Outcome::not_proven;
}

}  // namespace poise
