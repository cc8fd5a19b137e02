// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/schema.hpp"

#include <fmt/format.h>

#include <fstream>
#include <memory>
#include <string>

#include "cli/command.hpp"

namespace poise::cli {
namespace {

int write_schema(const std::string& path) {
  std::ofstream file(path, std::ios::binary);
  file << reference::job_schema();
  file.close();
  if (!file) {
    fmt::print(stderr, "cannot write {}\n", path);
    return cannot;
  }
  fmt::print("the schema of jobs is written to {}\n", path);
  return all_held;
}

int show_schema(const std::string& path) {
  if (!path.empty()) return write_schema(path);
  fmt::print("{}", reference::job_schema());
  return all_held;
}

}  // namespace

void add_schema(CLI::App& program, int& exit_code) {
  auto path = std::make_shared<std::string>();
  CLI::App* command = program.add_subcommand(
      "schema", "The schema of the job file (JSON Schema), by which editors complete and check jobs");
  command->add_option("--write", *path, "a file: written there instead of printed");
  command->footer(
      "An editor that knows it takes it from the first line of a job: #:schema PATH (docs/job-file.md).");
  command->callback([path, &exit_code] { exit_code = show_schema(*path); });
}

}  // namespace poise::cli
