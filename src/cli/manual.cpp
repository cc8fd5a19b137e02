// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <memory>

#include "cli/command.hpp"
#include "cli/completion.hpp"
#include "cli/manual_page.hpp"

namespace poise::cli {
namespace {

struct ManualWish {
  std::string shell, folder;
};

/// A shell, its script, and the name under which it looks for it.
struct Shell {
  const char* name;
  std::string (*script)(const Surface&);
  const char* file;
};

constexpr std::array shells{Shell{"bash", bash_completion, "poise"}, Shell{"zsh", zsh_completion, "_poise"},
                            Shell{"fish", fish_completion, "poise.fish"}};

bool write(const std::filesystem::path& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  out << text;
  out.close();
  if (!out) fmt::print(stderr, "cannot write {}\n", path.string());
  return static_cast<bool>(out);
}

/// Each file under the name by which it is looked for.
int write_all(const Surface& surface, const Release& release, const std::filesystem::path& folder) {
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (!write(folder / "poise.1", manual_page(surface, release))) return cannot;
  for (const Shell& shell : shells) {
    if (!write(folder / shell.file, shell.script(surface))) return cannot;
  }
  fmt::print("{} files written to {}\n", shells.size() + 1, folder.string());
  return all_held;
}

int manual(const ManualWish& wish, const CLI::App& program, const Release& release) {
  const Surface surface = surface_of(program);
  if (!wish.folder.empty()) return write_all(surface, release, wish.folder);
  for (const Shell& shell : shells) {
    if (wish.shell != shell.name) continue;
    fmt::print("{}", shell.script(surface));
    return all_held;
  }
  fmt::print("{}", manual_page(surface, release));
  return all_held;
}

std::vector<std::string> shell_names() {
  std::vector<std::string> names;
  for (const Shell& shell : shells) names.emplace_back(shell.name);
  return names;
}

}  // namespace

void add_manual(CLI::App& program, const std::string& date, int& exit_code) {
  auto wish = std::make_shared<ManualWish>();
  CLI::App* command =
      program.add_subcommand("manual", "The manual page of all commands for man, and completion for shells");
  CLI::Option* shell =
      command->add_option("--completion", wish->shell, "the completion of this shell instead")
          ->check(CLI::IsMember(shell_names()));
  command->add_option("--write", wish->folder, "a folder: the manual page and every completion as files")
      ->type_name(a_folder)
      ->excludes(shell);
  command->footer("\"poise manual | man -l -\" shows the page.");
  command->callback([wish, date, &program, &exit_code] {
    exit_code = manual(*wish, program, {program.version(), date});
  });
}

}  // namespace poise::cli
