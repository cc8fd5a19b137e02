// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What a gauge, a pressure switch or the eye sees of a fault.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "study/fault_compare.hpp"

namespace poise::study {
namespace {

constexpr double classes_to_see = 2.0;
constexpr double later_share = 0.2, later_at_least = 0.3;     // of a motion, s
constexpr double moves = 1 * si::mm, turns = 1 * si::degree;  // less is no motion
constexpr double ends_elsewhere = 0.05, arrived = 0.95;       // of its way

/// Something that shows, and how clearly.
struct Sign {
  Shown::By by;
  double time;    ///< s, in the faulty run
  double weight;  ///< how many times what it takes to be seen
  std::string text;
};

/// Whether a reading can be taken at a moment: at the end of a step, or where the needle stands still for a
/// fifth of it.
bool can_be_read(const Trace& trace, const SameMoment& moment, double time, int reading, double seen) {
  if (moment.end) return true;
  const StepSpan& step = trace.steps[moment.step];
  const double half = 0.1 * (step.end - step.begin);
  const Stretch rows = rows_within(trace, reading, time - half, time + half);
  if (rows.value.empty()) return true;
  const auto [least, most] = std::ranges::minmax(rows.value);
  return most - least <= seen;
}

void add_gauge(const Compared& compared, int p, std::vector<Sign>& signs) {
  const PlannedPart& gauge = compared.part(p);
  const int reading = compared.column(Signal::What::output, p, 0);
  const double seen = classes_to_see * gauge.values["accuracy"] * gauge.values["range"];
  for (const SameMoment& moment : compared.moments()) {
    const double sound = compared.sound(reading, moment.sound),
                 faulty = compared.faulty(reading, moment.faulty);
    if (!(std::abs(faulty - sound) > seen)) continue;
    if (!can_be_read(compared.nominal.trace, moment, moment.sound, reading, seen) ||
        !can_be_read(compared.run.trace, moment, moment.faulty, reading, seen))
      continue;
    signs.push_back(
        {Shown::By::gauge, moment.faulty, std::abs(faulty - sound) / seen,
         fmt::format("{} {}: {} instead of {}", gauge.tag, moment.words(compared.run.trace),
                     compared.show(faulty, Quantity::pressure), compared.show(sound, Quantity::pressure))});
  }
}

void add_switch(const Compared& compared, int p, std::vector<Sign>& signs) {
  const int made = compared.column(Signal::What::mode, p, 0);
  const auto word = [](double value) { return value > 0.5 ? "on" : "off"; };
  for (const SameMoment& moment : compared.moments()) {
    const double sound = compared.sound(made, moment.sound), faulty = compared.faulty(made, moment.faulty);
    if ((sound > 0.5) == (faulty > 0.5)) continue;
    signs.push_back({Shown::By::contact, moment.faulty, 1.0,
                     fmt::format("{} {}: {} instead of {}", compared.part(p).tag,
                                 moment.words(compared.run.trace), word(faulty), word(sound))});
  }
}

/// What is to be seen of one body: a position of the first part on it, actuators first.
struct Seen {
  int part, column;
  Quantity quantity;
};

std::vector<Seen> bodies(const Compared& compared) {
  std::vector<Seen> all;
  std::set<int> done;
  for (const bool actuators : {true, false}) {
    for (int p = 0; p < compared.parts(); ++p) {
      const Kind& kind = *compared.part(p).kind;
      if ((kind.about.role == Role::actuator) != actuators) continue;
      for (int m = 0; m < kind.motion_ports; ++m) {
        const int column = compared.column(Signal::What::position, p, m);
        if (column < 0 || !done.insert(compared.nominal.circuit.parts[p].body[m]).second) continue;
        all.push_back({p, column, compared.nominal.signals[column].quantity});
      }
    }
  }
  return all;
}

/// When a motion has done nearly all of its way from `from` to `to`, s; none where it does not.
std::optional<double> arrival(const Trace& trace, int column, const StepSpan& span, double from, double to) {
  const double goal = from + arrived * (to - from);
  const Stretch rows = rows_within(trace, column, span.begin, span.end);
  for (std::size_t i = 0; i < rows.time.size(); ++i) {
    if ((to > from) == (rows.value[i] >= goal)) return rows.time[i];
  }
  return std::nullopt;
}

void add_motion(const Compared& compared, const Seen& body, std::size_t step, std::vector<Sign>& signs) {
  const StepSpan &a = compared.nominal.trace.steps[step], &b = compared.run.trace.steps[step];
  const double from = compared.sound(body.column, a.begin), to = compared.sound(body.column, a.end);
  const double least = body.quantity == Quantity::angle ? turns : moves, way = std::abs(to - from);
  const double found = compared.faulty(body.column, b.end), off = std::abs(found - to);
  const double seen = std::max(least, ends_elsewhere * way);
  const std::string& tag = compared.part(body.part).tag;
  if (off > seen && b.finished) {
    signs.push_back({Shown::By::motion, b.end, off / seen,
                     fmt::format("{} at the end of \"{}\": at {} instead of {}", tag, b.name,
                                 compared.show(found, body.quantity), compared.show(to, body.quantity))});
    return;
  }
  if (way <= least) return;
  const auto usual = arrival(compared.nominal.trace, body.column, a, from, to);
  if (!usual) return;
  const double takes = *usual - a.begin, late = std::max(later_share * takes, later_at_least);
  const auto now = arrival(compared.run.trace, body.column, b, from, to);
  const double took = (now ? *now : b.end) - b.begin;
  if (took <= takes + late) return;
  signs.push_back(
      {Shown::By::motion, b.begin + takes + late, (took - takes) / late,
       now ? fmt::format("{} in \"{}\": there after {} instead of {}", tag, b.name,
                         compared.show(took, Quantity::time), compared.show(takes, Quantity::time))
           : fmt::format("{} in \"{}\": not there after {} instead of {}", tag, b.name,
                         compared.show(took, Quantity::time), compared.show(takes, Quantity::time))});
}

/// The clearest of those by one of the means, and of those before a moment where there are any.
const Sign* clearest(const std::vector<Sign>& signs, double before) {
  const Sign* best = nullptr;
  for (const Sign& sign : signs) {
    if (!best) {
      best = &sign;
      continue;
    }
    const bool early = sign.time < before, best_early = best->time < before;
    if (early != best_early ? early : sign.weight > best->weight) best = &sign;
  }
  return best;
}

double first_break(std::span<const Break> breaks) {
  double first = std::numeric_limits<double>::infinity();
  for (const Break& each : breaks) first = std::min(first, each.time);
  return first;
}

}  // namespace

Shown shown_in(const Compared& compared, std::span<const Break> breaks) {
  if (!compared.has_rows()) return {};
  std::vector<Sign> instruments, motions;
  for (int p = 0; p < compared.parts(); ++p) {
    const std::string_view kind = compared.part(p).kind->about.kind;
    if (kind == "gauge") add_gauge(compared, p, instruments);
    if (kind == "pressure_switch") add_switch(compared, p, instruments);
  }
  for (const Seen& body : bodies(compared)) {
    for (std::size_t step = 0; step < compared.steps(); ++step) add_motion(compared, body, step, motions);
  }
  const double breaks_at = first_break(breaks);
  for (const std::vector<Sign>* signs : {&instruments, &motions}) {
    if (const Sign* best = clearest(*signs, breaks_at)) return {best->by, best->time < breaks_at, best->text};
  }
  return {};
}

}  // namespace poise::study
