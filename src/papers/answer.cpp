// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/answer.hpp"

#include "judge/outcome.hpp"

namespace poise::papers {

std::string answer_of(const Verdict& verdict) {
  switch (outcome(verdict)) {
    case Outcome::held:
      return "held";
    case Outcome::broken:
      return "broken";
    case Outcome::not_proven:
      break;
  }
  return "not proven";
}

std::string warning_of(const Verdict& verdict) { return verdict.holds() ? "" : "NOT PROVEN"; }

}  // namespace poise::papers
