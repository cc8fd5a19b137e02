// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <cstdio>

#include "cli/command.hpp"
#include "study/record_merge.hpp"
#include "study/sampling.hpp"

namespace poise::cli {
namespace {

struct MergeWish {
  std::string out;
  std::vector<std::filesystem::path> files;
};

int merge(const MergeWish& wish) {
  const study::Merged merged = study::merge(wish.out, wish.files);
  if (!merged.complaint.empty()) {
    fmt::print(stderr, "{}\n", merged.complaint);
    return cannot;
  }
  fmt::print("{}: {} runs of {}\n", wish.out, study::count(merged.runs),
             merged.studies == 1 ? "one study" : fmt::format("{} studies", merged.studies));
  for (const std::string& sentence : merged.missing) fmt::print("{}\n", sentence);
  return merged.missing.empty() ? all_held : something_broken;
}

}  // namespace

void add_merge(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<MergeWish>();
  CLI::App* command =
      program.add_subcommand("merge", "Put the parts of a study that several machines ran together");
  command->add_option("-o,--file", wish->out, "the file to be made")->required()->type_name(a_file);
  command->add_option("files", wish->files, "the files of the parts")->required()->type_name(a_file);
  command->footer(
      "Ends with 0 when nothing is missing, 1 when runs are missing, 2 when they do not go together.");
  command->callback([wish, &exit_code] { exit_code = merge(*wish); });
}

}  // namespace poise::cli
