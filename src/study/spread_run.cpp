// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/spread_run.hpp"

#include <fmt/format.h>

#include "study/fingerprint.hpp"
#include "study/machine.hpp"
#include "study/spread_json.hpp"

namespace poise::study {
namespace {

/// What the numbers of machines stand for: another default tolerance makes other machines of them.
std::string values_of(const Spread& spread) {
  std::string all;
  for (const search::Loose& loose : spread.loose())
    all += fmt::format("{} {:a} {:a} {:a} {}\n", name_of(loose, spread.job()), loose.stated,
                       loose.tolerance.below, loose.tolerance.above, static_cast<int>(loose.tolerance.of));
  return fingerprint_of(all);
}

std::optional<Row> run_one(const SpreadStudy& study, long number, const Job& job, const GoOn& go_on) {
  const auto ran =
      run_machine(job, {.most_steps = study.most_steps, .go_on = [&](double) { return go_on(); }});
  if (!ran) return std::nullopt;
  return row_of(number, study.heading.promises, study.spread.job(), ran->verdict);
}

}  // namespace

std::string spread_options(const Spread& spread, std::uint64_t seed) {
  return nlohmann::json{{"seed", seed}, {"values", values_of(spread)}}.dump();
}

std::variant<std::monostate, SpreadStudy, std::string> prepare(const Job& job, const std::string& text,
                                                               const std::string& version,
                                                               const SpreadWish& wish, const GoOn& go_on) {
  const auto ran = run_machine(job, {.go_on = [&](double) { return go_on(); }});
  if (!ran) return std::monostate{};
  if (const std::string why = why_no_study(ran->verdict); !why.empty()) return why;
  Spread spread(job, wish.seed);
  Heading heading{.kind = "spread",
                  .title = job.title,
                  .fingerprint = fingerprint_of(job, text),
                  .options = spread_options(spread, wish.seed),
                  .version = version,
                  .job = text,
                  .first = 0,
                  .wanted = wish.machines + 1,
                  .promises = promises_of(job, ran->verdict)};
  Row nominal = row_of(0, heading.promises, job, ran->verdict);
  return SpreadStudy{wish, std::move(spread), std::move(heading), std::move(nominal), patience(ran->steps)};
}

Came run_spread(const SpreadStudy& study, Record& record, long id,
                const std::function<bool(long done)>& told) {
  Came came;
  const std::vector<long> done = record.done(id, came.complaint);
  if (came.complaint.empty()) came.complaint = record.keep(id, study.nominal);
  if (!came.complaint.empty()) return came;
  const std::vector<long> left = left_to_do(1, study.wish.machines + 1, study.wish.shard, done);
  const auto one = [&](long number, const PutAway& put_away, const GoOn& go_on) {
    if (const auto row = run_one(study, number, study.spread.machine(number), go_on)) put_away(*row);
  };
  return do_all(
      left, one, [&](const Row& row) { return record.keep(id, row); }, told, study.wish.cores);
}

Heading heading_of_nearest(const SpreadStudy& study) {
  Heading heading = study.heading;
  heading.kind = "nearest machines that break a promise";
  auto options = nlohmann::json::parse(heading.options);
  options["machines"] = study.wish.machines;
  heading.options = options.dump();
  heading.wanted = 0;  // of some promises nothing says which way they would break
  return heading;
}

Came run_nearest(const SpreadStudy& study, const SpreadAnswer& answer, Record& record, long id,
                 const std::function<bool(long done)>& told) {
  Came came;
  const std::vector<long> done = record.done(id, came.complaint);
  if (!came.complaint.empty()) return came;
  const auto one = [&](long number, const PutAway& put_away, const GoOn& go_on) {
    const auto place = static_cast<std::size_t>(number);
    const PromiseSpread& of = answer.promises[place];
    std::optional<Nearest> found = Nearest{};
    if (study.nominal.promises[place].mark != Mark::held) {
      found = Nearest{.found = true,
                      .off = std::vector<double>(study.spread.loose().size(), 0.0),
                      .kept = study.nominal.promises[place]};
    } else {
      std::optional<std::vector<double>> known;
      if (of.nearest_broken) known = study.spread.off(*of.nearest_broken);
      if (of.pulls.empty() && !known) return;  // nothing says which way it would break
      const std::vector<Pull> pulls =
          of.pulls.empty() ? std::vector<Pull>(study.spread.loose().size()) : of.pulls;
      found = nearest(study.nominal.promises[place].margin.value_or(0.0), pulls, known ? &*known : nullptr,
                      [&](const std::vector<double>& off) -> std::optional<Kept> {
                        const auto row = run_one(study, 0, study.spread.with(off), go_on);
                        if (!row) return std::nullopt;
                        return row->promises[place];
                      });
    }
    if (!found) return;
    Row row{.number = number,
            .outcome = found->found ? Outcome::broken : Outcome::held,
            .promises = std::vector<Kept>(study.heading.promises.size()),
            .detail = to_json(*found).dump()};
    row.promises[place] = found->kept;
    put_away(row);
  };
  return do_all(
      left_to_do(0, static_cast<long>(answer.promises.size()), {}, done), one,
      [&](const Row& row) { return record.keep(id, row); }, told, study.wish.cores);
}

std::vector<std::optional<Nearest>> nearest_recorded(const SpreadStudy& study, const Record& record,
                                                     std::string& complaint) {
  const auto id = record.find(heading_of_nearest(study), complaint);
  if (!id) return {};
  std::vector<std::optional<Nearest>> all(study.heading.promises.size());
  for (const Row& row : record.rows(*id, complaint)) {
    auto found = nearest_of(nlohmann::json::parse(row.detail, nullptr, false));
    if (found && found->off.size() == study.spread.loose().size() &&
        row.number < static_cast<long>(all.size()))
      all[static_cast<std::size_t>(row.number)] = std::move(found);
  }
  return all;
}

}  // namespace poise::study
