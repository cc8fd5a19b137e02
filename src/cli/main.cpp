// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <cstdio>
#include <exception>
#include <filesystem>

#include "cli/command.hpp"
#include "cli/program.hpp"
#include "cli/streams.hpp"

namespace {

/// The answer counts only where all of it was heard.
int if_printed(int exit_code, const std::exception* thrown = nullptr) {
  const std::string why = poise::cli::why_not_printed(thrown);
  std::fputs(why.c_str(), stderr);
  return why.empty() ? exit_code : poise::cli::cannot;
}

int fault(const std::exception& e) {
  if (const int heard = if_printed(poise::cli::all_held, &e); heard != poise::cli::all_held) return heard;
  const bool of_files = dynamic_cast<const std::filesystem::filesystem_error*>(&e) != nullptr;
  std::fputs(of_files ? "poise: a file or folder cannot be used; look at its name and its folder: "
                      : "poise: this is a fault in Poise itself, please report it with your job file: ",
             stderr);
  std::fputs(e.what(), stderr);
  std::fputs("\n", stderr);
  return poise::cli::cannot;
}

}  // namespace

int main(int argc, char** argv) try {
  poise::cli::steady_streams();
  int exit_code = poise::cli::all_held;
  const auto program = poise::cli::make_program({POISE_VERSION, POISE_DATE}, exit_code);
  try {
    program->parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return if_printed(program->exit(e) == 0 ? poise::cli::all_held : poise::cli::cannot);
  }
  return if_printed(exit_code);
} catch (const std::exception& e) {
  return fault(e);
}
