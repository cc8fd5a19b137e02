// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/curves.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "judge/page.hpp"

namespace poise::cli {
namespace {

std::vector<std::string> curves_of(const Kind& kind) {
  std::vector<std::string> names;
  for (const Parameter& p : kind.parameters) {
    if (p.against) names.emplace_back(p.name);
  }
  return names;
}

void print_fit(const PlannedPart& part, const CurveFit& fit, const units::World& world) {
  constexpr std::size_t wide = 16;
  const Parameter& p = part.kind->parameters[*find_parameter(part.kind->parameters, fit.parameter)];
  fmt::print("\n{}.{}\n", part.tag, fit.parameter);
  fmt::print("{}{}{}{}\n", right(units::name(p.quantity), wide), right("given", wide), right("law", wide),
             right("off by", wide));
  for (const CurveFit::Row& row : fit.rows) {
    fmt::print("{}{}{}{}\n", right(units::show(row.x, p.quantity, world), wide),
               right(units::show(row.given, *p.against, world), wide),
               right(units::show(row.fitted, *p.against, world), wide),
               right(units::show_difference(row.fitted - row.given, *p.against, world), wide));
  }
  fmt::print("  greatest error {} of the greatest value\n", units::show(fit.worst(), Quantity::share, world));
}

}  // namespace

bool print_curves(const Kind& kind, const Job& job) {
  const Oil oil(job.plan.oil);
  int curves = 0, parts = 0;
  for (const PlannedPart& part : job.plan.parts) {
    if (part.kind != &kind) continue;
    ++parts;
    for (const CurveFit& fit : kind.curves(part.values, oil)) {
      print_fit(part, fit, job.world);
      ++curves;
    }
  }
  if (curves > 0) return true;
  const auto names = curves_of(kind);
  if (names.empty()) {
    fmt::print(stderr, "{} takes no curve\n", kind.about.kind);
  } else if (parts == 0) {
    fmt::print(stderr, "the job has no {}\n", kind.about.kind);
  } else {
    fmt::print(stderr, "no {} of the job is given a curve; one is stated as {} = [[\"...\", \"...\"], ...]\n",
               kind.about.kind, fmt::join(names, " or "));
  }
  return false;
}

}  // namespace poise::cli
