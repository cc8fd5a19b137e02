// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Runs a target where the compiler has no fuzzer: every file of the folders named, and changed ones of them,
// always the same.
//   fuzz_NAME -runs=N FOLDER...
#include <algorithm>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <vector>

#include "fuzz/hold.hpp"

namespace {

namespace fs = std::filesystem;

using Random = std::mt19937;

std::size_t below(Random& random, std::size_t end) {
  return std::uniform_int_distribution<std::size_t>(0, end - 1)(random);
}

std::vector<std::string> texts_of(const fs::path& folder) {
  std::vector<fs::path> paths;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file()) paths.push_back(entry.path());
  std::ranges::sort(paths);
  std::vector<std::string> texts;
  for (const fs::path& path : paths) {
    std::ifstream in(path, std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
  }
  return texts;
}

/// A piece of one text in another, a piece taken out, or a few other bytes.
std::string changed(std::string text, const std::string& other, Random& random) {
  for (std::size_t left = 1 + below(random, 4); left > 0 && !text.empty(); --left) {
    const std::size_t at = below(random, text.size()), length = 1 + below(random, 40);
    switch (below(random, 3)) {
      case 0:
        text.erase(at, length);
        break;
      case 1:
        if (!other.empty()) text.insert(at, other.substr(below(random, other.size()), length));
        break;
      default:
        text[at] = static_cast<char>(below(random, 256));
    }
  }
  return text;
}

void run(const std::string& text) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

}  // namespace

int main(int argc, char** argv) {
  long runs = 0;
  std::vector<std::string> texts;
  for (int i = 1; i < argc; ++i) {
    if (std::strncmp(argv[i], "-runs=", 6) == 0) {
      runs = std::atol(argv[i] + 6);
    } else {
      for (std::string& text : texts_of(argv[i])) texts.push_back(std::move(text));
    }
  }
  if (texts.empty()) {
    std::fputs("no seeds: name a folder with some\n", stderr);
    return 2;
  }
  Random random(20261127);
  for (const std::string& text : texts) run(text);
  for (long i = 0; i < runs; ++i)
    run(changed(texts[below(random, texts.size())], texts[below(random, texts.size())], random));
  std::printf("%zu seeds and %ld changes of them: all held\n", texts.size(), runs);
  return 0;
}
