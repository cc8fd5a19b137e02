// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/row.hpp"

#include <algorithm>

namespace poise::study {

std::vector<Promise> promises_of(const Job& job, const Verdict& nominal) {
  std::vector<Promise> promises(job.requirements.size());
  std::vector<Promise> every_job_has;
  for (const Finding& finding : nominal.findings) {
    Promise promise{finding.name, finding.promised, finding.quantity};
    if (finding.requirement)
      promises[*finding.requirement] = std::move(promise);
    else
      every_job_has.push_back(std::move(promise));
  }
  std::ranges::sort(every_job_has, {}, &Promise::name);
  std::ranges::move(every_job_has, std::back_inserter(promises));
  return promises;
}

Row row_of(long number, const std::vector<Promise>& promises, const Job& job, const Verdict& verdict) {
  Row row{.number = number, .outcome = outcome(verdict), .promises = std::vector<Kept>(promises.size())};
  for (const Finding& finding : verdict.findings) {
    std::size_t place = 0;
    if (finding.requirement) {
      place = *finding.requirement;
    } else {
      const auto behind = promises.begin() + static_cast<std::ptrdiff_t>(job.requirements.size());
      place = static_cast<std::size_t>(
          std::ranges::find(behind, promises.end(), finding.name, &Promise::name) - promises.begin());
    }
    if (place >= promises.size()) continue;
    Kept& kept = row.promises[place];
    kept.mark = mark(finding, verdict);
    if (finding.quantity != promises[place].quantity) continue;
    kept.margin = finding.margin;
    kept.share = finding.share;
  }
  return row;
}

}  // namespace poise::study
