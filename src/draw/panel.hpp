// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "draw/axis.hpp"
#include "draw/marks.hpp"
#include "judge/curve.hpp"

namespace poise::draw {

/// A curve over time: x is s, y the number in the unit of its panel.
struct PanelCurve {
  std::string signal;              ///< the first of those it shows, "R1.A.pressure"
  std::vector<std::string> names;  ///< several where their curves are one on paper
  std::string what;                ///< said behind the names: "clamp force"
  std::vector<Point> points;

  std::string label(double width) const;
};

/// A bound that the job sets, and the stretches of time where it counts.
struct PanelLimit {
  std::string label;
  double number = 0.0;
  bool never_above = true;  ///< else never below
  std::vector<Window> windows;
};

/// Curves of one quantity over the steps.
struct Panel {
  std::string title;  ///< "pressure, bar"
  Quantity quantity = Quantity::none;
  std::vector<PanelCurve> curves;
  std::vector<PanelLimit> limits;
};

/// Height of letters beside curves and from one label to the next, mm; room for the sample of the curve.
inline constexpr double label_letters = 2.2, label_pitch = 3.0, sample_room = 13.0;

/// Makes one curve of those that lie on each other when the panel is `height` mm high.
void merge_alike(Panel& panel, double height);
/// Draws it between the ends of the time axis and `low` and `high` on the paper; labels of curves stand
/// right of it up to `right`, numbers and title left of it.
Group draw_panel(const Panel& panel, const TimeAxis& time, double low, double high, double right);

}  // namespace poise::draw
