// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>

#include "papers/setting.hpp"
#include "papers/subject.hpp"
#include "papers/table.hpp"

namespace poise::papers {

/// Every value that is adjusted on the machine, in the order in which it is done: code, tag, valve, what it
/// guards, to which value, in which state of the machine, with which tolerance, read at which gauge, to which
/// side it may err; and places for lock, by and date. A relief valve's pressure is told at the flow with
/// which it is read.
Table settings(const Subject& subject);

/// What its gauge reads while a value is set, Pa.
struct WhileSet {
  std::optional<double> reads{};  ///< none where no gauge tells: a throttle, a valve that holds a load
  double lowest = 0.0,
         highest = 0.0;  ///< acceptable: the job's tolerance, or its kind's, and the gauge's class
};
/// Of a relief valve set in place that is with the pump's flow over it, of one set on a bench as it cracks.
WhileSet while_set(const Subject& subject, const Setting& setting);

/// Whether a relief valve cannot be set in place: something comes first, or no pump's flow gets over it.
bool is_set_on_a_bench(const Subject& subject, const Setting& setting);
/// Whether oil goes through a throttle in the cycle while the value stands.
bool is_passed(const Subject& subject, const Setting& setting);

}  // namespace poise::papers
