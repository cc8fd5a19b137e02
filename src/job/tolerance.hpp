// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.hpp"
#include "job/section.hpp"

namespace poise::job {

/// "setting_tolerance": the key beside a value that says how far off it may be.
std::string tolerance_key(std::string_view name);
/// The parameter that such a key speaks of; none where the key is none, or the table has no such value.
std::optional<int> toleranced_by(std::string_view key, std::span<const Parameter> table);
/// Whether a value may have one: words have none.
bool may_be_off(const Parameter& parameter);

/// Whether a text such as "3 %" or "5 bar" is a tolerance of the parameter.
bool is_tolerance(std::string_view text, const Parameter& parameter);

/// What is known of a value as its tolerance is read.
struct KnownValue {
  enum class Is { stated, missing, unknown };
  Is is = Is::unknown;
  double value = 0.0;  ///< where it is stated; of a curve its greatest second value
};

/// What was read of one key.
struct ReadTolerance {
  int parameter = 0;
  Tolerance tolerance;
  Place place;
};

/// Reads the tolerances of a section whose values stand in `table`: "3 %" or "5 bar" to both sides, or a pair
/// such as ["-5 %", "+3 %"]. Complains about one that is of nothing or leads out of the value's range.
std::vector<ReadTolerance> read_tolerances(Section& section, std::span<const Parameter> table,
                                           const std::function<KnownValue(int)>& known,
                                           const units::World& world, Remarks& remarks);

/// Gives a part the tolerances of its item, but for those that the job states itself.
void take_tolerances(Job& job, int part, const StockItem& item);

}  // namespace poise::job
