// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/paper.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "draw/letters.hpp"

namespace poise::draw {
namespace {

// Margins as ISO 5457 asks for (from memory): wide on the left to file the sheet. The block is our own.
constexpr double filing_margin = 20.0, margin = 10.0, clearance = 4.0;
constexpr double row = 6.5, rows = 4 * row, caution_row = 5.0, block_height = rows + caution_row;
constexpr double frame_line = 0.5, inner_line = 0.2;
constexpr double caption_size = 1.9, value_size = 2.8, least_size = 1.9, title_size = 5.0;
constexpr double padding = 1.2, caption_gap = 0.6, value_gap = 0.4;

// Where columns begin and end, as shares of the frame's width: job, circumstances, signatures, sheet.
constexpr std::array columns{0.0, 0.38, 0.60, 0.85, 1.0};
constexpr double share_of_name = 0.68;  // of the signatures' column; the rest is for the date

constexpr std::string_view caution =
    "Caution: oil under pressure can kill. Local codes decide; have a licensed person check this circuit "
    "before it "
    "is built and before it is put under pressure.";

Box frame_of(Paper paper) {
  const Sheet sheet = blank(paper);
  return {filing_margin, margin, sheet.width - margin, sheet.height - margin};
}

/// Draws cells of the title block.
struct BlockPen {
  std::vector<Mark>& marks;
  Box frame;

  double column(std::size_t index) const { return frame.left + columns[index] * frame.width(); }
  /// Rows count from the top of the block.
  double above(double rows_down) const { return frame.low + block_height - row * rows_down; }

  Box cell(std::size_t in_column, double first_row, double past_row) const {
    return {column(in_column), above(past_row), column(in_column + 1), above(first_row)};
  }

  void outline(const Box& b, double width) {
    const std::vector<Point> corners{{b.left, b.low}, {b.right, b.low}, {b.right, b.high}, {b.left, b.high}};
    marks.push_back({Pen{.layer = Layer::frame, .width = width}, Polyline{corners, true}});
  }
  void text(Point at, std::string words, double size, bool bold = false) {
    if (words.empty()) return;
    marks.push_back({Pen{.layer = Layer::frame},
                     Text{.at = at, .words = std::move(words), .height = size, .bold = bold}});
  }

  /// Lines in the middle of their place's height.
  void lines(const Box& b, const Fitted& fit, bool bold) {
    const double tall = text_height(fit.lines.size(), fit.size);
    double base = b.centre().y + 0.5 * tall - fit.size * capital_share;
    for (const std::string& line : fit.lines) {
      text({b.left, base}, line, fit.size, bold);
      base -= fit.size * pitch_share;
    }
  }

  /// A cell: its caption on top, its value below.
  void fill(const Box& b, std::string_view caption, std::string_view value, Place place) {
    outline(b, inner_line);
    const double left = b.left + padding, right = b.right - padding;
    const double under_caption = b.high - caption_gap - caption_size;
    const Fitted small = fitted(caption, {.width = right - left, .size = caption_size, .least = 1.0});
    text({left, b.high - caption_gap - small.size * capital_share}, small.lines.front(), small.size);
    const Box room{left, b.low + value_gap, right, under_caption};
    place.width = room.width(), place.height = room.height();
    lines(room, fitted(value, place), place.bold);
  }
  void fill(const Box& b, std::string_view caption, std::string_view value) {
    fill(b, caption, value, {.size = value_size, .least = least_size});
  }

  /// A place to write a name by hand, and one for the day.
  void to_sign(const Box& b, std::string_view caption) {
    const double between = b.left + share_of_name * b.width();
    fill({b.left, b.low, between, b.high}, caption, "");
    fill({between, b.low, b.right, b.high}, "Date", "");
  }

  void warn() {
    const Box band{frame.left, frame.low, frame.right, frame.low + caution_row};
    outline(band, inner_line);
    const Box room{band.left + padding, band.low, band.right - padding, band.high};
    const Place place{.width = room.width(), .size = value_size, .least = least_size, .bold = true};
    lines(room, fitted(caution, place), true);
  }
};

std::string made_by(const TitleBlock& block) {
  std::string text = "Poise";
  if (!block.version.empty()) text += " " + block.version;
  if (!block.file.empty()) text += " from " + block.file;
  return text;
}

}  // namespace

Sheet blank(Paper paper) {
  Sheet sheet;
  switch (paper) {
    case Paper::a4:
      sheet.width = 297.0, sheet.height = 210.0;
      break;
    case Paper::a3:
      sheet.width = 420.0, sheet.height = 297.0;
      break;
    case Paper::letter:
      sheet.width = 279.4, sheet.height = 215.9;  // 11 in by 8.5 in
      break;
  }
  return sheet;
}

Box drawing_area(Paper paper) {
  Box area = frame_of(paper);
  area.low += block_height;
  return area.grown(-clearance);
}

void add_frame(Sheet& sheet, Paper paper, const TitleBlock& block) {
  Group group{.kind = "frame", .name = "", .title = "Frame and title block", .marks = {}};
  BlockPen pen{group.marks, frame_of(paper)};
  pen.fill(pen.cell(0, 0, 2), "Job", block.job,
           {.size = title_size, .least = 3.0, .most_lines = 2, .bold = true});
  pen.fill(pen.cell(0, 2, 3), "Shows", block.subject);
  pen.fill(pen.cell(0, 3, 4), "Verdict", block.verdict);
  pen.fill(pen.cell(1, 0, 1), "Oil", block.oil);
  pen.fill(pen.cell(1, 1, 2), "Units", block.units);
  pen.fill(pen.cell(1, 2, 3), "Note", block.note);
  pen.fill(pen.cell(1, 3, 4), "Made with", made_by(block));
  pen.to_sign(pen.cell(2, 0, 2), "Drawn by (name, signature)");
  pen.to_sign(pen.cell(2, 2, 4), "Checked by (name, signature)");
  pen.fill(pen.cell(3, 0, 1), "Scale", block.scale);
  pen.fill(pen.cell(3, 1, 2), "Date of drawing", block.date);
  pen.fill(pen.cell(3, 2, 4), "Sheet", block.page, {.size = title_size, .least = least_size, .bold = true});
  pen.warn();
  Box around_block = pen.frame;
  around_block.high = pen.above(0);
  pen.outline(around_block, frame_line);
  pen.outline(pen.frame, frame_line);
  sheet.groups.push_back(std::move(group));
}

}  // namespace poise::draw
