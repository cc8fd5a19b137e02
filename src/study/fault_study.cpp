// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fault_study.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "study/fingerprint.hpp"
#include "study/machine.hpp"

namespace poise::study {
namespace {

/// A case with a bound on its work; none where it was stopped.
template <class Run>
std::optional<FaultCase> bounded(long most_steps, const GoOn& go_on, const Run& run) {
  bool stopped = false;
  long steps = 0;
  FaultCase done = run([&](double) {
    stopped = stopped || !go_on();
    return !stopped && ++steps <= most_steps;
  });
  if (stopped) return std::nullopt;
  if (steps > most_steps) done.answer.ended = "given up: it takes many times the work of the sound machine";
  return done;
}

std::vector<Row> rows_of_fault(const std::vector<Row>& rows, long fault) {
  std::vector<Row> own;
  for (const Row& row : rows) {
    if (row.number / runs_per_fault == fault) own.push_back(row);
  }
  return own;
}

/// Goes on with one fault from the rows that it has; true when it is through.
bool go_through(const FaultStudy& study, long fault, const std::vector<Row>& so_far, const PutAway& put_away,
                const GoOn& go_on) {
  const FaultPlace& place = study.list.places[static_cast<std::size_t>(fault)];
  std::vector<Row> rows = rows_of_fault(so_far, fault);
  while (true) {
    const FaultResult result = results_of(study.list.places, rows)[static_cast<std::size_t>(fault)];
    const auto t = next_size(place, result.outcomes());
    if (!t) return true;
    const auto done = bounded(study.most_steps, go_on, [&](const RunProgress& told) {
      return case_of(study.nominal, place, *t, told);
    });
    if (!done) return false;
    rows.push_back(row_of(fault * runs_per_fault + static_cast<long>(rows.size()), study.nominal, *done));
    if (!put_away(rows.back())) return false;
  }
}

/// What the numbers of runs stand for: another list of faults makes other runs of them.
std::string options_of(const FaultList& list) {
  std::string all;
  for (const FaultPlace& place : list.places)
    all +=
        fmt::format("{} {:a} {:a} {:a} {}\n", place.name, place.slight, place.grave, place.time, place.step);
  return nlohmann::json{{"faults", fingerprint_of(all)}}.dump();
}

}  // namespace

std::variant<std::monostate, FaultStudy, std::string> prepare_faults(const Job& job, const std::string& text,
                                                                     const std::string& version,
                                                                     const FaultWish& wish,
                                                                     const GoOn& go_on) {
  bool stopped = false;
  Nominal nominal = nominal_of(job, [&](double) {
    stopped = stopped || !go_on();
    return !stopped;
  });
  if (stopped) return std::monostate{};
  if (const std::string why = why_no_study(nominal.verdict); !why.empty()) return why;
  FaultList list = list_faults(job, &nominal.trace);
  Heading heading{.kind = "faults",
                  .title = job.title,
                  .fingerprint = fingerprint_of(job, text),
                  .options = options_of(list),
                  .version = version,
                  .job = text,
                  .promises = nominal.promises};
  const long most_steps = patience(nominal.trace.solver_steps);
  return FaultStudy{wish, std::move(nominal), std::move(list), std::move(heading), most_steps};
}

Came run_faults(const FaultStudy& study, Record& record, long id,
                const std::function<bool(long done)>& told) {
  Came came;
  const std::vector<Row> so_far = record.rows(id, came.complaint);
  const long through = came.complaint.empty() ? record.study(heading_of_through(study), came.complaint) : 0;
  const std::vector<long> done =
      came.complaint.empty() ? record.done(through, came.complaint) : std::vector<long>{};
  if (!came.complaint.empty()) return came;
  const auto one = [&](long fault, const PutAway& put_away, const GoOn& go_on) {
    if (go_through(study, fault, so_far, put_away, go_on))
      put_away({.number = fault, .outcome = Outcome::held});
  };
  const auto keep = [&](const Row& row) { return record.keep(row.promises.empty() ? through : id, row); };
  return do_all(left_to_do(0, static_cast<long>(study.list.places.size()), study.wish.shard, done), one, keep,
                told, study.wish.cores);
}

Heading heading_of_through(const FaultStudy& study) {
  Heading heading = study.heading;
  heading.kind = "faults that are through";
  heading.promises.clear();
  heading.wanted = static_cast<long>(study.list.places.size());
  return heading;
}

std::vector<FaultResult> faults_recorded(const FaultStudy& study, const Record& record, long id,
                                         std::string& complaint) {
  const std::vector<Row> rows = record.rows(id, complaint);
  return results_of(study.list.places, rows);
}

Heading heading_of_pairs(const FaultStudy& study, const std::vector<FaultPair>& pairs) {
  Heading heading = study.heading;
  heading.kind = "pairs of faults";
  std::string all;
  for (const FaultPair& pair : pairs)
    all += fmt::format("{} {} {:a} {:a}\n", pair.a, pair.b, pair.t_a, pair.t_b);
  auto options = nlohmann::json::parse(heading.options);
  options["pairs"] = fingerprint_of(all);
  heading.options = options.dump();
  heading.wanted = static_cast<long>(pairs.size());
  return heading;
}

Came run_pairs(const FaultStudy& study, const std::vector<FaultPair>& pairs, Record& record, long id,
               const std::function<bool(long done)>& told) {
  Came came;
  const std::vector<long> done = record.done(id, came.complaint);
  if (!came.complaint.empty()) return came;
  const auto one = [&](long number, const PutAway& put_away, const GoOn& go_on) {
    const auto pair = bounded(study.most_steps, go_on, [&](const RunProgress& told_share) {
      return case_of(study.nominal, study.list.places, pairs[static_cast<std::size_t>(number)], told_share);
    });
    if (pair) put_away(row_of(number, study.nominal, *pair));
  };
  return do_all(
      left_to_do(0, static_cast<long>(pairs.size()), study.wish.shard, done), one,
      [&](const Row& row) { return record.keep(id, row); }, told, study.wish.cores);
}

}  // namespace poise::study
