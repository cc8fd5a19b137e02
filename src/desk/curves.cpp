// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/curves.hpp"

#include <algorithm>
#include <cmath>

#include "draw/panels.hpp"
#include "draw/reduce.hpp"

namespace poise::desk {
namespace {

constexpr double columns = 500.0;  // of a screen, in which a curve's extremes are kept

using Points = std::vector<draw::Point>;

/// Where a curve turns, as far as a screen shows it: its points drawn `columns` wide and high, thinned there.
std::vector<double> turns_of(const Points& points, double duration, double range) {
  const double x = columns / duration, y = range > 0.0 ? columns / range : 0.0;
  Points drawn;
  drawn.reserve(points.size());
  for (const draw::Point& p : points) drawn.push_back({x * p.x, y * p.y});
  std::vector<double> moments;
  std::size_t at = 0;
  for (const draw::Point& p : draw::reduced(drawn, 1.0)) {
    while (!(drawn[at] == p)) ++at;  // they are some of these, in their order
    const double time = points[at++].x;
    const bool twice = moments.size() > 1 && moments.back() == time && moments[moments.size() - 2] == time;
    if (!twice) moments.push_back(time);
  }
  return moments;
}

double range_of(const draw::Panel& panel) {
  double low = INFINITY, high = -INFINITY;
  for (const draw::PanelCurve& curve : panel.curves) {
    for (const draw::Point& p : curve.points) {
      low = std::min(low, p.y);
      high = std::max(high, p.y);
    }
  }
  return high - low;
}

/// The moments of a panel: each as often as a curve has it, but no more than twice.
std::vector<double> moments_of(const draw::Panel& panel, double duration) {
  const double range = range_of(panel);
  std::vector<double> all;
  for (const draw::PanelCurve& curve : panel.curves) {
    std::vector<double> both;
    std::ranges::set_union(all, turns_of(curve.points, duration, range), std::back_inserter(both));
    all = std::move(both);
  }
  return all;
}

/// The curve at rising moments; of a moment that comes twice the value before a jump, then behind it.
std::vector<double> values_at(const Points& points, const std::vector<double>& moments) {
  std::vector<double> values;
  values.reserve(moments.size());
  std::size_t next = 0;  // the first point that is not before the moment
  for (std::size_t m = 0; m < moments.size(); ++m) {
    const double time = moments[m];
    while (next < points.size() && points[next].x < time) ++next;
    const bool last_of_two = m + 1 == moments.size() || moments[m + 1] != time;
    if (next < points.size() && points[next].x == time) {
      std::size_t at = next;
      while (last_of_two && at + 1 < points.size() && points[at + 1].x == time) ++at;
      values.push_back(points[at].y);
    } else if (next == 0 || next == points.size()) {
      values.push_back(next == 0 ? points.front().y : points.back().y);
    } else {
      const draw::Point &a = points[next - 1], &b = points[next];
      values.push_back(a.y + (b.y - a.y) * (time - a.x) / (b.x - a.x));
    }
  }
  return values;
}

Json short_numbers(const std::vector<double>& values) {
  Json list = Json::array();
  for (const double value : values) list.push_back(short_number(value));
  return list;
}

std::string label_of(const draw::PanelCurve& curve) {
  return curve.names.front() + (curve.what.empty() ? "" : " " + curve.what);
}

Json limits_of(const draw::Panel& panel) {
  Json list = Json::array();
  for (const draw::PanelLimit& limit : panel.limits) {
    Json windows = Json::array();
    for (const Window& window : limit.windows) windows.push_back({window.begin, window.end});
    list.push_back({{"label", limit.label},
                    {"value", short_number(limit.number)},
                    {"never_above", limit.never_above},
                    {"windows", std::move(windows)}});
  }
  return list;
}

Json panel_of(const draw::Panel& panel, double duration, const units::World& world) {
  const std::vector<double> moments = moments_of(panel, duration);
  Json curves = Json::array();
  for (const draw::PanelCurve& curve : panel.curves) {
    curves.push_back({{"name", curve.signal},
                      {"label", label_of(curve)},
                      {"values", short_numbers(values_at(curve.points, moments))}});
  }
  return {{"title", panel.title.substr(0, panel.title.find(','))},
          {"quantity", units::name(panel.quantity)},
          {"unit", world[panel.quantity]},
          {"time", short_numbers(moments)},
          {"curves", std::move(curves)},
          {"limits", limits_of(panel)}};
}

}  // namespace

double short_number(double value) {
  if (value == 0.0 || !std::isfinite(value)) return value;
  const double scale = std::pow(10.0, 4.0 - std::floor(std::log10(std::abs(value))));
  return std::isfinite(scale) ? std::round(value * scale) / scale : 0.0;
}

Json panels(const Proof& proof) {
  Json list = Json::array();
  const Trace& trace = proof.trace;
  if (trace.time.empty()) return list;
  const double duration = std::max(trace.time.back(), 1e-6);
  for (const draw::Panel& panel : draw::cycle_panels(proof.job, trace, proof.charted))
    list.push_back(panel_of(panel, duration, proof.job.world));
  return list;
}

}  // namespace poise::desk
