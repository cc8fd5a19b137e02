// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "papers/subject.hpp"

namespace poise::papers {

/// One paper of the hand-over. Each begins on a page of its own and can be asked for alone.
struct Paper {
  std::string_view name;                             ///< by which it is asked for: "settings"
  std::string_view title;                            ///< its heading
  std::string_view what;                             ///< what is on it, for the list of papers
  bool (*lies_wide)(const Subject&) = nullptr;       ///< whether it lies on its long side
  std::string (*content)(const Subject&) = nullptr;  ///< HTML below the heading
};

/// All of them, in the order in which they lie in the folder.
std::span<const Paper> all_papers();
/// By name, or null.
const Paper* find_paper(std::string_view name);

/// Millimetres that a page's text may take.
struct Area {
  double width = 0.0, height = 0.0;
};
Area area_of(Format format, bool wide);

// The papers, in their order.
std::string job_in_words(const Subject& subject);
std::string schematic(const Subject& subject);
bool schematic_lies_wide(const Subject& subject);  ///< whether it gets larger so
std::string parts_and_lines(const Subject& subject);
std::string settings_sheet(const Subject& subject);
std::string motions(const Subject& subject);
std::string requirements(const Subject& subject);
std::string calculations(const Subject& subject);
std::string operating_points(const Subject& subject);
std::string commissioning(const Subject& subject);
std::string maintenance(const Subject& subject);
std::string safety(const Subject& subject);
std::string books(const Subject& subject);

}  // namespace poise::papers
