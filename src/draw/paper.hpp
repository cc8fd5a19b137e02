// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "draw/sheet.hpp"

namespace poise::draw {

/// Sheets lying on their long side.
enum class Paper { a4, a3, letter };

/// What the title block says. What is empty leaves an empty place, to be filled in by hand. The date is
/// given: the same job gives the same paper on any day.
struct TitleBlock {
  std::string job;      ///< its title
  std::string subject;  ///< what the drawing shows: "circuit at rest", "at 2.40 s, step clamp"
  std::string verdict;  ///< in one line
  std::string oil, units, note;
  std::string file;     ///< the job's file
  std::string version;  ///< of Poise
  std::string date, scale;
  std::string page = "1 of 1";
};

/// An empty sheet of this paper.
Sheet blank(Paper paper);

/// Where a drawing may stand: inside the frame, above the title block, clear of both.
Box drawing_area(Paper paper);

/// Draws the frame and the title block with its caution. Texts are made to fit: none leaves its place.
void add_frame(Sheet& sheet, Paper paper, const TitleBlock& block);

}  // namespace poise::draw
