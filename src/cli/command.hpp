// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace poise::cli {

/// What a command leaves behind for the shell.
inline constexpr int all_held = 0;
inline constexpr int something_broken = 1;
inline constexpr int cannot = 2;

/// Which Poise this is.
struct Release {
  std::string version;
  std::string date;  ///< of the version, "2026-11-27"
};

/// What the value of an option is (`type_name`): help and manual print it, completion offers such files. An
/// ending narrows files down: "FILE.csv".
inline constexpr auto a_job = "FILE.toml", a_csv = "FILE.csv", a_file = "FILE", a_folder = "FOLDER";

/// Names the words of an option to help, manual and completion; the command itself judges what it is given,
/// so that its complaint can say more.
CLI::Validator offers(const std::vector<std::string>& words);

/// Each command adds itself to the program and writes the exit code when it has run.
void add_prove(CLI::App& program, int& exit_code);
void add_parts(CLI::App& program, int& exit_code);
void add_rules(CLI::App& program, int& exit_code);
void add_schema(CLI::App& program, int& exit_code);
void add_point(CLI::App& program, int& exit_code);
void add_warm(CLI::App& program, int& exit_code);
void add_chart(CLI::App& program, int& exit_code);
void add_draw(CLI::App& program, int& exit_code);
void add_papers(CLI::App& program, int& exit_code);
void add_find(CLI::App& program, int& exit_code);
void add_propose(CLI::App& program, int& exit_code);
void add_spread(CLI::App& program, int& exit_code);
void add_faults(CLI::App& program, int& exit_code);
void add_commission(CLI::App& program, int& exit_code);
void add_merge(CLI::App& program, int& exit_code);
void add_diagnose(CLI::App& program, int& exit_code);
void add_open(CLI::App& program, int& exit_code);
void add_manual(CLI::App& program, const std::string& date, int& exit_code);

}  // namespace poise::cli
