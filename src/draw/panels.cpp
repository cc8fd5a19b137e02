// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/panels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "draw/in_unit.hpp"
#include "judge/evidence.hpp"
#include "judge/wording.hpp"

namespace poise::draw {
namespace {

/// The quantities in the order of their panels; what is not among them comes behind.
constexpr std::array panel_order{Quantity::pressure, Quantity::flow, Quantity::length, Quantity::force,
                                 Quantity::speed};

std::string panel_title(Quantity quantity, const units::World& world) {
  const std::string name(quantity == Quantity::length ? "position" : units::name(quantity));
  return world[quantity].empty() ? name : name + ", " + world[quantity];
}

/// "R1.A" for pressure and flow, "R1" for where it stands, "K1" and "clamp force" for what it reports.
PanelCurve curve_of(const Signal& signal, const Job& job, const Trace& trace) {
  const auto dot = signal.name.rfind('.');
  PanelCurve curve{.signal = signal.name, .names = {signal.name.substr(0, dot)}, .what = {}, .points = {}};
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

}  // namespace

bool is_same(const Signal& a, const Signal& b) {
  return a.what == b.what && a.part == b.part && a.index == b.index;
}

std::vector<Panel> cycle_panels(const Job& job, const Trace& trace, const std::vector<Signal>& signals) {
  std::vector<Quantity> order(panel_order.begin(), panel_order.end());
  for (const Signal& signal : signals) {
    if (std::ranges::find(order, signal.quantity) == order.end()) order.push_back(signal.quantity);
  }
  std::vector<Panel> panels;
  for (const Quantity quantity : order) {
    Panel panel{.title = panel_title(quantity, job.world), .quantity = quantity, .curves = {}, .limits = {}};
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

}  // namespace poise::draw
