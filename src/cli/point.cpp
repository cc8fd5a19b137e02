// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/point.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/when.hpp"
#include "solve/run.hpp"

namespace poise::cli {
namespace {

struct PointWish {
  std::string job;
  std::string at;
  bool json = false;
};

int point(const PointWish& wish) {
  const auto read = read_or_complain(wish.job);
  if (!read) return cannot;
  const Job& job = *read;
  const auto when = read_when(wish.at.empty() ? job.steps.back().name : wish.at, job);
  if (!when) return cannot;
  const Circuit circuit = build(job.plan);
  Progress progress("running " + job.title);
  solve::RunOptions options{.progress = [&](double time, double share) {
    return progress.at(share) && !(when->time && time > *when->time);
  }};
  options.look_at_step_ends = !when->time;
  if (when->time) options.look_at = {*when->time};
  options.controls = job.controls;
  const Trace trace = solve::run(circuit, job.steps, {}, options);
  const Moment* moment = find_moment(trace, *when, job);
  if (!moment) return cannot;
  if (wish.json) {
    fmt::print("{}\n", point_to_json(*moment, circuit, job).dump(2));
  } else {
    fmt::print("{}", show_point(*moment, circuit, job));
  }
  return all_held;
}

}  // namespace

void add_point(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<PointWish>();
  CLI::App* command = program.add_subcommand(
      "point", "Every pressure, flow, force and loss at one moment, along the oil's way");
  command->add_option("job", wish->job, "the job file")->required()->type_name(a_job);
  command->add_option("--at", wish->at,
                      "the end of a step, by its name, or a time such as \"3.5 s\"; else the last step");
  command->add_flag("--json", wish->json, "for programs");
  command->callback([wish, &exit_code] { exit_code = point(*wish); });
}

}  // namespace poise::cli
