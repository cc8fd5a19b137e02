// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/rating.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "judge/evidence.hpp"
#include "judge/finding.hpp"
#include "judge/wording.hpp"

namespace poise {
namespace {

/// The highest pressure at one port of a rated part.
struct Loaded {
  const Signal* signal;
  Point peak;
  double rated;
  double margin, share;
};

Loaded loaded(const Signal& signal, const Job& job, const Trace& trace) {
  const PlannedPart& part = job.plan.parts[signal.part];
  const double rated = part.values[rating_parameter(*part.kind)];
  const auto points = Curve(trace, signal).over({trace.time.front(), trace.time.back()});
  const Point peak = *std::ranges::max_element(points, {}, &Point::value);
  const Rating rating = rating_from(rated);
  const double room = margin(rating, peak.value);
  return {&signal, peak, rated, room, room / (room < 0.0 ? rating.alarm : rating.limit)};
}

std::string others_above(const std::vector<Loaded>& worst_first, const Plan& plan) {
  std::vector<std::string> tags;
  for (const Loaded& each : worst_first) {
    const std::string& tag = plan.parts[each.signal->part].tag;
    if (each.margin < 0.0 && std::ranges::find(tags, tag) == tags.end()) tags.push_back(tag);
  }
  if (tags.size() < 2) return "";
  return "; also above theirs: " + wording::joined(std::span(tags).subspan(1), " and ");
}

Finding ratings_of(const std::vector<Signal>& pressures, const Job& job, const Trace& trace) {
  if (trace.time.empty()) return broken("not reached: " + where_it_ended(trace));
  std::vector<Loaded> all;
  for (const Signal& signal : pressures) {
    if (!Curve(trace, signal).has_values()) return broken("no value of " + signal.name);
    all.push_back(loaded(signal, job, trace));
  }
  std::ranges::stable_sort(all, {}, &Loaded::share);
  const Loaded& worst = all.front();
  const std::string found =
      fmt::format("{} {} of {}{}", job.plan.name({worst.signal->part, worst.signal->index}),
                  wording::beside(worst.peak.value, worst.rated, Quantity::pressure, job.world),
                  wording::stated(worst.rated, Quantity::pressure, job.world), others_above(all, job.plan));
  Finding finding = measured(found, worst.margin, Quantity::pressure, worst.share);
  finding.time = worst.peak.time;
  finding.step = step_at(worst.peak.time, trace.steps);
  finding.part = job.plan.parts[worst.signal->part].tag;
  return finding;
}

}  // namespace

double margin(const Rating& rating, double pressure) {
  if (pressure > rating.alarm) return margin_of(rating.alarm - pressure, rating.alarm);
  return std::max(0.0, margin_of(rating.limit - pressure, rating.limit));
}

std::vector<Signal> rated_pressures(const Plan& plan) {
  std::vector<Signal> pressures;
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    const std::string_view name = rating_parameter(*plan.parts[p].kind);
    if (name.empty() || !plan.parts[p].values.given(name)) continue;
    for (Signal& signal : signals_of(plan, p)) {
      if (signal.what == Signal::What::pressure) pressures.push_back(std::move(signal));
    }
  }
  return pressures;
}

std::optional<Finding> judged_ratings(const Job& job, const Trace& trace) {
  const auto pressures = rated_pressures(job.plan);
  if (pressures.empty()) return std::nullopt;
  Finding finding = ratings_of(pressures, job, trace);
  finding.name = finding.promised = "no part above its rated pressure";
  return finding.held && trace.halt ? as_far_as_seen(finding, trace, job.world) : finding;
}

std::string caution_on_ratings(const Plan& plan) {
  std::vector<std::string> without;
  for (const PlannedPart& part : plan.parts) {
    const std::string_view name = rating_parameter(*part.kind);
    if (!name.empty() && !part.values.given(name)) without.push_back(part.tag);
  }
  const bool none_given = rated_pressures(plan).empty();
  if (without.empty()) return none_given ? "No part of this job has a rating, so none is checked." : "";
  return fmt::format(
      "{}: {}.",
      none_given ? "No part's rating is given, so none is checked" : "No rating given, so not checked",
      wording::joined(without, ", "));
}

}  // namespace poise
