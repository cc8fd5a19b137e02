// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/watch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "diagnose/motion.hpp"

namespace poise::diagnose {
namespace {

// What instruments are off by, as they are usual in a workshop; common practice.
constexpr double portable_class = 0.01;  // of its range
constexpr double hand_on_a_stop_watch = 0.2, eye_on_a_rule = 1 * si::mm;
constexpr double bucket_share = 0.05, drops = 0.02 * si::litre_per_minute, thermometer = 2.0;
constexpr int log_parts = 4;  // what lies between is foretold by these, with one error for all of them

Signal signal_of(const Plan& plan, int part, Signal::What what, int index) {
  for (Signal& signal : signals_of(plan, part)) {
    if (signal.what == what && signal.index == index) return std::move(signal);
  }
  return {};
}

bool is(const Job& job, int part, std::string_view kind) {
  return job.plan.parts[part].kind->about.kind == kind;
}

double highest(const Trace& trace, const Signal& signal) {
  const int column = trace.column(signal.name);
  double most = 0.0;
  if (column < 0) return most;
  for (const double value : trace.values[column]) most = std::max(most, value);
  return most;
}

/// The ports at which oil is joined, one for each node, the gauge's first and then an actuator's.
std::vector<PortOf> test_points(const Job& job, const Circuit& circuit) {
  const auto rank = [&](PortOf port) {
    const Kind& kind = *job.plan.parts[port.part].kind;
    if (kind.about.kind == "gauge") return 0;
    return kind.about.role == Role::actuator ? 1 : job.plan.port(port).pilot ? 3 : 2;
  };
  std::vector<PortOf> points;
  for (const OilNode& node : circuit.nodes) {
    std::vector<PortOf> ports;
    bool reservoir = false;
    for (const PortOf& port : node.ports) {
      if (port.part >= circuit.planned) continue;
      reservoir |= job.plan.parts[port.part].kind->about.role == Role::reservoir;
      if (port_exists(job.plan.port(port), job.plan.parts[port.part].values)) ports.push_back(port);
    }
    if (reservoir || ports.empty()) continue;
    points.push_back(*std::ranges::min_element(ports, {}, rank));
  }
  return points;
}

/// Ports by which oil comes back into a reservoir.
std::vector<PortOf> returns(const Job& job, const Circuit& circuit) {
  std::vector<PortOf> all;
  for (const OilNode& node : circuit.nodes) {
    const bool reservoir = std::ranges::any_of(node.ports, [&](const PortOf& port) {
      return port.part < circuit.planned && job.plan.parts[port.part].kind->about.role == Role::reservoir;
    });
    if (!reservoir) continue;
    for (const PortOf& port : node.ports) {
      if (port.part >= circuit.planned) continue;
      const Role role = job.plan.parts[port.part].kind->about.role;
      const bool there = port_exists(job.plan.port(port), job.plan.parts[port.part].values);
      if (there && role != Role::reservoir && !(role == Role::source && port.port == 0)) all.push_back(port);
    }
  }
  return all;
}

Way way_of(const Motion& motion) { return {motion.position.index, motion.from, motion.to}; }

/// The steps' moments at which something that lasts is read.
std::vector<Watch> moments_of(const Watch& what, const std::vector<Motion>& motions) {
  std::vector<Watch> all;
  const auto add = [&](When when, const Motion* motion) {
    all.push_back(what);
    all.back().when = when;
    if (!motion) return;
    all.back().mover = motion->part;
    all.back().way = way_of(*motion);
  };
  add(When::half_way, nullptr);
  for (const Motion& motion : motions) {
    if (motion.step != what.step) continue;
    add(When::starts, &motion);
    add(When::moves, &motion);
  }
  add(When::end, nullptr);
  return all;
}

class List {
 public:
  List(const Job& job, const Circuit& circuit, const Trace& sound)
      : job_(job), circuit_(circuit), sound_(sound), motions_(motions_of(job, sound)) {}

  std::vector<Watch> all() {
    for (std::size_t step = 0; step < sound_.steps.size(); ++step) add_step(step);
    add_courses();
    all_.push_back({.instrument = Instrument::thermometer, .at = "oil", .accuracy = thermometer});
    return std::move(all_);
  }

 private:
  int parts() const { return static_cast<int>(job_.plan.parts.size()); }
  const std::string& tag(int part) const { return job_.plan.parts[part].tag; }

  Watch gauge(int p) const {
    const Values& values = job_.plan.parts[p].values;
    return {.instrument = Instrument::gauge,
            .signal = signal_of(job_.plan, p, Signal::What::output, 0),
            .at = tag(p),
            .accuracy = values["accuracy"] * values["range"]};
  }

  void add_step(std::size_t step) {
    const auto add_at_moments = [&](Watch watch) {
      watch.step = step;
      for (Watch& each : moments_of(watch, motions_)) all_.push_back(std::move(each));
    };
    const auto add = [&](Watch watch) {
      watch.step = step;
      all_.push_back(std::move(watch));
    };
    for (int p = 0; p < parts(); ++p) {
      if (is(job_, p, "gauge")) add_at_moments(gauge(p));
      if (is(job_, p, "pressure_switch"))
        add({.instrument = Instrument::contact,
             .signal = signal_of(job_.plan, p, Signal::What::mode, 0),
             .at = tag(p)});
    }
    for (const PortOf& port : test_points(job_, circuit_)) {
      const Signal signal = signal_of(job_.plan, port.part, Signal::What::pressure, port.port);
      add_at_moments({.instrument = Instrument::portable_gauge,
                      .signal = signal,
                      .at = job_.plan.name(port),
                      .accuracy = portable_class * range_above(highest(sound_, signal))});
    }
    for (const Body& body : bodies_of(job_, circuit_)) {
      if (body.position.quantity == Quantity::length)
        add({.instrument = Instrument::rule,
             .signal = body.position,
             .at = body.position.name,
             .accuracy = eye_on_a_rule});
    }
    for (const Motion& motion : motions_) {
      if (motion.step == step)
        add({.instrument = Instrument::stop_watch,
             .signal = motion.position,
             .mover = motion.part,
             .way = way_of(motion),
             .at = motion.name + ".time",
             .accuracy = hand_on_a_stop_watch});
    }
    for (const PortOf& port : returns(job_, circuit_)) {
      const Signal signal = signal_of(job_.plan, port.part, Signal::What::flow, port.port);
      Watch bucket{.instrument = Instrument::bucket, .signal = signal, .at = job_.plan.name(port) + ".flow"};
      bucket.accuracy = drops + bucket_share * flow_of_pumps();
      add(bucket);
    }
  }

  /// Gauges all along the steps, for a log.
  void add_courses() {
    for (int p = 0; p < parts(); ++p) {
      if (!is(job_, p, "gauge")) continue;
      for (std::size_t step = 0; step < sound_.steps.size(); ++step) {
        const double lasts = sound_.steps[step].end - sound_.steps[step].begin;
        for (int part = 1; part < log_parts; ++part) {
          Watch watch = gauge(p);
          watch.step = step;
          watch.when = When::after;
          watch.after = lasts * part / log_parts;
          all_.push_back(std::move(watch));
        }
      }
    }
  }

  double flow_of_pumps() const {
    double most = 0.0;
    for (int p = 0; p < parts(); ++p) {
      if (job_.plan.parts[p].kind->about.role != Role::source) continue;
      const int column = sound_.column(signal_of(job_.plan, p, Signal::What::flow, 1).name);
      if (column < 0) continue;
      for (const double flow : sound_.values[column]) most = std::max(most, std::abs(flow));
    }
    return most;
  }

  const Job& job_;
  const Circuit& circuit_;
  const Trace& sound_;
  std::vector<Motion> motions_;
  std::vector<Watch> all_{};
};

}  // namespace

double range_above(double pressure) {
  for (const double bar : {10.0, 16.0, 25.0, 40.0, 60.0, 100.0, 160.0, 250.0, 400.0, 600.0}) {
    if (pressure < 0.9 * bar * si::bar) return bar * si::bar;
  }
  return 1000 * si::bar;
}

Quantity quantity_of(const Watch& watch) {
  switch (watch.instrument) {
    case Instrument::thermometer:
      return Quantity::temperature;
    case Instrument::stop_watch:
      return Quantity::time;
    case Instrument::contact:
      return Quantity::none;
    default:
      return watch.signal.quantity;
  }
}

std::string moment_of(const Watch& watch, const Job& job) {
  if (watch.instrument == Instrument::thermometer) return "";
  const std::string step = fmt::format("\"{}\"", job.steps[watch.step].name);
  if (watch.instrument == Instrument::stop_watch) return "in " + step;
  const auto mover = [&] { return job.plan.parts[watch.mover].tag; };
  switch (watch.when) {
    case When::end:
      return "at the end of " + step;
    case When::half_way:
      return "in the middle of " + step;
    case When::starts:
      return fmt::format("as {} starts in {}", mover(), step);
    case When::moves:
      return fmt::format("while {} moves in {}", mover(), step);
    case When::after:
      return fmt::format("{} into {}", units::show(watch.after, Quantity::time, job.world), step);
  }
  return "";
}

std::string name_of(const Watch& watch, const Job& job) {
  const std::string moment = moment_of(watch, job);
  return moment.empty() ? watch.at : watch.at + " " + moment;
}

std::vector<Watch> list_watches(const Job& job, const Circuit& circuit, const Trace& sound) {
  return List(job, circuit, sound).all();
}

std::vector<Signal> signals_to_list(const Job& job) {
  std::vector<Signal> all;
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    for (Signal& signal : signals_of(job.plan, p)) {
      const bool motion = signal.what == Signal::What::position;
      if (motion || signal.what == Signal::What::pressure || signal.what == Signal::What::flow)
        all.push_back(std::move(signal));
    }
  }
  return all;
}

std::vector<Signal> signals_for(const Job& job, const std::vector<Watch>& watches, std::size_t& followed) {
  std::vector<Signal> first, then;
  std::set<std::string> known;
  const auto add = [&](std::vector<Signal>& to, const Signal& signal) {
    if (!signal.name.empty() && known.insert(signal.name).second) to.push_back(signal);
  };
  for (const Watch& watch : watches) {
    const bool leads = watch.instrument == Instrument::gauge || watch.instrument == Instrument::rule ||
                       watch.instrument == Instrument::stop_watch;
    if (leads) add(first, watch.signal);
    if (watch.mover >= 0) {
      add(first, signal_of(job.plan, watch.mover, Signal::What::position, watch.way.motion));
    }
  }
  for (const Watch& watch : watches) add(then, watch.signal);
  followed = first.size();
  first.insert(first.end(), then.begin(), then.end());
  return first;
}

}  // namespace poise::diagnose
