// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The chart of pressures, flows, positions and forces over the steps.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "draw/chart.hpp"
#include "draw/letters.hpp"
#include "draw/panel.hpp"
#include "draw/panels.hpp"
#include "draw/time_frame.hpp"
#include "judge/requirements.hpp"
#include "judge/wording.hpp"

namespace poise::draw {
namespace {

constexpr double left_room = 17.0, least_right = 24.0, most_right = 62.0, between_panels = 4.0;

/// An output that says what a part could bear rather than what happens to it.
constexpr std::string_view bound = ".buckling_load";

class Choice {
 public:
  explicit Choice(const Job& job) : job_(job) {}

  std::vector<Signal> usual() {
    for (int p = 0; p < static_cast<int>(job_.plan.parts.size()); ++p) part(p);
    for (const Requirement& requirement : job_.requirements) {
      for (const Signal& signal : signals_of(requirement)) add(signal);
    }
    return std::move(chosen_);
  }
  std::vector<Signal> named(const std::vector<std::string>& names) {
    for (const std::string& name : names) add(find_signal(job_.plan, name).value());
    return std::move(chosen_);
  }

 private:
  void add(const Signal& signal) {
    if (std::ranges::none_of(chosen_, [&](const Signal& other) { return is_same(signal, other); }))
      chosen_.push_back(signal);
  }
  void part(int p) {
    const PlannedPart& planned = job_.plan.parts[p];
    const Kind& kind = *planned.kind;
    const bool pump = kind.about.role == Role::source, moves = kind.motion_ports > 0,
               actuator = moves && kind.oil_ports > 0 && !pump;
    const auto delivery = find_signal(job_.plan, planned.tag + ".delivery");
    const auto volume = find_signal(job_.plan, planned.tag + ".oil_volume");
    bool first_flow = true, first_motion = true;
    if (pump && delivery) add(*delivery);
    if (volume) add(*volume);
    for (const Signal& signal : signals_of(job_.plan, p)) {
      if (signal.what == Signal::What::pressure &&
          (actuator || (pump && signal.index == 1) || reads_pressure(kind)))
        add(signal);
      if (signal.what == Signal::What::flow && actuator && std::exchange(first_flow, false)) add(signal);
      if (signal.what == Signal::What::position && actuator && !volume &&
          signal.quantity == Quantity::length && std::exchange(first_motion, false))
        add(signal);
      if (signal.quantity == Quantity::force && moves && !signal.name.ends_with(bound)) add(signal);
    }
  }
  static bool reads_pressure(const Kind& kind) {
    return kind.oil_ports == 1 && kind.motion_ports == 0 &&
           std::ranges::find(kind.outputs, Quantity::pressure, &Output::quantity) != kind.outputs.end();
  }

  const Job& job_;
  std::vector<Signal> chosen_;
};

/// "pressure, flow and force over the steps"
std::string contents_of(const std::vector<Panel>& panels) {
  std::vector<std::string> names;
  for (const Panel& panel : panels) names.push_back(panel.title.substr(0, panel.title.find(',')));
  return wording::joined(names, " and ") + " over the steps";
}

}  // namespace

std::vector<Signal> cycle_signals(const Job& job, const ChartWish& wish) {
  Choice choice(job);
  return wish.names.empty() ? choice.usual() : choice.named(wish.names);
}

Sheet cycle_chart(const Job& job, const Trace& trace, const ChartWish& wish) {
  std::vector<Panel> panels = cycle_panels(job, trace, cycle_signals(job, wish));
  const auto count = std::max(1.0, static_cast<double>(panels.size()));
  const double rough = wish.content.height() / count;
  double widest = least_right;
  for (Panel& panel : panels) {
    merge_alike(panel, rough);
    for (const PanelCurve& curve : panel.curves)
      widest = std::max(widest,
                        sample_room + 1.0 + text_width(curve.label(most_right - sample_room), label_letters));
  }
  Sheet sheet{.width = wish.width,
              .height = wish.height,
              .title = job.title + ": " + contents_of(panels),
              .description = {},
              .groups = {}};
  TimeFrame frame = time_frame(job, trace, wish, contents_of(panels), wish.content.left + left_room,
                               wish.content.right - std::min(widest, most_right));
  sheet.groups = std::move(frame.groups);
  const double each = (frame.high - frame.low + between_panels) / count;
  double high = frame.high;
  for (const Panel& panel : panels) {
    sheet.groups.push_back(
        draw_panel(panel, frame.axis, high - each + between_panels, high, wish.content.right));
    high -= each;
  }
  sheet.description = fmt::format("{} panels over {} steps", panels.size(), trace.steps.size());
  return sheet;
}

}  // namespace poise::draw
