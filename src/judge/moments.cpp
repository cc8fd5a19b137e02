// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Requirements that look for a moment: reached, order.
#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "judge/finding.hpp"
#include "judge/requirements.hpp"
#include "judge/wording.hpp"

namespace poise {
namespace {

/// The value that came nearest to a condition which never held.
Point nearest(const Condition& condition, const Evidence& evidence) {
  const Curve curve(evidence.trace, condition.signal);
  Point best{evidence.begin(), curve.at(evidence.begin())};
  for (const Window& window : evidence.windows) {
    for (const Point& p : curve.over(window)) {
      if (condition.room(p.value) > condition.room(best.value)) best = p;
    }
  }
  return best;
}

std::string nearest_in_words(const Condition& condition, double value, const units::World& world) {
  return fmt::format("{} {}", condition.above ? "highest" : "lowest",
                     wording::beside(value, condition.threshold, condition.signal.quantity, world));
}

void set_moment(Finding& finding, double time, const Signal& signal, const Evidence& evidence) {
  finding.time = time;
  finding.step = step_at(time, evidence.trace.steps, evidence.during);
  if (finding.step.empty()) finding.step = step_at(time, evidence.trace.steps);
  finding.part = evidence.tag(signal);
}

Finding never_reached(const Reached& reached, const Evidence& evidence) {
  const Condition& condition = reached.condition;
  const Point best = nearest(condition, evidence);
  const std::string found = "never: " + nearest_in_words(condition, best.value, evidence.job.world);
  const bool had_its_time = evidence.to_the_end || evidence.end() - evidence.begin() >= reached.within;
  const double margin = condition.room(best.value);
  Finding finding =
      had_its_time ? measured(found, margin, condition.signal.quantity, share_of(margin, condition.threshold))
                   : broken(found);
  set_moment(finding, best.time, condition.signal, evidence);
  return finding;
}

struct Seen {
  const Condition* condition = nullptr;
  double time = 0.0;
};

/// The earliest of `then` within the windows; no condition if none is ever seen.
Seen first_of(const std::vector<Condition>& then, const Evidence& evidence) {
  Seen earliest;
  for (const Condition& condition : then) {
    const auto hit = first_holding(Curve(evidence.trace, condition.signal), evidence.windows, condition);
    if (hit && (!earliest.condition || hit->time < earliest.time)) earliest = {&condition, hit->time};
  }
  return earliest;
}

Finding never_seen(const Order& order, const Evidence& evidence) {
  std::vector<std::string> words;
  for (const Condition& condition : order.then) {
    const Point best = nearest(condition, evidence);
    words.push_back(fmt::format("{} {}", condition.signal.name,
                                nearest_in_words(condition, best.value, evidence.job.world)));
  }
  Finding finding = broken("what must come after was never seen: " + wording::joined(words, " and "));
  if (!order.then.empty()) finding.part = evidence.tag(order.then.front().signal);
  return finding;
}

/// How far a condition is from holding, as a share of its threshold, to rank conditions of different
/// quantities.
double shortfall(const Condition& condition, double value) {
  const double room = condition.room(value);
  return share_of(room, condition.threshold).value_or(room < 0.0 ? -1.0 : 0.0);
}

Finding not_yet_holding(const Order& order, const Seen& then, const Evidence& evidence) {
  const auto value_at_then = [&](const Condition& c) {
    return Curve(evidence.trace, c.signal).at(then.time);
  };
  const auto far_off = [&](const Condition& c) { return shortfall(c, value_at_then(c)); };
  const Condition& worst = *std::ranges::min_element(order.first, {}, far_off);
  const double value = value_at_then(worst), room = worst.room(value);
  const Quantity quantity = worst.signal.quantity;
  const units::World& world = evidence.job.world;
  const std::string found =
      fmt::format("at {}, when {} passes {}, {} is {} (needs {}{})",
                  units::show(then.time, Quantity::time, world), then.condition->signal.name,
                  wording::stated(then.condition->threshold, then.condition->signal.quantity, world),
                  worst.signal.name, wording::beside(value, worst.threshold, quantity, world),
                  worst.above ? "" : "at most ", wording::stated(worst.threshold, quantity, world));
  Finding finding = measured(found, room, quantity, share_of(room, worst.threshold));
  set_moment(finding, then.time, worst.signal, evidence);
  return finding;
}

/// Time from the beginning of the step in which a moment lies.
double since_step_began(double time, const Evidence& evidence) {
  double begin = evidence.trace.time.front();
  for (const StepSpan& step : evidence.trace.steps) {
    if (step.begin < time) begin = step.begin;
  }
  return time - begin;
}

}  // namespace

Finding judged_on(const Reached& reached, const Evidence& evidence) {
  const Condition& condition = reached.condition;
  const auto hit = first_holding(Curve(evidence.trace, condition.signal), evidence.windows, condition);
  if (!hit) return never_reached(reached, evidence);
  const double taken = hit->time - evidence.begin();
  const double margin = margin_of(reached.within - taken, hit->time);
  const std::string found =
      "after " + wording::beside(taken, reached.within, Quantity::time, evidence.job.world);
  Finding finding = measured(found, margin, Quantity::time, share_of(margin, reached.within));
  set_moment(finding, hit->time, condition.signal, evidence);
  return finding;
}

Finding judged_on(const Order& order, const Evidence& evidence) {
  const Seen then = first_of(order.then, evidence);
  if (!then.condition) return never_seen(order, evidence);
  Seen last_of_first{nullptr, -std::numeric_limits<double>::infinity()};
  for (const Condition& condition : order.first) {
    const auto since = holding_since(Curve(evidence.trace, condition.signal), evidence.trace.time.front(),
                                     then.time, condition);
    if (!since) return not_yet_holding(order, then, evidence);
    if (*since > last_of_first.time) last_of_first = {&condition, *since};
  }
  const double margin = margin_of(then.time - last_of_first.time - order.gap, then.time);
  const units::World& world = evidence.job.world;
  const std::string found =
      fmt::format("{} since {}, {} at {}", wording::of(*last_of_first.condition, world),
                  units::show(last_of_first.time, Quantity::time, world), wording::of(*then.condition, world),
                  wording::beside(then.time, last_of_first.time, Quantity::time, world));
  Finding finding =
      measured(found, margin, Quantity::time, share_of(margin, since_step_began(then.time, evidence)));
  set_moment(finding, then.time, last_of_first.condition->signal, evidence);
  return finding;
}

}  // namespace poise
