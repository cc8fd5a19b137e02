// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/outcome.hpp"

#include <algorithm>
#include <array>

namespace poise {
namespace {

constexpr std::array<std::string_view, 3> outcomes{"held", "broken", "not proven"};
constexpr std::array<std::string_view, 3> marks{"held", "broken", "not seen"};

template <class Meaning>
std::optional<Meaning> meaning_of(std::string_view word, const std::array<std::string_view, 3>& words) {
  const auto found = std::ranges::find(words, word);
  return found == words.end() ? std::nullopt : std::optional(static_cast<Meaning>(found - words.begin()));
}

}  // namespace

Mark mark(const Finding& finding, const Verdict& verdict) {
  if (finding.held) return Mark::held;
  return verdict.halt && !finding.margin ? Mark::unseen : Mark::broken;
}

Outcome outcome(const Verdict& verdict) {
  if (verdict.holds()) return Outcome::held;
  return verdict.books_close && count_broken(verdict) > 0 ? Outcome::broken : Outcome::not_proven;
}

std::size_t count_broken(const Verdict& verdict) {
  return static_cast<std::size_t>(std::ranges::count_if(
      verdict.findings, [&](const Finding& each) { return mark(each, verdict) == Mark::broken; }));
}

std::string_view word(Outcome outcome) { return outcomes.at(static_cast<std::size_t>(outcome)); }
std::string_view word(Mark mark) { return marks.at(static_cast<std::size_t>(mark)); }

std::optional<Outcome> outcome_of(std::string_view word) { return meaning_of<Outcome>(word, outcomes); }
std::optional<Mark> mark_of(std::string_view word) { return meaning_of<Mark>(word, marks); }

}  // namespace poise
