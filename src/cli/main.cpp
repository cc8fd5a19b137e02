// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <cstdio>
#include <exception>

#include "cli/program.hpp"

int main(int argc, char** argv) try {
  int exit_code = poise::cli::all_held;
  const auto program = poise::cli::make_program({POISE_VERSION, POISE_DATE}, exit_code);
  try {
    program->parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return program->exit(e) == 0 ? poise::cli::all_held : poise::cli::cannot;
  }
  return exit_code;
} catch (const std::exception& e) {
  std::fputs("poise: this is a fault in Poise itself, please report it with your job file: ", stderr);
  std::fputs(e.what(), stderr);
  std::fputs("\n", stderr);
  return poise::cli::cannot;
}
