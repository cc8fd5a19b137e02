// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/part_curve.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "draw/commanded.hpp"
#include "draw/roles.hpp"

namespace poise::draw {
namespace {

constexpr double creeping = 0.1 * si::cm3_per_minute;
/// Pressures around a part that differ by less than this share of the greatest, or by less than 0.1 bar, make
/// one curve.
constexpr double alike = 0.005, alike_least = 0.1 * si::bar;
constexpr double highest = 3000 * si::bar;
constexpr int samples = 400;

std::optional<double> value_of(const PlannedPart& part, std::string_view name) {
  if (!find_parameter(part.values.table(), name)) return std::nullopt;
  const double value = part.values[name];
  return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

/// Paths of a valve whose positions are words: any two of its ports may be joined.
bool switches_paths(const Kind& kind) {
  return kind.oil_ports > 2 && kind.states.empty() && kind.inputs.size() == 1 &&
         !kind.parameters[kind.inputs.front()].words.empty();
}

Around calm(const PlannedPart& part, const Job& job, const Trace& trace, int index, double time) {
  const Kind& kind = *part.kind;
  return {.pressure = std::vector<double>(static_cast<std::size_t>(kind.oil_ports), 0.0),
          .position = std::vector<double>(static_cast<std::size_t>(kind.motion_ports), 0.0),
          .speed = std::vector<double>(static_cast<std::size_t>(kind.motion_ports), 0.0),
          .input = inputs_at(job, trace, index, time)};
}

class Tracing {
 public:
  Tracing(const Job& job, const Trace& trace, int index)
      : job_(job),
        trace_(trace),
        index_(index),
        part_(job.plan.parts[index]),
        oil_(job.plan.oil),
        shape_(curve_shape(part_, oil_).value()) {}

  Characteristic all() {
    Characteristic all;
    all.shape = shape_;
    for (const Moment& moment : trace_.moments) look(moment);
    add_plain_curve();
    name_curves();
    most_flow_ = all.most_flow = most_flow();
    most_pressure_ = all.most_pressure = most_pressure();
    for (PartCurve& curve : curves_) draw(curve);
    all.curves = std::move(curves_);
    all.idle = std::move(idle_);
    return all;
  }

 private:
  const Kind& kind() const { return *part_.kind; }
  bool exists(int port) const { return port_exists(kind().ports[port], part_.values); }

  /// Adds a moment to the curve that it lies on, which may be a new one.
  void look(const Moment& moment) {
    const PartMoment& m = moment.parts[index_];
    Around around = calm(part_, job_, trace_, index_, moment.time);
    around.position = m.position;
    around.speed = m.speed;
    if (!switches_paths(kind())) {
      const bool back = shape_ != CurveShape::delivery && m.flow[0] < -creeping;
      around.pressure = m.pressure;
      return put(moment, around, back ? 1 : 0, back ? 0 : 1);
    }
    for (int i = 0; i < kind().oil_ports; ++i) {
      for (int k = 0; k < kind().oil_ports; ++k) {
        if (i == k || !(m.flow[i] > creeping && m.flow[k] < -creeping)) continue;
        around.pressure.assign(static_cast<std::size_t>(kind().oil_ports), m.pressure[k]);
        around.pressure[i] = m.pressure[i];
        if (joined(around, i, k)) put(moment, around, i, k);
      }
    }
  }

  /// Whether the way from one port to another stands open, rather than leaks.
  bool joined(Around around, int in, int out) {
    const double flow = value_of(part_, "rated_flow").value_or(si::litre_per_minute);
    constexpr double probe = 20 * si::bar, open = 0.05;
    std::ranges::fill(around.pressure, 0.0);
    around.pressure[in] = probe;
    const auto flows = AtRest(part_, oil_).flows(around);
    return flows && -(*flows)[out] > open * flow;
  }

  void put(const Moment& moment, const Around& around, int in, int out) {
    const PartMoment& m = moment.parts[index_];
    const double flow = flow_of(m, around, in, out);
    const OperatingPoint point{moment.step, std::abs(flow) < creeping ? 0.0 : flow, pressure_of(m, in, out)};
    if (point.flow == 0.0 && says_nothing(m, around, in)) {
      idle_.push_back(point);
      return;
    }
    for (PartCurve& curve : curves_) {
      if (curve.in != in || curve.out != out || !same(curve.around, around, in, out)) continue;
      curve.at.push_back(point);
      return;
    }
    curves_.push_back({.in = in, .out = out, .around = around, .label = {}, .points = {}, .at = {point}});
  }

  /// Flow along the way. Where a valve joins more than two ports, what passes at a port goes several ways:
  /// then the law says how much of it goes this one.
  double flow_of(const PartMoment& m, const Around& around, int in, int out) {
    if (!switches_paths(kind())) {
      const bool at_outlet = shape_ == CurveShape::outlet || shape_ == CurveShape::delivery;
      return at_outlet ? -m.flow[out] : m.flow[in];
    }
    int from_in = 0, to_out = 0;
    for (int i = 0; i < kind().oil_ports; ++i) {
      if (i != in && joined(around, in, i)) ++from_in;
      if (i != out && joined(around, i, out)) ++to_out;
    }
    if (from_in == 1) return m.flow[in];
    if (to_out == 1) return -m.flow[out];
    const auto flows = AtRest(part_, oil_).flows(around);
    return flows ? -(*flows)[out] : 0.0;
  }

  /// Whether a moment without flow lies on no curve worth drawing: a restriction at rest, a pump that is off,
  /// a valve behind which there is nothing to hold down.
  bool says_nothing(const PartMoment& m, const Around& around, int in) const {
    switch (shape_) {
      case CurveShape::drop:
        return true;
      case CurveShape::inlet:
        return false;
      case CurveShape::outlet:
        return m.pressure[in] < value_of(part_, "setting").value_or(0.0);
      case CurveShape::delivery:
        return std::ranges::all_of(around.input, [](const Input& input) { return input.now() == 0.0; });
    }
    return false;
  }

  double pressure_of(const PartMoment& m, int in, int out) const {
    switch (shape_) {
      case CurveShape::drop:
        return m.pressure[in] - m.pressure[out];
      case CurveShape::inlet:
        return m.pressure[in];
      case CurveShape::outlet:
      case CurveShape::delivery:
        return m.pressure[out];
    }
    return 0.0;
  }

  /// Whether a port's pressure is the one that the curve runs over, rather than one that stands around it.
  bool runs(int port, int in, int out) const {
    switch (shape_) {
      case CurveShape::drop:
        return port == in || port == out || switches_paths(kind());
      case CurveShape::inlet:
        return port == in;
      case CurveShape::outlet:
      case CurveShape::delivery:
        return port == out;
    }
    return false;
  }

  bool same(const Around& a, const Around& b, int in, int out) const {
    for (std::size_t i = 0; i < a.input.size(); ++i) {
      if (std::abs(a.input[i].now() - b.input[i].now()) > 1e-6) return false;
    }
    if (shape_ == CurveShape::delivery && !a.speed.empty() &&
        std::abs(a.speed[0] - b.speed[0]) > alike * std::abs(a.speed[0]))
      return false;
    double greatest = value_of(part_, "setting").value_or(0.0);
    for (const double p : a.pressure) greatest = std::max(greatest, std::abs(p));
    for (int i = 0; i < kind().oil_ports; ++i) {
      if (runs(i, in, out) || !exists(i)) continue;
      if (std::abs(a.pressure[i] - b.pressure[i]) > std::max(alike_least, alike * greatest)) return false;
    }
    return true;
  }

  /// The curve that the datasheet shows, without pressure at the other ports, where no moment has it.
  void add_plain_curve() {
    const auto plain = [&](const PartCurve& curve) {
      for (int i = 0; i < kind().oil_ports; ++i) {
        if (!runs(i, curve.in, curve.out) && exists(i) && curve.around.pressure[i] > si::bar) return false;
      }
      return curve.in == 0;
    };
    if (shape_ == CurveShape::inlet ? std::ranges::any_of(curves_, plain) : !curves_.empty()) return;
    PartCurve curve = curve_at_rest();
    if (shape_ == CurveShape::outlet)
      curve.around.pressure[0] = 1.5 * value_of(part_, "setting").value_or(0.0);
    curves_.insert(curves_.begin(), std::move(curve));
  }

  PartCurve curve_at_rest() {
    Around around = calm(part_, job_, trace_, index_, trace_.time.empty() ? 0.0 : trace_.time.back());
    PartCurve curve{.in = 0, .out = 1, .around = around, .label = {}, .points = {}, .at = {}};
    for (int i = 0; switches_paths(kind()) && i < kind().oil_ports; ++i) {
      for (int k = 0; k < kind().oil_ports; ++k) {
        if (i != k && joined(around, i, k))
          return {.in = i, .out = k, .around = around, .label = {}, .points = {}, .at = {}};
      }
    }
    return curve;
  }

  double most_flow() const {
    double worked = 0.0;
    for (const PartCurve& curve : curves_) {
      for (const OperatingPoint& point : curve.at) worked = std::max(worked, std::abs(point.flow));
    }
    const double rated = value_of(part_, "rated_flow").value_or(0.0);
    if (worked == 0.0) return rated > 0.0 ? 1.15 * rated : 10 * si::litre_per_minute;
    // Where the rated flow is far off, what the part really does would shrink to a corner of the chart.
    return std::max(1.25 * worked, std::min(1.15 * rated, 5.0 * worked));
  }

  /// A restriction that is narrow one way would need thousands of bar for what it passes the other way.
  double most_pressure() const {
    if (shape_ != CurveShape::drop) return highest;
    double worked = 0.0;
    for (const PartCurve& curve : curves_) {
      for (const OperatingPoint& point : curve.at) worked = std::max(worked, point.pressure);
    }
    const double rated = value_of(part_, "pressure_drop").value_or(0.0);
    const double most = std::max(1.5 * worked, 1.4 * rated);
    return most > 0.0 ? most : 100 * si::bar;
  }

  std::string shown(double value, Quantity quantity) const {
    return units::show(value, quantity, job_.world);
  }

  void name_curves() {
    for (PartCurve& curve : curves_) {
      const auto& ports = kind().ports;
      curve.label = fmt::format("{} to {}", ports[curve.in].name, ports[curve.out].name);
      for (std::size_t i = 0; i < curve.around.input.size(); ++i) {
        const Parameter& parameter = kind().parameters[kind().inputs[i]];
        const double now = curve.around.input[i].now();
        const auto word = static_cast<std::size_t>(std::lround(curve.around.input[i].to));
        curve.label += parameter.words.empty() ? ", " + shown(now, parameter.quantity)
                                               : ", " + std::string(parameter.words[word]);
      }
      for (int i = 0; i < kind().oil_ports; ++i) {
        if (runs(i, curve.in, curve.out) || !exists(i) || std::abs(curve.around.pressure[i]) < alike_least)
          continue;
        curve.label +=
            fmt::format(", {} at {}", ports[i].name, shown(curve.around.pressure[i], Quantity::pressure));
      }
    }
  }

  /// One sample: the pressure that runs, and the flow there.
  std::optional<Point> sample(AtRest& law, const PartCurve& curve, double p) const {
    Around around = curve.around;
    if (switches_paths(kind())) std::ranges::fill(around.pressure, around.pressure[curve.out]);
    const double base = shape_ == CurveShape::drop ? around.pressure[curve.out] : 0.0;
    const bool by_outlet = shape_ == CurveShape::outlet || shape_ == CurveShape::delivery;
    around.pressure[by_outlet ? curve.out : curve.in] = base + p;
    const auto flows = law.flows(around);
    if (!flows) return std::nullopt;
    const double flow = by_outlet || switches_paths(kind()) ? -(*flows)[curve.out] : (*flows)[curve.in];
    return shape_ == CurveShape::delivery ? Point{p, flow} : Point{flow, p};
  }

  void draw(PartCurve& curve) {
    AtRest law(part_, oil_);
    double from = 0.0, to = 0.0;
    switch (shape_) {
      case CurveShape::drop:
      case CurveShape::inlet:
        from = shape_ == CurveShape::inlet && curve.around.pressure[curve.out] > 0.0
                   ? std::min(curve.around.pressure[curve.out], least_at(curve))
                   : 0.0;
        to = std::min(pressure_for(law, curve, from), from + most_pressure_);
        break;
      case CurveShape::outlet:
        from = std::min(curve.around.pressure[curve.in], 1.3 * value_of(part_, "setting").value_or(highest));
        if (from <= 0.0) from = 1.3 * value_of(part_, "setting").value_or(100 * si::bar);
        to = 0.0;
        break;
      case CurveShape::delivery:
        to = highest_delivery(curve);
        break;
    }
    for (int i = 0; i <= samples; ++i) {
      const auto p = sample(law, curve, from + (to - from) * i / samples);
      if (!p) continue;
      if (shape_ == CurveShape::outlet && (p->x > most_flow_ || p->x < 0.0)) continue;
      if (shape_ == CurveShape::inlet && p->x < -1e-3 * most_flow_) continue;
      if (shape_ == CurveShape::delivery && p->y < 0.0) continue;
      curve.points.push_back(*p);
    }
  }

  /// The least inlet pressure at which an operating point stands.
  static double least_at(const PartCurve& curve) {
    double least = highest;
    for (const OperatingPoint& point : curve.at) least = std::min(least, point.pressure);
    return least;
  }

  /// The pressure that presses the greatest flow of the chart through.
  double pressure_for(AtRest& law, const PartCurve& curve, double from) const {
    const auto enough = [&](double p) {
      const auto there = sample(law, curve, p);
      return there && there->x >= most_flow_;
    };
    double low = from, high = from + 1 * si::bar;
    while (!enough(high) && high < highest) {
      low = high;
      high = from + 1.5 * (high - from);
    }
    for (int i = 0; i < 40; ++i) (enough(0.5 * (low + high)) ? high : low) = 0.5 * (low + high);
    return high;
  }

  double highest_delivery(const PartCurve& curve) const {
    double worked = 0.0;
    for (const OperatingPoint& point : curve.at) worked = std::max(worked, point.pressure);
    const double rated = value_of(part_, "rated_pressure").value_or(0.0);
    return std::max({1.1 * rated, 1.15 * worked, 10 * si::bar});
  }

  const Job& job_;
  const Trace& trace_;
  int index_;
  const PlannedPart& part_;
  Oil oil_;
  CurveShape shape_;
  double most_flow_ = 0.0, most_pressure_ = 0.0;
  std::vector<PartCurve> curves_;
  std::vector<OperatingPoint> idle_;
};

}  // namespace

std::optional<CurveShape> curve_shape(const PlannedPart& part, const Oil& oil) {
  const Kind& kind = *part.kind;
  if (kind.about.role == Role::source) return CurveShape::delivery;
  if (kind.oil_ports < 2 || is_actuator(part, oil) || kind.pieces(part.values) > 1 ||
      kind.as_built(part.values))
    return std::nullopt;
  if (switches_paths(kind)) return CurveShape::drop;
  const bool share = std::ranges::find(kind.states, Quantity::share, &State::quantity) != kind.states.end();
  if (!kind.states.empty() && !share) return std::nullopt;
  const auto setting = value_of(part, "setting");
  const bool by_pressure = kind.about.role == Role::pressure_limit || (setting && share);
  if (!by_pressure)
    return kind.oil_ports == 2 || kind.about.role == Role::one_way ? std::optional(CurveShape::drop)
                                                                   : std::nullopt;
  if (!setting) return CurveShape::inlet;
  // A valve that lets oil pass below its setting holds its outlet down.
  Around around{.pressure = std::vector<double>(static_cast<std::size_t>(kind.oil_ports), 0.0),
                .position = {},
                .speed = {},
                .input = {}};
  around.pressure[0] = 0.9 * *setting;
  const auto flows = AtRest(part, oil).flows(around);
  const bool passes =
      flows && (*flows)[0] > 0.2 * value_of(part, "rated_flow").value_or(si::litre_per_minute);
  return passes ? CurveShape::outlet : CurveShape::inlet;
}

Characteristic characteristic_of(const Job& job, const Trace& trace, int part) {
  return Tracing(job, trace, part).all();
}

}  // namespace poise::draw
