// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/to_file.hpp"
#include "cli/when.hpp"
#include "draw/dxf.hpp"
#include "draw/paper.hpp"
#include "draw/roles.hpp"
#include "draw/svg.hpp"
#include "job/section.hpp"
#include "judge/verdict.hpp"
#include "papers/answer.hpp"
#include "solve/run.hpp"

namespace poise::cli {
namespace {

constexpr std::array<std::string_view, 4> charts{"cycle", "motion", "way", "valve"};
constexpr std::array<std::string_view, 3> papers{"a4", "a3", "letter"};

struct ChartCommand {
  std::string job, show = "cycle", part, at, file, paper = "a4";
  std::vector<std::string> signals;
};

/// What is wrong with the names that were given, said on the error stream.
bool names_are_right(const ChartCommand& wish, const Job& job) {
  std::vector<std::string> tags, signals;
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    tags.push_back(job.plan.parts[p].tag);
    for (const Signal& signal : signals_of(job.plan, p)) signals.push_back(signal.name);
  }
  for (const std::string& name : wish.signals) {
    const bool tag = std::ranges::find(tags, name) != tags.end();
    if (find_signal(job.plan, name) || (tag && wish.show == "motion")) continue;
    fmt::print(stderr, "--signals: there is no {} {}{}\n",
               wish.show == "motion" ? "part or signal" : "signal", job::quote(name),
               job::hint(name, wish.show == "motion" ? tags : signals));
    return false;
  }
  std::vector<std::string> fit;
  const Oil oil(job.plan.oil);
  if (wish.show == "valve") fit = draw::parts_with_curve(job.plan);
  for (const PlannedPart& part : job.plan.parts) {
    if (wish.show == "way" && draw::is_actuator(part, oil)) fit.push_back(part.tag);
  }
  if (std::ranges::find(fit, wish.part) != fit.end() || (wish.part.empty() && wish.show != "valve"))
    return true;
  if (wish.part.empty()) {
    fmt::print(stderr, "--show valve needs --part; parts with a curve are {}\n", job::listed(fit, "and"));
  } else if (wish.show == "valve" || wish.show == "way") {
    fmt::print(stderr, "--part: {} is no {}; those of this job are {}\n", job::quote(wish.part),
               wish.show == "valve" ? "part with a curve" : "actuator", job::listed(fit, "and"));
  } else {
    fmt::print(stderr,
               "--part goes with --show valve or --show way; --signals chooses what this chart shows\n");
  }
  return false;
}

void add_once(std::vector<Signal>& all, std::vector<Signal> more) {
  for (Signal& signal : more) {
    if (std::ranges::find(all, signal.name, &Signal::name) == all.end()) all.push_back(std::move(signal));
  }
}

std::string file_of(const ChartCommand& wish) {
  if (!wish.file.empty()) return wish.file;
  const std::string stem = std::filesystem::path(wish.job).stem().string();
  return stem + "-" + wish.show + (wish.show == "valve" ? "-" + wish.part : "") + ".svg";
}

/// Writes the sheet and says where; false where that cannot be done.
bool write(const draw::Sheet& sheet, const std::string& file) {
  if (!written_or_complain(file, file.ends_with(".dxf") ? draw::dxf(sheet) : draw::svg(sheet))) return false;
  fmt::print("{}\n", file);
  return true;
}

/// Keeps the moments that were asked for; false, with a word, where the run did not get to one.
bool keep_moments(Trace& trace, const std::optional<When>& when, const Job& job) {
  if (when && !when->time)
    std::erase_if(trace.moments, [&](const Moment& m) { return m.step != when->step; });
  if (!trace.moments.empty()) return true;
  fmt::print(stderr, "the run did not get there: {}\n",
             trace.halt ? trace.halt->sentence
                        : fmt::format("the cycle ends at {}",
                                      units::show(trace.time.back(), Quantity::time, job.world)));
  return false;
}

int chart(const ChartCommand& wish) {
  const auto read = read_or_complain(wish.job);
  if (!read) return cannot;
  const Job& job = *read;
  if (!names_are_right(wish, job) || !may_write_or_complain(file_of(wish))) return cannot;
  const bool moments = wish.show == "way" || wish.show == "valve";
  if (!moments && !wish.at.empty()) {
    fmt::print(stderr, "--at goes with --show way or --show valve; this chart shows the whole cycle\n");
    return cannot;
  }
  std::optional<When> when;
  if (!wish.at.empty() || wish.show == "way") {
    when = read_when(wish.at.empty() ? job.steps.back().name : wish.at, job);
    if (!when) return cannot;
  }
  const auto paper = static_cast<draw::Paper>(std::ranges::find(papers, wish.paper) - papers.begin());
  draw::Sheet sheet = draw::blank(paper);
  const draw::ChartWish drawn{.width = sheet.width,
                              .height = sheet.height,
                              .content = draw::drawing_area(paper),
                              .names = wish.signals,
                              .cautious = false,
                              .part = wish.part};
  std::vector<Signal> signals = signals_needed(job);
  if (wish.show == "cycle") add_once(signals, draw::cycle_signals(job, drawn));
  if (wish.show == "motion") add_once(signals, draw::motion_signals(job, drawn));
  const Circuit circuit = build(job.plan);
  Progress progress("running " + job.title);
  solve::RunOptions options{.progress = [&](double, double share) { return progress.at(share); }};
  options.look_at_step_ends = moments && !(when && when->time);
  if (when && when->time) options.look_at = {*when->time};
  options.controls = job.controls;
  Trace trace = solve::run(circuit, job.steps, signals, options);
  if (trace.halt && trace.halt->why == Halt::Why::stopped) {
    fmt::print(stderr, "{}; nothing is written\n", trace.halt->sentence);
    return cannot;
  }
  if (moments ? !keep_moments(trace, when, job) : trace.steps.empty()) {
    if (!moments)
      fmt::print(stderr, "there is nothing to draw: {}\n", trace.halt ? trace.halt->sentence : "no step");
    return cannot;
  }
  if (trace.halt) fmt::print(stderr, "the run ended early: {}\n", trace.halt->sentence);
  if (wish.show == "cycle") sheet = draw::cycle_chart(job, trace, drawn);
  if (wish.show == "motion") sheet = draw::motion_chart(job, trace, drawn);
  if (wish.show == "way") sheet = draw::way_chart(job, circuit, trace, trace.moments.front(), drawn);
  if (wish.show == "valve") sheet = draw::valve_chart(job, trace, drawn);
  const auto colon = sheet.title.rfind(job.title + ": ", 0) == 0 ? job.title.size() + 2 : 0;
  draw::add_frame(
      sheet, paper,
      {.job = job.title,
       .subject = sheet.title.substr(colon),
       .verdict = papers::mark_of(judge(job, trace)),
       .oil = fmt::format("{} at 40 degC, runs at {}",
                          units::show(job.plan.oil.viscosity_40, Quantity::viscosity, job.world),
                          units::show(job.plan.oil.temperature, Quantity::temperature, job.world)),
       .units = job.world.name,
       .file = std::filesystem::path(wish.job).filename().string()});
  return write(sheet, file_of(wish)) ? all_held : cannot;
}

}  // namespace

void add_chart(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<ChartCommand>();
  CLI::App* command = program.add_subcommand(
      "chart", "Draw a run: what happens over the steps, what moves when, pressures along the oil's way");
  command->add_option("job", wish->job, "the job file")->required()->type_name(a_job);
  command
      ->add_option("--show", wish->show,
                   "cycle: pressures, flows, positions, forces over the steps; motion: what moves when; way: "
                   "pressure along the oil's way at a moment; valve: a part's curve and where it worked")
      ->check(CLI::IsMember(std::vector<std::string>(charts.begin(), charts.end())));
  command->add_option("--part", wish->part,
                      "the part whose curve is drawn (valve), or the actuator whose way (way)");
  command
      ->add_option(
          "--signals", wish->signals,
          "what the chart shows, such as P1.P.pressure,C1.position; of motion also parts by their tags")
      ->delimiter(',');
  command->add_option("--at", wish->at,
                      "the end of a step, by its name, or a time such as \"3.5 s\" (way: else the last step; "
                      "valve: else the end of every step)");
  command->add_option("--paper", wish->paper, "size of the sheet")
      ->check(CLI::IsMember(std::vector<std::string>(papers.begin(), papers.end())));
  command
      ->add_option("-o,--output", wish->file,
                   "the file, .svg or .dxf; else named after the job, in this folder")
      ->type_name(a_file);
  command->callback([wish, &exit_code] { exit_code = chart(*wish); });
}

}  // namespace poise::cli
