// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace poise::search {

/// One value that a job leaves open, and what it may become.
struct OpenValue {
  enum class Is {
    setting,  ///< any value of a range, as a person sets it
    size,     ///< one of a series
    word,     ///< one of the words of its parameter
    model,    ///< an item of the job's stock
  };
  Is is = Is::setting;
  Sought at;
  std::string name;  ///< "V3.setting"
  Quantity quantity = Quantity::none;
  double low = 0.0, high = 0.0;           ///< SI, closed; what lies outside is not tried
  double guess = 0.0;                     ///< what a practitioner would begin with, within low and high
  std::vector<double> choices{};          ///< of sizes, rising, SI; of words and models, their places
  std::vector<const StockItem*> items{};  ///< of a model: what it may be, the cheapest first

  bool chosen() const { return is != Is::setting; }
  bool has_order() const { return is == Is::setting || is == Is::size; }
  /// Where a value stands between low and high, 0…1; by ratio where the range spans more than one of three.
  double share_of(double value) const;
  double at_share(double share) const;
};

/// Places of the settings among open values.
std::vector<std::size_t> settings_of(const std::vector<OpenValue>& values);
bool has_choices(const std::vector<OpenValue>& values);

/// A value for each open value, SI; of words and models their place.
using Point = std::vector<double>;

/// The job with these values in place of its open ones; none where they do not go together in a part (a rod
/// thicker than its bore; a setting that a model cannot be brought to).
std::optional<Job> with_values(const Job& job, const std::vector<OpenValue>& values, const Point& point);

}  // namespace poise::search
