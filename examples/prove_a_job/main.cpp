// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Proves a job and prints the answer and every requirement with its margin.
// It ends as "poise prove" does: with 0 when all held, 1 when something is broken, 2 when the job cannot be
// read or run.
#include <iostream>
#include <poise/prove/prove.hpp>
#include <poise/units/units.hpp>

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "prove_a_job JOB.toml\n";
    return 2;
  }
  std::string text;
  const auto read = poise::read_job_file(argv[1], &text);
  if (const auto* complaints = std::get_if<poise::Complaints>(&read)) {
    std::cerr << complaints->text(text);
    return 2;
  }
  const auto& job = std::get<poise::Job>(read);
  const poise::Verdict verdict = poise::prove(job).verdict;

  std::cout << job.title << ": " << (verdict.holds() ? "all held" : "not all held") << '\n';
  for (const poise::Finding& finding : verdict.findings) {
    std::cout << (finding.held ? "  held    " : "  broken  ") << finding.promised << "; " << finding.found;
    if (finding.margin)
      std::cout << "; margin " << poise::units::show(*finding.margin, finding.quantity, job.world);
    std::cout << '\n';
  }
  // What can hurt someone stands beside the answer, held or not.
  for (const poise::RuleNotKept& rule : verdict.rules) std::cout << "  rule    " << rule.sentence << '\n';
  if (verdict.halt) std::cout << verdict.halt->sentence << '\n';
  if (verdict.halt && !verdict.halt->by_the_machine()) return 2;
  return verdict.holds() ? 0 : 1;
}
