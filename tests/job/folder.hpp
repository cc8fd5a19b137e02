// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

namespace poise::reading {

/// A folder of its own for the test that runs, gone with it.
struct Folder {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() /
      ("poise_job_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() { std::filesystem::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  /// Writes a file, and the folders that its name has.
  std::filesystem::path write(const std::string& name, std::string_view content) const {
    std::filesystem::create_directories((path / name).parent_path());
    std::ofstream(path / name, std::ios::binary) << content;
    return path / name;
  }
};

}  // namespace poise::reading
