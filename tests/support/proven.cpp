// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "support/proven.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

#include "solve/run.hpp"
#include "study/fingerprint.hpp"

namespace poise::workshop {
namespace {

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) throw std::runtime_error(file.string() + " cannot be read");
  return std::move(text).str();
}

Job job_of(const std::string& text, const std::filesystem::path& file) {
  auto read = read_job(text, file.string());
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  return std::get<Job>(std::move(read));
}

Trace run_of(const Job& job, const Circuit& circuit) {
  std::vector<Signal> all;
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p)
    std::ranges::move(signals_of(job.plan, p), std::back_inserter(all));
  for (Signal& signal : signals_needed(job)) {
    if (std::ranges::find(all, signal.name, &Signal::name) == all.end()) all.push_back(std::move(signal));
  }
  return solve::run(circuit, job.steps, all,
                    {.look_at_step_ends = true,
                     .heat_of_parts = true,
                     .glanced_at = signals_of_rules(job),
                     .controls = job.controls,
                     .progress = {}});
}

}  // namespace

Proven::Proven(const std::filesystem::path& job_file) : Proven(text_of(job_file), job_file) {}

Proven::Proven(std::string words, const std::filesystem::path& job_file)
    : text(std::move(words)),
      file(job_file.filename().string()),
      job(job_of(text, job_file)),
      circuit(build(job.plan)),
      trace(run_of(job, circuit)),
      verdict(judge(job, trace)) {}

papers::Subject Proven::subject(papers::Format format) const {
  return {.job = job,
          .circuit = circuit,
          .verdict = verdict,
          .trace = trace,
          .file = file,
          .fingerprint = study::fingerprint_of(text),
          .version = "0.1.0",
          .format = format};
}

}  // namespace poise::workshop
