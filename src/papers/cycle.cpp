// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/cycle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>

#include "judge/curve.hpp"
#include "judge/wording.hpp"

namespace poise::papers {
namespace {

constexpr double stands = 1 * si::mm, stands_turning = 2e-3 * std::numbers::pi;
constexpr double begun = 0.01;  // of the way, and likewise before its end

std::vector<Signal> positions_of(const Subject& subject) {
  std::vector<Signal> all;
  for (const Signal& signal : subject.trace.signals) {
    if (signal.what == Signal::What::position &&
        subject.job.plan.parts[signal.part].kind->about.role == Role::actuator)
      all.push_back(signal);
  }
  return all;
}

/// When a share of the way is behind it for the last time.
double passes(const std::vector<Point>& points, double from, double to, double share) {
  const double at = from + share * (to - from);
  for (std::size_t i = points.size() - 1; i > 0; --i) {
    const Point a = points[i - 1], b = points[i];
    if ((a.value - at) * (to - from) <= 0.0 && (b.value - at) * (to - from) > 0.0)
      return a.time + (b.time - a.time) * (at - a.value) / (b.value - a.value);
  }
  return points.front().time;
}

/// A stretch of points between two turning points.
struct Stroke {
  std::size_t from = 0, to = 0;
};

/// The strokes of a step: a value that comes back by less than `least` has not turned.
std::vector<Stroke> strokes_of(const std::vector<Point>& points, double least) {
  std::vector<Stroke> all;
  std::size_t from = 0, farthest = 0;
  double sense = 0.0;
  for (std::size_t k = 1; k < points.size(); ++k) {
    const double way = points[k].value - points[from].value;
    if (sense == 0.0) {
      if (std::abs(way) < least) continue;
      sense = way > 0.0 ? 1.0 : -1.0;
      farthest = k;
    } else if ((points[k].value - points[farthest].value) * sense > 0.0) {
      farthest = k;
    } else if ((points[farthest].value - points[k].value) * sense >= least) {
      all.push_back({from, farthest});
      from = farthest;
      farthest = k;
      sense = -sense;
    }
  }
  if (sense != 0.0) all.push_back({from, points.size() - 1});
  return all;
}

std::vector<Way> ways_in(std::size_t step, const Signal& signal, const Trace& trace) {
  const StepSpan& span = trace.steps[step];
  const auto points = Curve(trace, signal).over({span.begin, span.end});
  // A piston that is pressed on its stop stands a little behind it; to whoever looks it is at its end.
  const auto as_seen = [&](double value) {
    return signal.quantity == Quantity::length ? std::max(0.0, value) : value;
  };
  std::vector<Way> all;
  for (const Stroke& stroke :
       strokes_of(points, signal.quantity == Quantity::length ? stands : stands_turning)) {
    const std::vector<Point> part(points.begin() + static_cast<std::ptrdiff_t>(stroke.from),
                                  points.begin() + static_cast<std::ptrdiff_t>(stroke.to) + 1);
    const double from = part.front().value, to = part.back().value;
    const double first = passes(part, from, to, begun), last = passes(part, from, to, 1.0 - begun);
    all.push_back({step, signal.part, signal, as_seen(from), as_seen(to), first - span.begin,
                   std::max(0.0, last - first)});
  }
  return all;
}

constexpr double one_turn = 2.0 * std::numbers::pi;

Cell mean_speed_of(const Way& way, const units::World& world) {
  const double speed = way.length() / way.took;
  return turns(way) ? seen(speed / one_turn, Quantity::rotation, world) : seen(speed, Quantity::speed, world);
}

}  // namespace

bool turns(const Way& way) { return way.signal.quantity != Quantity::length; }

Cell place_of(const Way& way, double value, const units::World& world) {
  return turns(way) ? seen(value / one_turn, Quantity::turns, world)
                    : seen(value, way.signal.quantity, world);
}

std::vector<Way> ways_of(const Subject& subject) {
  std::vector<Way> all;
  if (subject.trace.time.empty()) return all;
  const std::vector<Signal> positions = positions_of(subject);
  for (std::size_t step = 0; step < subject.trace.steps.size(); ++step) {
    for (const Signal& signal : positions) {
      std::ranges::move(ways_in(step, signal, subject.trace), std::back_inserter(all));
    }
  }
  return all;
}

std::string commands_in_words(const Step& step, const Job& job) {
  std::vector<std::string> words;
  for (const Command& command : step.commands) {
    const PlannedPart& part = job.plan.parts[command.part];
    const Parameter& set = part.kind->parameters[part.kind->inputs[command.input]];
    if (!set.words.empty()) {
      words.push_back(fmt::format("{} to {}", part.tag, set.words[static_cast<std::size_t>(command.target)]));
    } else {
      words.push_back(fmt::format("{} {} {}", part.tag, set.name,
                                  wording::stated(command.target, set.quantity, job.world)));
    }
  }
  return wording::joined(words, " and ");
}

const Moment* end_of(std::size_t step, const Subject& subject) {
  const StepSpan& span = subject.trace.steps[step];
  const Moment* found = nullptr;
  for (const Moment& moment : subject.trace.moments) {
    if (moment.step == span.name && moment.time >= span.begin) found = &moment;
  }
  return found;
}

std::vector<std::string> readings_at_end(std::size_t step, const Subject& subject) {
  std::vector<std::string> words;
  const Moment* moment = end_of(step, subject);
  if (!moment) return words;
  for (std::size_t p = 0; p < subject.job.plan.parts.size(); ++p) {
    const PlannedPart& part = subject.job.plan.parts[p];
    if (part.kind->about.kind != "gauge") continue;
    words.push_back(part.tag + " " +
                    seen(moment->parts[p].outputs.front(), Quantity::pressure, subject.job.world).text);
  }
  return words;
}

Table table_of(const std::vector<Way>& ways, const Subject& subject) {
  Table table{"motions",
              {{"step", 2.0},
               {"part", 1.4},
               {"from", 1.2, true},
               {"to", 1.2, true},
               {"begins after", 1.2, true},
               {"takes", 1.2, true},
               {"mean speed", 1.4, true}},
              {}};
  const units::World& world = subject.job.world;
  for (const Way& way : ways) {
    const std::string name = way.signal.name.substr(0, way.signal.name.rfind('.'));
    table.rows.push_back({{subject.trace.steps[way.step].name},
                          {name},
                          place_of(way, way.from, world),
                          place_of(way, way.to, world),
                          seen(way.begins, Quantity::time, world),
                          seen(way.took, Quantity::time, world),
                          way.took > 0.0 ? mean_speed_of(way, world) : Cell{}});
  }
  return table;
}

}  // namespace poise::papers
