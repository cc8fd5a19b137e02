// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

namespace poise {

struct Ran {
  int exit_code;
  std::string text;  ///< what it printed, errors included
};

/// Runs the built program with arguments, in a folder, else from the repository's root.
inline Ran run_program(const std::string& arguments, const std::filesystem::path& folder = ".") {
  Ran ran{-1, {}};
  const std::string command = "cd '" + folder.string() + "' && '" POISE_PROGRAM "' " + arguments + " 2>&1";
  FILE* pipe = popen(command.c_str(), "r");
  if (!pipe) return ran;
  std::array<char, 4096> piece;
  while (std::size_t n = std::fread(piece.data(), 1, piece.size(), pipe)) ran.text.append(piece.data(), n);
  const int status = pclose(pipe);
  ran.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  return ran;
}

/// A file in a folder of its own that goes with the test.
class ScratchFile {
 public:
  ScratchFile(const std::string& name, const std::string& text)
      : folder_(std::filesystem::temp_directory_path() /
                ("poise-" + std::to_string(getpid()) + "-" + std::to_string(count()++))) {
    std::filesystem::create_directories(folder_);
    path_ = folder_ / name;
    std::ofstream(path_, std::ios::binary) << text;
  }
  ~ScratchFile() { std::filesystem::remove_all(folder_); }
  ScratchFile(const ScratchFile&) = delete;
  ScratchFile& operator=(const ScratchFile&) = delete;
  std::string path() const { return path_.string(); }

 private:
  static int& count() {
    static int n = 0;
    return n;
  }
  std::filesystem::path folder_, path_;
};

inline std::string contents(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace poise
