// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace poise::rules {

/// What stands in a file; a failure of the test where there is none.
inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  EXPECT_TRUE(file) << path << " is missing";
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace poise::rules
