// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The papers that are drawings: the schematic, and what happens over the cycle.
#include <fmt/format.h>

#include <algorithm>

#include "draw/chart.hpp"
#include "draw/show.hpp"
#include "draw/words.hpp"
#include "papers/cycle.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/pieces.hpp"

namespace poise::papers {
namespace {

constexpr double caption = 6.0;  // mm

draw::ChartWish wish_for(Area area) {
  return {.width = area.width,
          .height = area.height,
          .content = {0.0, 0.0, area.width, area.height},
          .cautious = false};
}

draw::Sheet circuit_of(const Job& job) {
  const std::vector<draw::Words> words = draw::words_of(job);
  return draw::unframed_sheet_of(draw::arrange(job.plan, words, draw::wishes_of(job)), job.plan, words,
                                 {.world = job.world});
}

/// How much larger than drawn it can be.
double scale_in(Area area, const draw::Sheet& sheet) {
  return std::min(area.width / sheet.width, (area.height - caption) / sheet.height);
}

/// How large pieces of a drawing are: so that they are cut one way only, where that leaves it readable.
double scale_of_pieces(Area area, const draw::Sheet& sheet) {
  constexpr double usual = 0.6, least = 0.5, most = 0.7;
  const double fit = std::max(area.width / sheet.width, area.height / sheet.height);
  return fit >= least ? std::min(fit, most) : usual;
}

/// A drawing whose letters would be too small to read is repeated in pieces, each on a page of its own.
std::string pieces_in(Area area, const draw::Sheet& sheet) {
  constexpr double readable = 0.45, heading = 14.0;  // of letters 2.5 mm high; mm
  if (scale_in(area, sheet) >= readable) return "";
  area.height -= heading;
  const double scale = scale_of_pieces(area, sheet);
  const std::vector<draw::Sheet> pieces = pieces_of(sheet, area.width / scale, area.height / scale);
  std::string text;
  for (std::size_t i = 0; i < pieces.size(); ++i)
    text += html::heading(3, fmt::format("The circuit in pieces, {} of {}", i + 1, pieces.size())) +
            html::figure(pieces[i], area.width, area.height);
  return text;
}

}  // namespace

bool schematic_lies_wide(const Subject& subject) {
  const draw::Sheet sheet = circuit_of(subject.job);
  return scale_in(area_of(subject.format, true), sheet) >= scale_in(area_of(subject.format, false), sheet);
}

std::string schematic(const Subject& subject) {
  const draw::Sheet sheet = circuit_of(subject.job);
  const Area wide = area_of(subject.format, true), upright = area_of(subject.format, false);
  const Area area = scale_in(wide, sheet) >= scale_in(upright, sheet) ? wide : upright;
  return html::figure(sheet, area.width, area.height - caption) +
         html::element(
             "p",
             html::text(std::string("At rest. ") +
                        (subject.job.drawing.codes ? "In frames: codes after ISO 1219-2. " : "") +
                        "Symbols after ISO 1219-1, from memory: compare with the standard before you claim "
                        "conformity."),
             " class=\"quiet\"") +
         pieces_in(area, sheet);
}

std::string motions(const Subject& subject) {
  const Area area = area_of(subject.format, true);
  if (subject.trace.time.empty() || subject.trace.steps.empty())
    return html::paragraph("The run ended before the first step; there is nothing to draw.");
  std::string text =
      html::figure(draw::motion_chart(subject.job, subject.trace, wish_for(area)), area.width, area.height);
  text += html::heading(3, "Pressures, flows, positions and forces");
  const Area less{area.width, area.height - 2.0};
  text +=
      html::figure(draw::cycle_chart(subject.job, subject.trace, wish_for(less)), less.width, less.height);
  text += html::heading(3, "Motions");
  return text + html::table(table_of(ways_of(subject), subject), "Nothing moves.");
}

}  // namespace poise::papers
