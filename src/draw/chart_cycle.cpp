// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The chart of pressures, flows, positions and forces over the steps.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "draw/chart.hpp"
#include "draw/in_unit.hpp"
#include "draw/letters.hpp"
#include "draw/panel.hpp"
#include "draw/time_frame.hpp"
#include "judge/evidence.hpp"
#include "judge/requirements.hpp"
#include "judge/wording.hpp"

namespace poise::draw {
namespace {

constexpr double left_room = 17.0, least_right = 24.0, most_right = 62.0, between_panels = 4.0;

/// The quantities in the order of their panels; what is not among them comes behind.
constexpr std::array panel_order{Quantity::pressure, Quantity::flow, Quantity::length, Quantity::force,
                                 Quantity::speed};

/// An output that says what a part could bear rather than what happens to it.
constexpr std::string_view bound = ".buckling_load";

/// A part with one port answers to two names for it.
bool is_same(const Signal& a, const Signal& b) {
  return a.what == b.what && a.part == b.part && a.index == b.index;
}

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

std::string panel_title(Quantity quantity, const units::World& world) {
  const std::string name(quantity == Quantity::length ? "position" : units::name(quantity));
  return world[quantity].empty() ? name : name + ", " + world[quantity];
}

/// "R1.A" for pressure and flow, "R1" for where it stands, "K1" and "clamp force" for what it reports.
PanelCurve curve_of(const Signal& signal, const Job& job, const Trace& trace) {
  const auto dot = signal.name.rfind('.');
  PanelCurve curve{.names = {signal.name.substr(0, dot)}, .what = {}, .points = {}};
  if (signal.what == Signal::What::output || signal.what == Signal::What::state ||
      signal.what == Signal::What::mode) {
    curve.what = signal.name.substr(dot + 1);
    std::ranges::replace(curve.what, '_', ' ');
  }
  const InUnit number(signal.quantity, job.world);
  const auto& values = trace.values[static_cast<std::size_t>(trace.column(signal.name))];
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (std::isfinite(values[i])) curve.points.push_back({trace.time[i], number(values[i])});
  }
  return curve;
}

void add_limit(Panel& panel, const Requirement& requirement, const Job& job, const Trace& trace,
               const Signal& signal, double limit, bool above) {
  const InUnit number(signal.quantity, job.world);
  const Evidence evidence = evidence_for(requirement, job, trace);
  if (evidence.windows.empty()) return;
  panel.limits.push_back(
      {.label = fmt::format("{} ({} {} {})", requirement.name, signal.name.substr(0, signal.name.rfind('.')),
                            above ? "≤" : "≥", wording::stated(limit, signal.quantity, job.world)),
       .number = number(limit),
       .never_above = above,
       .windows = evidence.windows});
}

/// Limits on signals that the panel shows.
void add_limits(Panel& panel, const std::vector<Signal>& shown, const Job& job, const Trace& trace) {
  const auto here = [&](const Signal& signal) {
    return std::ranges::any_of(shown, [&](const Signal& other) { return is_same(signal, other); });
  };
  for (const Requirement& requirement : job.requirements) {
    if (const auto* never = std::get_if<Never>(&requirement.what); never && here(never->signal))
      add_limit(panel, requirement, job, trace, never->signal, never->limit, never->above);
    if (const auto* band = std::get_if<Band>(&requirement.what); band && here(band->signal)) {
      add_limit(panel, requirement, job, trace, band->signal, band->high, true);
      add_limit(panel, requirement, job, trace, band->signal, band->low, false);
    }
  }
}

std::vector<Panel> panels_of(const Job& job, const Trace& trace, const std::vector<Signal>& signals) {
  std::vector<Quantity> order(panel_order.begin(), panel_order.end());
  for (const Signal& signal : signals) {
    if (std::ranges::find(order, signal.quantity) == order.end()) order.push_back(signal.quantity);
  }
  std::vector<Panel> panels;
  for (const Quantity quantity : order) {
    Panel panel{.title = panel_title(quantity, job.world), .curves = {}, .limits = {}};
    std::vector<Signal> shown;
    for (const Signal& signal : signals) {
      if (signal.quantity != quantity || trace.column(signal.name) < 0) continue;
      PanelCurve curve = curve_of(signal, job, trace);
      if (curve.points.empty()) continue;
      shown.push_back(signal);
      panel.curves.push_back(std::move(curve));
    }
    if (panel.curves.empty()) continue;
    add_limits(panel, shown, job, trace);
    panels.push_back(std::move(panel));
  }
  return panels;
}

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
  std::vector<Panel> panels = panels_of(job, trace, cycle_signals(job, wish));
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
