// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace poise::cli {

/// An option, or a place on the command line, as its command declares it.
struct Argument {
  std::vector<std::string> names;  ///< "-o", "--output"; of a place its one name
  std::string text;                ///< what it is
  std::string value;               ///< "FILE.csv", "FOLDER", "TEXT", "INT"; empty: it takes none
  std::string range;               ///< what the value may be, where that is no list of words
  std::vector<std::string> words;  ///< what the value may be, where that is one
  bool required = false, many = false;
};

/// A command with all that its help says of it; the program itself likewise.
struct Surface {
  std::string name, text;
  std::string closing;  ///< what its help ends with
  std::vector<Argument> options, places;
  std::vector<Surface> commands;
};

/// What a program or a command shows to the person who types.
Surface surface_of(const CLI::App& app);

/// Whether a value is a file or a folder.
bool is_file(const Argument& argument);
bool is_folder(const Argument& argument);

/// The ending of a file that is wanted, ".csv"; empty: any.
std::string ending_of(const Argument& argument);

}  // namespace poise::cli
