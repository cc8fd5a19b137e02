// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "support/drawn_job.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "job/job.hpp"

namespace poise::drawing {

std::vector<std::filesystem::path> jobs_to_draw() {
  std::vector<std::filesystem::path> jobs;
  for (const char* folder : {"jobs", "tests/drawings", "tests/independent"}) {
    for (const auto& entry :
         std::filesystem::directory_iterator(std::filesystem::path(POISE_SOURCE_DIR) / folder)) {
      if (entry.path().extension() == ".toml") jobs.push_back(entry.path());
    }
  }
  std::ranges::sort(jobs);
  return jobs;
}

Plan plan_of(const std::filesystem::path& job) {
  std::string text;
  auto read = read_job_file(job, &text);
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  return std::get<Job>(std::move(read)).plan;
}

std::vector<draw::Words> words_of(const Plan& plan) {
  std::vector<draw::Words> words;
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    const PlannedPart& part = plan.parts[i];
    draw::Words of{.code = "H" + std::to_string(i + 1), .tag = part.tag, .lines = {}};
    const auto& table = part.kind->parameters;
    for (std::size_t k = 0; k < table.size() && of.lines.size() < 2; ++k) {
      const double value = part.values.all()[k];
      const bool told = !table[k].fallback && !table[k].against && table[k].quantity != Quantity::none;
      if (told && std::isfinite(value))
        of.lines.push_back(units::show(value, table[k].quantity, units::metric()));
    }
    words.push_back(std::move(of));
  }
  return words;
}

std::string listed(const Sentences& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += sentence + "\n";
  return text;
}

}  // namespace poise::drawing
