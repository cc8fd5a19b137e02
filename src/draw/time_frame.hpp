// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "draw/axis.hpp"
#include "draw/chart.hpp"

namespace poise::draw {

/// What charts over the steps have around their panels: title and step bar above, events under the bar, the
/// time axis and the notice below.
struct TimeFrame {
  TimeAxis axis;
  double low = 0.0, high = 0.0;  ///< between which the panels stand, mm
  std::vector<Group> groups;
};

/// `left` and `right` are where the time axis begins and ends on the paper, mm; `notes` is room to be left
/// between its title and the notice.
TimeFrame time_frame(const Job& job, const Trace& trace, const ChartWish& wish, const std::string& title,
                     double left, double right, double notes = 0.0);

/// The lowest line of every chart: what it is not. `before` stands ahead of it.
Group notice_line(const ChartWish& wish, const std::string& before = {});
/// The highest line of a chart: the job and what is shown.
Group title_line(const ChartWish& wish, const Job& job, const std::string& title);

/// Height of the title's and the notice's line, mm.
inline constexpr double title_height = 6.0, notice_height = 4.0;

}  // namespace poise::draw
