// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <memory>

#include "cli/command.hpp"
#include "cli/look.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/to_file.hpp"
#include "cli/when.hpp"
#include "draw/dxf.hpp"
#include "draw/show.hpp"
#include "draw/svg.hpp"
#include "draw/words.hpp"
#include "job/section.hpp"
#include "solve/run.hpp"

namespace poise::cli {
namespace {

struct DrawWish {
  std::string job, file, at, paper;
};

enum class Form { svg, dxf };

std::optional<Form> form_of(const std::filesystem::path& file) {
  std::string extension = file.extension().string();
  std::ranges::transform(extension, extension.begin(), [](unsigned char c) { return std::tolower(c); });
  if (extension == ".svg") return Form::svg;
  if (extension == ".dxf") return Form::dxf;
  fmt::print(stderr, "-o: {}: a drawing is written as .svg or as .dxf\n", job::quote(file.string()));
  return std::nullopt;
}

bool is_paper(const std::string& paper) {
  const std::vector<std::string> known(paper_words.begin(), paper_words.end());
  if (paper.empty() || std::ranges::find(known, paper) != known.end()) return true;
  fmt::print(stderr, "--paper: found {}; expected {}\n", job::quote(paper), job::listed(known));
  return false;
}

/// In the current folder, named after the job, and after the moment where there is one.
std::filesystem::path default_file(const DrawWish& wish) {
  std::string name = std::filesystem::path(wish.job).stem().string();
  if (!wish.at.empty()) name += "-at-" + wish.at;
  std::ranges::replace_if(
      name, [](unsigned char c) { return c < 0x80 && !std::isalnum(c) && c != '-' && c != '_' && c != '.'; },
      '-');
  return name + ".svg";
}

/// The run with a moment at the end of each step, whose pressures set the scale, and the one wished for.
Trace run_to_look(const Circuit& circuit, const Job& job, const When& when) {
  Progress progress("running " + job.title);
  solve::RunOptions options{.progress = [&](double, double share) { return progress.at(share); }};
  options.look_at_step_ends = true;
  if (when.time) options.look_at = {*when.time};
  options.controls = job.controls;
  return solve::run(circuit, job.steps, {}, options);
}

std::optional<draw::Sheet> drawing_of(const Job& job, const DrawWish& wish) {
  const std::vector<draw::Words> words = draw::words_of(job);
  const draw::Schematic schematic = draw::arrange(job.plan, words, draw::wishes_of(job));
  for (const Remark& remark : schematic.remarks) fmt::print(stderr, "{}\n", remark.sentence);
  draw::Look look = look_of(job, wish.paper.empty() ? job.drawing.paper : wish.paper, wish.job);
  if (wish.at.empty()) return draw::sheet_of(schematic, job.plan, words, look);
  const auto when = read_when(wish.at, job);
  if (!when) return std::nullopt;
  const Circuit circuit = build(job.plan);
  const Trace trace = run_to_look(circuit, job, *when);
  const Moment* moment = find_moment(trace, *when, job);
  if (!moment) return std::nullopt;
  double highest = 0.0;
  for (const Moment& each : trace.moments) highest = std::max(highest, draw::highest_pressure(each));
  const draw::DrawnMoment drawn = draw::drawn_moment(schematic, circuit, *moment);
  look.moment = &drawn;
  look.scale = draw::scale_up_to(highest, job.world);
  return draw::sheet_of(schematic, job.plan, words, look);
}

int draw_job(const DrawWish& wish) {
  const std::filesystem::path file =
      wish.file.empty() ? default_file(wish) : std::filesystem::path(wish.file);
  const auto form = form_of(file);
  if (!form || !is_paper(wish.paper)) return cannot;
  const auto read = read_or_complain(wish.job);
  if (!read || !may_write_or_complain(file)) return cannot;
  const auto sheet = drawing_of(*read, wish);
  if (!sheet) return cannot;
  if (!written_or_complain(file, *form == Form::svg ? draw::svg(*sheet) : draw::dxf(*sheet))) return cannot;
  fmt::print("{}: {}\n", file.string(), sheet->description);
  return all_held;
}

}  // namespace

void add_draw(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<DrawWish>();
  CLI::App* command = program.add_subcommand(
      "draw", "The schematic as a drawing in millimetres, at rest or at one moment of the cycle");
  command->add_option("job", wish->job, "the job file")->required()->type_name(a_job);
  command->add_option("-o", wish->file, "the file to write, .svg or .dxf; else named after the job, here")
      ->type_name(a_file);
  command->add_option(
      "--at", wish->at,
      "pressures, flows and positions at the end of a step, by its name, or at a time such as "
      "\"3.5 s\"");
  command
      ->add_option("--paper", wish->paper, "size of the sheet; else as the job says, or as large as needed")
      ->check(offers({"A4", "A3", "Letter"}));
  command->callback([wish, &exit_code] { exit_code = draw_job(*wish); });
}

}  // namespace poise::cli
