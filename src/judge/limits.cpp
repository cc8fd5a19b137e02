// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Requirements that look at every moment: never, band, drift, level.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/finding.hpp"
#include "judge/requirements.hpp"
#include "judge/wording.hpp"

namespace poise {
namespace {

std::vector<Point> points_over(const Evidence& evidence, const Signal& signal) {
  const Curve curve(evidence.trace, signal);
  std::vector<Point> all;
  for (const Window& window : evidence.windows) {
    const auto points = curve.over(window);
    all.insert(all.end(), points.begin(), points.end());
  }
  return all;
}

Finding decided_at(double time, std::string part, const Evidence& evidence, Finding finding) {
  finding.time = time;
  finding.step = step_at(time, evidence.trace.steps, evidence.during);
  finding.part = std::move(part);
  return finding;
}

std::string change_in_words(double change, Quantity quantity, const units::World& world) {
  if (change == 0.0) return "no change";
  return fmt::format("{} by {}", change > 0.0 ? "rose" : "fell",
                     units::show_difference(std::abs(change), quantity, world));
}

}  // namespace

Finding judged_on(const Never& never, const Evidence& evidence) {
  const auto points = points_over(evidence, never.signal);
  const Point worst = never.above ? *std::ranges::max_element(points, {}, &Point::value)
                                  : *std::ranges::min_element(points, {}, &Point::value);
  const double room = never.above ? never.limit - worst.value : worst.value - never.limit;
  const double margin = margin_of(room, never.limit);
  const std::string found =
      fmt::format("{} {}", never.above ? "highest" : "lowest",
                  wording::beside(worst.value, never.limit, never.signal.quantity, evidence.job.world));
  return decided_at(worst.time, evidence.tag(never.signal), evidence,
                    measured(found, margin, never.signal.quantity, share_of(margin, never.limit)));
}

Finding judged_on(const Band& band, const Evidence& evidence) {
  const auto room = [&](Point p) { return std::min(p.value - band.low, band.high - p.value); };
  const auto points = points_over(evidence, band.signal);
  const Point worst = *std::ranges::min_element(points, {}, room);
  const auto [lowest, highest] = std::ranges::minmax_element(points, {}, &Point::value);
  const double margin = margin_of(room(worst), std::max(std::abs(band.low), std::abs(band.high)));
  const Quantity quantity = band.signal.quantity;
  const std::string found = fmt::format(
      "lowest {}, highest {}", wording::beside(lowest->value, band.low, quantity, evidence.job.world),
      wording::beside(highest->value, band.high, quantity, evidence.job.world));
  return decided_at(worst.time, evidence.tag(band.signal), evidence,
                    measured(found, margin, quantity, share_of(margin, 0.5 * (band.high - band.low))));
}

Finding judged_on(const Drift& drift, const Evidence& evidence) {
  const double from = evidence.begin() + drift.settle;
  const units::World& world = evidence.job.world;
  if (from > evidence.end()) {
    return broken(fmt::format("not judged: seen for {}, and it may settle for {}",
                              units::show(evidence.end() - evidence.begin(), Quantity::time, world),
                              units::show(drift.settle, Quantity::time, world)));
  }
  const double reference = Curve(evidence.trace, drift.signal).at(from);
  Point worst{from, reference};
  for (const Point& p : points_over(evidence, drift.signal)) {
    if (p.time >= from && std::abs(p.value - reference) > std::abs(worst.value - reference)) worst = p;
  }
  const double change = worst.value - reference;
  const double margin = margin_of(drift.limit - std::abs(change), std::max(drift.limit, std::abs(reference)));
  const std::string found = fmt::format(
      "{}, from {} at {}", change_in_words(change, drift.signal.quantity, world),
      units::show(reference, drift.signal.quantity, world), units::show(from, Quantity::time, world));
  return decided_at(worst.time, evidence.tag(drift.signal), evidence,
                    measured(found, margin, drift.signal.quantity, share_of(margin, drift.limit)));
}

Finding judged_on(const Level& level, const Evidence& evidence) {
  std::vector<std::vector<Point>> curves;
  for (const Signal& signal : level.signals) curves.push_back(points_over(evidence, signal));
  double widest = -1.0, size = 0.0, time = 0.0;
  std::size_t furthest = 0;
  for (std::size_t i = 0; i < curves.front().size(); ++i) {
    const auto at_i = [&](const std::vector<Point>& curve) { return curve[i].value; };
    const auto [low, high] = std::ranges::minmax_element(curves, {}, at_i);
    const double apart = at_i(*high) - at_i(*low);
    if (apart <= widest) continue;
    widest = apart;
    time = curves.front()[i].time;
    size = std::max(std::abs(at_i(*high)), std::abs(at_i(*low)));
    double mean = 0.0;
    for (const auto& curve : curves) mean += at_i(curve) / static_cast<double>(curves.size());
    const auto from_mean = [&](const std::vector<Point>& curve) { return std::abs(at_i(curve) - mean); };
    furthest = static_cast<std::size_t>(std::ranges::max_element(curves, {}, from_mean) - curves.begin());
  }
  const Signal& odd_one = level.signals[furthest];
  const double margin = margin_of(level.limit - widest, std::max(level.limit, size));
  const std::string found =
      fmt::format("{} apart, {} furthest from the mean",
                  units::show_difference(widest, odd_one.quantity, evidence.job.world), odd_one.name);
  return decided_at(time, evidence.tag(odd_one), evidence,
                    measured(found, margin, odd_one.quantity, share_of(margin, level.limit)));
}

}  // namespace poise
