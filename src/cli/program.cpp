// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/program.hpp"

#include <fmt/format.h>

#include "judge/page.hpp"

namespace poise::cli {
namespace {

constexpr std::size_t page_width = 100;

}  // namespace

CLI::Validator offers(const std::vector<std::string>& words) {
  return {[](std::string&) { return std::string{}; }, fmt::format("{{{}}}", fmt::join(words, ",")), {}};
}

std::unique_ptr<CLI::App> make_program(const Release& release, int& exit_code) {
  auto program = std::make_unique<CLI::App>(
      "Poise: from an enquiry to a commissioned, provably safe hydraulic circuit.", "poise");
  program->set_version_flag("--version", release.version);
  program->require_subcommand(1);
  program->footer(
      fmt::format("{}\n\n{}", wrapped(exit_words, page_width, 0), wrapped(safety_words, page_width, 0)));
  add_prove(*program, exit_code);
  add_parts(*program, exit_code);
  add_rules(*program, exit_code);
  add_schema(*program, exit_code);
  add_point(*program, exit_code);
  add_warm(*program, exit_code);
  add_chart(*program, exit_code);
  add_draw(*program, exit_code);
  add_papers(*program, exit_code);
  add_find(*program, exit_code);
  add_propose(*program, exit_code);
  add_spread(*program, exit_code);
  add_faults(*program, exit_code);
  add_commission(*program, exit_code);
  add_merge(*program, exit_code);
  add_diagnose(*program, exit_code);
  add_open(*program, exit_code);
  add_manual(*program, release.date, exit_code);
  return program;
}

}  // namespace poise::cli
