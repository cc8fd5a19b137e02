// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/part.hpp"

#include <algorithm>
#include <cmath>

#include "draw/chart.hpp"
#include "draw/svg.hpp"
#include "solve/equations.hpp"

namespace poise::desk {
namespace {

constexpr double chart_width = 150.0, chart_height = 100.0, chart_margin = 4.0;  // mm

Json curve_of(const Proof& proof, const std::string& tag) {
  const auto drawable = draw::parts_with_curve(proof.job.plan);
  if (std::ranges::find(drawable, tag) == drawable.end()) return nullptr;
  draw::ChartWish wish;
  wish.width = chart_width;
  wish.height = chart_height;
  wish.content = {chart_margin, chart_margin, chart_width - chart_margin, chart_height - chart_margin};
  wish.cautious = false;
  wish.part = tag;
  return draw::svg(draw::valve_chart(proof.job, at_step_ends(proof.trace), wish));
}

/// The value of a signal at a moment, SI; none of those that a moment does not hold.
std::optional<double> value_of(const Signal& signal, const PartMoment& moment) {
  const auto i = static_cast<std::size_t>(signal.index);
  const auto at = [&](const std::vector<double>& values) {
    return i < values.size() ? std::optional(values[i]) : std::nullopt;
  };
  switch (signal.what) {
    case Signal::What::pressure:
      return at(moment.pressure);
    case Signal::What::flow:
      return at(moment.flow);
    case Signal::What::position:
      return at(moment.position);
    case Signal::What::speed:
      return at(moment.speed);
    case Signal::What::output:
      return at(moment.outputs);
    case Signal::What::mode:
      return moment.mode[i] ? 1.0 : 0.0;
    case Signal::What::state:
      break;
  }
  return std::nullopt;
}

/// What the run takes for noise is what it leaves of nothing.
double without_noise(double value, Quantity quantity) {
  constexpr double flow = 1e-9;  // m3/s: a cubic millimetre a second
  const solve::Tolerances noise;
  double size = 0.0;
  if (quantity == Quantity::pressure) size = noise.pressure;
  if (quantity == Quantity::flow) size = flow;
  if (quantity == Quantity::speed) size = noise.speed;
  if (quantity == Quantity::length) size = noise.position;
  return std::abs(value) <= size ? 0.0 : value;
}

Json now_of(const Proof& proof, int part, std::size_t frame) {
  Json list = Json::array();
  if (frame >= proof.trace.moments.size()) return list;
  for (const Signal& signal : signals_of(proof.job.plan, part)) {
    const auto value = value_of(signal, proof.trace.moments[frame].parts[static_cast<std::size_t>(part)]);
    if (value)
      list.push_back(
          {{"name", signal.name},
           {"text", units::show(without_noise(*value, signal.quantity), signal.quantity, proof.job.world)}});
  }
  return list;
}

int index_of(const Plan& plan, const std::string& tag) {
  const auto part = std::ranges::find(plan.parts, tag, &PlannedPart::tag);
  return part == plan.parts.end() ? -1 : static_cast<int>(part - plan.parts.begin());
}

}  // namespace

std::optional<Json> part_at_work(const Proof& proof, const std::string& tag, std::size_t frame) {
  const int part = index_of(proof.job.plan, tag);
  if (part < 0) return std::nullopt;
  return Json{{"tag", tag}, {"curve", curve_of(proof, tag)}, {"now", now_of(proof, part, frame)}};
}

}  // namespace poise::desk
