// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/answer.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "judge/outcome.hpp"

namespace poise::papers {

bool is_proven(const Verdict& verdict) { return outcome(verdict) == Outcome::held; }

std::string answer_of(const Verdict& verdict) { return std::string(word(outcome(verdict))); }

std::string answer(const Verdict& verdict) {
  const auto count = verdict.findings.size();
  const auto broken = count_broken(verdict);
  switch (outcome(verdict)) {
    case Outcome::held:
      if (std::ranges::none_of(verdict.findings, [](const Finding& f) { return f.requirement.has_value(); }))
        return "its steps end and no rating is passed; nothing else was asked of it";
      return count == 1 ? "the one requirement holds" : fmt::format("all {} requirements hold", count);
    case Outcome::broken:
      return fmt::format("{} of {} requirements {} broken", broken, count, broken == 1 ? "is" : "are");
    case Outcome::not_proven:
      break;
  }
  return verdict.books_close ? "the run ended early" : "the books of oil and energy do not close";
}

std::string mark_of(const Verdict& verdict) {
  return (is_proven(verdict) ? "proven: " : "NOT PROVEN: ") + answer(verdict);
}

std::string warning_of(const Verdict& verdict) { return is_proven(verdict) ? "" : mark_of(verdict); }

}  // namespace poise::papers
