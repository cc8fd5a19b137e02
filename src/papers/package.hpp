// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "draw/show.hpp"
#include "papers/subject.hpp"

namespace poise::papers {

/// A file of the hand-over.
struct File {
  std::string name;
  std::string bytes;
};

/// What can be asked for alone: every paper by name, and "traces".
std::vector<std::string> names();

/// The names of `pages`, in their order.
std::vector<std::string> page_names(std::span<const std::string> only, const std::string& stem);

/// The HTML of all papers in one, "STEM-papers.html", or of each that is asked for alone,
/// "STEM-settings.html". `only` holds some of `names()`; none: everything.
std::vector<File> pages(const Subject& subject, std::span<const std::string> only, const std::string& stem);

/// What goes with them for other programs: parts, lines and settings as CSV and XLSX, the schematic as SVG
/// and DXF as `look` has it, all signals over time as CSV. The same job gives the same bytes.
std::vector<File> lists(const Subject& subject, std::span<const std::string> only, const std::string& stem,
                        const draw::Look& look);

}  // namespace poise::papers
