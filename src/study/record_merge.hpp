// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace poise::study {

/// What came of putting records together.
struct Merged {
  std::string complaint;             ///< why there is no merged file; empty: there is
  std::vector<std::string> missing;  ///< a sentence for each study of which runs are in none of the files
  long studies = 0, runs = 0;        ///< in the merged file
};

/// Puts the studies of several files together in a new file, whatever the order of the files: studies of the
/// same heading become one with the runs of all. The same run in two files must be the same in both. `out`
/// must not be there yet; it appears whole or not at all.
Merged merge(const std::filesystem::path& out, std::vector<std::filesystem::path> inputs);

}  // namespace poise::study
