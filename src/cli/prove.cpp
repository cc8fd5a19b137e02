// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <sstream>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/to_file.hpp"
#include "judge/csv.hpp"
#include "judge/json.hpp"
#include "judge/show.hpp"
#include "prove/prove.hpp"

namespace poise::cli {
namespace {

struct ProveWish {
  std::string job;
  std::string trace;
  bool json = false;
};

int prove(const ProveWish& wish) {
  const auto read = read_or_complain(wish.job);
  if (!read) return cannot;
  const Job& job = *read;
  if (!wish.trace.empty() && !may_write_or_complain(wish.trace)) return cannot;
  Progress progress("proving " + job.title);
  const auto [verdict, trace] =
      poise::prove(job, {.record = wish.trace.empty() ? std::vector<Signal>{} : all_signals(job.plan),
                         .progress = [&](double share) { return progress.at(share); }});
  if (!wish.trace.empty()) {
    std::ostringstream csv;
    write_csv(csv, trace, job.world);
    if (!written_or_complain(wish.trace, csv.view())) return cannot;
  }
  if (wish.json) {
    fmt::print("{}\n", to_json(verdict, job).dump(2));
  } else {
    fmt::print("{}", show(verdict, job, isatty(fileno(stdout)) != 0));
  }
  if (verdict.halt && !verdict.halt->by_the_machine()) return cannot;
  return verdict.holds() ? all_held : something_broken;
}

}  // namespace

void add_prove(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<ProveWish>();
  CLI::App* command = program.add_subcommand("prove", "Run a job's whole cycle and judge every requirement");
  command->add_option("job", wish->job, "the job file")->required()->type_name(a_job);
  command->add_flag("--json", wish->json, "the verdict as JSON (docs/schema/verdict.schema.json)");
  command->add_option("--trace", wish->trace, "write all signals over time to this CSV file")
      ->type_name(a_csv);
  command->footer(
      "Ends with 0 when all held, 1 when something is broken, 2 when the job cannot be read or run.");
  command->callback([wish, &exit_code] { exit_code = prove(*wish); });
}

}  // namespace poise::cli
