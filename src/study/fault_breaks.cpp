// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What of the promises breaks, how bad that is, and which loads come down.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>

#include "judge/course.hpp"
#include "judge/evidence.hpp"
#include "study/fault_compare.hpp"

namespace poise::study {
namespace {

constexpr double fall_further = 3 * si::mm, fall_share = 0.1;
constexpr double fall_faster = 20 * si::mm, faster_share = 0.5;
constexpr double by_half = -0.5;  // a rating that is passed by half

/// How bad it is where a kind of promise is broken and the job does not say (docs/faults.md).
struct ByKind {
  Severity operator()(const Order&) const { return Severity::hurts; }
  Severity operator()(const Drift&) const { return Severity::hurts; }
  Severity operator()(const Level&) const { return Severity::hurts; }
  Severity operator()(const Band&) const { return Severity::hurts; }
  Severity operator()(const Reached&) const { return Severity::works_badly; }
  Severity operator()(const Never& never) const {
    const Quantity q = never.signal.quantity;
    if (!never.above || q == Quantity::speed || q == Quantity::rate_of_turning) return Severity::hurts;
    return q == Quantity::pressure || q == Quantity::force ? Severity::damages : Severity::works_badly;
  }
};

Severity severity_of(const Finding& finding, const Compared& compared) {
  if (finding.requirement) {
    const Requirement& requirement = compared.nominal.job.requirements[*finding.requirement];
    if (requirement.harm) return study::severity_of(*requirement.harm);
    return std::visit(ByKind{}, requirement.what);
  }
  if (finding.name == course_promise) return Severity::works_badly;
  return finding.share && *finding.share <= by_half ? Severity::hurts : Severity::damages;
}

/// Whether the sound machine breaks this promise too.
bool broken_anyway(const Finding& finding, const Compared& compared) {
  const auto& findings = compared.nominal.verdict.findings;
  return std::ranges::any_of(findings, [&](const Finding& each) {
    return each.requirement == finding.requirement && each.name == finding.name &&
           mark(each, compared.nominal.verdict) == Mark::broken;
  });
}

/// The first moment at which a promise is broken on a run; none where a moment says nothing of it.
struct FirstBroken {
  const Trace& trace;
  const Evidence& evidence;

  using Passed = std::function<bool(std::size_t row)>;

  std::optional<double> first(const Passed& passed, double from = -no_limit) const {
    for (std::size_t row = 0; row < trace.time.size(); ++row) {
      const double time = trace.time[row];
      const bool asked_for = std::ranges::any_of(evidence.windows, [&](const Window& window) {
        return time >= std::max(window.begin, from) && time <= window.end;
      });
      if (asked_for && passed(row)) return time;
    }
    return std::nullopt;
  }
  const std::vector<double>* values(const Signal& signal) const {
    const int column = trace.column(signal.name);
    return column < 0 ? nullptr : &trace.values[static_cast<std::size_t>(column)];
  }

  std::optional<double> operator()(const Never& never) const {
    const auto* value = values(never.signal);
    if (!value) return std::nullopt;
    return first([&](std::size_t row) {
      return never.above ? (*value)[row] > never.limit : (*value)[row] < never.limit;
    });
  }
  std::optional<double> operator()(const Band& band) const {
    const auto* value = values(band.signal);
    if (!value) return std::nullopt;
    return first([&](std::size_t row) { return (*value)[row] < band.low || (*value)[row] > band.high; });
  }
  std::optional<double> operator()(const Drift& drift) const {
    const auto* value = values(drift.signal);
    if (!value) return std::nullopt;
    const double from = evidence.begin() + drift.settle;
    std::optional<double> base;
    return first(
        [&](std::size_t row) {
          if (!base) base = (*value)[row];
          return std::abs((*value)[row] - *base) > drift.limit;
        },
        from);
  }
  std::optional<double> operator()(const Level& level) const {
    std::vector<const std::vector<double>*> all;
    for (const Signal& signal : level.signals) all.push_back(values(signal));
    if (all.empty() || std::ranges::find(all, nullptr) != all.end()) return std::nullopt;
    return first([&](std::size_t row) {
      double least = no_limit, most = -no_limit;
      for (const auto* value : all) {
        least = std::min(least, (*value)[row]);
        most = std::max(most, (*value)[row]);
      }
      return most - least > level.limit;
    });
  }
  std::optional<double> operator()(const Reached& reached) const { return evidence.begin() + reached.within; }
  std::optional<double> operator()(const Order&) const { return std::nullopt; }
};

/// When a finding shows itself broken: the first moment at which it does, not the worst one. Of a rating,
/// whose first moment is not known, the beginning: nothing is then said to show before it.
double time_of(const Finding& finding, const Compared& compared) {
  const Trace& trace = compared.run.trace;
  if (!finding.requirement) return finding.name == course_promise ? finding.time.value_or(0.0) : 0.0;
  const Requirement& requirement = compared.nominal.job.requirements[*finding.requirement];
  const Evidence evidence = evidence_for(requirement, compared.nominal.job, trace);
  if (!evidence.windows.empty()) {
    if (const auto first = std::visit(FirstBroken{trace, evidence}, requirement.what)) return *first;
    return finding.time.value_or(evidence.end());
  }
  return finding.time.value_or(trace.time.empty() ? 0.0 : trace.time.back());
}

std::string text_of(const Finding& finding) {
  if (finding.step.empty()) return finding.found;
  return fmt::format("{}, in \"{}\"", finding.found, finding.step);
}

/// A body that weight pulls, by one of its positions; `up` is the sign of a position that rises.
struct Heavy {
  int part, position, speed;
  double up;
};

std::vector<Heavy> heavy_bodies(const Compared& compared) {
  std::vector<Heavy> all;
  for (int p = 0; p < compared.parts(); ++p) {
    const PlannedPart& part = compared.part(p);
    double up = 0.0;
    if (part.kind->about.kind == "mass") up = std::sin(part.values["slope"]);
    if (part.kind->about.kind == "rigid_load") up = 1.0;
    const int position = compared.column(Signal::What::position, p, 0);
    const int speed = compared.column(Signal::What::speed, p, 0);
    if (std::abs(up) > 0.01 && position >= 0 && speed >= 0)
      all.push_back({p, position, speed, up > 0.0 ? 1.0 : -1.0});
  }
  return all;
}

/// The longest way down within a stretch of time, and the fastest.
struct Descent {
  double by = 0.0, to = 0.0, at = 0.0;  ///< m, the height that it ends at, s
  double begins = 0.0;                  ///< s, when it had come down by what counts
  double fastest = 0.0, fastest_at = 0.0;
};

Descent descent(const Trace& trace, const Heavy& body, double begin, double end) {
  Descent found;
  const Stretch position = rows_within(trace, body.position, begin, end);
  const Stretch speed = rows_within(trace, body.speed, begin, end);
  double highest = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < position.time.size(); ++i) {
    const double height = body.up * position.value[i], down = -body.up * speed.value[i];
    highest = std::max(highest, height);
    if (found.by <= fall_further && highest - height > fall_further) found.begins = position.time[i];
    if (highest - height > found.by) {
      found.by = highest - height;
      found.to = height;
      found.at = position.time[i];
    }
    if (down > found.fastest) {
      found.fastest = down;
      found.fastest_at = position.time[i];
    }
  }
  return found;
}

double fastest_of_all(const Trace& trace, const Heavy& body) {
  return descent(trace, body, trace.time.front(), trace.time.back()).fastest;
}

std::optional<Break> falls(const Compared& compared, const Heavy& body) {
  const Trace &sound = compared.nominal.trace, &faulty = compared.run.trace;
  const std::string& tag = compared.part(body.part).tag;
  const double usual = fastest_of_all(sound, body);
  for (std::size_t s = 0; s < compared.steps(); ++s) {
    const StepSpan &a = sound.steps[s], &b = faulty.steps[s];
    const Descent one = descent(sound, body, a.begin, a.end), two = descent(faulty, body, b.begin, b.end);
    const double same_time = std::min(a.begin + (two.at - b.begin), a.end);
    const bool lower = two.to < body.up * compared.sound(body.position, same_time) - fall_further;
    const bool further = lower && two.by > one.by + std::max(fall_further, fall_share * one.by);
    const bool faster = two.fastest > usual * (1.0 + faster_share) + fall_faster && two.by > fall_further;
    if (!further && !faster) continue;
    const std::string found = fmt::format(
        "{} comes down by {} at up to {} in \"{}\" (sound: {})", tag, compared.show(two.by, Quantity::length),
        compared.show(two.fastest, Quantity::speed), b.name, compared.show(one.by, Quantity::length));
    return Break{further ? "load comes down by itself" : "load comes down too fast", found, Severity::hurts,
                 further ? two.begins : std::min(two.begins, two.fastest_at)};
  }
  return std::nullopt;
}

}  // namespace

std::vector<Break> falling_loads(const Compared& compared) {
  std::vector<Break> all;
  if (!compared.has_rows()) return all;
  for (const Heavy& body : heavy_bodies(compared)) {
    if (auto found = falls(compared, body)) all.push_back(*std::move(found));
  }
  return all;
}

std::vector<Break> breaks_of(const Compared& compared) {
  std::vector<Break> all;
  const Verdict& verdict = compared.run.verdict;
  for (const Finding& finding : verdict.findings) {
    if (mark(finding, verdict) != Mark::broken || broken_anyway(finding, compared)) continue;
    all.push_back(
        {finding.name, text_of(finding), severity_of(finding, compared), time_of(finding, compared)});
  }
  if (verdict.halt && verdict.halt->why == Halt::Why::burst)
    all.push_back(
        {"nothing bursts or flies off", verdict.halt->sentence, Severity::hurts, verdict.halt->time});
  for (Break& each : falling_loads(compared)) all.push_back(std::move(each));
  std::ranges::stable_sort(all, {}, &Break::severity);
  return all;
}

}  // namespace poise::study
