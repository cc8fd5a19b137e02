// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "judge/evidence.hpp"

namespace poise {

/// The judgement of one requirement: what was found, the margin, the moment and the part that decide.
/// Equality holds. Each needs evidence with at least one window and signals with a number in every row;
/// `judged` sees to both.
///
/// Never: margin = limit − highest, or lowest − limit; share of the limit.
Finding judged_on(const Never& never, const Evidence& evidence);
/// Reached: margin = within − time since the first window began; share of `within`. If never: margin = the
/// nearest value's room, negative, in the signal's own quantity; share of the threshold. No margin if the run
/// ended too early to tell.
Finding judged_on(const Reached& reached, const Evidence& evidence);
/// Order: with `then` first seen at t2 within the windows and `first` holding without a break from t1 to t2,
/// margin = t2 − t1 − gap; share of the time from the beginning of the step of t2 to t2, so
/// that what went before does not count. t1 is looked for in the whole run up to t2. If `first` does not hold
/// at t2: margin = room of its worst condition; share of that threshold. If `then` is never seen: broken
/// without a margin.
Finding judged_on(const Order& order, const Evidence& evidence);
/// Band: margin = the least of value − low and high − value; share of half the band's width.
Finding judged_on(const Band& band, const Evidence& evidence);
/// Drift: margin = limit − greatest change from the value at the first window's begin + settle; share of the
/// limit.
Finding judged_on(const Drift& drift, const Evidence& evidence);
/// Level: margin = limit − greatest (highest − lowest of the signals at one moment); share of the limit. The
/// part furthest from the mean of that moment decides.
Finding judged_on(const Level& level, const Evidence& evidence);

/// The finding of one requirement, with name and promise, whatever became of the run.
Finding judged(const Requirement& requirement, const Job& job, const Trace& trace);

/// The signals that a requirement is about.
std::vector<Signal> signals_of(const Requirement& requirement);

}  // namespace poise
